/** What is typed of the bench's own chain, and the speed that was read while the record played: the page's fields and the command line's flags. */
import type { BenchKnown } from '../../../advise/budget/bench.ts';
import { ASSUMED } from '../../../advise/budget/defaults.ts';
import type { Field } from '../../fields/field.ts';
import { readQuantity, typedValue } from '../../fields/quantity.ts';

export const benchFields = {
  strobe: {
    label: 'Speed by strobe or crystal',
    unit: '%',
    min: -10,
    max: 10,
    spread: true,
    help: 'While the record plays, fast positive: 0.1 ± 0.05',
  },
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
export const shopBenchNames = ['equalisation', 'clock'] as const satisfies readonly BenchName[];

export type BenchTyped = { readonly [Name in BenchName]?: string | undefined };

/** @param typed of the job, which goes before the shop's, field by field */
export function benchKnown(typed: BenchTyped, shop: BenchTyped, setByMirror: boolean): BenchKnown {
  const strobe = readQuantity(typed.strobe, benchFields.strobe);
  const of = (name: 'equalisation' | 'clock') =>
    typedValue(typed[name], benchFields[name]) ?? typedValue(shop[name], benchFields[name]) ?? undefined;
  return {
    strobe: 'value' in strobe ? { percent: strobe.value, uncertainty: strobe.uncertainty } : undefined,
    equalisationDb: of('equalisation'),
    clockPercent: of('clock'),
    setByMirror,
  };
}
