import { describe, expect, test } from 'vitest';
import { countInterval } from './countInterval.ts';

describe('the interval of a count', () => {
  // limits for a Poisson mean at 95 %, as tables of Garwood's limits print them; written from memory
  test.each([
    [0, 0, 3.689],
    [1, 0.0253, 5.572],
    [3, 0.619, 8.767],
    [10, 4.795, 18.39],
    [50, 37.11, 65.92],
    [100, 81.36, 121.63],
  ])('%i counted: %d to %d', (count, low, high) => {
    const found = countInterval(count);
    expect(found.low).toBeCloseTo(low, low < 1 ? 3 : 2);
    expect(Math.abs(found.high - high)).toBeLessThanOrEqual(0.006);
  });

  test('holds the count, never goes under 0, and nears ± 2 √n for many', () => {
    for (const count of [0, 1, 2, 7, 500, 20_000]) {
      const { low, high } = countInterval(count);
      expect(low).toBeGreaterThanOrEqual(0);
      expect(low <= count && count < high).toBe(true);
    }
    const { low, high } = countInterval(20_000);
    expect((high - low) / 2 / (1.96 * Math.sqrt(20_000))).toBeCloseTo(1, 2);
  });

  test('what is no count is refused by name', () => {
    for (const count of [-1, 0.5, Number.NaN, 2e6]) expect(() => countInterval(count)).toThrow(/^count /);
  });
});
