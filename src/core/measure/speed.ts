/**
 * Speed error: the tones' mean frequency over whole turns against what they were cut with, each tone by its length. It stands
 * for the deck over the side: what a wandering platter does while no tone plays is in the uncertainty.
 */
import { type Problem, withheld } from '../capture/problem.ts';
import { coverageFactor } from '../signal/robust.ts';
import { statement } from '../words/statement.ts';
import { combineEstimates } from './combine.ts';
import type { Finding } from './finding.ts';
import { type Nominal, nominalOf } from './nominal.ts';
import { fitRotation } from './rotation.ts';
import type { SideReadings, ToneBand } from './sideReadings.ts';
import type { SegmentFigures } from './toneEstimator.ts';
import type { Estimate } from './toneSegment.ts';

/** Without a fit of whole turns the once-per-turn part stays in the mean; this much is allowed for it where no tone of the side tells it, peak ratio. */
const UNSEEN_WOW = 1e-3;
/** A hole swings the innermost groove by so much more than the outermost: 146 mm over 60 mm. */
const INWARDS = 2.4;

/** A companion lasts at least this, s, and tells a speed within this of the speed tones', ratio. */
const LEAST_COMPANION_S = 3;
const AGREES = 5e-4;

/** What a tone too short for a fit may swing by once per turn, peak ratio: as the side's longer tones do, at whatever radius. */
export function wowHeard(tones: readonly ToneBand[], rotationHz: number): number {
  const heard = tones.flatMap(({ reading }) =>
    reading.segments.flatMap(({ trace }) => {
      const fit = fitRotation(trace, rotationHz);
      return fit === null ? [] : [Math.hypot(fit.re, fit.im) + 2 * Math.sqrt(fit.variance)];
    }),
  );
  return heard.length === 0 ? UNSEEN_WOW : INWARDS * Math.max(...heard);
}

/** Mean frequency of a segment over whole turns, Hz. @param unseenWow peak ratio, for one that is too short for a fit */
export function meanFrequency(segment: SegmentFigures, rotationHz: number, unseenWow: () => number): Estimate {
  const { trace } = segment;
  const rotation = fitRotation(trace, rotationHz);
  if (rotation === null) {
    const turns = (trace.deviation.length / trace.rateHz) * rotationHz;
    // of a swing a whose phase nobody knows, n turns hold up to a/πn in their mean: a/√2πn rms
    const spread = (unseenWow() * trace.meanHz) / (Math.SQRT2 * Math.max(1, Math.PI * turns));
    return { value: trace.meanHz, variance: spread ** 2, degreesOfFreedom: 50 };
  }
  return {
    value: trace.meanHz * (1 + rotation.meanCorrection),
    variance: trace.meanHz ** 2 * rotation.meanVariance,
    degreesOfFreedom: rotation.meanFreedom,
  };
}

/** Turns a second as heard. */
const rotationOf = (tone: ToneBand, nominal: Nominal, side: SideReadings): number =>
  (side.rpm / 60) * Math.min(1.3, Math.max(0.7, tone.meanHz / nominal.hz));

/** Speed of a tone against its nominal, ratio − 1. */
export function speedOfTone(tone: ToneBand, nominal: Nominal, side: SideReadings): Estimate {
  const rotationHz = rotationOf(tone, nominal, side);
  const means = tone.reading.segments.map((s) => meanFrequency(s, rotationHz, () => wowHeard(side.tones, rotationHz)));
  const mean = combineEstimates(means);
  return {
    value: mean.value / nominal.hz - 1,
    variance: mean.variance / nominal.hz ** 2,
    degreesOfFreedom: mean.degreesOfFreedom,
  };
}

interface Judged {
  readonly tone: ToneBand;
  readonly nominal: Nominal;
  readonly speed: Estimate;
  /** variance of the speed with what a wander slower than the tone may hide in it; told by its longest stretch */
  readonly slow: number;
}

/** What a wander slower than the tone may add to the variance of its speed, ratio². */
function slowWander({ reading }: ToneBand, rotationHz: number): number {
  const longest = reading.segments.reduce((a, b) => (a.trace.deviation.length >= b.trace.deviation.length ? a : b));
  const fit = fitRotation(longest.trace, rotationHz);
  return fit === null ? 0 : Math.max(0, fit.slowVariance - fit.meanVariance);
}

/**
 * Tones that tell one speed: those that agree with the speed tone that most of the side agrees with. A platter wanders
 * slowly, and more of the side says more about it. A tone whose nominal was guessed wrong, or that the record cuts off
 * pitch, does not agree and stays out.
 */
