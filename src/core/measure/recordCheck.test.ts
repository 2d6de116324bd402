import { expect, it } from 'vitest';
import { oddEntries } from './recordCheck.ts';

const of = (...values: number[]) => values.map((value, i) => ({ i, value, spread: 0.01 }));

it('names the one that contradicts the rest, with how far', () => {
  expect(oddEntries(of(0, 0.1, 3, -0.1), 1, 1)).toMatchObject([{ entry: { i: 2 }, off: 3 }]);
  expect(oddEntries(of(0, 3, 0.2), 1, 1)).toMatchObject([{ entry: { i: 1 } }]);
});

it('names none where nothing agrees, from two alone, or within what may differ', () => {
  expect(oddEntries(of(0, 3), 1, 1)).toEqual([]);
  expect(oddEntries(of(0, 3, 6, 9), 1, 1)).toEqual([]);
  expect(oddEntries(of(0, 0.9, -0.9), 1, 1)).toEqual([]);
});

it('names two where more agree', () => {
  expect(oddEntries(of(0, 0, 0, 0, 5, -5), 1, 1).map(({ entry }) => entry.i)).toEqual([4, 5]);
});
