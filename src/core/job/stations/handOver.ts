/** Hand over: notes, when the deck is due again, and why it was closed while other stations were open. */
import { z } from 'zod';
import type { Fields } from '../fields/field.ts';
import type { ReportLine } from '../reportLines.ts';
import { fieldText, labelsOf, ofEveryStation, type StationModel, type TypedBy, without } from './stationModel.ts';

export const handOverFields = {
  dueHours: { label: 'Next check at', unit: 'h', min: 1, max: 20_000, help: 'Stylus hours' },
} as const satisfies Fields<'dueHours'>;

const schema = z.strictObject({
  ...ofEveryStation,
  /** the person's reason; asked for only where a station before it is not done */
  closedOver: z.string().max(1000).optional(),
  /** stylus hours, as typed */
  dueHours: fieldText.optional(),
  /** 2027-03-01; '' none */
  dueDate: z.union([z.literal(''), z.iso.date()], { error: 'a date is written as 2027-03-01' }).optional(),
});
export type HandOverTyped = TypedBy<typeof schema>;

const lines = ({ closedOver = '', dueHours = '', dueDate = '' }: HandOverTyped): ReportLine[] =>
  [
    { label: 'Closed with stations open', text: closedOver.trim() },
    { label: 'Next check, stylus hours', text: dueHours },
    { label: 'Next check, date', text: dueDate },
  ].filter(({ text }) => text.trim() !== '');

export const handOverModel: StationModel<HandOverTyped> = {
  schema,
  lines,
  fromOlder: without('forReport'),
  label: (path) => (path[0] === 'dueDate' ? 'Next check, date' : labelsOf({ '': handOverFields })(path)),
};
