/** How much of what was typed and read fits a page that must be one, on A4 and on Letter. */

/** Of the body's type in a line across the page, fewer than it truly holds: words break where they like. */
const LETTERS_A_LINE = 100;
/** Lines that figures, notes, work and reasons share; Letter is the shorter page and sets it. */
const LINES = 34;
/** Lines that a row of the table takes, with one line of type and with two. */
const ROW = { one: 1.45, two: 2.15 } as const;

const linesOf = (text: string): number => Math.ceil(text.length / LETTERS_A_LINE);

export const clipped = (text: string, letters: number): string =>
  text.length <= letters ? text : `${text.slice(0, letters - 1).trimEnd()}…`;

/** The result is set larger: fewer letters a line, and more of a line's height. */
const RESULT = { letters: 80, height: 1.2 } as const;
/** Lines of result and caution that every page has room for. */
const ALWAYS = { result: 2, caution: 1 } as const;

/** What is left for words beside a table of such rows, under the result and the caution. @param twoLines of each row */
export function roomBeside(twoLines: readonly boolean[], result: string, caution: string): number {
  const table = twoLines.reduce((sum, two) => sum + (two ? ROW.two : ROW.one), 0);
  const more =
    RESULT.height * Math.max(0, Math.ceil(result.length / RESULT.letters) - ALWAYS.result) +
    Math.max(0, linesOf(caution) - ALWAYS.caution);
  return Math.floor(LINES - table - more);
}

export interface Fitted {
  readonly shown: readonly string[];
  /** left out */
  readonly more: number;
  /** lines taken, that for "more" among them */
  readonly lines: number;
}

/**
 * As many of the texts as the room holds, from the first on; each on at most two lines.
 * @param room lines; a list that does not fit leaves one of them for its count
 */
export function fitted(texts: readonly string[], room: number): Fitted {
  const short = texts.map((text) => clipped(text, 2 * LETTERS_A_LINE));
  const all = short.reduce((sum, text) => sum + linesOf(text), 0);
  if (all <= room) return { shown: short, more: 0, lines: all };
  const shown: string[] = [];
  let lines = 1;
  for (const text of short) {
    if (lines + linesOf(text) > room) break;
    shown.push(text);
    lines += linesOf(text);
  }
  return { shown, more: texts.length - shown.length, lines };
}
