/**
 * From the readings of a left-only, a right-only and (where there is one) a lateral band to the two leaks with the
 * channels' own gains and phase removed, and everything that follows from them, each with its uncertainty.
 *
 * Write the chain as a matrix M (channel, wall). Its columns are what one driven wall gives:
 *   m_LR = R/L on the left band = M_RL/M_LL      m_RL = L/R on the right band = M_LR/M_RR
 *   c_LR = m_LR ρ     c_RL = m_RL / ρ            ρ = M_LL / M_RR, the complex ratio of the channels
 * A lateral band gives ρ without any level of one band against another, exactly:
 *   q = L/R on it = (M_LL + M_LR)/(M_RL + M_RR)   →   ρ = (q − m_RL) / (1 − q m_LR)
 * (vertical: M_LL − M_LR over M_RL − M_RR, ρ = (m_RL − q)/(1 − q m_LR)).
 *
 * |ρ| is also |L on the left band| / |R on the right band|. That takes for granted that both bands are cut and played equally
 * loud; the other that the lateral band drives both walls alike and that the generators do not compress (each wall moves
 * 3 dB less there; 0.1 % of third harmonic is 0.01 dB). The levels are the definition of the contract and as a rule the surer;
 * both are used by their variances, 0.01 dB being added to the lateral band's, so that it takes over where a level wavers.
 * Where the two disagree by more than 0.05 dB and k = 2, the whole difference is in the expanded uncertainty; above 0.2 dB, more
 * than compression can make, the lateral band is believed: it compares two walls in the same seconds of one band, so only
 * it is safe from a band that was cut, worn or captured at another level.
 * The chain's phase (of ρ, less what the leaks themselves turn it by) comes from the lateral band alone; without one it is taken as zero (polarity is seen on no other band either).
 */

import { coverageFactor } from '../signal/robust.ts';
import { type Complex, over, times } from '../units/complex.ts';
import { type Statement, statement } from '../words/statement.ts';
import {
  type CrosstalkReadings,
  channelRatioAt,
  type GainShare,
  gainShare,
  numbersOf,
  type ReadingNumbers,
} from './channelGain.ts';
import { type ComplexLeaks, predictAfterTurn, tiltFromLeaks, tiltOfEqualSeparations } from './tilt.ts';

/** A number with what it rests on. */
export interface Uncertain {
  readonly value: number;
  /** standard uncertainty */
  readonly spread: number;
  /** the part of it that is the readings' own: what another pass over the same record would show */
  readonly own: number;
  /** k for 95 % */
  readonly k: number;
}

export interface Crosstalk {
  readonly found: true;
  readonly leaks: ComplexLeaks;
  /** the same before the record's stated tilt is taken off */
  readonly asHeard: ComplexLeaks;
  /** standard uncertainties of the four parts, in the order of the readings */
  readonly leakSpread: { readonly leftIntoRight: Complex; readonly rightIntoLeft: Complex };
  /** rad */
  readonly tilt: Uncertain;
  /** rad, or null where the rule gives none */
  readonly equalTilt: Uncertain | null;
  /** |c|, and its spread along itself */
  readonly leftIntoRight: Uncertain;
  readonly rightIntoLeft: Uncertain;
  /** ln of the gain of left over right, tilt removed */
  readonly gain: Uncertain;
  /** rad, left's lead over right; null where no lateral band showed it */
  readonly phase: number | null;
  /** ln: by levels minus by the lateral band, where both say something and disagree by more than k = 2 */
  readonly disagreement: number | null;
  /** the gain is the lateral band's */
  readonly believesLateral: boolean;
}

/** ln; standard uncertainty of the gains, whichever way they are read: generators compress a little, each by its own amount: 0.015 dB */
const COMPRESSION = 0.0017;
/** 120 dB down */
const NO_LEAK = 1e-6;
/** a band whose other channel is louder than this is not cut on one side */
const LARGEST_LEAK = 0.7;
const largest = ({ leftIntoRight: a, rightIntoLeft: b }: ComplexLeaks): number =>
  Math.max(Math.hypot(a.re, a.im), Math.hypot(b.re, b.im));

/**
 * Phase that the leaks themselves put into ρ: with x the cartridge's own leaks and t its tilt,
 * ρ = (chain's ratio) · (1 − x_RL t) / (1 + x_LR t). What is left is the chain's.
 */
