/**
 * The criteria in closed form. All work on ε/r with the error made linear:
 *
 *   ε(r)/r ∝ 1 − S x + P x²,   x = 1/r,  S = n1 + n2,  P = n1 n2
 *
 * so the answer is a pair of null radii that depends on the groove span alone.
 *
 * @source Löfgren 1938 (A, B), Baerwald 1941 (= A), Stevenson 1966; re-derived, the null points agree with the published ones
 * @checked test/standards/geometry.test.ts
 */
import { type Statement, statement } from '../words/statement.ts';
import { evenWeight, type MusicWeight } from './music.ts';
import { spanNodes } from './quadrature.ts';
import type { GrooveSpan } from './span.ts';

export type CriterionName = 'lofgren-a' | 'lofgren-b' | 'least-squares' | 'stevenson' | 'even-music';

export interface Criterion {
  readonly name: CriterionName;
  /** its name alone: `Löfgren A` */
  readonly short: string;
  /** title a technician reads */
  readonly title: string;
  /** what it does, in words */
  readonly says: string;
  /** what is different where something limits the arm */
  readonly withinLimits?: Statement;
  readonly source: string;
}

export const criteria: readonly Criterion[] = [
  {
    name: 'lofgren-a',
    short: 'Löfgren A',
    title: 'Löfgren A: equal peaks',
    says: 'the three peaks of distortion, at the inner, middle and outer groove, are equal and as low as they can be',
    source: 'Löfgren 1938 A, Baerwald 1941',
  },
  {
    name: 'lofgren-b',
    short: 'Löfgren B',
    title: 'Löfgren B: least squares of the overhang',
    says: 'the least distortion over the whole side with the linear offset of A; more of it at the inner groove',
    withinLimits: statement('b-within-limits'),
    source: 'Löfgren 1938 B, as published',
  },
  {
    name: 'least-squares',
    short: 'Least squares',
    title: 'Least squares: overhang and offset',
    says: 'the least distortion over the whole side with overhang and offset both free',
    source: 'the true least-squares optimum of ε/r',
  },
  {
    name: 'stevenson',
    short: 'Stevenson',
    title: 'Stevenson: clean inner groove',
    says: 'no distortion at the innermost groove, equal peaks over the rest',
    source: 'Stevenson 1966 A',
  },
  {
    name: 'even-music',
    short: 'Weighted by where the music lies',
    title: 'Weighted by where the music lies',
    says: 'the least distortion over the music, by a weight over radius that you give',
    source: 'least squares of ε/r under the given weight',
  },
];

/** Sum and product of the null radii: mm, mm². */
export interface NullPair {
  readonly sum: number;
  readonly product: number;
}

const pair = (n1: number, n2: number): NullPair => ({ sum: n1 + n2, product: n1 * n2 });

/** Equal peaks: Chebyshev equi-ripple in x on [1/ro, 1/ri]. */
function lofgrenA({ inner, outer }: GrooveSpan): NullPair {
  const middle = inner + outer;
  const part = (outer - inner) * Math.SQRT1_2;
  return pair((2 * inner * outer) / (middle + part), (2 * inner * outer) / (middle - part));
}

/** A's linear offset (sum kept), the product by least squares of ε/r over r. */
function lofgrenB(span: GrooveSpan): NullPair {
  const { sum } = lofgrenA(span);
  const a = 1 / span.inner;
  const b = 1 / span.outer;
  return { sum, product: (3 * ((sum * (a + b)) / 2 - 1)) / (a * a + a * b + b * b) };
}

/** Null at the inner groove; the outer one where the outer end and the dip between are equal. */
function stevenson({ inner, outer }: GrooveSpan): NullPair {
  const a = 1 / inner;
  const b = 1 / outer;
  return pair(inner, 1 / (b + (a - b) * (3 - 2 * Math.SQRT2)));
}

/** Normal equations of ∫ m(r) (1 − S/r + P/r²)² dr with the moments M_k = ∫ m r⁻ᵏ dr. */
function weightedLeastSquares({ inner, outer }: GrooveSpan, music: MusicWeight): NullPair {
  const moment = [0, 0, 0, 0, 0];
  for (const { radius, weight } of spanNodes(inner, outer, music)) {
    let term = weight;
    for (let k = 1; k <= 4; k++) {
      term /= radius;
      moment[k] += term;
    }
  }
  const [, m1, m2, m3, m4] = moment;
  const determinant = m2 * m4 - m3 * m3;
  return { sum: (m1 * m4 - m3 * m2) / determinant, product: (m3 * m1 - m2 * m2) / determinant };
}

/**
 * Null radii of a criterion in closed form.
 *
 * @param music weight over radius, for `even-music` only
 * @throws RangeError where `even-music` has no weight
 */
export function closedFormNulls(criterion: CriterionName, span: GrooveSpan, music?: MusicWeight): NullPair {
  switch (criterion) {
    case 'lofgren-a':
      return lofgrenA(span);
    case 'lofgren-b':
      return lofgrenB(span);
    case 'stevenson':
      return stevenson(span);
    case 'least-squares':
      return weightedLeastSquares(span, evenWeight);
    case 'even-music':
      if (music === undefined) {
        throw new RangeError('the criterion even-music needs a weight over radius; none was given');
      }
      return weightedLeastSquares(span, music);
  }
}
