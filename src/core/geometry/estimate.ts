/** Readings → the arm as it stands, by weighted least squares, with the covariance of the answer. */

import { within } from '../units/bounds.ts';
import { type Found, none } from '../words/found.ts';
import { type Statement, statement } from '../words/statement.ts';
import { LARGEST_OFFSET, LONGEST_ARM, type PivotedArm, SHORTEST_ARM } from './arm.ts';
import { type Reading, readingResiduals, type Unknowns, usualReadingUncertainty } from './readings.ts';

/** A figure with its expanded uncertainty, k = 2, in its own unit. */
export interface Estimated {
  readonly value: number;
  readonly uncertainty: number;
}

export interface EstimatedArm {
  readonly arm: PivotedArm;
  /** mm */
  readonly effectiveLength: Estimated;
  /** mm */
  readonly spindleToPivot: Estimated;
  /** rad; or why no reading tells it */
  readonly offset: Found<Estimated>;
  /** Cholesky factor of the covariance of (L, φ, d), rows; standard uncertainties, k = 1 */
  readonly factor: readonly (readonly number[])[];
  /** a sentence where the readings contradict one another beyond their uncertainties, else null */
  readonly disagreement: Statement | null;
}

type Matrix = number[][];

/** Lower triangular factor A = C Cᵀ of a positive matrix; null where it is not positive. */
function cholesky(a: Matrix): Matrix | null {
  const n = a.length;
  const c: Matrix = a.map(() => new Array<number>(n).fill(0));
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = a[i][j];
      for (let k = 0; k < j; k++) sum -= c[i][k] * c[j][k];
      if (i === j) {
        if (!(sum > 1e-14 * Math.abs(a[i][i]))) return null;
        c[i][i] = Math.sqrt(sum);
      } else {
        c[i][j] = sum / c[j][j];
      }
    }
  }
  return c;
}

/** Inverse of a positive matrix from its factor. */
function inverseFrom(c: Matrix): Matrix {
  const n = c.length;
  const columns = c.map((_, col) => {
    const y = new Array<number>(n).fill(0);
    for (let i = 0; i < n; i++) {
      let sum = i === col ? 1 : 0;
      for (let k = 0; k < i; k++) sum -= c[i][k] * y[k];
      y[i] = sum / c[i][i];
    }
    const x = new Array<number>(n).fill(0);
    for (let i = n - 1; i >= 0; i--) {
      let sum = y[i];
      for (let k = i + 1; k < n; k++) sum -= c[k][i] * x[k];
      x[i] = sum / c[i][i];
    }
    return x;
  });
  return c.map((_, i) => columns.map((column) => column[i]));
}

/** Steps of the slopes and scale of the unknowns: mm, rad, mm. */
const STEP = [0.01, 1e-4, 0.01] as const;

/**
 * The arm that the readings tell of.
 *
 * @param start an arm near by, in practice the one that was aimed at: where the search begins
 * @param spindleToPivot measured d, mm, and its expanded uncertainty (0.5 mm where none is given)
 * @returns or the reason where the readings do not fix the effective length
 * @throws RangeError for readings out of bounds
 */
export function armFromReadings(
  readings: readonly Reading[],
  start: PivotedArm,
  spindleToPivot: { readonly value: number; readonly uncertainty?: number },
): Found<EstimatedArm> {
  within('spindle to pivot', spindleToPivot.value, SHORTEST_ARM, LONGEST_ARM, 'mm');
  const sdPivot =
    within(
      'uncertainty of spindle to pivot',
      spindleToPivot.uncertainty ?? usualReadingUncertainty.spindleToPivot,
      1e-6,
      50,
      'mm',
    ) / 2;
  if (readings.length === 0) return none(statement('nothing-read'));
  const tellsAngle = readings.some((reading) => reading.kind !== 'overhang' && reading.kind !== 'length');
  const equations = readings.map(readingResiduals);
  const all = (v: Unknowns): number[] => [
    (v[2] - spindleToPivot.value) / sdPivot,
    // with nothing read of the angle the offset stays where it is aimed at, and is not reported
    ...(tellsAngle ? [] : [(v[1] - start.offset) / 1e-3]),
    ...equations.flatMap((equation) => equation(v)),
  ];
  let v: Unknowns = [start.effectiveLength, start.offset, spindleToPivot.value];
  let normal: Matrix = [];
  let factor: Matrix | null = null;
  for (let i = 0; i < 40; i++) {
    const here = all(v);
    const slopes = STEP.map((h, k) => {
      const shifted = (by: number): Unknowns =>
        v.map((value, j) => (j === k ? value + by : value)) as unknown as Unknowns;
      const up = all(shifted(h));
      const down = all(shifted(-h));
      return up.map((value, j) => (value - down[j]) / 2);
    });
    normal = slopes.map((a) => slopes.map((b) => a.reduce((sum, x, j) => sum + x * b[j], 0)));
    factor = cholesky(normal);
    if (factor === null) break;
    const inverse = inverseFrom(factor);
    const gradient = slopes.map((a) => a.reduce((sum, x, j) => sum + x * here[j], 0));
    const step = inverse.map((row, k) => -STEP[k] * row.reduce((sum, x, j) => sum + x * gradient[j], 0));
    // no more than 10 mm or 10° at once: the sine law bends
    const shrink = Math.min(1, 10 / Math.abs(step[0] || 1e-9), 0.17 / Math.abs(step[1] || 1e-9));
    v = v.map((value, k) => value + shrink * step[k]) as unknown as Unknowns;
    if (Math.abs(step[0]) < 1e-8 && Math.abs(step[1]) < 1e-11 && Math.abs(step[2]) < 1e-8) break;
  }
  const [L, offset, d] = v;
  if (factor === null) return none(statement('length-not-fixed'));
  const covariance = inverseFrom(factor).map((row, i) => row.map((x, j) => x * STEP[i] * STEP[j]));
  const spread = cholesky(covariance);
  const plausible =
    L >= SHORTEST_ARM && L <= LONGEST_ARM && Math.abs(offset) <= LARGEST_OFFSET && Math.abs(d) <= LONGEST_ARM;
  if (spread === null || !plausible || !(2 * Math.sqrt(covariance[0][0]) <= 10)) {
    const withinMm = 2 * Math.sqrt(covariance[0][0]);
    return none(
      spread !== null && plausible ? statement('length-hardly-fixed', { withinMm }) : statement('length-not-fixed'),
    );
  }
  const residuals = all(v);
  const spare = residuals.length - 3;
  const misfit = residuals.reduce((sum, x) => sum + x * x, 0);
  const worst = Math.sqrt(spare > 0 ? misfit / spare : 0);
  return {
    found: true,
    value: {
      arm: { kind: 'pivoted', spindleToPivot: d, effectiveLength: L, offset },
      effectiveLength: { value: L, uncertainty: 2 * Math.sqrt(covariance[0][0]) },
      spindleToPivot: { value: d, uncertainty: 2 * Math.sqrt(covariance[2][2]) },
      offset: tellsAngle
        ? { found: true, value: { value: offset, uncertainty: 2 * Math.sqrt(covariance[1][1]) } }
        : none(statement('twist-not-read')),
      factor: spread,
      disagreement: spare > 0 && worst > 2 ? statement('readings-disagree', { times: worst }) : null,
    },
  };
}