function turnedByLeaks(leaks: ComplexLeaks): number {
  const t = Math.tan(tiltFromLeaks(leaks));
  const own = predictAfterTurn(leaks, Math.atan(t));
  return (
    Math.atan2(-own.rightIntoLeft.im * t, 1 - own.rightIntoLeft.re * t) -
    Math.atan2(own.leftIntoRight.im * t, 1 + own.leftIntoRight.re * t)
  );
}

/**
 * What the tilt is uncertain by because the leaks' turn of ρ is worked out for the tilt that is seen, not the one that is there: a
 * cartridge's own antisymmetric in-phase leak looks the same and turns nothing. Taken to be as large as its leaks with phases
 * at random make it, |x|/2 of either; it turns ρ by that times Im x_LR + Im x_RL, and the tilt by half of that times the same sum.
 *
 * @returns rad, standard
 */
function unsureTurn(leaks: ComplexLeaks): number {
  const own = predictAfterTurn(leaks, tiltFromLeaks(leaks));
  const { leftIntoRight: a, rightIntoLeft: b } = own;
  const antisymmetric = Math.sqrt((a.re ** 2 + a.im ** 2 + b.re ** 2 + b.im ** 2) / 8);
  return (antisymmetric * (a.im + b.im) ** 2) / 2;
}

interface Evaluated {
  readonly heard: ComplexLeaks;
  readonly leaks: ComplexLeaks;
  readonly lnGain: number;
  readonly phase: number;
}

/**
 * @param share how much of the gain is read off the levels, 0–1
 * @param x the numbers of the readings in the order of `numbersOf`
 * @param gainOffset ln, added to the gain
 * @returns null where a leak is as loud as what was driven
 */
function evaluate(
  readings: CrosstalkReadings,
  share: number,
  x: readonly number[],
  gainOffset: number,
): Evaluated | null {
  const { both, bothVertical, inverted, cutTilt } = readings;
  const rho = both === null ? { re: inverted ? -1 : 1, im: 0 } : channelRatioAt(x, bothVertical);
  const size = Math.hypot(rho.re, rho.im);
  const lnGain = (both === null ? x[4] : share * x[4] + (1 - share) * Math.log(size)) + gainOffset;
  const leaksAt = (phase: number): ComplexLeaks => {
    const gain = { re: Math.exp(lnGain) * Math.cos(phase), im: Math.exp(lnGain) * Math.sin(phase) };
    return {
      leftIntoRight: times({ re: x[0], im: x[1] }, gain),
      rightIntoLeft: over({ re: x[2], im: x[3] }, gain),
    };
  };
  let phase = Math.atan2(rho.im, rho.re);
  let heard = leaksAt(phase);
  if (!(largest(heard) < LARGEST_LEAK)) return null;
  if (both !== null) {
    for (let round = 0; round < 3; round++) {
      phase = Math.atan2(rho.im, rho.re) - turnedByLeaks(heard);
      heard = leaksAt(phase);
    }
  }
  return { heard, leaks: cutTilt === 0 ? heard : predictAfterTurn(heard, -cutTilt), lnGain, phase };
}

/** Tilt, tilt of equal separations, both leaks' sizes, gain, then the four parts of the leaks; NaN for what does not exist. */
function figuresOf(evaluated: Evaluated | null): number[] {
  if (evaluated === null) return new Array(9).fill(Number.NaN);
  const { leaks, lnGain } = evaluated;
  const { leftIntoRight: a, rightIntoLeft: b } = leaks;
  const equal = tiltOfEqualSeparations(leaks);
  return [
    tiltFromLeaks(leaks),
    equal ?? Number.NaN,
    Math.hypot(a.re, a.im),
    Math.hypot(b.re, b.im),
    lnGain,
    a.re,
    a.im,
    b.re,
    b.im,
  ];
}

interface Contribution {
  variance: number;
  /** sum of squared variances over their degrees of freedom */
  satterthwaite: number;
}

/** Half of what a figure differs by between a standard uncertainty up and down, squared, into each figure's sum. */
function contribute(into: readonly Contribution[], up: number[], down: number[], freedom: number): void {
  into.forEach((one, i) => {
    const half = (up[i] - down[i]) / 2;
    const part = half * half;
    // a reading so unsure that it may be no leak at all
    if (!Number.isFinite(part)) {
      if (i !== 1) one.variance = Number.MAX_VALUE;
      return;
    }
    one.variance += part;
    one.satterthwaite += part ** 2 / freedom;
  });
}

