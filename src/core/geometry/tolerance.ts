/**
 * Tolerance: how far setting errors spread tracking error and distortion, to first order and by Monte Carlo, and which
 * setting matters most.
 *
 * A tolerance is an expanded uncertainty (k = 2) of a normal spread: the arm is set within it 95 times in 100.
 * Overhang moves L with the pivot where it is; the pivot distance moves d with L as it is; a twist moves φ.
 */

import { wholeWithin, within } from '../units/bounds.ts';
import { degToRad, radToDeg } from '../units/units.ts';
import type { Found } from '../words/found.ts';
import type { Arm } from './arm.ts';
import {
  errorTangents,
  harmonicScale,
  type Loudness,
  peakOfTangents,
  peakWeighted,
  reachesSpan,
  spreadRadii,
  usualLoudness,
} from './distortion.ts';
import { errorWithinReach } from './law.ts';
import { normalNumbers, quantile } from './random.ts';
import type { GrooveSpan } from './span.ts';

/** Each ≥ 0: mm, rad, mm. */
export interface SettingTolerances {
  readonly overhang: number;
  readonly twist: number;
  readonly spindleToPivot: number;
}

/** ±0.5 mm of overhang, ±0.5° of twist, ±1 mm of pivot distance: common practice, not from a source. */
export const usualTolerances: SettingTolerances = { overhang: 0.5, twist: degToRad(0.5), spindleToPivot: 1 };

export type Setting = 'overhang' | 'twist' | 'spindle-to-pivot';

export interface BandPoint {
  readonly radiusMm: number;
  readonly trackingErrorLowDeg: number;
  readonly trackingErrorHighDeg: number;
  readonly secondHarmonicLowPercent: number;
  readonly secondHarmonicHighPercent: number;
}

export interface SettingEffect {
  readonly setting: Setting;
  /** as given, in `unit`, k = 2 */
  readonly tolerance: number;
  readonly unit: 'mm' | 'deg';
  /** peak distortion at the worse end of this tolerance alone */
  readonly peakAtWorstPercent: number;
  /** its rise over the arm as set, percentage points */
  readonly risePercent: number;
}

export interface ToleranceBand {
  /** first order: root sum of squares of each setting's slope, k = 2 */
  readonly linear: readonly BandPoint[];
  /** from 2.5 to 97.5 of 100 draws */
  readonly monteCarlo: readonly BandPoint[];
  readonly draws: number;
  readonly seed: number;
  readonly peakDistortionPercent: {
    readonly asSet: number;
    readonly median: number;
    readonly low: number;
    readonly high: number;
  };
  /** largest effect first */
  readonly effects: readonly SettingEffect[];
  readonly mattersMost: Setting;
}

/** An arm with setting errors: mm, rad, mm. The pivot distance means nothing to a tangential arm. */
function missetArm(arm: Arm, overhang: number, twist: number, pivot: number): Arm {
  return arm.kind === 'tangential'
    ? { ...arm, overhang: arm.overhang + overhang, offset: arm.offset + twist }
    : {
        ...arm,
        effectiveLength: arm.effectiveLength + overhang,
        offset: arm.offset + twist,
        spindleToPivot: arm.spindleToPivot + pivot,
      };
}

export interface ToleranceOptions {
  readonly tolerances?: SettingTolerances;
  readonly loudness?: Loudness;
  /** whole number; the same seed gives the same band */
  readonly seed?: number;
  /** 100–100 000 */
  readonly draws?: number;
  /** radii on the band, 2–400 */
  readonly points?: number;
}

/**
 * The tolerance band of an arm on a span.
 *
 * @returns or the reason where the arm does not play the span
 * @throws RangeError naming the argument, its value and its bounds
 */
