/** Parts in words: what a kind is called, and a part's most telling figures in one line. */

import { splitQuantity } from '../units/typedQuantity.ts';
import { quantityText } from './fields/quantity.ts';
import { fieldsOf, type PartKind } from './partFields.ts';
import type { Part } from './parts.ts';

export const kindWords: Readonly<
  Record<PartKind, { readonly one: string; readonly many: string; readonly a: string }>
> = {
  deck: { one: 'deck', many: 'Decks', a: 'a deck' },
  arm: { one: 'arm', many: 'Arms', a: 'an arm' },
  cartridge: { one: 'cartridge', many: 'Cartridges', a: 'a cartridge' },
  preamp: { one: 'preamp', many: 'Preamps', a: 'a preamp' },
  cable: { one: 'cable', many: 'Cables', a: 'a cable' },
  headshell: { one: 'headshell', many: 'Headshells', a: 'a headshell' },
  counterweight: { one: 'counterweight', many: 'Counterweights', a: 'a counterweight' },
  hardware: { one: 'set of hardware', many: 'Hardware', a: 'a set of hardware' },
};

export const markWords: Readonly<Record<NonNullable<Part['marked']>, string>> = {
  demo: 'invented, for practice',
  'common-practice': 'typical, common practice',
};

/** Choices as a person reads them; the rest stand as they are. */
const optionWords: Readonly<Record<string, string>> = {
  '10hz': 'at 10 Hz',
  '100hz': 'at 100 Hz',
  static: 'at rest (static)',
  bare: 'without the headshell',
  'with-headshell': 'with the headshell',
  '50': '50 Hz',
  '60': '60 Hz',
};
export const optionText = (option: string): string => optionWords[option] ?? option.replaceAll('-', ' ');

/** What tells two parts of a kind apart at a glance, in this order. */
const telling: Readonly<Record<PartKind, readonly string[]>> = {
  deck: ['spindleToPivotMm', 'drive'],
  arm: ['effectiveMassG', 'effectiveLengthMm', 'headshell'],
  cartridge: ['principle', 'massG', 'complianceUmPerMn', 'complianceAt', 'trackingForceRecommendedMn', 'outputMv'],
  preamp: ['input', 'gainDb', 'inputResistanceOhm', 'inputCapacitancePf', 'responseCsv'],
  cable: ['capacitancePf', 'capacitancePfPerM', 'lengthM'],
  headshell: ['massG', 'thicknessMm'],
  counterweight: ['massG'],
  hardware: ['massG', 'screwLengthMm', 'material'],
};

/** Said before the figure where it would not tell itself. */
const before: Readonly<Record<string, string>> = {
  spindleToPivotMm: 'spindle to pivot ',
  effectiveLengthMm: 'length ',
  trackingForceRecommendedMn: 'tracks at ',
  outputMv: 'gives ',
  gainDb: 'gain ',
  thicknessMm: 'thick ',
  screwLengthMm: 'screws ',
};

/** A figure of a part as the person typed it, unit and all; undefined where only the number was kept. */
function typedOf(part: Part, name: string, unit: string): string | undefined {
  const text = part.asTyped?.[name]?.trim();
  if (text === undefined) return undefined;
  return splitQuantity(text)?.unit === '' && unit !== '' ? `${text} ${unit}` : text;
}

/** The same of whichever of these parts has the figure under its own name. */
export function typedIn(
  parts: readonly (Part | undefined)[],
  name: string,
  value: number,
  unit: string,
): string | undefined {
  const part = parts.find((one) => (one as unknown as Record<string, unknown> | undefined)?.[name] === value);
  return part === undefined ? undefined : typedOf(part, name, unit);
}

/** "moving magnet · 6.5 g · 13 µm/mN · at 10 Hz · tracks at 18 mN"; empty where nothing of it is known. */
export function specLine(part: Part): string {
  const fields = fieldsOf(part.kind);
  const values = part as unknown as Readonly<Record<string, string | number | undefined>>;
  return telling[part.kind]
    .flatMap((name) => {
      const value = values[name];
      const field = fields[name];
      if (value === undefined) return [];
      if (field.type === 'number')
        return [`${before[name] ?? ''}${typedOf(part, name, field.unit) ?? quantityText(value as number, field.unit)}`];
      if (field.type === 'response') return ['response measured'];
      return [field.type === 'choice' ? optionText(String(value)) : String(value)];
    })
    .join(' · ');
}
