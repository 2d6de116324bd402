/**
 * The one reader of numbers for page, command line, library and files: `1.8 g` for a force, `0,5 in` for a length, `47k`
 * for a resistance, `1 200`, `−0.5°`; with its unit or without.
 *
 * The text is kept beside the value by whoever stores it; this module only says what the text means.
 */
import { STANDARD_GRAVITY } from './units.ts';

/** What one of the typed unit is in the unit that the field is kept in. Keys are compared in lower case, spaces removed. */
const accepted: Readonly<Record<string, Readonly<Record<string, number>>>> = {
  mN: { mn: 1, n: 1000, g: STANDARD_GRAVITY, gf: STANDARD_GRAVITY, p: STANDARD_GRAVITY },
  g: { g: 1, mg: 1e-3, kg: 1e3 },
  mm: { mm: 1, cm: 10, m: 1000, in: 25.4, inch: 25.4, '"': 25.4 },
  m: { m: 1, cm: 0.01, mm: 1e-3, ft: 0.3048 },
  deg: { deg: 1, '°': 1, degree: 1, degrees: 1 },
  '°': { '°': 1, deg: 1, degree: 1, degrees: 1 },
  '°C': { '°c': 1, c: 1 },
  '%': { '%': 1, percent: 1 },
  Hz: { hz: 1, khz: 1000 },
  s: { s: 1, ms: 1e-3, min: 60 },
  Ω: { ω: 1, ohm: 1, k: 1e3, kω: 1e3, kohm: 1e3, mω: 1e-3, mohm: 1e-3 },
  mH: { mh: 1, h: 1000, µh: 1e-3, μh: 1e-3, uh: 1e-3 },
  pF: { pf: 1, nf: 1000, µf: 1e6, μf: 1e6, uf: 1e6 },
  'pF/m': { 'pf/m': 1, 'pf/ft': 1 / 0.3048 },
  mV: { mv: 1, v: 1000, µv: 1e-3, μv: 1e-3, uv: 1e-3 },
  V: { v: 1, mv: 1e-3 },
  dB: { db: 1 },
  'µm/mN': { 'µm/mn': 1, 'μm/mn': 1, 'um/mn': 1, 'mm/n': 1, cu: 1, '10^-6cm/dyn': 1, '10-6cm/dyn': 1, '10⁻⁶cm/dyn': 1 },
  'cm/s': { 'cm/s': 1, 'mm/s': 0.1 },
  'nV/√Hz': { 'nv/√hz': 1, 'nv/rthz': 1, 'µv/√hz': 1000, 'uv/√hz': 1000 },
  'pA/√Hz': { 'pa/√hz': 1, 'pa/rthz': 1, 'fa/√hz': 1e-3 },
  h: { h: 1, hour: 1, hours: 1 },
  rpm: { rpm: 1, '1/min': 1, 'r/min': 1 },
  g·mm: { g·mm: 1, gmm: 1, 'g*mm': 1, g·cm: 10, gcm: 10 },
  'mN/mm': { 'mn/mm': 1, 'g/mm': STANDARD_GRAVITY },
};

/** Where a capital makes another unit of it: milliohm and megohm. Compared as typed, spaces removed. */
const byCase: Readonly<Record<string, Readonly<Record<string, number>>>> = {
  Ω: { M: 1e6, MΩ: 1e6, 'M\u2126': 1e6, Mohm: 1e6, MOhm: 1e6 },
};

/** Digits may stand in groups of three with spaces between; a comma never groups. */
const shape = /^([+-]?(?:(?:\d{1,3}(?: \d{3})+(?!\d)|\d+)(?:[.,]\d*)?|[.,]\d+)(?:e[+-]?\d+)?)\s*(.*)$/i;

/** One kind of minus, one kind of space, nothing at the ends. */
export const cleanText = (text: string): string =>
  text
    .replace(/[\u2212\u2013]/g, '-')
    .replace(/[\u00a0\u2009\u202f]/g, ' ')
    .trim();

/** As marked on a deck: 33⅓, 16⅔. */
const parts: Readonly<Record<string, number>> = { '¼': 1 / 4, '⅓': 1 / 3, '½': 1 / 2, '⅔': 2 / 3, '¾': 3 / 4 };
const withoutParts = (text: string): string =>
  text.replace(/(?<![\d.,])(\d*)([¼⅓½⅔¾])/g, (_, whole: string, part: string) => String(Number(whole) + parts[part]));

/** Number and unit of a text, neither read yet; null where it begins with no number. */
export function splitQuantity(text: string): { readonly number: string; readonly unit: string } | null {
  const match = shape.exec(withoutParts(cleanText(text)).replace(/^([+-]) +/, '$1'));
  return match === null ? null : { number: match[1].replaceAll(' ', '').replace(',', '.'), unit: match[2].trim() };
}

export type Typed = { readonly found: true; readonly value: number } | { readonly found: false; readonly why: string };

/** Unit names that a field kept in `unit` takes, as they would be typed; empty for a plain number. */
export const acceptedUnits = (unit: string): readonly string[] =>
  unit === '' ? [] : Object.keys(Object.hasOwn(accepted, unit) ? accepted[unit] : { [unit]: 1 });

/**
 * @param text what was typed; a decimal point or one decimal comma, an exponent, then an optional unit
 * @param unit the unit that the field is kept in; `''` for a plain number
 * @returns the value in `unit`, always finite, or why the text is not one
 * @checked src/core/units/typedQuantity.test.ts
 */
export function typedQuantity(text: string, unit: string): Typed {
  const split = splitQuantity(text);
  if (split === null) return { found: false, why: `'${text}' is not a number` };
  const number = Number(split.number);
  if (!Number.isFinite(number)) return { found: false, why: `'${text}' is too large a number` };
  const asTyped = split.unit.replace(/\s+/g, '');
  const typedUnit = asTyped.toLowerCase();
  if (typedUnit === '') return { found: true, value: number };
  if (Object.hasOwn(byCase, unit) && Object.hasOwn(byCase[unit], asTyped)) {
    return { found: true, value: number * byCase[unit][asTyped] };
  }
  const units = Object.hasOwn(accepted, unit) ? accepted[unit] : { [unit.toLowerCase()]: 1 };
  const factor = unit !== '' && Object.hasOwn(units, typedUnit) ? units[typedUnit] : undefined;
  if (factor === undefined) {
    const expected =
      unit === '' ? 'a plain number' : `a number in ${unit}, or with one of ${acceptedUnits(unit).join(', ')}`;
    return { found: false, why: `'${text}' ends in '${split.unit}'; expected ${expected}` };
  }
  return { found: true, value: factor === 1 ? number : number * factor };
}

/**
 * "47,000" may be forty-seven to three decimals or forty-seven thousand: true where both lie within the bounds, so that
 * nothing but the person can tell. Of `2,000 g` on a scale that ends at 20 g only one can be meant. A point before three
 * digits is taken for a decimal point, but for `47.000`, which no number is written as by itself.
 *
 * @param min in `unit`, as is `max`
 */
export function meansTwoNumbers(text: string, unit: string, min: number, max: number): boolean {
  const match = /^([-+\u2212\u2013]?[1-9]\d{0,2})(?:,(\d{3})|\.(000))(?!\d)(.*)$/.exec(text.trim());
  if (match === null) return false;
  const [, whole, afterComma, afterPoint, rest] = match;
  const group = afterComma ?? afterPoint;
  const readings = [typedQuantity(`${whole}.${group}${rest}`, unit), typedQuantity(`${whole}${group}${rest}`, unit)];
  return readings.every((typed) => typed.found && min <= typed.value && typed.value <= max);
}
