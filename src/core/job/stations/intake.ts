/** Intake: what came in, and what was looked at. */
import { z } from 'zod';
import type { StationData } from '../api.ts';
import type { Fields } from '../fields/field.ts';
import { typedText } from '../fields/quantity.ts';
import { MOST_LINE, type Wordings, wordsWithin } from '../fields/wording.ts';
import type { ReportLine } from '../reportLines.ts';
import { each, fieldText, ofEveryStation, type StationModel, type TypedBy, without } from './stationModel.ts';

/** What is looked at before anything is touched, in the order of the hands. */
export const inspected = {
  guard: 'Guard on, arm locked in its rest, platter still',
  cantilever: 'Cantilever straight, seen from the front and from the side',
  tip: 'Tip there, clean, and not worn or chipped under the glass',
  bearings: 'Arm bearings free, without play',
  leads: 'Cartridge leads whole, clips firm on their pins',
  platter: 'Platter turns freely, belt or drive without fault',
  level: 'Deck is level',
} as const;
export type Inspected = keyof typeof inspected;
export const inspectedNames = Object.keys(inspected) as readonly Inspected[];

/** The same in the report, in a word or two. */
const inShort: Readonly<Record<Inspected, string>> = {
  guard: 'guard and arm lock',
  cantilever: 'cantilever',
  tip: 'tip',
  bearings: 'arm bearings',
  leads: 'leads',
  platter: 'platter',
  level: 'level',
};

/** Left out: not looked at yet. */
export const grades = ['pass', 'fault', 'not-checked'] as const;
export type Grade = (typeof grades)[number];
export const gradeWords: Readonly<Record<Grade, string>> = {
  pass: 'pass',
  fault: 'fault',
  'not-checked': 'not checked',
};

export const intakeFields = {
  stylusHours: { label: 'Stylus hours', unit: 'h', min: 0, max: 20_000, help: 'As told, or calculated' },
} as const satisfies Fields<'stylusHours'>;

export const intakeWordings = {
  cartridge: { label: 'Cartridge', most: MOST_LINE },
  faults: { label: 'Faults found', most: 5000, help: 'What the owner must know before work begins', lines: true },
  wrong: { label: 'What is wrong', most: 500 },
  note: { label: 'Note', most: 500 },
} as const satisfies Wordings;

const schema = z.strictObject({
  ...ofEveryStation,
  cartridge: wordsWithin(intakeWordings.cartridge).optional(),
  stylusHours: fieldText.optional(),
  inspection: each(
    inspectedNames,
    z.strictObject({ grade: z.enum(grades).optional(), note: wordsWithin(intakeWordings.note).optional() }),
  ).optional(),
  faults: wordsWithin(intakeWordings.faults).optional(),
});
export type IntakeTyped = TypedBy<typeof schema>;

/** Items by grade, in the order of the hands; those that nobody looked at yet under `open`. */
export function graded({ inspection = {} }: Pick<IntakeTyped, 'inspection'>) {
  const of = (wanted: Grade | undefined) => inspectedNames.filter((name) => inspection[name]?.grade === wanted);
  return { pass: of('pass'), fault: of('fault'), notChecked: of('not-checked'), open: of(undefined) };
}

/** "6 of 7 pass, 1 fault" */
export function inspectionWords(typed: Pick<IntakeTyped, 'inspection'>): string {
  const { pass, fault, notChecked, open } = graded(typed);
  const faults = fault.length === 0 ? [] : [`${fault.length} ${fault.length === 1 ? 'fault' : 'faults'}`];
  const left = notChecked.length + open.length;
  return [
    `${pass.length} of ${inspectedNames.length} pass`,
    ...faults,
    ...(left === 0 ? [] : [`${left} not checked`]),
  ].join(', ');
}

/** "tip (chipped), leads" */
const told = (names: readonly Inspected[], { inspection = {} }: Pick<IntakeTyped, 'inspection'>): string =>
  names
    .map((name) => {
      const note = inspection[name]?.note?.trim() ?? '';
      return note === '' ? inShort[name] : `${inShort[name]} (${note})`;
    })
    .join(', ');

const inFewWords = (names: readonly Inspected[]): string => names.map((name) => inShort[name]).join(', ');

/** Letters of notes beyond which the faults are only named: none of them may be lost behind the note of another. */
const MOST_NOTES = 120;

/** For the customer, in few words: what was found at fault, and what nobody looked at; '' where there is nothing to say. */
export function foundAtIntake(typed: IntakeTyped): { readonly faults: string; readonly notChecked: string } {
  const { pass, fault, notChecked, open } = graded(typed);
  const said = (typed.faults ?? '').trim().replace(/\s+/g, ' ').replace(/[.;]$/, '');
  const begun = pass.length + fault.length + notChecked.length > 0;
  const noted = told(fault, typed);
  return {
    faults: [noted.length > MOST_NOTES ? inFewWords(fault) : noted, said].filter((part) => part !== '').join('; '),
    notChecked: begun ? inFewWords([...notChecked, ...open]) : '',
  };
}

/** Only what was filled in, in the order of the page. */
export function intakeLines(typed: IntakeTyped): ReportLine[] {
  const { pass, fault, notChecked, open } = graded(typed);
  const begun = pass.length + fault.length + notChecked.length > 0;
  return [
    { label: 'Cartridge', text: typed.cartridge ?? '' },
    { label: 'Stylus hours', text: typedText(typed.stylusHours, intakeFields.stylusHours).text },
    { label: 'Inspected, pass', text: told(pass, typed) },
    { label: 'Inspected, fault', text: told(fault, typed) },
    { label: 'Not checked', text: begun ? told([...notChecked, ...open], typed) : '' },
    { label: 'Faults found', text: typed.faults ?? '' },
  ].filter((line) => line.text.trim() !== '');
}

/** Earlier versions kept a list of what was ticked; a tick said that it was as it should be. */
function fromOlder(data: StationData): StationData {
  const { checked, ...rest } = without('forReport')(data);
  if (!Array.isArray(checked) || rest.inspection !== undefined) return rest;
  const ticked = inspectedNames.filter((name) => checked.includes(name)).map((name) => [name, { grade: 'pass' }]);
  return ticked.length === 0 ? rest : { ...rest, inspection: Object.fromEntries(ticked) };
}

export const intakeModel: StationModel<IntakeTyped> = {
  schema,
  lines: intakeLines,
  fields: {
    ...intakeFields,
    cartridge: intakeWordings.cartridge,
    inspection: Object.fromEntries(
      inspectedNames.map((name) => [
        name,
        { grade: { label: inspected[name], options: gradeWords }, note: { label: `${inspected[name]}, note` } },
      ]),
    ),
    faults: intakeWordings.faults,
  },
  fromOlder,
};
