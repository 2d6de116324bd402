/** An answer, or why there is none: `missing` where something is only not there yet. */
export type Answer<T> =
  | { readonly found: true; readonly value: T }
  | { readonly found: false; readonly why: string; readonly missing: boolean };

export const none = (why: string, missing = true): Answer<never> => ({ found: false, why, missing });

/** Asks the core; figures that contradict one another come back as its sentence. */
export function ask<T>(question: () => T): Answer<T> {
  try {
    return { found: true, value: question() };
  } catch (error) {
    if (error instanceof RangeError) return none(error.message, false);
    throw error;
  }
}

/** An answer within an answer. */
export const flat = <T>(answer: Answer<Answer<T>>): Answer<T> => (answer.found ? answer.value : answer);

/** First letter large, a full stop behind. */
export const sentence = (why: string): string =>
  `${why.charAt(0).toUpperCase()}${why.slice(1)}${/[.!?]$/.test(why) ? '' : '.'}`;

/** "the effective length and the thread are not known" */
export function notKnown(names: readonly string[]): string {
  const list = names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
  return `${list} ${names.length === 1 ? 'is' : 'are'} not known`;
}
