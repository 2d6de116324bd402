/**
 * A statement is a code of the catalogue and its values; the sentence is made of it in one place, `say`.
 * What holds statements can be compared, counted and told in another language; nobody takes a sentence apart.
 */
import { capital } from './capital.ts';
import { type Code, catalogue, type ValuesOfCode } from './catalogue.ts';
import { fill } from './template.ts';

/** A number, a short text, or a statement inside another one (a reason). null only where an uncertainty has no figure. */
export type Value = number | string | Statement;
export type Values = Readonly<Record<string, Value | null>>;

export interface Statement {
  readonly code: string;
  readonly values: Values;
}

/**
 * `statement('turns-read', { turns: 3.2 })`: the table's template says which values it needs.
 * @throws RangeError at once where one is missing or not finite
 */
export function statement<C extends Code>(
  code: C,
  ...[values]: keyof ValuesOfCode<C> extends never ? [] : [ValuesOfCode<C>]
): Statement {
  const made: Statement = { code, values: (values ?? {}) as Values };
  say(made);
  return made;
}

/** The sentence. @throws RangeError for a code that the catalogue doesn't hold, or a value that its template misses */
export function say({ code, values }: Statement): string {
  if (!isKnown({ code, values })) throw new RangeError(`'${code}' is not in the catalogue of words`);
  return fill(code, catalogue[code as Code], values, say);
}

/** False for a code that another version wrote. */
export const isKnown = ({ code }: Statement): boolean => Object.hasOwn(catalogue, code);

/** Sentences one after the other. */
export const sayAll = (statements: readonly Statement[]): string => statements.map(say).join(' ');

/** With a stop behind, where there is none. */
export const stopped = (words: string): string => (/[.!?]$/.test(words) ? words : `${words}.`);

/** A reason as a sentence of its own: first letter large, a stop behind. */
export function sentence(reason: Statement): string {
  return stopped(capital(say(reason)));
}
