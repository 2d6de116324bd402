/** Several readings of one quantity → one, weighted by how sure each is, widened where they disagree. */
import type { ComplexEstimate, Estimate } from './toneSegment.ts';

/** Weighted mean; where the readings scatter by more than their variances allow, the variance grows to what they show. */
export function combineEstimates(readings: readonly Estimate[]): Estimate {
  if (readings.length === 0) throw new RangeError('readings must not be empty');
  if (readings.length === 1) return readings[0];
  const weights = weightsOf(readings.map((r) => r.variance));
  const value = readings.reduce((sum, r, i) => sum + weights[i] * r.value, 0);
  const variance = readings.reduce((sum, r, i) => sum + weights[i] ** 2 * r.variance, 0);
  const chi2 = readings.reduce((sum, r) => sum + (r.value - value) ** 2 / Math.max(r.variance, 1e-300), 0);
  const excess = Math.max(1, chi2 / (readings.length - 1));
  return { value, variance: variance * excess, degreesOfFreedom: dof(readings, excess) };
}

export function combineComplex(readings: readonly ComplexEstimate[]): ComplexEstimate {
  if (readings.length === 0) throw new RangeError('readings must not be empty');
  if (readings.length === 1) return readings[0];
  const weights = weightsOf(readings.map((r) => r.varRe + r.varIm));
  const re = readings.reduce((sum, r, i) => sum + weights[i] * r.re, 0);
  const im = readings.reduce((sum, r, i) => sum + weights[i] * r.im, 0);
  const chi2 = readings.reduce(
    (sum, r) => sum + ((r.re - re) ** 2 + (r.im - im) ** 2) / Math.max(r.varRe + r.varIm, 1e-300),
    0,
  );
  const excess = Math.max(1, chi2 / (readings.length - 1));
  return {
    re,
    im,
    varRe: excess * readings.reduce((sum, r, i) => sum + weights[i] ** 2 * r.varRe, 0),
    varIm: excess * readings.reduce((sum, r, i) => sum + weights[i] ** 2 * r.varIm, 0),
    degreesOfFreedom: dof(readings, excess),
  };
}

function weightsOf(variances: readonly number[]): number[] {
  const inverse = variances.map((v) => 1 / Math.max(v, 1e-300));
  const sum = inverse.reduce((a, b) => a + b, 0);
  return inverse.map((w) => w / sum);
}

/** Where the scatter rules, it is known from few readings; else all degrees of freedom add up. */
function dof(readings: readonly { readonly degreesOfFreedom: number }[], excess: number): number {
  const all = readings.reduce((sum, r) => sum + r.degreesOfFreedom, 0);
  return excess > 4 ? Math.max(1, readings.length - 1) : all;
}
