/**
 * The exact law of an arm in the plane: tracking error, its slope, and the harmonic that it makes.
 *
 *   sin θ(r) = (r² + L² − d²) / (2 r L)      pivoted
 *   sin θ(r) = o / r                         tangential (the limit L → ∞)
 *   ε(r)     = θ(r) − φ
 *
 * ε is positive when the cartridge is turned anticlockwise of the groove's tangent, seen from above.
 *
 * @source Löfgren 1938; Baerwald 1941; the exact law is the cosine rule in the triangle of spindle, pivot and tip
 * @checked test/standards/geometry.test.ts
 */

import { within } from '../units/bounds.ts';
import { grooveVelocity } from '../units/units.ts';
import { type Found, none } from '../words/found.ts';
import { statement } from '../words/statement.ts';
import type { Arm } from './arm.ts';

/** Sine of θ, unlimited: over 1 in size where the arm cannot reach r. */
export function sineOfArmAngle(arm: Arm, r: number): number {
  if (arm.kind === 'tangential') return arm.overhang / r;
  const L = arm.effectiveLength;
  const d = arm.spindleToPivot;
  // (L − d)(L + d) keeps its digits where L and d are nearly equal
  return (r * r + (L - d) * (L + d)) / (2 * r * L);
}

/**
 * ε at a radius that the arm is known to reach; at the edge of reach θ stops at ±90°. For loops over a checked span.
 *
 * @param r groove radius, mm, > 0
 * @returns rad, finite
 */
export function errorWithinReach(arm: Arm, r: number): number {
  const s = sineOfArmAngle(arm, r);
  return Math.asin(Math.max(-1, Math.min(1, s))) - arm.offset;
}

/** Smallest and largest groove radius that the tip passes, mm. */
export function reach(arm: Arm): { readonly inner: number; readonly outer: number } {
  if (arm.kind === 'tangential') return { inner: Math.abs(arm.overhang), outer: Number.MAX_VALUE };
  return {
    inner: Math.abs(arm.effectiveLength - arm.spindleToPivot),
    outer: arm.effectiveLength + arm.spindleToPivot,
  };
}

/**
 * Tracking error at one groove radius.
 *
 * @param r groove radius, mm, 1–1000
 * @returns rad; or the reason where the arm cannot reach r
 * @throws RangeError naming r, its value and its bounds
 */
export function trackingError(arm: Arm, r: number): Found<number> {
  within('groove radius', r, 1, 1000, 'mm');
  const { inner, outer } = reach(arm);
  if (!(r >= inner && r <= outer)) {
    const radiusMm = Number(r.toFixed(1));
    return none(
      r < inner
        ? statement('groove-too-near', { radiusMm, leastMm: inner })
        : statement('groove-too-far', { radiusMm, mostMm: outer }),
    );
  }
  return { found: true, value: errorWithinReach(arm, r) };
}

/**
 * The weighted error tan ε / r that every criterion works on, rad/mm: in proportion to the second harmonic.
 *
 * @param r groove radius within reach, mm
 */
export const weightedError = (arm: Arm, r: number): number => Math.tan(errorWithinReach(arm, r)) / r;

/**
 * Second harmonic of a lateral tone from tracking error, signed with ε, as a ratio to the fundamental.
 *
 *   H2 = v tan ε / V,  V = 2π (rpm/60) r
 *
 * Stops being exact where v/V nears 1 (0.06 % of itself at v/V = 1 and 3°).
 *
 * @param error ε, rad
 * @param radius mm, > 0
 * @param peakVelocityCmS lateral peak velocity, cm/s
 * @param rpm > 0
 * @source Baerwald 1941 eq. (1), seen quoted
 */
export const secondHarmonic = (error: number, radius: number, peakVelocityCmS: number, rpm: number): number =>
  ((peakVelocityCmS / 100) * Math.tan(error)) / grooveVelocity(rpm, radius);

/**
 * Radii where the tracking error is nought, mm, ascending: two, one or none; only those that the tip reaches.
 *
 *   r² − 2 r L sin φ + L² − d² = 0
 */
export function nullRadii(arm: Arm): readonly number[] {
  if (arm.kind === 'tangential') {
    // o / r = sin φ; with both nought every radius is a null, and none is singled out
    const r = arm.overhang / Math.sin(arm.offset);
    return Number.isFinite(r) && r > 0 ? [r] : [];
  }
  const half = arm.effectiveLength * Math.sin(arm.offset);
  const product = (arm.effectiveLength - arm.spindleToPivot) * (arm.effectiveLength + arm.spindleToPivot);
  const square = half * half - product;
  if (!(square >= 0)) return [];
  const root = Math.sqrt(square);
  // the larger one by addition, the other by the product: no digits lost to a difference
  const large = half >= 0 ? half + root : half - root;
  const small = large === 0 ? 0 : product / large;
  const radii = square === 0 ? [large] : [small, large];
  // where both are positive the small one is before the large one
  return radii.filter((r) => r > 0);
}
