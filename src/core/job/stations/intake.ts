/** Intake: what came in, and what was looked at. */
import { z } from 'zod';
import type { Fields } from '../fields/field.ts';
import { typedText } from '../fields/quantity.ts';
import type { ReportLine } from '../reportLines.ts';
import { fieldText, ofEveryStation, type StationModel, type TypedBy, without } from './stationModel.ts';

/** What is looked at before anything is touched, in the order of the hands. */
export const inspected = {
  guard: 'Guard on, arm locked in its rest, platter still',
  cantilever: 'Cantilever straight, seen from the front and from the side',
  tip: 'Tip there, clean, and not worn or chipped under the glass',
  bearings: 'Arm bearings free, without play',
  leads: 'Cartridge leads whole, clips firm on their pins',
  platter: 'Platter turns freely, belt or drive without fault',
  level: 'Deck is level',
  hours: 'Stylus hours asked for',
} as const;
export type Inspected = keyof typeof inspected;
export const inspectedNames = Object.keys(inspected) as readonly Inspected[];

export const intakeFields = {
  stylusHours: { label: 'Stylus hours', unit: 'h', min: 0, max: 20_000, help: 'As told, or calculated' },
} as const satisfies Fields<'stylusHours'>;

const schema = z.strictObject({
  ...ofEveryStation,
  cartridge: fieldText.optional(),
  stylusHours: fieldText.optional(),
  checked: z.array(z.enum(inspectedNames)).max(inspectedNames.length).optional(),
  faults: z.string().max(5000).optional(),
});
export type IntakeTyped = TypedBy<typeof schema>;

/** Only what was filled in, in the order of the page. */
export function intakeLines(typed: IntakeTyped): ReportLine[] {
  const done = inspectedNames.filter((name) => typed.checked?.includes(name));
  return [
    { label: 'Cartridge', text: typed.cartridge ?? '' },
    { label: 'Stylus hours', text: typedText(typed.stylusHours, intakeFields.stylusHours).text },
    { label: 'Inspected', text: done.map((name) => inspected[name]).join('; ') },
    { label: 'Faults found', text: typed.faults ?? '' },
  ].filter((line) => line.text.trim() !== '');
}

export const intakeModel: StationModel<IntakeTyped> = {
  schema,
  lines: intakeLines,
  fields: {
    ...intakeFields,
    cartridge: { label: 'Cartridge' },
    checked: { label: 'Inspected' },
    faults: { label: 'Faults found' },
  },
  fromOlder: without('forReport'),
};