/** What every figure is uncertain by, and how much of it the readings' own noise is. */
function spreadsOf(
  readings: CrosstalkReadings,
  { values, variances, freedoms }: ReadingNumbers,
  { share, extra }: GainShare,
  settled: Evaluated,
): { readonly contributions: readonly Contribution[]; readonly own: readonly number[] } {
  const figures = (x: readonly number[], gainOffset: number) => figuresOf(evaluate(readings, share, x, gainOffset));
  const contributions = figuresOf(settled).map(() => ({ variance: 0, satterthwaite: 0 }));
  const shift = (i: number, step: number, freedom: number): void => {
    if (step === 0) return;
    const shifted = (by: number): number[] => values.map((v, j) => (j === i ? v + by : v));
    contribute(contributions, figures(shifted(step), 0), figures(shifted(-step), 0), freedom);
  };
  for (const [i, variance] of variances.entries()) shift(i, Math.sqrt(variance), freedoms[i]);
  const own = contributions.map(({ variance }) => Math.sqrt(variance));
  const offTone = Math.sqrt(readings.offTone ?? 0);
  for (const i of [0, 2]) {
    shift(i, offTone * Math.hypot(values[i], values[i + 1] / 2), Number.POSITIVE_INFINITY);
    shift(i + 1, offTone * Math.hypot(values[i + 1], values[i] / 2), Number.POSITIVE_INFINITY);
  }
  if (readings.both !== null) contributions[0].variance += unsureTurn(settled.leaks) ** 2;
  contribute(contributions, figures(values, COMPRESSION), figures(values, -COMPRESSION), Infinity);
  if (extra > 0) {
    contribute(contributions, figures(values, Math.sqrt(extra)), figures(values, -Math.sqrt(extra)), Infinity);
  }
  return { contributions, own };
}

/** @returns figures, or why the readings cannot be those of one-sided bands */
export function crosstalkOf(
  readings: CrosstalkReadings,
): Crosstalk | { readonly found: false; readonly why: Statement } {
  const { leftBand, rightBand, both } = readings;
  if (Math.hypot(leftBand.re, leftBand.im) < NO_LEAK && Math.hypot(rightBand.re, rightBand.im) < NO_LEAK) {
    return { found: false, why: statement('no-leak-at-all') };
  }
  const numbers = numbersOf(readings);
  const shared = gainShare(readings, numbers.values);
  const settled = evaluate(readings, shared.share, numbers.values, 0);
  const central = figuresOf(settled);
  if (settled === null || central.some((v, i) => i !== 1 && !Number.isFinite(v))) {
    return { found: false, why: statement('leak-as-loud') };
  }
  const { contributions, own } = spreadsOf(readings, numbers, shared, settled);
  const part = (i: number): number => Math.sqrt(contributions[i].variance);
  const uncertain = (i: number): Uncertain => ({
    value: central[i],
    spread: part(i),
    own: own[i],
    k:
      contributions[i].satterthwaite > 0
        ? coverageFactor(Math.max(1, contributions[i].variance ** 2 / contributions[i].satterthwaite))
        : 2,
  });
  const { leaks, phase, heard } = settled;
  // the rule of equal separations only means something where the common in-phase leak stands out of its own noise
  const common = Math.abs(leaks.leftIntoRight.re + leaks.rightIntoLeft.re);
  const hasEqual = Number.isFinite(central[1]) && common > 4 * Math.hypot(part(5), part(7));
  if (contributions.some(({ variance }) => !(variance < 1))) {
    return { found: false, why: statement('leaks-in-noise') };
  }
  return {
    found: true,
    leaks,
    asHeard: heard,
    leakSpread: { leftIntoRight: { re: part(5), im: part(6) }, rightIntoLeft: { re: part(7), im: part(8) } },
    tilt: uncertain(0),
    equalTilt: hasEqual ? uncertain(1) : null,
    leftIntoRight: uncertain(2),
    rightIntoLeft: uncertain(3),
    gain: uncertain(4),
    phase: both === null ? null : phase,
    disagreement: shared.disagreement,
    believesLateral: shared.share < 0.5,
  };
}
