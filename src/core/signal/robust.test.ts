import { describe, expect, it } from 'vitest';
import { coverageFactor, median, quantile } from './robust.ts';

describe('robust statistics', () => {
  it('median and quantiles', () => {
    expect(median([])).toBe(0);
    expect(median([3, 1, 2])).toBe(2);
    expect(median([4, 1, 2, 1e9])).toBe(3);
    expect(quantile([0, 1, 2, 3, 4], 0.25)).toBe(1);
    expect(quantile([0, 10], 0.95)).toBeCloseTo(9.5, 12);
    expect(quantile([], 0.5)).toBe(0);
    expect(() => quantile([1], Number.NaN)).toThrow(RangeError);
  });

  it('coverage factor for 95.45 %: 13.97, 4.53, 3.31, 2.87, 2.65 … 2.28, 2.13, 2.05, 2 (JCGM 100 table G.2, from memory)', () => {
    const table: readonly (readonly [number, number])[] = [
      [1, 13.97],
      [2, 4.53],
      [3, 3.31],
      [4, 2.87],
      [5, 2.65],
      [6, 2.52],
      [8, 2.37],
      [10, 2.28],
      [20, 2.13],
      [50, 2.05],
    ];
    for (const [v, t] of table) expect(Math.abs(coverageFactor(v) - t)).toBeLessThan(0.006);
    expect(coverageFactor(Infinity)).toBe(2);
    expect(coverageFactor(0.5)).toBe(13.97);
    expect(() => coverageFactor(Number.NaN)).toThrow(RangeError);
  });
});
