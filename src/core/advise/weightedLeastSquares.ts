import { type Statement, statement } from '../words/statement.ts';

/**
 * Small linear least squares with weights, by normal equations scaled to unit diagonal and Gauss–Jordan with pivoting.
 * Meant for a handful of unknowns.
 *
 * @param design rows × unknowns
 * @param weights 1/σ² of each row's value
 * @returns parameters and their covariance (σ as given by the weights), or why there is no unique answer
 */
export function weightedLeastSquares(
  design: readonly (readonly number[])[],
  values: readonly number[],
  weights: readonly number[],
): { found: true; parameters: number[]; covariance: number[][] } | { found: false; why: Statement } {
  const n = design[0].length;
  const normal = Array.from({ length: n }, () => new Array<number>(n).fill(0));
  const right = new Array<number>(n).fill(0);
  design.forEach((row, k) => {
    for (let i = 0; i < n; i++) {
      right[i] += weights[k] * row[i] * values[k];
      for (let j = 0; j < n; j++) normal[i][j] += weights[k] * row[i] * row[j];
    }
  });
  const scale = normal.map((row, i) => Math.sqrt(row[i]));
  const none = { found: false as const, why: statement('readings-not-enough') };
  if (!scale.every((s) => s > 0)) return none;
  const work = normal.map((row, i) => [
    ...row.map((value, j) => value / scale[i] / scale[j]),
    ...row.map((_, j) => (i === j ? 1 : 0)),
  ]);
  for (let column = 0; column < n; column++) {
    let pivot = column;
    for (let i = column + 1; i < n; i++) if (Math.abs(work[i][column]) > Math.abs(work[pivot][column])) pivot = i;
    if (!(Math.abs(work[pivot][column]) > 1e-9)) return none;
    [work[column], work[pivot]] = [work[pivot], work[column]];
    const lead = work[column][column];
    for (let j = 0; j < 2 * n; j++) work[column][j] /= lead;
    for (let i = 0; i < n; i++) {
      if (i === column) continue;
      const factor = work[i][column];
      for (let j = 0; j < 2 * n; j++) work[i][j] -= factor * work[column][j];
    }
  }
  const covariance = work.map((row, i) => row.slice(n).map((value, j) => value / scale[i] / scale[j]));
  return {
    found: true,
    covariance,
    parameters: covariance.map((row) => row.reduce((sum, value, j) => sum + value * right[j], 0)),
  };
}
