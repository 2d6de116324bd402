/** Curves of tracking error and second harmonic against groove radius, as plain rows and as CSV. */

import { within } from '../units/bounds.ts';
import { radToDeg } from '../units/units.ts';
import { csvText } from '../words/csv.ts';
import type { Found } from '../words/found.ts';
import type { Arm } from './arm.ts';
import { harmonicScale, type Loudness, reachesSpan, usualLoudness } from './distortion.ts';
import { errorWithinReach } from './law.ts';
import type { GrooveSpan } from './span.ts';

export interface CurvePoint {
  readonly radiusMm: number;
  readonly trackingErrorDeg: number;
  /** signed with the tracking error */
  readonly secondHarmonicPercent: number;
}

/**
 * Radii of a curve, mm: both ends, and every whole step between.
 *
 * @param step mm, 0.05–50
 * @throws RangeError naming the step and its bounds
 */
export function curveRadii(span: GrooveSpan, step = 1): readonly number[] {
  within('step', step, 0.05, 50, 'mm');
  const radii = [span.inner];
  for (let k = Math.floor(span.inner / step) + 1; k * step < span.outer - 1e-9; k++) {
    if (k * step > span.inner + 1e-9) radii.push(k * step);
  }
  radii.push(span.outer);
  return radii;
}

/**
 * An arm's curve on a span.
 *
 * @returns or the reason where the arm does not play the span
 */
export function armCurve(
  arm: Arm,
  span: GrooveSpan,
  loudness: Loudness = usualLoudness,
  step = 1,
): Found<readonly CurvePoint[]> {
  const reached = reachesSpan(arm, span);
  if (!reached.found) return reached;
  const scale = 100 * harmonicScale(loudness);
  return {
    found: true,
    value: curveRadii(span, step).map((radiusMm) => {
      const error = errorWithinReach(arm, radiusMm);
      return {
        radiusMm,
        trackingErrorDeg: radToDeg(error),
        secondHarmonicPercent: (scale * Math.tan(error)) / radiusMm,
      };
    }),
  };
}

/** A curve with the name that its columns carry. */
export interface NamedCurve {
  readonly name: string;
  readonly points: readonly CurvePoint[];
}

/** Curves over the same radii as CSV: one radius column, then two columns for each curve. */
export function curvesToCsv(curves: readonly NamedCurve[]): string {
  if (curves.length === 0) throw new RangeError('there are 0 curves to write; at least 1 is needed');
  const column = (name: string): string => name.replaceAll('-', '_');
  const head = [
    'radius_mm',
    ...curves.flatMap(({ name }) => [`${column(name)}_tracking_error_deg`, `${column(name)}_second_harmonic_percent`]),
  ];
  const rows = curves[0].points.map((point, i) => [
    point.radiusMm.toFixed(3),
    ...curves.flatMap(({ points }) => [
      points[i].trackingErrorDeg.toFixed(5),
      points[i].secondHarmonicPercent.toFixed(5),
    ]),
  ]);
  return csvText([head, ...rows]);
}
