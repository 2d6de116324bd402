/** What a question to the store is answered with. What is not there is a value with its reason, not an error. */
import type { LeafConflict } from '../core/job/leafPaths.ts';

export type NotFound = { readonly outcome: 'not-found'; readonly why: string };

export type Held<T> = { readonly outcome: 'found'; readonly value: T } | NotFound;

/** `current` is what stands in the store now, so that nothing typed has to be lost; `conflicts` are the leaves at odds. */
export type Change<T, Current> =
  | { readonly outcome: 'changed'; readonly value: T }
  | { readonly outcome: 'conflict'; readonly current: Current; readonly conflicts: readonly LeafConflict[] }
  /** no such thing is kept; one clause says what, where, and what was expected */
  | { readonly outcome: 'refused'; readonly why: string }
  | NotFound;

export const notFound = (why: string): NotFound => ({ outcome: 'not-found', why });
export const found = <T>(value: T): Held<T> => ({ outcome: 'found', value });
