/**
 * The largest of many noisy values is too large by what noise adds to whichever value leads: a flat response read with 0.2 dB of noise at a hundred
 * points strays by 0.5 dB somewhere. What it adds is found by adding as much noise once more,
 *
 *   excess = mean of max |x + e| − max |x|,   e normal, each point's own spread, averaged as the points are
 *
 * and is taken off; all of it stays in the uncertainty, for the second time noise is added it adds a little less or more than the first.
 * The draws are the same every time: an even sequence (golden ratio), point by point.
 *
 * @checked largestAstray.test.ts
 */
import { inverseNormal } from '../signal/inverseNormal.ts';
import { type Statement, statement } from '../words/statement.ts';

export interface Astray {
  /** index of the value that strays most as heard */
  readonly most: number;
  /** its size, what noise adds taken off; not below 0 */
  readonly size: number;
  /** what noise adds */
  readonly excess: number;
}

const DRAWS = 48;
const GOLDEN = (Math.sqrt(5) - 1) / 2;
const SILVER = Math.SQRT2 - 1;

/** @param indices of the points looked at, neighbours side by side @param averaged points that each value is a mean of */
export function largestAstray(
  values: readonly number[],
  spreads: readonly number[],
  indices: readonly number[],
  averaged: number,
): Astray {
  const most = indices.reduce((best, i) => (Math.abs(values[i]) > Math.abs(values[best]) ? i : best));
  const half = Math.floor(averaged / 2);
  let sum = 0;
  const noise = new Float64Array(indices.length);
  for (let draw = 0; draw < DRAWS; draw++) {
    for (let at = 0; at < noise.length; at++) {
      // two irrational steps: neither points nor draws repeat one another
      const even = (((draw + 1) * GOLDEN + (at + 1) * SILVER + draw * at * GOLDEN * SILVER) % 1) * 0.998 + 0.001;
      noise[at] = spreads[indices[at]] * inverseNormal(even);
    }
    let largest = 0;
    for (let at = 0; at < noise.length; at++) {
      const from = Math.max(0, at - half);
      const to = Math.min(noise.length - 1, at + half);
      let near = 0;
      for (let k = from; k <= to; k++) near += noise[k];
      largest = Math.max(largest, Math.abs(values[indices[at]] + near / (to - from + 1)));
    }
    sum += largest;
  }
  const size = Math.abs(values[most]);
  const excess = Math.min(size, Math.max(0, sum / DRAWS - size));
  return { most, size: size - excess, excess };
}

/** dB: less is not worth a word */
const WORTH_SAYING_DB = 0.05;

export const excessNote = (excess: number): Statement[] =>
  excess < WORTH_SAYING_DB ? [] : [statement('excess-of-noise', { db: excess })];
