/** A figure as it stands on a sheet: to the digit that its uncertainty supports, with a true minus and its unit's sign. */

const MINUS = '\u2212';
/** Decimals that anybody at a bench can use; a smaller uncertainty is rounded up to the last of them. */
const mostDecimals = (unit: string): number => (unit === 'dB' || unit === 'deg' || unit === 'Hz' ? 2 : 4);

const unitSigns: Readonly<Record<string, string>> = { deg: '°', ohm: 'Ω', '–': '' };

/** `deg` → `°`; other units stand as they are. */
export const unitSign = (unit: string): string => (Object.hasOwn(unitSigns, unit) ? unitSigns[unit] : unit);

/**
 * Decimals that an expanded uncertainty supports: two of its digits where it starts with 1 or 2, else one.
 *
 * Source: [CP] an uncertainty is stated to one or two digits, and the value to the same place.
 */
function decimalsOf(uncertainty: number, unit: string): number {
  const exponent = Math.floor(Math.log10(uncertainty));
  const lead = Math.floor(uncertainty / 10 ** exponent + 1e-9);
  return Math.min(mostDecimals(unit), Math.max(0, lead <= 2 ? 1 - exponent : -exponent));
}

/** About three significant digits, for a figure without uncertainty. */
function plainDecimals(value: number, unit: string): number {
  const size = Math.abs(value);
  if (size === 0 || size >= 100) return 0;
  return Math.min(mostDecimals(unit), Math.max(0, 2 - Math.floor(Math.log10(size))));
}

function withSign(value: number, decimals: number, signed: boolean): string {
  const text = Math.abs(value).toFixed(decimals);
  const sign = Number(text) === 0 ? '' : value < 0 ? MINUS : signed ? '+' : '';
  return sign + text;
}

/** A space between number and unit, none before °. */
const withUnit = (number: string, unit: string): string => {
  const sign = unitSign(unit);
  return sign === '' || sign === '°' ? number + sign : `${number} ${sign}`;
};

/**
 * "30.3 ± 0.1 dB", "−0.90 ± 0.04°", "in-phase".
 *
 * The uncertainty is rounded up, so that no more is claimed than was found.
 *
 * @param uncertainty expanded, k = 2, in `unit`; null where there is none
 * @param signed true puts a plus before a positive value
 * @throws RangeError when a number is not finite
 */
export function shownFigure(value: number | string, unit: string, uncertainty: number | null, signed = false): string {
  if (typeof value === 'string') return value;
  if (!Number.isFinite(value) || !(uncertainty === null || Number.isFinite(uncertainty))) {
    throw new RangeError(`value ${value} ± ${uncertainty}: finite numbers were expected`);
  }
  if (uncertainty === null || !(uncertainty > 0))
    return withUnit(withSign(value, plainDecimals(value, unit), signed), unit);
  const decimals = decimalsOf(uncertainty, unit);
  const up = Math.ceil(uncertainty * 10 ** decimals - 1e-6) / 10 ** decimals;
  return withUnit(`${withSign(value, decimals, signed)} ± ${up.toFixed(decimals)}`, unit);
}

/** "± 0.04 dB": an uncertainty alone, rounded up to the digit that stands beside its value. */
export function shownSpread(uncertainty: number, unit: string): string {
  if (!(uncertainty >= 0 && Number.isFinite(uncertainty))) {
    throw new RangeError(`uncertainty ${uncertainty}: a finite number, not negative, was expected`);
  }
  const decimals = uncertainty > 0 ? decimalsOf(uncertainty, unit) : 0;
  return `± ${withUnit((Math.ceil(uncertainty * 10 ** decimals - 1e-6) / 10 ** decimals).toFixed(decimals), unit)}`;
}

interface TwoSpreads {
  readonly unit: string;
  readonly uncertainty: number | null;
  readonly repeatability?: number | null;
}

/** "± 0.04 dB with this record": the second line of a figure; null where the first says it already. */
export function withThisRecord({ unit, uncertainty, repeatability }: TwoSpreads): string | null {
  if (repeatability === undefined || repeatability === null || uncertainty === null) return null;
  if (shownSpread(repeatability, unit) === shownSpread(uncertainty, unit)) return null;
  return `${shownSpread(repeatability, unit)} with this record`;
}

/** "30.1 to 34.8 dB", "at least 30.1 dB" where the high end is open; null where there is no interval. */
export function shownInterval(low: number | undefined, high: number | null | undefined, unit: string): string | null {
  if (low === undefined || high === undefined) return null;
  if (high === null) return `at least ${withUnit(withSign(low, plainDecimals(low, unit), false), unit)}`;
  const decimals = Math.max(plainDecimals(low, unit), plainDecimals(high, unit));
  return withUnit(`${withSign(low, decimals, false)} to ${withSign(high, decimals, false)}`, unit);
}
