/**
 * What a left-only, a right-only and (where there is one) a lateral band were read as, and the gain of left over right that
 * they give in two ways: by levels and by the lateral band. crosstalk.ts says how far either is believed.
 */

import { type Complex, over, times } from '../units/complex.ts';
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
  /** squared share of either leak's size that it may differ by because the tone is not quite the one it is told of; its phase by half as much */
  readonly offTone?: number;
}

/** ln; standard uncertainty of what a lateral band says of the gains beyond its noise: 0.01 dB */
const LATERAL_ALLOWANCE = 0.0012;
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

/** The readings as numbers that can be shifted one at a time: left band, right band, level difference, both; re before im. */
export interface ReadingNumbers {
  readonly values: readonly number[];
  readonly variances: readonly number[];
  readonly freedoms: readonly number[];
}

export function numbersOf({ leftBand, rightBand, levelDifference, both }: CrosstalkReadings): ReadingNumbers {
  return {
    values: [leftBand.re, leftBand.im, rightBand.re, rightBand.im, levelDifference.value, both?.re ?? 0, both?.im ?? 0],
    variances: [
      leftBand.varRe,
      leftBand.varIm,
      rightBand.varRe,
      rightBand.varIm,
      levelDifference.variance,
      both?.varRe ?? 0,
      both?.varIm ?? 0,
    ],
    freedoms: [leftBand, leftBand, rightBand, rightBand, levelDifference, both, both].map(
      (r) => r?.degreesOfFreedom ?? Infinity,
    ),
  };
}

/** ρ from those numbers. */
export const channelRatioAt = (x: readonly number[], vertical: boolean): Complex =>
  channelRatio({ re: x[5], im: x[6] }, { re: x[0], im: x[1] }, { re: x[2], im: x[3] }, vertical);

export interface GainShare {
  /** of the levels, 0–1; the lateral band has the rest */
  readonly share: number;
  /** variance of ln gain beyond the readings' */
  readonly extra: number;
  /** ln: by levels minus by the lateral band, where they disagree by more than k = 2 */
  readonly disagreement: number | null;
}

/** How to share between the two ways to |ρ|, settled before anything is differentiated. */
export function gainShare(
  { both, bothVertical, levelDifference }: CrosstalkReadings,
  values: readonly number[],
): GainShare {
  if (both === null) return { share: 1, extra: 0, disagreement: null };
  const rho = channelRatioAt(values, bothVertical);
  const relative =
    (both.varRe + both.varIm) / 2 / Math.max(1e-30, both.re ** 2 + both.im ** 2) + LATERAL_ALLOWANCE ** 2;
  const difference = levelDifference.value - Math.log(Math.hypot(rho.re, rho.im));
  const share = relative / (relative + levelDifference.variance);
  if (!(Math.abs(difference) > Math.max(2.6 * Math.sqrt(relative + levelDifference.variance), WORTH_SAYING))) {
    return { share, extra: 0, disagreement: null };
  }
  return {
    share: Math.abs(difference) > BAND_LEVELS_DIFFER ? 0 : share,
    extra: (difference / 2) ** 2,
    disagreement: difference,
  };
}