function agreeing(speedTonesHeard: readonly Judged[], others: readonly Judged[]): { own: Judged[]; others: Judged[] } {
  const agree = (a: Judged, b: Judged): boolean => {
    const apart = Math.abs(a.speed.value - b.speed.value);
    return apart < Math.min(2, 1 + 3 * Math.sqrt((a.speed.variance + b.speed.variance) / AGREES ** 2)) * AGREES;
  };
  const support = (one: Judged): number =>
    [...speedTonesHeard, ...others].reduce((sum, j) => sum + (agree(one, j) ? j.tone.usedS : 0), 0);
  const anchor = speedTonesHeard.reduce((best, j) => {
    const more = support(j) - support(best);
    return more > 0 || (more === 0 && Math.abs(j.speed.value) < Math.abs(best.speed.value)) ? j : best;
  });
  const own = speedTonesHeard.filter((j) => j.nominal.source !== 'assumed' || agree(anchor, j));
  return { own, others: others.filter((j) => agree(anchor, j)) };
}

const expanded = ({ variance, degreesOfFreedom }: Estimate): number =>
  coverageFactor(Math.max(1, degreesOfFreedom)) * Math.sqrt(variance);

/**
 * Mean over the time that the tones last; where they scatter by more than each allows, the scatter is the platter's. What a wander slower than a tone hides, several tones
 * show by their scatter; of one alone it is carried down from what the tone shows.
 */
function overTheSide(judged: readonly Judged[]): Estimate {
  if (judged.length === 1) return { ...judged[0].speed, variance: judged[0].slow };
  const whole = judged.reduce((sum, j) => sum + j.tone.usedS, 0);
  const parts = judged.map((j) => ({ weight: j.tone.usedS / whole, ...j.speed }));
  const value = parts.reduce((sum, p) => sum + p.weight * p.value, 0);
  const formal = parts.reduce((sum, p) => sum + p.weight ** 2 * p.variance, 0);
  const scatter =
    (parts.length / (parts.length - 1)) * parts.reduce((sum, p) => sum + p.weight ** 2 * (p.value - value) ** 2, 0);
  const ofFormal = parts.reduce((sum, p) => sum + p.degreesOfFreedom, 0);
  const ofScatter = parts.length - 1;
  // two estimates of one variance are pooled; a scatter beyond what the tones allow rules, known the less the more it rules
  return scatter > formal
    ? { value, variance: scatter, degreesOfFreedom: ofScatter + ofFormal * (formal / scatter) ** 2 }
    : {
        value,
        variance: (ofFormal * formal + ofScatter * scatter) / (ofFormal + ofScatter),
        degreesOfFreedom: ofFormal + ofScatter,
      };
}

export function speedFigures(
  side: SideReadings,
  tones: readonly ToneBand[],
): { findings: Finding[]; problems: Problem[]; speed: Estimate | null } {
  const quantity = 'speed-error';
  const judge = (tone: ToneBand): Judged[] => {
    const nominal = nominalOf(tone, side);
    if (nominal === null) return [];
    const speed = speedOfTone(tone, nominal, side);
    return [{ tone, nominal, speed, slow: speed.variance + slowWander(tone, rotationOf(tone, nominal, side)) }];
  };
  const heard = tones.flatMap(judge);
  if (heard.length === 0) {
    return { findings: [], problems: [withheld(quantity, statement('no-known-tone'))], speed: null };
  }
  const rest = side.tones.filter((t) => t.usedS >= LEAST_COMPANION_S && !heard.some((j) => j.tone === t));
  const { own: judged, others } = agreeing(heard, rest.flatMap(judge));
  const all = [...judged, ...others];
  const speed = overTheSide(all);
  const whole = all.reduce((sum, j) => sum + j.tone.usedS, 0);
  const names = [...new Set(judged.map((j) => `${j.nominal.hz} Hz`))].join(' and ');
  const source = judged[0].nominal.source;
  const notes = [
    statement(source === 'sheet' ? 'speed-of-record-file' : source === 'stated' ? 'speed-as-stated' : 'speed-assumed', {
      names,
    }),
    ...(others.length === 0 ? [] : [statement('other-tones-used', { seconds: whole })]),
  ];
  return {
    findings: [
      {
        quantity,
        value: 100 * speed.value,
        unit: '%',
        asHeard: 100 * speed.value,
        uncertainty: 100 * expanded(speed),
        bands: all.map((j) => j.tone.band.index).sort((a, b) => a - b),
        notes,
      },
    ],
    problems: [],
    speed,
  };
}
