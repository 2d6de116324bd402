/** SciPy's recorded outputs, and how ours are held against them. See checks/scipy/README.md. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

export interface Recorded {
  readonly scipy: string;
  /** signal mathematics */
  readonly results: Readonly<Record<string, readonly number[]>>;
  /** the virtual deck's filters */
  readonly deck: Readonly<Record<string, readonly number[]>>;
}

export const folder = new URL('../../checks/scipy/', import.meta.url);
export const recorded = JSON.parse(readFileSync(new URL('recorded.json', folder), 'utf8')) as Recorded;

export interface Comparison {
  readonly ours: () => ArrayLike<number>;
  readonly unit: string;
  /** largest difference, in `unit` */
  readonly within: number;
}

/** The generator of record.py. */
export function uniform(count: number, seed: number): Float64Array {
  let state = seed >>> 0;
  return Float64Array.from({ length: count }, () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 31 - 1;
  });
}

/** The taps of SciPy's firwin(31, 0.2): a sinc under a Hamming window, sum 1. */
export function hammingTaps(): Float64Array {
  const taps = Float64Array.from({ length: 31 }, (_, n) => {
    const x = 0.2 * (n - 15) * Math.PI;
    return (0.54 - 0.46 * Math.cos((2 * Math.PI * n) / 30)) * (x === 0 ? 1 : Math.sin(x) / x);
  });
  const sum = taps.reduce((a, b) => a + b);
  return taps.map((tap) => tap / sum);
}

/** Largest difference; infinite where the lengths differ. */
export const apart = (a: ArrayLike<number>, b: ArrayLike<number>): number => {
  if (a.length !== b.length) return Number.POSITIVE_INFINITY;
  return Array.from(a).reduce((most, value, i) => Math.max(most, Math.abs(value - b[i]!)), 0);
};

/** One test an entry, and one that none was left out on either side. */
export function compareAll(part: 'results' | 'deck', comparisons: Readonly<Record<string, Comparison>>): void {
  describe('against SciPy, as recorded', () => {
    it('every recorded entry has a comparison, and every comparison an entry', () => {
      expect(Object.keys(comparisons).sort()).toEqual(Object.keys(recorded[part]).sort());
      expect(Object.keys(comparisons).length).toBeGreaterThanOrEqual(part === 'deck' ? 5 : 40);
    });

    it.each(Object.entries(comparisons))('%s', (name, { ours, unit, within }) => {
      expect(apart(ours(), recorded[part][name]!), `${name}, in ${unit}`).toBeLessThanOrEqual(within);
    });
  });
}
