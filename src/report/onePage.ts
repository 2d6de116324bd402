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

/** What is left for words beside a table of such rows. */
export const roomBeside = (rows: readonly { readonly twoLines: boolean }[]): number =>
  Math.floor(LINES - rows.reduce((sum, { twoLines }) => sum + (twoLines ? ROW.two : ROW.one), 0));

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
