import { describe, expect, it } from 'vitest';
import { normalDraws } from './normalDraws.ts';
import { riceBelow, sizeInterval } from './rice.ts';

/** Rice's density, I₀ by its integral: x e^{−(x² + v²)/2} I₀(x v), summed by the trapezium. */
function byIntegral(r: number, v: number): number {
  const bessel = (x: number) => {
    const n = 200;
    let sum = 0;
    for (let i = 0; i < n; i++) sum += Math.exp(x * (Math.cos((2 * Math.PI * (i + 0.5)) / n) - 1));
    return sum / n;
  };
  const density = (x: number) => x * Math.exp(-((x - v) ** 2) / 2) * bessel(x * v);
  const n = 600;
  let sum = 0;
  for (let i = 0; i < n; i++) sum += density((r * (i + 0.5)) / n);
  return (sum * r) / n;
}

describe('a size with something of unknown phase on it', () => {
  it.each([0.2, 1, 3, 7, 11.9])('of %d spreads, against the integral of its density', (v) => {
    for (const r of [0.5, 1, v, v + 1, v + 2.5]) {
      expect(riceBelow(r, v, 1)).toBeCloseTo(byIntegral(r, v), 4);
      // in any unit
      expect(riceBelow(0.003 * r, 0.003 * v, 0.003)).toBeCloseTo(riceBelow(r, v, 1), 9);
    }
  });

  it('far off it is as good as normal, and joins what lies nearer', () => {
    // tables of the normal distribution about the mean size, √(v² + 1)
    for (const v of [12.1, 40]) {
      const mean = Math.hypot(v, 1);
      for (const [z, p] of [
        [-1.959964, 0.025],
        [-1, 0.1586553],
        [0, 0.5],
        [1, 0.8413447],
        [1.959964, 0.975],
      ]) {
        expect(riceBelow(mean + z, v, 1)).toBeCloseTo(p, 5);
      }
    }
    for (const r of [10, 12, 13.5])
      expect(Math.abs(riceBelow(r, 12.001, 1) - riceBelow(r, 11.999, 1))).toBeLessThan(2e-3);
    // a size beyond 24 spreads of a leak that may be none
    expect(riceBelow(24.1, 5, 1)).toBe(1);
    expect(riceBelow(30, 0, 1)).toBe(1);
  });

  it('nothing is heard under 0; odd sizes are refused', () => {
    for (const r of [0, -1, Number.NaN]) expect(riceBelow(r, 1, 1)).toBe(0);
    expect(riceBelow(1, 0, 1)).toBeCloseTo(1 - Math.exp(-0.5), 12);
    for (const [v, sigma] of [
      [-0.1, 1],
      [1, 0],
      [1, -1],
      [Number.NaN, 1],
    ]) {
      expect(() => riceBelow(1, v, sigma)).toThrow(`size ${v} and spread ${sigma}`);
    }
  });
});

describe('the interval of the true size', () => {
  it.each([0.5, 1.5, 2.7, 2.72, 4, 9, 30])(
    'heard as %d spreads: each end is where the reading is just that unlikely',
    (r) => {
      const { low, high } = sizeInterval(r, 1);
      const heard = Math.max(r, Math.sqrt(2 * Math.LN2));
      expect(riceBelow(heard, high, 1)).toBeCloseTo(0.025, 5);
      // Rayleigh's 97.5 % point is √(−2 ln 0.025) = 2.7162
      if (r > 2.7162) expect(riceBelow(r, low, 1)).toBeCloseTo(0.975, 5);
      else expect(low).toBe(0);
      expect(low).toBeLessThan(r);
      expect(high).toBeGreaterThan(r);
      const scaled = sizeInterval(0.01 * r, 0.01);
      expect(scaled.low).toBeCloseTo(0.01 * low, 9);
      expect(scaled.high).toBeCloseTo(0.01 * high, 9);
    },
  );

  it('without any doubt it is the size itself', () => {
    for (const sigma of [0, Number.NaN]) expect(sizeInterval(0.3, sigma)).toEqual({ low: 0.3, high: 0.3 });
  });

  it('far off it is ± 1.96 spreads about the size', () => {
    const { low, high } = sizeInterval(100, 1);
    expect(low).toBeCloseTo(100 - 1.96, 1);
    expect(high).toBeCloseTo(100 + 1.96, 1);
  });
});

describe('draws that are the same every time', () => {
  it.each([10, 160])(
    '%d of them fill each column evenly: each of as many equal slices of the distribution about once',
    (count) => {
      const draws = normalDraws(count);
      expect(draws).toHaveLength(count);
      for (let j = 0; j < 4; j++) {
        const column = draws.map((one) => one[j]);
        const sum = (of: (v: number, i: number) => number) => column.reduce((total, v, i) => total + of(v, i), 0);
        expect(sum((v) => v) / count).toBeCloseTo(0, 9);
        expect(sum((v) => v * v) / count).toBeCloseTo(1, 9);
        for (let k = 0; k < j; k++) expect(sum((v, i) => v * draws[i][k]) / count).toBeCloseTo(0, 9);
        // none twice, and as many above the middle as under it, nearly
        expect(new Set(column).size).toBe(count);
        expect(Math.abs(column.filter((v) => v > 0).length - count / 2)).toBeLessThanOrEqual(Math.max(2, 0.06 * count));
      }
    },
  );

  it('the first column is the golden ratio’s kin through the inverse normal, put right', () => {
    // root of x⁵ = x + 1
    let root = 1.1;
    for (let i = 0; i < 100; i++) root = (root + 1) ** 0.2;
    const places = Array.from({ length: 160 }, (_, i) => (0.5 + (i + 1) / root) % 1);
    const order = places.map((_, i) => i).sort((a, b) => places[a] - places[b]);
    const first = order.map((i) => normalDraws(160)[i][0]);
    expect(first).toEqual(first.toSorted((a, b) => a - b));
  });
});
