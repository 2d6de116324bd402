/** Reading numbers from flags, and printing them. */
import { UsageError } from './command.ts';

/**
 * A flag's number; a comma is taken as a decimal point.
 * @throws UsageError naming the flag, what was found and what was expected
 */
export function numberFlag(flag: string, text: string, expected: string): number {
  const value = Number(text.trim().replace(',', '.'));
  if (text.trim() === '' || !Number.isFinite(value)) {
    throw new UsageError(`${flag}: '${text}' is no number; ${expected} was expected`);
  }
  return value;
}

/** Digits so that the uncertainty shows two significant figures, at most six decimals. */
export function decimalsFor(uncertainty: number | null, fallback = 2): number {
  if (uncertainty === null || !(uncertainty > 0)) return fallback;
  return Math.min(6, Math.max(0, 1 - Math.floor(Math.log10(uncertainty))));
}

/** With a true minus sign. */
export const fixed = (value: number, decimals: number): string => value.toFixed(decimals).replace('-', '−');
