/**
 * The version of everything that makes a figure out of a recording: estimators, what is assumed, budgets. It goes up by one
 * with each change after which the same recording may give another figure or another ±; verdicts and words do not count.
 * 1: documents that hold none.
 */
export const METHOD_VERSION = '15';
