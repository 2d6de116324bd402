/** Reading numbers from flags, and printing them. */
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
