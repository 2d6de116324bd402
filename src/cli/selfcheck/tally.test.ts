import { describe, expect, it } from 'vitest';
import { dice, normal } from './randomDeck.ts';
import { Tally } from './tally.ts';

/** Normal errors of standard deviation 1 under a stated k = 2. */
function tallied(n: number, uncertainty: number): Tally {
  const tally = new Tally();
  const gauss = normal(dice(7));
  for (let i = 0; i < n; i++) tally.add(gauss(1), uncertainty, 0);
  return tally;
}

it.each([
  [40, 6],
  [200, 4],
])('%i captures: an honest uncertainty passes, half of it does not, nor one of k = %i', (n, wide) => {
  expect(tallied(n, 2).objection).toBeNull();
  expect(tallied(n, 1).objection).toMatch('too narrow');
  expect(tallied(n, wide).objection).toMatch('too wide');
});

describe('what is told of errors', () => {
  /** errors −1, 3, 0.5, −2.5 about a truth of 10 */
  function four(): Tally {
    const tally = new Tally();
    tally.add(9, 1, 10);
    tally.add(13, 2, 10);
    tally.add(10.5, 4, 10);
    tally.add(7.5, 3, 10);
    return tally;
  }

  it('is counted, what is no figure or has no ± apart', () => {
    const tally = four();
    tally.add(undefined, 1, 10);
    tally.add('in-phase', 1, 10);
    tally.add(10, null, 10);
    tally.add(10, undefined, 10);
    expect([tally.count, tally.withheld]).toEqual([4, 4]);
    expect(new Tally().withheld).toBe(0);
  });

  it('is their mean, their spread about it, the largest and the middle ±', () => {
    const tally = four();
    expect(tally.bias).toBe(0);
    expect(tally.spread).toBeCloseTo(Math.sqrt((1 + 9 + 0.25 + 6.25) / 4), 12);
    expect(tally.largest).toBe(3);
    // of 1, 2, 3, 4 the upper of the two in the middle
    expect(tally.uncertainty).toBe(3);
    const shifted = new Tally();
    shifted.add(11, 9, 10);
    shifted.add(14, 10, 10);
    shifted.add(8, 2, 10);
    expect([shifted.bias, shifted.uncertainty]).toEqual([1, 9]);
    expect(shifted.spread).toBeCloseTo(Math.sqrt((0 + 9 + 9) / 3), 12);
  });

  it('is how often the ± holds, its very edge among it, and how large errors are over standard uncertainties', () => {
    const tally = four();
    expect(tally.coverage).toBe(75);
    expect(tally.normalised).toBeCloseTo(Math.sqrt((2 ** 2 + 3 ** 2 + 0.25 ** 2 + (5 / 3) ** 2) / 4), 12);
  });

  it('is one line for a test’s output', () => {
    expect(four().line('speed-error', '%')).toBe(
      'speed-error                    n 4, withheld 0; bias 0.0, spread 2.0, largest 3.0 %; ± 3.0 (middle); inside k = 2: 75.0 %; error/u rms 1.99',
    );
  });
});

/** Of 40 captures: so many inside k = 1, so many between k = 1 and k = 2, the others beyond. */
function counted(inside: number, between: number, beyond: number): Tally {
  const tally = new Tally();
  for (let i = 0; i < inside; i++) tally.add(1, 2, 0);
  for (let i = 0; i < between; i++) tally.add(2, 2, 0);
  for (let i = 0; i < beyond; i++) tally.add(2.01, 2, 0);
  return tally;
}

it('objects where the count would come of an honest ± less often than one time in 200, by the binomial distribution', () => {
  const atMost = (k: number, n: number, p: number): number => {
    let sum = 0;
    for (let i = 0; i <= k; i++) {
      let term = p ** i * (1 - p) ** (n - i);
      for (let j = 1; j <= i; j++) term *= (n - i + j) / j;
      sum += term;
    }
    return sum;
  };
  for (let beyond = 0; beyond <= 40; beyond++) {
    const expected = atMost(40 - beyond, 40, 0.9) < 0.005 ? `too narrow: ${40 - beyond} of 40 inside k = 2` : null;
    expect(counted(32 - Math.max(0, beyond - 8), 8 - Math.min(8, beyond), beyond).objection).toBe(expected);
  }
  for (let outside = 0; outside <= 8; outside++) {
    const expected = atMost(outside, 40, 0.198) < 0.005 ? `too wide: ${40 - outside} of 40 inside k = 1` : null;
    expect(counted(40 - outside, outside, 0).objection).toBe(expected);
  }
});
