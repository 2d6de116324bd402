/** Hand over: notes, when the deck is due again, and why it was closed while other stations were open. */
import { z } from 'zod';
import type { Fields } from '../fields/field.ts';
import { typedText } from '../fields/quantity.ts';
import { type DayField, type Wording, wordsWithin } from '../fields/wording.ts';
import type { ReportLine } from '../reportLines.ts';
import { type StationName, stationNames, stationTitles } from '../station.ts';
import { dueHoursField, dueText } from './handOver/due.ts';
import { fieldText, ofEveryStation, type StationModel, type TypedBy, without } from './stationModel.ts';

export const handOverFields = { dueHours: dueHoursField } as const satisfies Fields<'dueHours'>;

export const closedOverWording: Wording = { label: 'Why it is closed with stations open', most: 1000 };
export const dueDateField: DayField = { label: 'Next check on', min: '2000-01-01', max: '9999-12-31' };

const schema = z.strictObject({
  ...ofEveryStation,
  /** the person's reason; asked for only where a station before it is not done */
  closedOver: wordsWithin(closedOverWording).optional(),
  /** stylus hours, as typed */
  dueHours: fieldText.optional(),
  /** 2027-03-01; '' none */
  dueDate: z.union([z.literal(''), z.iso.date()], { error: 'a date is written as 2027-03-01' }).optional(),
});
export type HandOverTyped = TypedBy<typeof schema>;

/** The stations before it that are not closed, in the order of the work. */
export const openStations = (isDone: (name: StationName) => boolean): readonly StationName[] =>
  stationNames.filter((name) => name !== 'hand-over' && !isDone(name));

/**
 * Why a job cannot be closed with what is typed: a station before it is open and no reason is given. One clause; null where
 * it can.
 */
export function closingLacks(
  isDone: (name: StationName) => boolean,
  { closedOver = '' }: HandOverTyped,
): string | null {
  const open = openStations(isDone);
  if (open.length === 0 || closedOver.trim() !== '') return null;
  const titles = open.map((name) => stationTitles[name].title).join(', ');
  return `hand-over.closedOver: the reason why the job is closed with stations open was expected; not done: ${titles}`;
}

function lines(typed: HandOverTyped): ReportLine[] {
  const { closedOver = '', dueHours, dueDate = '' } = typed;
  const hours = typedText(dueHours, dueHoursField);
  return [
    { label: 'Closed with stations open', text: closedOver.trim() },
    // what cannot be read is shown as it was typed
    { label: 'Next check', text: hours.read || hours.text === '' ? '' : hours.text },
    { label: 'Next check', text: (hours.read && hours.text !== '') || dueDate !== '' ? dueText(typed) : '' },
  ].filter(({ text }) => text !== '');
}

export const handOverModel: StationModel<HandOverTyped> = {
  schema,
  lines,
  fromOlder: without('forReport'),
  fields: {
    ...handOverFields,
    closedOver: { label: 'Closed with stations open' },
    dueDate: dueDateField,
  },
};
