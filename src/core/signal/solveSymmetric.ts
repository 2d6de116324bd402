/** Small symmetric positive-definite systems, by Cholesky. */

/**
 * Solves A x = b and gives A⁻¹, which carries the variances of a least-squares fit.
 * @param matrix A, symmetric, n × n: its diagonal and what lies below are read @param right b
 * @returns null where A is not positive definite to working accuracy
 */
export function solveSymmetric(
  matrix: readonly (readonly number[] | Float64Array)[],
  right: readonly number[] | Float64Array,
): { solution: Float64Array; inverse: Float64Array[] } | null {
  const n = right.length;
  const lower = Array.from({ length: n }, () => new Float64Array(n));
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = matrix[i][j];
      for (let k = 0; k < j; k++) sum -= lower[i][k] * lower[j][k];
      if (i === j) {
        if (!(sum > 1e-12 * Math.abs(matrix[i][i]))) return null;
        lower[i][i] = Math.sqrt(sum);
      } else {
        lower[i][j] = sum / lower[j][j];
      }
    }
  }
  const solve = (b: ArrayLike<number>): Float64Array => {
    const y = new Float64Array(n);
    for (let i = 0; i < n; i++) {
      let sum = b[i];
      for (let k = 0; k < i; k++) sum -= lower[i][k] * y[k];
      y[i] = sum / lower[i][i];
    }
    for (let i = n - 1; i >= 0; i--) {
      let sum = y[i];
      for (let k = i + 1; k < n; k++) sum -= lower[k][i] * y[k];
      y[i] = sum / lower[i][i];
    }
    return y;
  };
  return {
    solution: solve(right),
    // many a fit asks for its solution alone
    get inverse() {
      return Array.from({ length: n }, (_, i) => {
        const unit = new Float64Array(n);
        unit[i] = 1;
        return solve(unit);
      });
    },
  };
}
