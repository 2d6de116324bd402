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

/** With a true minus sign. */
export const fixed = (value: number, decimals: number): string => value.toFixed(decimals).replace('-', '−');
