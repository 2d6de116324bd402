/** An answer, or why there is none: `missing` where something is only not there yet. */
import { type Statement, statement } from '../../words/statement.ts';

export type Answer<T> =
  | { readonly found: true; readonly value: T }
  | { readonly found: false; readonly why: Statement; readonly missing: boolean };

export const none = (why: Statement, missing = true): Answer<never> => ({ found: false, why, missing });

/** What a refusal of the core says. Anything but a refusal is a fault of the program and goes on. */
export function refusal(error: unknown): Statement {
  if (error instanceof RangeError) return statement('refused', { what: error.message });
  throw error;
}

/** Asks the core; figures that contradict one another come back as its refusal. */
export function ask<T>(question: () => T): Answer<T> {
  try {
    return { found: true, value: question() };
  } catch (error) {
    return none(refusal(error), false);
  }
}

/** An answer within an answer. */
export const flat = <T>(answer: Answer<Answer<T>>): Answer<T> => (answer.found ? answer.value : answer);

/** "the effective length cannot be used as it is typed" */
export const unusable = (what: string): Answer<never> => none(statement('not-usable', { what }), false);

/** "the effective length and the thread are not known" */
export function notKnown(names: readonly string[]): Statement {
  const what = names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
  return statement('not-known', { what, count: names.length });
}
