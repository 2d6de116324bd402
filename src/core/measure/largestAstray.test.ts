import { expect, it } from 'vitest';
import { gaussian } from '../signal/gaussian.fixture.ts';
import { inverseNormal } from '../signal/inverseNormal.ts';
import { statement } from '../words/statement.ts';
import { excessNote, largestAstray } from './largestAstray.ts';

const POINTS = 200;
const all = Array.from({ length: POINTS }, (_, i) => i);

/** Noise of one size at every point below the tenth part, a twentieth of it above; a mean of three, as a response is smoothed. */
function read(truth: (at: number) => number, seed: number) {
  const gauss = gaussian(seed);
  const spread = all.map((i) => (i < POINTS / 4 ? 0.2 : 0.02));
  const noise = spread.map((s) => s * gauss());
  const values = all.map((i) => {
    const near = noise.slice(Math.max(0, i - 1), i + 2);
    return truth(i) + near.reduce((a, b) => a + b, 0) / near.length;
  });
  return { values, spread };
}

it.each([
  ['flat', () => 0],
  ['a fall at the quiet end', (i: number) => -1.5 * Math.exp(-(POINTS - i) / 10)],
  ['a rise at the noisy end', (i: number) => Math.exp(-i / 8)],
  ['a slope all along', (i: number) => 0.004 * (i - 100)],
])('%s: the true largest value lies within what is said', (name, truth) => {
  const largest = Math.max(...all.map((i) => Math.abs(truth(i))));
  let inside = 0;
  let bias = 0;
  let plain = 0;
  const DRAWS = 120;
  for (let seed = 1; seed <= DRAWS; seed++) {
    const { values, spread } = read(truth, 700 + seed);
    const { most, size, excess } = largestAstray(values, spread, all, 3);
    inside += Math.abs(size - largest) <= Math.hypot(2 * spread[most], 0.04, excess) ? 1 : 0;
    bias += (size - largest) / DRAWS;
    plain += (Math.abs(values[most]) - largest) / DRAWS;
  }
  console.log(
    `${name}: inside ${((100 * inside) / DRAWS).toFixed(1)} %, bias ${bias.toFixed(3)}, uncorrected ${plain.toFixed(3)} dB`,
  );
  expect(inside / DRAWS).toBeGreaterThan(0.88);
  // a size has no negative: of a flat response some of it stays
  expect(Math.abs(bias)).toBeLessThan(0.75 * Math.abs(plain) + 0.02);
});

it('takes nothing off where there is no noise', () => {
  expect(largestAstray([0.1, -2, 1], [0, 0, 0], [0, 1, 2], 3)).toEqual({ most: 1, size: 2, excess: 0 });
});

it('what noise adds is the mean over 48 even draws of the largest with noise on top, averaged as the points are', () => {
  const golden = 2 / (1 + Math.sqrt(5));
  const silver = Math.tan(Math.PI / 8);
  const values = [0.3, -0.9, 0.2, 0.5, -0.8, 0.1];
  const spreads = [0.3, 0.1, 0.5, 0.2, 0.4, 0.6];
  for (const [indices, averaged] of [
    [[0, 1, 2, 3, 4, 5], 3],
    [[1, 2, 3, 4], 5],
    [[0, 3, 4], 1],
    [[2], 3],
  ] as const) {
    let sum = 0;
    for (let draw = 1; draw <= 48; draw++) {
      const noise = indices.map((i, at) => {
        const turn = draw * golden + (at + 1) * silver + (draw - 1) * at * golden * silver;
        return spreads[i] * inverseNormal(0.001 + 0.998 * (turn - Math.floor(turn)));
      });
      const reach = (averaged - 1) / 2;
      const sizes = indices.map((i, at) => {
        const near = noise.filter((_, k) => Math.abs(k - at) <= reach);
        return Math.abs(values[i] + near.reduce((a, b) => a + b, 0) / near.length);
      });
      sum += Math.max(...sizes);
    }
    const most = indices.reduce<number>((a, b) => (Math.abs(values[b]) > Math.abs(values[a]) ? b : a), indices[0]);
    const size = Math.abs(values[most]);
    const excess = Math.min(size, Math.max(0, sum / 48 - size));
    const of = largestAstray(values, spreads, indices, averaged);
    expect(of.most).toBe(most);
    expect(of.excess).toBeCloseTo(excess, 12);
    expect(of.size).toBeCloseTo(size - excess, 12);
  }
});

it('of values that are nothing but noise all is taken off, and of two alike the first is named', () => {
  expect(largestAstray([0.01, 0.01], [1, 1], [0, 1], 1)).toEqual({ most: 0, size: 0, excess: 0.01 });
  expect(largestAstray([0.5, -0.5], [0, 0], [0, 1], 1)).toEqual({ most: 0, size: 0.5, excess: 0 });
});

it('less than 0.05 dB of noise’s own is not worth a word', () => {
  expect(excessNote(0.0499)).toEqual([]);
  expect(excessNote(0.05)).toEqual([statement('excess-of-noise', { db: 0.05 })]);
});
