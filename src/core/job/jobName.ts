/** A job's number and the title that is made from it. */

/** Largest number that is given out, and that a person can ask for. */
export const MOST_NUMBER = 999_999_999;
/** Largest number that a file brings along; a larger one would leave too few for the jobs to come. */
export const MOST_IMPORTED_NUMBER = 999_999;

/** Letters of a title or a name. */
const MOST_LETTERS = 200;

/** A text no longer than a title may be. */
const cutTitle = (text: string): string =>
  text.length <= MOST_LETTERS ? text : `${text.slice(0, MOST_LETTERS - 1).replace(/[\uD800-\uDBFF]$/, '')}…`;

/** "Job 42 · deck's name" */
export const madeTitle = (number: number, deck: string): string => cutTitle(`Job ${number} · ${deck}`);

/** A title that was made from a job's number, when the job gets another. */
export const renumbered = (title: string, from: number, to: number): string =>
  cutTitle(title.startsWith(`Job ${from} · `) ? `Job ${to} · ${title.slice(`Job ${from} · `.length)}` : title);
