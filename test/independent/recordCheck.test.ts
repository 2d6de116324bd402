/**
 * Which entry contradicts the rest, by another way: every choice of entries that may be wrong is tried, the rest is fitted by its least-squares mean, and the
 * smallest choice that leaves the rest in agreement is the answer. The product goes by medians of the others; both must name the same entry,
 * and a true entry never.
 */
import { expect, it } from 'vitest';
import { oddEntries } from '../../src/core/measure/recordCheck.ts';
import { draws } from './draw.ts';

const ALIKE = 1;
const SIGMA = 0.2;

/** Places of the wrong entries; null where several choices of one size do, or none. */
function byTrial(values: readonly number[]): number[] | null {
  const n = values.length;
  for (let wrong = 0; wrong <= Math.floor((n - 1) / 2); wrong++) {
    const fits: number[][] = [];
    for (let mask = 0; mask < 1 << n; mask++) {
      const out = values.flatMap((_, i) => ((mask >> i) & 1 ? [i] : []));
      if (out.length !== wrong || n - wrong < 2) continue;
      const rest = values.filter((_, i) => !out.includes(i));
      const mean = rest.reduce((a, b) => a + b, 0) / rest.length;
      if (rest.every((v) => Math.abs(v - mean) <= ALIKE)) fits.push(out);
    }
    if (fits.length === 1) return fits[0];
    if (fits.length > 1) return null;
  }
  return null;
}

it('names what trying every choice names, over 4000 record files', () => {
  let [same, plain] = [0, 0];
  for (let seed = 1; seed <= 4000; seed++) {
    const draw = draws(seed);
    const n = 3 + Math.floor(draw(0, 5.99));
    const values = Array.from({ length: n }, () => SIGMA * (draw(-1, 1) + draw(-1, 1) + draw(-1, 1)));
    const wrong = n >= 5 ? Math.floor(draw(0, 2.99)) : Math.floor(draw(0, 1.99));
    const places = Array.from({ length: wrong }, () => Math.floor(draw(0, n - 0.01)));
    for (const place of places) values[place] += (draw(-1, 1) > 0 ? 1 : -1) * draw(2.4, 9);
    const named = oddEntries(
      values.map((value, i) => ({ i, value, spread: 0.02 })),
      ALIKE,
      ALIKE,
    ).map(({ entry }) => entry.i);
    // never a true one
    for (const i of named) expect(places, `seed ${seed}`).toContain(i);
    const tried = byTrial(values);
    if (tried === null) continue;
    plain += 1;
    if (named.join() === tried.join()) same += 1;
  }
  console.log(`record check: ${same} of ${plain} as by trying every choice`);
  expect(plain).toBeGreaterThan(3500);
  expect(same / plain).toBeGreaterThan(0.97);
});
