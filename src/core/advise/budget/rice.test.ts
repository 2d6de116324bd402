import { expect, it } from 'vitest';
import { inverseNormal } from '../../signal/inverseNormal.ts';
import { normalDraws } from './normalDraws.ts';
import { riceBelow, sizeInterval } from './rice.ts';

/** Uniform numbers from a seed. */
function uniform(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x9e3779b9) >>> 0;
    let z = state;
    z = Math.imul(z ^ (z >>> 16), 0x85ebca6b);
    z = Math.imul(z ^ (z >>> 13), 0xc2b2ae35);
    return (((z ^ (z >>> 16)) >>> 0) + 0.5) / 2 ** 32;
  };
}

it('without a size of its own it is Rayleigh’s distribution', () => {
  for (const x of [0.3, 1, 2.5]) expect(riceBelow(x, 0, 1)).toBeCloseTo(1 - Math.exp((-x * x) / 2), 9);
});

it('agrees with simulated sizes, near and far (seed 5)', () => {
  const draw = uniform(5);
  for (const v of [0.5, 2, 6, 15]) {
    const sizes = Array.from({ length: 20_000 }, () => Math.hypot(v + inverseNormal(draw()), inverseNormal(draw())));
    for (const x of [v - 1, v, v + 0.7]) {
      const share = sizes.filter((s) => s <= x).length / sizes.length;
      expect(riceBelow(x, v, 1)).toBeCloseTo(share, 1.7);
    }
  }
});

it('holds the true size in 95 % whatever it is, and is open below where nothing bounds it (seed 6)', () => {
  const draw = uniform(6);
  for (const v of [0, 0.5, 1, 2, 4, 20]) {
    let inside = 0;
    const runs = 1500;
    for (let i = 0; i < runs; i++) {
      const r = Math.hypot(v + inverseNormal(draw()), inverseNormal(draw()));
      const { low, high } = sizeInterval(r, 1);
      if (low <= v && v <= high) inside += 1;
    }
    // no leak at all cannot be missed below: only the upper end can fail
    expect(inside / runs, `size ${v}`).toBeGreaterThan(0.935);
    expect(inside / runs, `size ${v}`).toBeLessThan(0.99);
  }
  expect(sizeInterval(1, 1).low).toBe(0);
  // a reading far under what no leak at all usually gives bounds it no closer than the usual one does
  expect(sizeInterval(0.01, 1)).toEqual(sizeInterval(Math.sqrt(2 * Math.LN2), 1));
  expect(sizeInterval(0.01, 1).high).toBeGreaterThan(1.96);
  // Rayleigh passes 2.716 in 2.5 %
  expect(sizeInterval(2.8, 1).low).toBeGreaterThan(0);
});

it('the draws are normal, uncorrelated and the same every time', () => {
  const draws = normalDraws(160);
  expect(draws).toBe(normalDraws(160));
  for (let i = 0; i < 4; i++) {
    for (let j = 0; j <= i; j++) {
      const product = draws.reduce((sum, d) => sum + d[i] * d[j], 0) / draws.length;
      expect(Math.abs(product - (i === j ? 1 : 0))).toBeLessThan(1e-9);
    }
    const beyond = draws.filter((d) => Math.abs(d[i]) > 1.96).length / draws.length;
    expect(beyond).toBeGreaterThan(0.02);
    expect(beyond).toBeLessThan(0.08);
  }
  // tables of the normal distribution
  expect(inverseNormal(0.975)).toBeCloseTo(1.959964, 5);
  expect(inverseNormal(0.001)).toBeCloseTo(-3.090232, 5);
});
