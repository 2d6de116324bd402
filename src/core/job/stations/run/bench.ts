/** What is typed of the bench's own chain, and the speed that was read while the record played: the page's fields and the command line's flags. */
import type { BenchKnown } from '../../../advise/budget/bench.ts';
import { ASSUMED } from '../../../advise/budget/defaults.ts';
import type { Field } from '../../fields/field.ts';
import { readQuantity, typedText, typedValue } from '../../fields/quantity.ts';
import type { ReportLine } from '../../reportLines.ts';

export const benchFields = {
  strobe: {
    label: 'Speed by strobe or crystal',
    unit: '%',
    min: -10,
    max: 10,
    spread: true,
    help: 'Record playing, fast positive: 0.1 ± 0.05',
  },
  strobeUp: {
    label: 'The same with the tip up',
    unit: '%',
    min: -10,
    max: 10,
    spread: true,
    help: 'For the drag of the tip',
  },
  platterMm: { label: 'Platter where belt or idler runs', unit: 'mm', min: 50, max: 400, help: 'Its diameter' },
  pulleyMm: { label: 'Motor pulley', unit: 'mm', min: 1, max: 100, help: 'Its diameter at this speed' },
  beltMm: { label: 'Belt', unit: 'mm', min: 100, max: 2000, help: 'Once around' },
  idlerMm: { label: 'Idler wheel', unit: 'mm', min: 10, max: 150, help: 'Its diameter' },
  motorRpm: { label: 'Motor', unit: 'rpm', min: 10, max: 4000, help: 'Turns a minute, where stated' },
  contactWidth: {
    label: 'Between the tip’s contacts',
    unit: 'µm',
    min: 2,
    max: 60,
    spread: true,
    help: '18 × 8 µm: 14; line contact: 20–33',
  },
  fullScaleV: {
    label: 'Sine at full scale',
    unit: 'V',
    min: 1e-5,
    max: 100,
    help: 'rms, where the generator was fed in',
  },
  fullScaleRightV: {
    label: 'Sine at full scale, right channel',
    unit: 'V',
    min: 1e-5,
    max: 100,
    help: 'Only where it differs',
  },
  zeroVu: { label: 'House’s 0 VU', unit: 'dBFS', min: -40, max: 0, help: 'Sine at 0 VU, under full scale' },
  equalisation: {
    label: 'Preamp’s equalisation, within ±',
    unit: 'dB',
    min: 0,
    max: 6,
    usual: { value: ASSUMED.equalisation.size, from: 'assumed' },
  },
  clock: {
    label: 'Converter’s clock, within ±',
    unit: '%',
    min: 0,
    max: 1,
    usual: { value: ASSUMED.clock.size, from: 'assumed' },
  },
} as const satisfies Readonly<Record<string, Field>>;

export type BenchName = keyof typeof benchFields;
export const benchNames = Object.keys(benchFields) as readonly BenchName[];
/** what belongs to the bench rather than to one playing */
export const shopBenchNames = [
  'equalisation',
  'clock',
  'fullScaleV',
  'fullScaleRightV',
  'zeroVu',
] as const satisfies readonly BenchName[];

/** what turns in the drive: with them the lines of flutter have names */
const driveNames = ['platterMm', 'pulleyMm', 'beltMm', 'idlerMm', 'motorRpm'] as const satisfies readonly BenchName[];

export type BenchTyped = { readonly [Name in BenchName]?: string | undefined };

/** @param typed of the job, which goes before the shop's, field by field */
export function benchKnown(typed: BenchTyped, shop: BenchTyped, setByMirror: boolean): BenchKnown {
  const strobe = readQuantity(typed.strobe, benchFields.strobe);
  const strobeUp = readQuantity(typed.strobeUp, benchFields.strobeUp);
  const width = readQuantity(typed.contactWidth, benchFields.contactWidth);
  const drive = Object.fromEntries(
    driveNames.flatMap((name) => {
      const value = typedValue(typed[name], benchFields[name]);
      return value === null || value === undefined ? [] : [[name, value]];
    }),
  );
  const of = (name: (typeof shopBenchNames)[number]) =>
    typedValue(typed[name], benchFields[name]) ?? typedValue(shop[name], benchFields[name]) ?? undefined;
  const full = of('fullScaleV');
  return {
    strobe: 'value' in strobe ? { percent: strobe.value, uncertainty: strobe.uncertainty } : undefined,
    strobeUp: 'value' in strobeUp ? { percent: strobeUp.value, uncertainty: strobeUp.uncertainty } : undefined,
    drive,
    contactWidth: 'value' in width ? { um: width.value, uncertainty: width.uncertainty } : undefined,
    fullScaleV: full === undefined ? undefined : { left: full, right: of('fullScaleRightV') ?? full },
    zeroVuDbfs: of('zeroVu'),
    equalisationDb: of('equalisation'),
    clockPercent: of('clock'),
    setByMirror,
  };
}

/** What was typed in place of what is assumed, with who typed it. */
export const benchLines = (typed: BenchTyped, shop: BenchTyped): readonly ReportLine[] =>
  benchNames.flatMap((name) => {
    const field = benchFields[name];
    const [own, shops] = [typedText(typed[name], field), typedText(name === 'strobe' ? '' : shop[name], field)];
    if (own.text !== '') return [{ label: field.label, text: own.text }];
    return shops.text === '' ? [] : [{ label: field.label, text: `${shops.text}, set by this shop` }];
  });
