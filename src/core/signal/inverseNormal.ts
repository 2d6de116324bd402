/**
 * The normal distribution's inverse: what a standard normal value is under with the probability p.
 *
 * @source Acklam's rational approximation (relative error under 1.2·10⁻⁹), its coefficients from memory and checked against erf
 * @checked src/core/advise/budget/rice.test.ts
 */

const A = [
  -39.69683028665376, 220.9460984245205, -275.9285104469687, 138.357751867269, -30.66479806614716, 2.506628277459239,
];
const B = [-54.47609879822406, 161.5858368580409, -155.6989798598866, 66.80131188771972, -13.28068155288572, 1];
const C = [
  -0.007784894002430293, -0.3223964580411365, -2.400758277161838, -2.549732539343734, 4.374664141464968,
  2.938163982698783,
];
const D = [0.007784695709041462, 0.3224671290700398, 2.445134137142996, 3.754408661907416, 1];

function horner(coefficients: readonly number[], x: number): number {
  let sum = 0;
  for (let i = 0; i < coefficients.length; i++) sum = sum * x + coefficients[i];
  return sum;
}

/** @param p 0 < p < 1 */
export function inverseNormal(p: number): number {
  if (!(p > 0 && p < 1)) throw new RangeError(`p is ${p}; more than 0 and less than 1 was expected`);
  if (p > 0.97575) return -inverseNormal(1 - p);
  if (p < 0.02425) {
    const q = Math.sqrt(-2 * Math.log(p));
    return horner(C, q) / horner(D, q);
  }
  const q = p - 0.5;
  const r = q * q;
  return (q * horner(A, r)) / horner(B, r);
}
