/** Work that may be put off between its steps: the same calculation as at one go, for a live input that must not wait long. */

/** What it comes to does not depend on when the steps are taken. */
export type Steps<Result> = Generator<void, Result, void>;

/** Runs one step's work; the arrays that it is lent stay until whoever drives the steps takes them back. */
export type Lent = <Result>(work: () => Result) => Result;
/** For steps that are taken at once, within a loan of the caller. */
export const ofTheCaller: Lent = (work) => work();

/** All steps at once. */
export function atOnce<Result>(steps: Steps<Result>): Result {
  for (;;) {
    const { done, value } = steps.next();
    if (done === true) return value;
  }
}
