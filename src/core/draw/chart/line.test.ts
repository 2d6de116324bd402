import { expect, test } from 'vitest';
import { linePath, pathOf, thinned, valueAt } from './line.ts';
import { makeScale } from './scale.ts';

test('a path moves to its first point and draws to the others; one of no point is nothing', () => {
  expect(pathOf([])).toBe('');
  expect(pathOf([[1, 2]])).toBe('M1.0,2.0');
  expect(
    pathOf([
      [0, 5],
      [1.46, 7.24],
      [-2.06, 0],
    ]),
  ).toBe('M0.0,5.0L1.5,7.2L-2.1,0.0');
});

test('a line that is short enough keeps every point', () => {
  expect(thinned([], 4)).toEqual([]);
  expect(thinned([3], 4)).toEqual([0]);
  expect(thinned([3, 1, 2, 9], 4)).toEqual([0, 1, 2, 3]);
});

test('of a longer line each stretch keeps its lowest and highest point, and the line its ends', () => {
  // two stretches of five: 7 at 1 and −3 at 3, 8 at 6 and −9 at 8
  expect(thinned([0, 7, 1, -3, 2, 1, 8, 0, -9, 1], 4)).toEqual([0, 1, 3, 6, 8, 9]);
  // stretches from 0, 2 and 4 of 7; of equal values the first
  expect(thinned([5, 5, 4, 6, 2, 2, 2], 6)).toEqual([0, 2, 3, 4, 6]);
  // indices of two figures stand in order of their size
  const rising = Array.from({ length: 120 }, (_, i) => i);
  expect(thinned(rising, 8)).toEqual([0, 29, 30, 59, 60, 89, 90, 119]);
});

test('a line is drawn within the domain of its axis, both ends of it counted', () => {
  const sx = makeScale([10, 30], [0, 200], false);
  const sy = makeScale([0, 10], [100, 0], false);
  const line = { x: [9, 10, 20, 30, 31], y: [1, 2, 3, 4, 5] };
  expect(linePath(line, sx, sy, 100)).toBe('M0.0,80.0L100.0,70.0L200.0,60.0');
  expect(linePath({ ...line, style: 'points' }, sx, sy, 100)).toBe('M0.0,80.0h0M100.0,70.0h0M200.0,60.0h0');
  expect(linePath({ ...line, style: 'left' }, sx, sy, 100)).toBe('M0.0,80.0L100.0,70.0L200.0,60.0');
  expect(linePath({ x: [], y: [] }, sx, sy, 100)).toBe('');
  // thinned to its ends and the one high point between
  expect(linePath({ x: [10, 15, 20, 25, 30], y: [0, 1, 9, 1, 0] }, sx, sy, 2)).toBe(
    'M0.0,100.0L100.0,10.0L200.0,100.0',
  );
});

test('the value of a line is that of its nearest place, none where it does not reach', () => {
  const line = { x: [10, 20, 40], y: [1, 2, 4] };
  for (const [at, value] of [
    [9.99, null],
    [10, 1],
    [14, 1],
    [16, 2],
    [29, 2],
    [31, 4],
    [40, 4],
    [40.01, null],
  ] as const) {
    expect(valueAt(line, at), `${at}`).toBe(value);
  }
  expect(valueAt({ x: [], y: [] }, 1)).toBeNull();
  expect(valueAt({ x: [5], y: [7] }, 5)).toBe(7);
});
