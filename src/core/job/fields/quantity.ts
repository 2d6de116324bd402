/** A quantity as a person types it, unit and all, read against the bounds of its field. */

import { acceptedUnits, cleanText, meansTwoNumbers, splitQuantity, typedQuantity } from '../../units/typedQuantity.ts';
import { tidy } from '../../words/number.ts';
import { type Statement, statement } from '../../words/statement.ts';
import type { QuantityBounds } from './field.ts';

export type { QuantityBounds } from './field.ts';

export type ReadQuantity =
  /** `uncertainty` only where a ± was typed and the field takes one, in the field's unit */
  { readonly value: number; readonly uncertainty?: number } | { readonly empty: true } | { readonly wrong: Statement };

const PLUS_MINUS = /\s*(?:±|\+\/-|\+-)\s*/;

/** A number without a unit behind it. */
export const isBare = (text: string): boolean => splitQuantity(text)?.unit === '';

/** "4 to 150 mN", "3 dB or more" */
function rangeWords(min: number, max: number, unit: string): string {
  const u = unit === '' ? '' : ` ${unit}`;
  if (Number.isFinite(min) && Number.isFinite(max)) return `${tidy(min)} to ${tidy(max)}${u}`;
  if (Number.isFinite(min)) return `${tidy(min)}${u} or more`;
  return Number.isFinite(max) ? `${tidy(max)}${u} or less` : '';
}

/**
 * "1.8 g" for a force, "47k" for a resistance, "18,5", "−0.5°", "222 ± 0.5 mm" where the field takes a ±, "±0.3" where only
 * a spread can be meant. What cannot be used is said with what was found and the bounds.
 *
 * @param bareUnit the unit of a number typed without one, where that is not the field's own
 * @checked src/core/job/fields/quantity.test.ts
 */
export function readQuantity(text: string | undefined, bounds: QuantityBounds, bareUnit?: string): ReadQuantity {
  const { unit, min, max, spread = false } = bounds;
  const clean = cleanText(text ?? '');
  if (clean === '') return { empty: true };
  const [before, behind, ...more] = clean.split(PLUS_MINUS);
  if (more.length > 0) return notNumber(clean, bounds, bareUnit);
  if (behind === undefined) return readOne(clean, bounds, bareUnit);
  if (before === '') return min >= 0 ? readOne(behind, bounds, bareUnit) : notNumber(clean, bounds, bareUnit);
  if (!spread) return { wrong: statement('number-without-spread', { text: clean }) };
  // one unit may stand behind both numbers
  const shared = splitQuantity(behind)?.unit || splitQuantity(before)?.unit || '';
  const value = readOne(isBare(before) ? `${before} ${shared}` : before, bounds, bareUnit);
  if (!('value' in value)) return value;
  const size = readOne(isBare(behind) ? `${behind} ${shared}` : behind, { unit, min: 0, max: max - min }, bareUnit);
  return 'value' in size ? { value: value.value, uncertainty: size.value } : size;
}

function readOne(clean: string, bounds: QuantityBounds, bareUnit: string | undefined): ReadQuantity {
  const { unit, min, max } = bounds;
  const bare = bareUnit !== undefined && bareUnit !== unit && isBare(clean);
  const typed = typedQuantity(bare ? `${clean} ${bareUnit}` : clean, unit);
  if (!typed.found) return notNumber(clean, bounds, bareUnit);
  if (meansTwoNumbers(clean, unit, min, max)) {
    return { wrong: statement('number-means-two', { text: clean, value: typed.value }) };
  }
  if (min <= typed.value && typed.value <= max) return { value: typed.value };
  const shown = boundsIn(bounds, bareUnit);
  const found = bareText(typed.value, unit, bareUnit);
  return {
    wrong: statement('number-out-of-bounds', {
      found: shown.unit === '' ? found : `${found} ${shown.unit}`,
      range: shown.range,
    }),
  };
}

/** A figure as it would be typed without a unit. */
export function bareText(value: number, unit: string, bareUnit?: string): string {
  const one = bareUnit === undefined || bareUnit === unit ? null : typedQuantity(`1 ${bareUnit}`, unit);
  return one?.found ? tidy(Number((value / one.value).toPrecision(3))) : tidy(value);
}

/** The bounds in the unit that a bare number stands for. */
function boundsIn({ unit, min, max }: QuantityBounds, bareUnit: string | undefined) {
  if (bareUnit === undefined || bareUnit === unit) return { unit, range: rangeWords(min, max, unit) };
  return { unit: bareUnit, range: `${bareText(min, unit, bareUnit)} to ${bareText(max, unit, bareUnit)} ${bareUnit}` };
}

function notNumber(clean: string, bounds: QuantityBounds, bareUnit: string | undefined): ReadQuantity {
  const { unit } = bounds;
  const others = acceptedUnits(unit).filter((name) => name !== unit.toLowerCase());
  const { range } = boundsIn(bounds, bareUnit);
  if (range === '') return { wrong: statement('number-expected', { text: clean }) };
  if (others.length === 0 || !/^[+-]?[\d.,]+\s*[^\d.,\s]/.test(clean)) {
    return { wrong: statement('number-in-range-expected', { text: clean, range }) };
  }
  return { wrong: statement('number-in-unit-expected', { text: clean, range, units: others.slice(0, 4).join(', ') }) };
}

/** The value typed, or null where there is none that can be used. */
export function typedValue(text: string | undefined, bounds: QuantityBounds, bareUnit?: string): number | null {
  const read = readQuantity(text, bounds, bareUnit);
  return 'value' in read ? read.value : null;
}

/** A typed field as a report shows it: the figure with its unit and ±, or what was typed and cannot be used; empty where nothing is. */
export function typedText(
  text: string | undefined,
  bounds: QuantityBounds,
): { readonly text: string; readonly read: boolean } {
  const read = readQuantity(text, bounds);
  if ('empty' in read) return { text: '', read: true };
  if ('wrong' in read) return { text: `“${(text ?? '').trim()}”, which cannot be used`, read: false };
  const { value, uncertainty } = read;
  const spread = uncertainty === undefined ? '' : `${tidy(value)} ± `;
  return { text: `${spread}${quantityText(uncertainty ?? value, bounds.unit)}`, read: true };
}

/** "47 kΩ", "220 pF", "6.5 g": three digits are as many as anyone reads of a part. */
export function quantityText(value: number, unit: string): string {
  if (unit === 'Ω' && value >= 1000) return `${tidy(Number((value / 1000).toPrecision(3)))} kΩ`;
  const digits = Math.abs(value) >= 1000 ? value : Number(value.toPrecision(4));
  if (unit === 'deg' || unit === '°') return `${tidy(digits)}°`;
  return unit === '' ? tidy(digits) : `${tidy(digits)} ${unit}`;
}
