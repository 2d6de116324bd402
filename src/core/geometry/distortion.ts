/** What an arm does to the music on a groove span: peak and rms of the second harmonic, and where the peaks stand. */

import { within } from '../units/bounds.ts';
import { grooveVelocity, radToDeg } from '../units/units.ts';
import { type Found, none } from '../words/found.ts';
import { statement } from '../words/statement.ts';
import { type Arm, linearOffset, overhang } from './arm.ts';
import { solveRoot } from './iterate.ts';
import { errorWithinReach, nullRadii, reach, sineOfArmAngle, weightedError } from './law.ts';
import { evenWeight } from './music.ts';
import { type Node, spanNodes } from './quadrature.ts';
import type { GrooveSpan } from './span.ts';

/** The signal that distortions are stated for. */
export interface Loudness {
  /** lateral peak velocity, cm/s */
  readonly peakVelocityCmS: number;
  /** turns a minute */
  readonly rpm: number;
}

/** 10 cm/s peak lateral at 33⅓ turns a minute. */
export const usualLoudness: Loudness = { peakVelocityCmS: 10, rpm: 100 / 3 };

/** Ratio of second harmonic to weighted error, mm. Refuses speeds and velocities that no record has. */
export function harmonicScale({ peakVelocityCmS, rpm }: Loudness): number {
  within('peak velocity', peakVelocityCmS, 0.01, 100, 'cm/s');
  within('speed', rpm, 8, 120, 'rpm');
  return peakVelocityCmS / 100 / grooveVelocity(rpm, 1);
}

/** Whether the tip passes every groove of the span; if not, why. */
export function reachesSpan(arm: Arm, span: GrooveSpan): Found<true> {
  const { inner, outer } = reach(arm);
  if (!(inner <= span.inner)) {
    return none(statement('groove-too-near', { radiusMm: span.inner, leastMm: inner }));
  }
  if (!(outer >= span.outer)) {
    return none(statement('groove-too-far', { radiusMm: span.outer, mostMm: outer }));
  }
  return { found: true, value: true };
}

/** In proportion to the slope of tan ε / r: r θ′ (1 + tan² ε) − tan ε. */
function slopeSign(arm: Arm, r: number): number {
  const s = sineOfArmAngle(arm, r);
  const cosine = Math.sqrt(Math.max(1e-12, 1 - s * s));
  const rise =
    arm.kind === 'tangential'
      ? -arm.overhang / r
      : (r - ((arm.effectiveLength - arm.spindleToPivot) * (arm.effectiveLength + arm.spindleToPivot)) / r) /
        (2 * arm.effectiveLength);
  const tangent = Math.tan(errorWithinReach(arm, r));
  return (rise / cosine) * (1 + tangent * tangent) - tangent;
}

/** A turning point, or an end, of the weighted error. */
export interface Peak {
  readonly radius: number;
  /** tan ε / r, signed, 1/mm */
  readonly weighted: number;
}

const LOOKS = 8;

/** The weighted error at both ends and at every turning point between, by radius. */
export function peaks(arm: Arm, span: GrooveSpan): readonly Peak[] {
  const at = (radius: number): Peak => ({ radius, weighted: weightedError(arm, radius) });
  const found: Peak[] = [at(span.inner)];
  const step = (span.outer - span.inner) / LOOKS;
  let before = slopeSign(arm, span.inner);
  for (let i = 1; i <= LOOKS; i++) {
    const r = i === LOOKS ? span.outer : span.inner + i * step;
    const slope = slopeSign(arm, r);
    if (slope > 0 !== before > 0) found.push(at(solveRoot((x) => slopeSign(arm, x), r - step, r)));
    before = slope;
  }
  found.push(at(span.outer));
  return found;
}

/** Largest |tan ε / r| on the span, 1/mm. */
export const peakWeighted = (arm: Arm, span: GrooveSpan): number =>
  peaks(arm, span).reduce((most, peak) => Math.max(most, Math.abs(peak.weighted)), 0);

/** Largest tangent that is calculated with: an error of 89.9999°. */
const STEEPEST = 1e6;

/**
 * tan ε at many radii without an angle in between, for thousands of arms:
 *
 *   tan ε = (tan θ − tan φ) / (1 + tan θ tan φ),   tan θ = s / √(1 − s²)
 *
 * @param radii within reach, mm
 * @param into as long as radii; is filled
 */
