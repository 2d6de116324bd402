import { expect, test } from 'vitest';
import { makeScale, nearest, spanOf, tickText, widened } from './scale.ts';

const ticks = (low: number, high: number, count: number, log = false) =>
  makeScale([low, high], [0, 1], log).ticks(count);

test('the step of the ticks is 1, 2, 5 or 10 times a power of ten, the nearest by ratio', () => {
  // bounds between two steps are their geometric means: √2, √10, √50
  for (const [span, step] of [
    [1.0, 1],
    [1.41, 1],
    [1.42, 2],
    [3.16, 2],
    [3.17, 5],
    [7.07, 5],
    [7.08, 10],
    [9.99, 10],
  ] as const) {
    for (const power of [-3, -2, -1, 0, 1, 2, 4]) {
      const found = ticks(0, span * 10 * 10 ** power, 10);
      expect(found[0]).toBe(0);
      expect(found[1] / (step * 10 ** power), `${span} ${power}`).toBeCloseTo(1, 12);
      expect(found).toHaveLength(Math.floor((span * 10) / step + 1e-9) + 1);
      expect(
        ticks(-span * 10 * 10 ** power, 0, 10)
          .map((tick) => -tick + 0)
          .reverse(),
      ).toEqual(found);
    }
  }
});

test('a tick at the end of the domain is there, one just outside it is not', () => {
  expect(ticks(1, 3, 2)).toEqual([1, 2, 3]);
  expect(ticks(1.001, 2.999, 2)).toEqual([2]);
  expect(ticks(0.1, 0.3, 2)).toEqual([0.1, 0.2, 0.3]);
  expect(ticks(0.1001, 0.2999, 2)).toEqual([0.2]);
  expect(makeScale([3, 1], [0, 1], false).ticks(2)).toEqual([1, 2, 3]);
  expect(ticks(20, 60, 4)).toEqual([20, 30, 40, 50, 60]);
});

test('on a logarithmic axis 1, 2 and 5 of each decade, whole decades alone where those are too many', () => {
  expect(ticks(0.001, 0.02, 9, true)).toEqual([0.001, 0.002, 0.005, 0.01, 0.02]);
  expect(ticks(3, 40, 9, true)).toEqual([5, 10, 20]);
  expect(ticks(0.05, 20, 9, true)).toEqual([0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 20]);
  // ends that are a thousandth away still count, others do not
  expect(ticks(1.0005, 9.99, 9, true)).toEqual([1, 2, 5]);
  expect(ticks(1.002, 9.995, 9, true)).toEqual([2, 5]);
  expect(ticks(1.002, 10.001, 9, true)).toEqual([2, 5, 10]);
  // nine of them stand beside a count of five, ten do not
  expect(ticks(1, 500, 5, true)).toEqual([1, 2, 5, 10, 20, 50, 100, 200, 500]);
  expect(ticks(1, 1000, 5, true)).toEqual([1, 10, 100, 1000]);
  expect(ticks(0.02, 30, 5, true)).toEqual([0.1, 1, 10]);
  expect(makeScale([500, 1], [0, 1], true).ticks(5)).toHaveLength(9);
});

test('a scale goes through both ends of its range, with its domain told as given', () => {
  const scale = makeScale([2, 6], [10, 30], false);
  expect([scale(2), scale(4), scale(6), scale(7)]).toEqual([10, 20, 30, 35]);
  expect([scale.invert(10), scale.invert(20), scale.invert(35)]).toEqual([2, 4, 7]);
  expect(scale.domain).toEqual([2, 6]);
  const log = makeScale([1, 100], [0, 20], true);
  expect(log(10)).toBeCloseTo(10, 12);
  expect(log.invert(10)).toBeCloseTo(10, 12);
  expect(makeScale([-1, 3], [0, 4], false)(0)).toBe(1);
});

test('a domain without two different numbers is refused, and one not above 0 on a logarithmic axis', () => {
  const refused = (from: number, to: number, log: boolean): string => {
    try {
      makeScale([from, to], [0, 1], log);
      return 'taken';
    } catch (e) {
      return (e as Error).message;
    }
  };
  expect(refused(1, 1, false)).toBe('a scale from 1 to 1: two different numbers were expected');
  expect(refused(1, Number.POSITIVE_INFINITY, false)).toContain('Infinity');
  expect(refused(Number.NEGATIVE_INFINITY, 1, false)).toContain('-Infinity');
  expect(refused(0, 1, true)).toBe('a scale from 0 to 1: two different numbers above 0 were expected');
  expect(refused(1, 0, true)).toBe('a scale from 1 to 0: two different numbers above 0 were expected');
  expect(refused(-2, -1, true)).toContain('above 0');
  expect(refused(-2, 0, false)).toBe('taken');
});

test('room is a share of the span; a span of nothing has a tenth of its value, or one', () => {
  expect(widened([2, 4], 0.25)).toEqual([1.5, 4.5]);
  expect(widened([50, 50], 0.25)).toEqual([45, 55]);
  expect(widened([-50, -50], 0.25)).toEqual([-55, -45]);
  expect(widened([0, 0], 0.25)).toEqual([-1e-6, 1e-6]);
  expect(widened([2, 4], 0)).toEqual([1.6, 4.4]);
});

test('the span of many lines, of one value, and of none', () => {
  expect(spanOf([[4, 2, 3], [], [-1, 9]])).toEqual([-1, 9]);
  expect(spanOf([[5]])).toEqual([5, 5]);
  expect(spanOf([])).toBeNull();
});

test('ticks in words: thousands from 1000 on, four figures', () => {
  expect([999, 1000, -1000, 1500, 12_345, 0, -0.5, 0.30000000004, 999.96].map(tickText)).toEqual([
    '999',
    '1k',
    '−1k',
    '1.5k',
    '12.35k',
    '0',
    '−0.5',
    '0.3',
    '1000',
  ]);
});

test('the nearest of ascending values, the lower one half way, against a plain search', () => {
  const values = [-3, 0, 1, 4, 10, 11];
  for (let wanted = -5; wanted <= 13; wanted += 0.25) {
    const distances = values.map((value) => Math.abs(value - wanted));
    expect(nearest(values, wanted), `${wanted}`).toBe(distances.indexOf(Math.min(...distances)));
  }
  expect([nearest([], 3), nearest([7], 3), nearest([7], 9)]).toEqual([0, 0, 0]);
});
