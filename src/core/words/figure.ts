/** A figure as it stands on a sheet: to the digit that its uncertainty supports, with a true minus and its unit's sign. */
import { decimalsAtBench, decimalsFor, plainDecimals, showFigure, showNumber, showSpread } from './number.ts';

const unitSigns: Readonly<Record<string, string>> = { deg: '°', ohm: 'Ω', '–': '', '1/min': 'a minute' };

/** `deg` → `°`; other units stand as they are. */
export const unitSign = (unit: string): string => (Object.hasOwn(unitSigns, unit) ? unitSigns[unit] : unit);

/** Stands against the number without a space. */
export const tightUnit = (sign: string): boolean => sign === '°';

/** A space between number and unit, none before °. */
const withUnit = (number: string, unit: string): string => {
  const sign = unitSign(unit);
  return sign === '' || tightUnit(sign) ? number + sign : `${number} ${sign}`;
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
  const shown = showFigure(value, uncertainty, signed, decimalsAtBench(unit));
  return withUnit(shown.uncertainty === null ? shown.value : `${shown.value} ± ${shown.uncertainty}`, unit);
}

/** "± 0.04 dB": an uncertainty alone, rounded up to the digit that stands beside its value. */
export function shownSpread(uncertainty: number, unit: string): string {
  if (!(uncertainty >= 0 && Number.isFinite(uncertainty))) {
    throw new RangeError(`uncertainty ${uncertainty}: a finite number, not negative, was expected`);
  }
  const decimals = uncertainty > 0 ? decimalsFor(uncertainty, decimalsAtBench(unit)) : 0;
  return `± ${withUnit(showSpread(uncertainty, decimals), unit)}`;
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

/** What is counted is whole, and never under 0. */
export const isCount = (unit: string): boolean => unit === '1/min';

/** "4 to 19 a minute", "at most 26 a minute" where nothing is left at the low end. */
function countedInterval(low: number, high: number, unit: string): string {
  const [least, most] = [Math.floor(low), withUnit(showNumber(Math.ceil(high), 0), unit)];
  return least <= 0 ? `at most ${most}` : `${showNumber(least, 0)} to ${most}`;
}

/** "30.1 to 34.8 dB", "at least 30.1 dB" where the high end is open; null where there is no interval. */
export function shownInterval(low: number | undefined, high: number | null | undefined, unit: string): string | null {
  if (low === undefined || high === undefined) return null;
  const most = decimalsAtBench(unit);
  if (high === null) return `at least ${withUnit(showNumber(low, plainDecimals(low, most)), unit)}`;
  if (isCount(unit)) return countedInterval(low, high, unit);
  const decimals = Math.max(plainDecimals(low, most), plainDecimals(high, most));
  return withUnit(`${showNumber(low, decimals)} to ${showNumber(high, decimals)}`, unit);
}