export function errorTangents(arm: Arm, radii: readonly number[], into: Float64Array): Float64Array {
  const slope = Math.tan(arm.offset);
  for (let i = 0; i < radii.length; i++) {
    const s = sineOfArmAngle(arm, radii[i]);
    const t = s / Math.sqrt(Math.max(1e-12, 1 - s * s));
    const [over, under] = [t - slope, 1 + t * slope];
    into[i] = under * STEEPEST > Math.abs(over) ? over / under : Math.sign(over) * STEEPEST;
  }
  return into;
}

/**
 * Largest |tan ε / r| from its values at equally spaced radii, a parabola laid through the highest and its neighbours:
 * within 0.1 % of itself for 25 radii on a groove span.
 */
export function peakOfTangents(tangents: Float64Array, radii: readonly number[]): number {
  const last = radii.length - 1;
  const at = (i: number): number => Math.abs(tangents[i]) / radii[i];
  let top = 0;
  for (let i = 1; i <= last; i++) if (at(i) > at(top)) top = i;
  const high = at(top);
  if (top === 0 || top === last) return high;
  const [before, after] = [at(top - 1), at(top + 1)];
  const bend = before - 2 * high + after;
  return bend < 0 ? high - (after - before) ** 2 / (8 * bend) : high;
}

/** Radii from end to end of a span, equally spaced, mm. */
export const spreadRadii = ({ inner, outer }: GrooveSpan, points: number): readonly number[] =>
  Array.from({ length: points }, (_, i) => inner + ((outer - inner) * i) / (points - 1));

/** Root of the mean of (tan ε / r)² over the nodes, 1/mm. */
export function rmsWeighted(arm: Arm, nodes: readonly Node[]): number {
  let sum = 0;
  let whole = 0;
  for (const { radius, weight } of nodes) {
    const w = weightedError(arm, radius);
    sum += weight * w * w;
    whole += weight;
  }
  return Math.sqrt(sum / whole);
}

/** An arm's figures on a span, in the units that people read. Plain data for screens, JSON and reports. */
export interface ArmFigures {
  readonly kind: Arm['kind'];
  /** null for a tangential arm */
  readonly spindleToPivotMm: number | null;
  readonly effectiveLengthMm: number | null;
  readonly overhangMm: number;
  readonly offsetDeg: number;
  readonly linearOffsetMm: number | null;
  /** every radius that the tip passes without tracking error, ascending */
  readonly nullPointsMm: readonly number[];
  readonly peakDistortionPercent: number;
  /** where the largest peak stands */
  readonly peakAtMm: number;
  readonly rmsDistortionPercent: number;
  /** largest tracking error on the span, signed */
  readonly largestErrorDeg: number;
  readonly largestErrorAtMm: number;
}

/**
 * Figures of an arm on a span.
 *
 * @returns or the reason where the arm cannot reach the whole span
 * @throws RangeError for a loudness out of bounds
 */
export function armFigures(arm: Arm, span: GrooveSpan, loudness: Loudness = usualLoudness): Found<ArmFigures> {
  const reached = reachesSpan(arm, span);
  if (!reached.found) return reached;
  const scale = harmonicScale(loudness) * 100;
  const all = peaks(arm, span);
  const highest = all.reduce((a, b) => (Math.abs(b.weighted) > Math.abs(a.weighted) ? b : a));
  const pivoted = arm.kind === 'pivoted';
  // ε itself turns where r² = L² − d²
  const turn = pivoted ? Math.sqrt(Math.max(0, arm.effectiveLength ** 2 - arm.spindleToPivot ** 2)) : 0;
  const errors = [span.inner, span.outer, ...(turn > span.inner && turn < span.outer ? [turn] : [])].map((r) => ({
    r,
    error: errorWithinReach(arm, r),
  }));
  const largest = errors.reduce((a, b) => (Math.abs(b.error) > Math.abs(a.error) ? b : a));
  return {
    found: true,
    value: {
      kind: arm.kind,
      spindleToPivotMm: pivoted ? arm.spindleToPivot : null,
      effectiveLengthMm: pivoted ? arm.effectiveLength : null,
      overhangMm: overhang(arm),
      offsetDeg: radToDeg(arm.offset),
      linearOffsetMm: pivoted ? linearOffset(arm) : null,
      nullPointsMm: nullRadii(arm),
      peakDistortionPercent: scale * Math.abs(highest.weighted),
      peakAtMm: highest.radius,
      rmsDistortionPercent: scale * rmsWeighted(arm, spanNodes(span.inner, span.outer, evenWeight)),
      largestErrorDeg: radToDeg(largest.error),
      largestErrorAtMm: largest.r,
    },
  };
}
