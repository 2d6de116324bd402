import { expect, it } from 'vitest';
import { markRows } from './markRows.ts';

it('words that are apart share a row, those that would cover one another do not, and what fits nowhere is left out', () => {
  const word = (x: number, width = 40) => ({ x, width });
  expect(markRows([word(0), word(100), word(200)], 3)).toEqual([0, 0, 0]);
  expect(markRows([word(0), word(20), word(30), word(35)], 3)).toEqual([0, 1, 2, null]);
  // one that stands to the left of an earlier one, and one that meets it by a hair
  expect(markRows([word(100), word(57), word(56)], 2)).toEqual([0, 1, 0]);
  expect(markRows([], 3)).toEqual([]);
});