export function toleranceBand(arm: Arm, span: GrooveSpan, options: ToleranceOptions = {}): Found<ToleranceBand> {
  const { tolerances = usualTolerances, loudness = usualLoudness, seed = 1, draws = 1000, points = 25 } = options;
  within('tolerance of overhang', tolerances.overhang, 0, 10, 'mm');
  within('tolerance of twist', tolerances.twist, 0, Math.PI / 18, 'rad');
  within('tolerance of spindle to pivot', tolerances.spindleToPivot, 0, 20, 'mm');
  wholeWithin('draws', draws, 100, 100_000);
  wholeWithin('points', points, 2, 400);
  const reached = reachesSpan(arm, span);
  if (!reached.found) return reached;
  const scale = 100 * harmonicScale(loudness);
  const pivoted = arm.kind === 'pivoted';
  const settings: { setting: Setting; size: number; unit: 'mm' | 'deg'; apply: (t: number) => Arm }[] = [
    { setting: 'overhang', size: tolerances.overhang, unit: 'mm', apply: (t) => missetArm(arm, t, 0, 0) },
    { setting: 'twist', size: tolerances.twist, unit: 'deg', apply: (t) => missetArm(arm, 0, t, 0) },
    ...(pivoted
      ? [
          {
            setting: 'spindle-to-pivot' as const,
            size: tolerances.spindleToPivot,
            unit: 'mm' as const,
            apply: (t: number) => missetArm(arm, 0, 0, t),
          },
        ]
      : []),
  ];
  const radii = spreadRadii(span, points);
  const point = (radiusMm: number, low: number, high: number): BandPoint => ({
    radiusMm,
    trackingErrorLowDeg: radToDeg(low),
    trackingErrorHighDeg: radToDeg(high),
    secondHarmonicLowPercent: (scale * Math.tan(low)) / radiusMm,
    secondHarmonicHighPercent: (scale * Math.tan(high)) / radiusMm,
  });
  const linear = radii.map((r) => {
    const centre = errorWithinReach(arm, r);
    const half = Math.hypot(
      ...settings.map(({ size, apply }) => (errorWithinReach(apply(size), r) - errorWithinReach(apply(-size), r)) / 2),
    );
    return point(r, centre - half, centre + half);
  });

  const normal = normalNumbers(seed);
  const tangents = radii.map(() => new Float64Array(draws));
  const peaksDrawn = new Float64Array(draws);
  const drawn = new Float64Array(radii.length);
  for (let k = 0; k < draws; k++) {
    const misset = missetArm(
      arm,
      (normal() * tolerances.overhang) / 2,
      (normal() * tolerances.twist) / 2,
      (normal() * tolerances.spindleToPivot) / 2,
    );
    errorTangents(misset, radii, drawn);
    for (let i = 0; i < radii.length; i++) tangents[i][k] = drawn[i];
    peaksDrawn[k] = scale * peakOfTangents(drawn, radii);
  }
  // the tangent rises with the angle, so its quantiles are the angle's
  const monteCarlo = radii.map((r, i) => {
    const sorted = tangents[i].sort();
    return point(r, Math.atan(quantile(sorted, 0.025)), Math.atan(quantile(sorted, 0.975)));
  });
  const sorted = peaksDrawn.sort();
  const asSet = scale * peakWeighted(arm, span);
  const effects = settings
    .map(({ setting, size, unit, apply }): SettingEffect => {
      const worst = scale * Math.max(peakWeighted(apply(size), span), peakWeighted(apply(-size), span));
      return {
        setting,
        tolerance: unit === 'deg' ? radToDeg(size) : size,
        unit,
        peakAtWorstPercent: worst,
        risePercent: worst - asSet,
      };
    })
    .sort((a, b) => b.risePercent - a.risePercent);
  return {
    found: true,
    value: {
      linear,
      monteCarlo,
      draws,
      seed,
      peakDistortionPercent: {
        asSet,
        median: quantile(sorted, 0.5),
        low: quantile(sorted, 0.025),
        high: quantile(sorted, 0.975),
      },
      effects,
      mattersMost: effects[0].setting,
    },
  };
}
