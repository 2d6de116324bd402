import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { median, quantile } from './robust.ts';

const SEED = 20_250_101;

describe('median and quantile', () => {
  // few different values, so that draws are common; long enough for the sampled pivots
  const values = fc.oneof(
    fc.array(fc.double({ noNaN: true, min: -1e6, max: 1e6 }), { minLength: 1, maxLength: 60 }),
    fc.array(fc.integer({ min: 0, max: 9 }), { minLength: 1, maxLength: 60 }),
    fc
      .tuple(fc.integer({ min: 600, max: 3000 }), fc.integer({ min: 1, max: 1_000_003 }), fc.boolean())
      .map(([n, step, draws]) => Array.from({ length: n }, (_, i) => (i * step) % (draws ? 7 : 10_007))),
  );

  it(`are what sorting gives (seed ${SEED})`, () => {
    fc.assert(
      fc.property(values, fc.double({ noNaN: true, min: 0, max: 1 }), (list, q) => {
        const sorted = [...list].sort((a, b) => a - b);
        const at = q * (list.length - 1);
        const low = Math.floor(at);
        const high = Math.min(list.length - 1, low + 1);
        expect(quantile(list, q)).toBeCloseTo(sorted[low] + (at - low) * (sorted[high] - sorted[low]), 9);
        const half = list.length >> 1;
        expect(median(list)).toBe(list.length % 2 === 1 ? sorted[half] : (sorted[half - 1] + sorted[half]) / 2);
      }),
      { seed: SEED, numRuns: 300 },
    );
  });

  it('leave the values alone, and give 0 of nothing', () => {
    const list = Float64Array.of(3, 1, 2);
    expect(median(list)).toBe(2);
    expect([...list]).toEqual([3, 1, 2]);
    expect(median([])).toBe(0);
    expect(quantile([], 0.5)).toBe(0);
    expect(() => quantile(list, Number.NaN)).toThrow('q NaN');
  });
});
