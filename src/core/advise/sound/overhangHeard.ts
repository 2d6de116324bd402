/**
 * Overhang from the tracking error at two radii or more: what the cut's zenith, the body's tilt and the twist add is the same at every
 * radius, and drops out of the difference.
 *
 *   ε(r) = asin((r² + L² − d²)/(2 r L)) − φ      least squares for L and φ, d known
 *
 * Between 138 and 62 mm the difference moves by 0.56° a mm of effective length, so no certificate is needed.
 *
 * @checked overhangHeard.test.ts, against the law itself; test/independent
 */
import { budgetOf, type Doubt } from '../../measure/budget.ts';
import type { BudgetLine } from '../../measure/finding.ts';
import type { SheetCut } from '../../record/sheet.ts';
import { radToDeg } from '../../units/units.ts';
import { statement } from '../../words/statement.ts';
import { doubts } from './doubts.ts';
import type { HeardAngle } from './heardAngles.ts';

export interface HeardOverhang {
  /** L − d, mm */
  readonly overhangMm: number;
  /** mm, k = 2 */
  readonly repeatability: number;
  readonly uncertainty: number;
  readonly budget: readonly BudgetLine[];
  /** φ as heard: offset with twist, cut's zenith and body tilt in it, deg */
  readonly offsetDeg: number;
  readonly effectiveLengthMm: number;
}

/** mm between the outermost and the innermost band */
const LEAST_APART_MM = 20;
/** mm of effective length that are looked through, about d */
const FROM_MM = -40;
const TO_MM = 60;

const theta = (r: number, l: number, d: number): number => {
  const sine = (r * r + (l - d) * (l + d)) / (2 * r * l);
  return radToDeg(Math.asin(Math.max(-1, Math.min(1, sine))));
};

/** @returns null where the radii lie too close together, or no arm of that pivot distance fits */
export function overhangHeard(
  angles: readonly HeardAngle[],
  spindleToPivotMm: number,
  cut: SheetCut | undefined,
  equalisationDb: number,
): HeardOverhang | null {
  const d = spindleToPivotMm;
  const radii = angles.map(({ radiusMm }) => radiusMm);
  if (angles.length < 2 || !(Math.max(...radii) - Math.min(...radii) >= LEAST_APART_MM)) return null;
  const values = angles.map(({ value }) => value);
  const length = fitted(radii, values, d);
  if (length === null) return null;
  const of = doubts(cut, equalisationDb);
  const nudged = (change: (i: number) => { radius?: number; value?: number }): number => {
    const again = fitted(
      radii.map((r, i) => r + (change(i).radius ?? 0)),
      values.map((v, i) => v + (change(i).value ?? 0)),
      d,
    );
    return again === null ? 0 : again - length;
  };
  const each = (size: (angle: HeardAngle) => number, key: 'radius' | 'value'): number =>
    Math.hypot(...angles.map((angle, j) => nudged((i) => (i === j ? { [key]: size(angle) } : {}))));
  const ofLeaks = (angle: HeardAngle): number =>
    angle.budget.find(({ of: source }) => source.code === 'leaks')?.size ?? 0;
  const parts: Doubt[] = [
    { of: statement('signal'), size: each((a) => a.repeatability, 'value') },
    { of: statement('band-radius'), size: each(() => of.radiusMm, 'radius') },
    { of: statement('leaks'), size: each(ofLeaks, 'value') },
    // one level of the whole record, one equaliser: alike at every radius
    { of: statement('cut-velocity'), size: Math.abs(nudged((i) => ({ value: values[i] * of.velocity }))) },
    { of: statement('equalisation'), size: Math.abs(nudged((i) => ({ value: values[i] * of.equalisation }))) },
  ];
  const { total, budget } = budgetOf(parts, 'mm');
  const offset = radii.reduce((sum, r, i) => sum + theta(r, length, d) - values[i], 0) / radii.length;
  return {
    overhangMm: length - d,
    repeatability: parts[0].size,
    uncertainty: total,
    budget,
    offsetDeg: offset,
    effectiveLengthMm: length,
  };
}

/** Effective length of least squares; φ is the mean of what is left. */
function fitted(radii: readonly number[], values: readonly number[], d: number): number | null {
  const cost = (l: number): number => {
    const left = radii.map((r, i) => theta(r, l, d) - values[i]);
    const mean = left.reduce((a, b) => a + b, 0) / left.length;
    return left.reduce((sum, x) => sum + (x - mean) ** 2, 0);
  };
  let best = d;
  let least = Number.MAX_VALUE;
  for (let l = d + FROM_MM; l <= d + TO_MM; l += 0.5) {
    const c = cost(l);
    if (c < least) [least, best] = [c, l];
  }
  if (best <= d + FROM_MM || best >= d + TO_MM - 0.5) return null;
  let [low, high] = [best - 0.5, best + 0.5];
  const golden = (Math.sqrt(5) - 1) / 2;
  for (let round = 0; round < 60; round++) {
    const a = high - golden * (high - low);
    const b = low + golden * (high - low);
    if (cost(a) < cost(b)) high = b;
    else low = a;
  }
  return (low + high) / 2;
}
