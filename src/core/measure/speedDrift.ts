/**
 * How the mean speed moves over the side: a line through the mean speeds of the tones against time. A platter that warms up, a belt
 * that settles and a motor that sags show here; once per turn is out of each mean already.
 *
 *   s(t) = a + b (t − t̄)      weights 1/u², u of each mean; what scatters about the line by more widens it
 *
 * @checked speedDrift.test.ts; test/loops/speedStrip.test.ts
 */
import { coverageFactor } from '../signal/robust.ts';
import { statement } from '../words/statement.ts';
import { withBudget } from './budget.ts';
import type { Curve, Finding } from './finding.ts';
import { nominalOf } from './nominal.ts';
import type { SideReadings, ToneBand } from './sideReadings.ts';
import { speedOfTone } from './speed.ts';

/** s from the first to the last mean */
const LEAST_APART_S = 60;
const LEAST_TONE_S = 3;
/** ratio: a tone further off than this from the others has another nominal than was assumed */
const AGREES = 0.005;
/** ratio that a platter with wow moves a mean by over turns that are not told apart */
const FLOOR = 2e-6;
/** %, k = 2, from the first band to the last: a house guess of how far a lathe and its oscillator wander over a side */
const CUT_DRIFT_PERCENT = 0.01;
/** %, k = 2, from the first band to the last: the tip's inward path on its arc reads slow by pitch · tan θ / 2πr, twice as much inside as outside at any pitch up to 0.2 mm */
const INWARD_PERCENT = 0.012;

/** One mean speed. */
export interface SpeedAt {
  /** s from the recording's first frame */
  readonly atS: number;
  /** ratio − 1 */
  readonly value: number;
  readonly variance: number;
}

export interface SpeedLine {
  /** ratio a second, and its standard uncertainty */
  readonly slope: number;
  readonly spread: number;
  readonly overS: number;
  /** the line goes through `level`, a ratio − 1, at this time */
  readonly middleS: number;
  readonly level: number;
}

/** @returns null for fewer than two means, or where they lie less than a minute apart */
export function speedLine(means: readonly SpeedAt[]): SpeedLine | null {
  if (means.length < 2) return null;
  const times = means.map((m) => m.atS);
  const overS = Math.max(...times) - Math.min(...times);
  if (!(overS >= LEAST_APART_S)) return null;
  const weights = means.map((m) => 1 / (m.variance + FLOOR ** 2));
  const all = weights.reduce((sum, w) => sum + w, 0);
  const mean = (of: (m: SpeedAt) => number): number => means.reduce((sum, m, i) => sum + weights[i] * of(m), 0) / all;
  const middle = mean((m) => m.atS);
  const level = mean((m) => m.value);
  const square = means.reduce((sum, m, i) => sum + weights[i] * (m.atS - middle) ** 2, 0);
  const slope = means.reduce((sum, m, i) => sum + weights[i] * (m.atS - middle) * (m.value - level), 0) / square;
  const freedom = means.length - 2;
  const chi2 = means.reduce((sum, m, i) => sum + weights[i] * (m.value - level - slope * (m.atS - middle)) ** 2, 0);
  const excess = freedom > 0 ? Math.max(1, chi2 / freedom) : 1;
  const k = excess > 1 ? coverageFactor(freedom) / 2 : 1;
  return { slope, spread: k * Math.sqrt(excess / square), overS, middleS: middle, level };
}

/** `speed-drift`, %/min, positive when the record gets faster, and its picture; none on a side too short for it. */
export function speedDriftFigure(side: SideReadings): { readonly findings: Finding[]; readonly curves: Curve[] } {
  const heard = side.tones
    .filter((tone) => tone.usedS >= LEAST_TONE_S)
    .flatMap((tone): { tone: ToneBand; at: SpeedAt }[] => {
      const nominal = nominalOf(tone, side);
      if (nominal === null) return [];
      const { value, variance } = speedOfTone(tone, nominal, side);
      return [{ tone, at: { atS: (tone.startS + tone.endS) / 2, value, variance } }];
    });
  if (heard.length < 2) return { findings: [], curves: [] };
  const sorted = heard.map(({ at }) => at.value).sort((a, b) => a - b);
  const middle = sorted[sorted.length >> 1];
  const kept = heard.filter(({ at }) => Math.abs(at.value - middle) < AGREES);
  const line = speedLine(kept.map(({ at }) => at));
  if (line === null) return { findings: [], curves: [] };
  const perMinute = 6000;
  const findings = [
    withBudget(
      {
        quantity: 'speed-drift',
        value: perMinute * line.slope,
        unit: '%/min',
        bands: kept.map(({ tone }) => tone.band.index),
        notes: [
          statement('speed-drift-over', { minutes: line.overS / 60, percent: 100 * line.slope * line.overS }),
          ...(Math.abs(line.slope) > 2 * line.spread && Math.abs(line.slope * line.overS) > 5e-4
            ? [statement('speed-drift-do')]
            : []),
        ],
      },
      2 * perMinute * line.spread,
      [
        { of: statement('cut-speed'), size: CUT_DRIFT_PERCENT / (line.overS / 60) },
        { of: statement('inward-path'), size: INWARD_PERCENT / (line.overS / 60) },
      ],
    ),
  ];
  return {
    findings,
    curves: driftCurves(
      kept.map(({ at }) => at),
      line,
    ),
  };
}

/** Each tone's mean speed, and the line through them. */
function driftCurves(means: readonly SpeedAt[], { slope, middleS, level }: SpeedLine): Curve[] {
  const inOrder = [...means].sort((a, b) => a.atS - b.atS);
  const line = (name: string, of: (mean: SpeedAt) => number): Curve => ({
    quantity: 'speed-over-side',
    name,
    x: inOrder.map(({ atS }) => atS),
    y: inOrder.map((mean) => 100 * of(mean)),
    xUnit: 's',
    yUnit: '%',
  });
  return [
    line('mean of each tone', ({ value }) => value),
    line('the line that fits', ({ atS }) => level + slope * (atS - middleS)),
  ];
}
