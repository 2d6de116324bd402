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
import { type ComplexLeaks, predictAfterTurn, tiltFromLeaks, tiltOfEqualSeparations } from './tilt.ts';
import type { ComplexEstimate, Estimate } from './toneSegment.ts';

export interface CrosstalkReadings {
  /** undriven over driven */
  readonly leftBand: ComplexEstimate;
  readonly rightBand: ComplexEstimate;
  /** ln |L on the left band| − ln |R on the right band|, the sheet's levels removed */
  readonly levelDifference: Estimate;
  /** left over right where both walls are driven; null where there is no such band */
  readonly both: ComplexEstimate | null;
  /** the band behind `both` is cut vertically */
  readonly bothVertical: boolean;
  /** true where one channel comes out inverted: used only where `both` is null */
  readonly inverted: boolean;
  /** tilt the record is cut with, rad, clockwise positive: an upright cartridge reads it as the opposite tilt */
  readonly cutTilt: number;
}

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

/** ln; standard uncertainty of what a lateral band says of the gains beyond its noise: 0.01 dB */
const LATERAL_ALLOWANCE = 0.0012;
/** ln; standard uncertainty of the gains, whichever way they are read: generators compress a little, each by its own amount: 0.015 dB */
const COMPRESSION = 0.0017;
/** 120 dB down */
const NO_LEAK = 1e-6;
/** a band whose other channel is louder than this is not cut on one side */
const LARGEST_LEAK = 0.7;
/** ln; 0.05 dB between the two ways are passed over */
const WORTH_SAYING = 0.006;
/** ln; 0.2 dB */
const BAND_LEVELS_DIFFER = 0.023;

/** ρ from the ratio on a band that drives both walls. */
export function channelRatio(both: Complex, leftBand: Complex, rightBand: Complex, vertical: boolean): Complex {
  const qm = times(both, leftBand);
  const top = { re: both.re - rightBand.re, im: both.im - rightBand.im };
  const rho = over(top, { re: 1 - qm.re, im: -qm.im });
  return vertical ? { re: -rho.re, im: -rho.im } : rho;
}

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

/** @returns figures, or why the readings cannot be those of one-sided bands */
export function crosstalkOf(
  readings: CrosstalkReadings,
): Crosstalk | { readonly found: false; readonly why: Statement } {
  const { leftBand, rightBand, levelDifference, both, bothVertical, inverted, cutTilt } = readings;
  const inputs = [
    leftBand.re,
    leftBand.im,
    rightBand.re,
    rightBand.im,
    levelDifference.value,
    both?.re ?? 0,
    both?.im ?? 0,
  ];
  const variances = [
    leftBand.varRe,
    leftBand.varIm,
    rightBand.varRe,
    rightBand.varIm,
    levelDifference.variance,
    both?.varRe ?? 0,
    both?.varIm ?? 0,
  ];
  const freedoms = [leftBand, leftBand, rightBand, rightBand, levelDifference, both, both].map(
    (r) => r?.degreesOfFreedom ?? Infinity,
  );

  if (Math.hypot(leftBand.re, leftBand.im) < NO_LEAK && Math.hypot(rightBand.re, rightBand.im) < NO_LEAK) {
    return { found: false, why: statement('no-leak-at-all') };
  }
  // How to share between the two ways to |ρ|, settled before anything is differentiated.
  const lateralGain = (x: readonly number[]): Complex =>
    channelRatio({ re: x[5], im: x[6] }, { re: x[0], im: x[1] }, { re: x[2], im: x[3] }, bothVertical);
  let share = 1; // of the levels
  let extra = 0; // variance of ln gain beyond the readings'
  let disagreement: number | null = null;
  if (both !== null) {
    const rho = lateralGain(inputs);
    const relative =
      (both.varRe + both.varIm) / 2 / Math.max(1e-30, both.re ** 2 + both.im ** 2) + LATERAL_ALLOWANCE ** 2;
    const difference = levelDifference.value - Math.log(Math.hypot(rho.re, rho.im));
    share = relative / (relative + levelDifference.variance);
    if (Math.abs(difference) > Math.max(2.6 * Math.sqrt(relative + levelDifference.variance), WORTH_SAYING)) {
      disagreement = difference;
      extra = (difference / 2) ** 2;
      if (Math.abs(difference) > BAND_LEVELS_DIFFER) share = 0;
    }
  }

  const evaluate = (x: readonly number[], gainOffset: number) => {
    const rho = both === null ? { re: inverted ? -1 : 1, im: 0 } : lateralGain(x);
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
  };
  const figures = (x: readonly number[], gainOffset: number): number[] => {
    const evaluated = evaluate(x, gainOffset);
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
  };

  const settled = evaluate(inputs, 0);
  const central = figures(inputs, 0);
  if (settled === null || central.some((v, i) => i !== 1 && !Number.isFinite(v))) {
    return { found: false, why: statement('leak-as-loud') };
  }
  const contributions = central.map(() => ({ variance: 0, satterthwaite: 0 }));
  const add = (up: number[], down: number[], freedom: number): void => {
    contributions.forEach((into, i) => {
      const half = (up[i] - down[i]) / 2;
      const part = half * half;
      // a reading so unsure that it may be no leak at all
      if (!Number.isFinite(part)) {
        if (i !== 1) into.variance = Number.MAX_VALUE;
        return;
      }
      into.variance += part;
      into.satterthwaite += part ** 2 / freedom;
    });
  };
  inputs.forEach((value, i) => {
    const step = Math.sqrt(variances[i]);
    if (step === 0) return;
    const shifted = (by: number): number[] => inputs.map((v, j) => (j === i ? value + by : v));
    add(figures(shifted(step), 0), figures(shifted(-step), 0), freedoms[i]);
  });
  const own = contributions.map(({ variance }) => Math.sqrt(variance));
  if (both !== null) {
    const unsure = unsureTurn(settled.leaks);
    contributions[0].variance += unsure ** 2;
  }
  add(figures(inputs, COMPRESSION), figures(inputs, -COMPRESSION), Infinity);
  if (extra > 0) add(figures(inputs, Math.sqrt(extra)), figures(inputs, -Math.sqrt(extra)), Infinity);

  const uncertain = (i: number): Uncertain => ({
    value: central[i],
    spread: Math.sqrt(contributions[i].variance),
    own: own[i],
    k:
      contributions[i].satterthwaite > 0
        ? coverageFactor(Math.max(1, contributions[i].variance ** 2 / contributions[i].satterthwaite))
        : 2,
  });
  const { leaks, phase, heard } = settled;
  const part = (i: number): number => Math.sqrt(contributions[i].variance);
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
    disagreement,
    believesLateral: share < 0.5,
  };
}
