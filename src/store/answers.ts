/** What a question to the store is answered with. What is not there is a value with its reason, not an error. */

export type NotFound = { readonly outcome: 'not-found'; readonly why: string };

export type Found<T> = { readonly outcome: 'found'; readonly value: T } | NotFound;

/** `current` is what stands in the store now, so that nothing typed has to be lost. */
export type Change<T, Current> =
  | { readonly outcome: 'changed'; readonly value: T }
  | { readonly outcome: 'conflict'; readonly current: Current }
  | NotFound;

export const notFound = (why: string): NotFound => ({ outcome: 'not-found', why });
export const found = <T>(value: T): Found<T> => ({ outcome: 'found', value });
