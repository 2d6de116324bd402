import { expect, it } from 'vitest';
import { gaussian } from '../signal/gaussian.fixture.ts';
import { largestAstray } from './largestAstray.ts';

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
