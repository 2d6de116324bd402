/** Words beside vertical marks, in rows so that none covers another. */

export interface MarkWord {
  /** px, where the word begins */
  readonly x: number;
  /** px, an estimate will do */
  readonly width: number;
}

/**
 * The row of each word, 0 the uppermost: the first in which it covers no earlier one. Earlier words come first: where all rows are taken a word is left
 * out, and its mark stands alone.
 *
 * @param gap px between two words of a row
 * @returns null for a word that is left out
 *
 * @checked markRows.test.ts
 */
export function markRows(words: readonly MarkWord[], rows: number, gap = 4): (number | null)[] {
  const taken: MarkWord[][] = Array.from({ length: rows }, () => []);
  return words.map((word) => {
    const row = taken.findIndex((others) =>
      others.every(({ x, width }) => word.x >= x + width + gap || word.x + word.width + gap <= x),
    );
    if (row < 0) return null;
    taken[row].push(word);
    return row;
  });
}
