/** Reading numbers from flags, and printing them. */
import type { BenchBound } from '../core/units/benchBounds.ts';
import { typedQuantity } from '../core/units/typedQuantity.ts';
import { UsageError } from './command.ts';

/**
 * A flag's number, with its unit or without: `222`, `222mm`, `22,2 cm`.
 *
 * @param unit that it is given in; `''` for a plain number
 * @throws UsageError naming the flag, what was found and what was expected
 */
export function numberFlag(flag: string, text: string, expected: string, unit = ''): number {
  const typed = typedQuantity(text, unit);
  if (!typed.found) throw new UsageError(`${flag}: '${text}' is no number; ${expected} was expected`);
  return typed.value;
}

/** A flag's number within its bounds; nothing where the flag was not given. */
export function bounded(
  flag: string,
  text: string | undefined,
  { min: low, max: high, unit }: BenchBound,
): number | undefined {
  if (text === undefined) return undefined;
  const value = numberFlag(flag, text, `a number in ${unit}`, unit);
  if (!(low <= value && value <= high)) {
    throw new UsageError(`${flag}: ${value} ${unit} was given; it must lie between ${low} and ${high} ${unit}`);
  }
  return value;
}

/** A flag's comma-separated numbers: as many as there are names, or fewer where `least` says so. */
export function numbersFlag(flag: string, text: string, names: readonly string[], least = names.length): number[] {
  const parts = text.split(',');
  if (parts.length < least || parts.length > names.length) {
    throw new UsageError(`${flag}: '${text}' has ${parts.length} numbers; ${names.join(',')} was expected`);
  }
  return parts.map((part, i) => numberFlag(flag, part, `${names[i]} in ${names.join(',')}`));
}

/** `--left-mono -0.3` as `--left-mono=-0.3`: Node's reader of arguments takes the minus for the next flag. */
export function joinedNegatives(args: readonly string[]): string[] {
  const joined: string[] = [];
  for (const arg of args) {
    const before = joined.at(-1);
    const negative = /^[-\u2212][\d.,]/.test(arg) && before !== undefined && /^--[a-z][\w-]*$/.test(before);
    if (negative) joined[joined.length - 1] = `${before}=${arg}`;
    else joined.push(arg);
  }
  return joined;
}
