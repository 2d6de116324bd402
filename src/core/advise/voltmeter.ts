/**
 * Azimuth from a meter that shows sizes and no phase.
 *
 * One pair of readings cannot tell a tilt from a leak of the cartridge: it is read under the assumption that both leaks
 * are in phase with the same sign, and the true tilt lies anywhere within ±(|c_LR| + |c_RL|)/2. Two ways need no such assumption.
 * The mono sum of each one-sided band, |1 + c|² = 1 + 2 Re c + |c|², gives the in-phase parts (monoSums.ts). Readings at several tilts:
 * as the cartridge is tilted by τ, |c_LR|² = (x_L − sτ)² + y_L² and |c_RL|² = (x_R + sτ)² + y_R² are two parabolas of one curvature
 * s², and the least of their sum is the answer.
 *
 * @source bench practice for the pair; the parabolas follow from the 45/45 geometry (docs/methods/voltmeter.md)
 */

import { type ComplexLeaks, predictAfterTurn } from '../measure/tilt.ts';
import type { Complex } from '../units/complex.ts';
import { dbToRatio, degToRad, radToDeg, ratioToDb } from '../units/units.ts';
import { type Statement, statement } from '../words/statement.ts';
import { separationDb } from './leaks.ts';
import { DEFAULT_MONO_UNCERTAINTY_DB, type MonoSums, tiltFromMonoSums } from './monoSums.ts';
import { weightedLeastSquares } from './weightedLeastSquares.ts';

/** k = 2, dB: a pointer or a digital voltmeter read with care at a steady tone; common practice. */
export const DEFAULT_READING_UNCERTAINTY_DB = 0.3;
/** dB per neper */
const DB = 20 / Math.LN10;

export interface PairOfReadings {
  /** dB, separation: how far the right channel lies under the left one on the left-only band; 3–80 */
  readonly leftToRightDb: number;
  readonly rightToLeftDb: number;
  /** k = 2, dB */
  readonly readingUncertaintyDb?: number;
  readonly mono?: MonoSums;
}

export interface ReadingAtTilt {
  readonly mono?: MonoSums;
  /** deg on the person's own scale, clockwise seen from the cartridge's face positive */
  readonly tiltDeg: number;
  readonly leftToRightDb: number;
  readonly rightToLeftDb: number;
}

export interface TiltFromMeter {
  readonly found: true;
  /** Tilt present, true degrees (not the scale's), clockwise positive: for a pair, now; for several tilts, with the scale at zero. */
  readonly angleDeg: number;
  /** k = 2, deg; of the readings alone */
  readonly readingDeg: number;
  /** k = 2, deg; with what the readings cannot show: for a pair without mono sums any phase of the leaks */
  readonly uncertaintyDeg: number;
  /** the leaks (imaginary parts without their sign), for several tilts with the scale at zero; null where phase is unknown */
  readonly leaks: ComplexLeaks | null;
  /** dB both ways after the turn */
  readonly predictedLeftToRightDb: number;
  readonly predictedRightToLeftDb: number;
  readonly assumption: Statement;
  /** several tilts only: where on the person's scale the leak is least, deg */
  readonly bestTiltDeg?: number;
  /** k = 2, deg on the person's scale; of the readings alone */
  readonly bestReadingDeg?: number;
  /** several tilts only: how many true degrees one degree of the person's scale is */
  readonly scale?: number;
  /** several tilts only, deg on the scale: the last reading, where the cartridge is assumed to be */
  readonly lastTiltDeg?: number;
}

export type MeterAnswer = TiltFromMeter | { readonly found: false; readonly why: Statement };

function checkReading(name: string, db: number): void {
  if (!(3 <= db && db <= 80)) {
    throw new RangeError(
      `${name} is ${db}; a separation between 3 and 80 dB was expected, written as a positive number`,
    );
  }
}

function checkSpread(spread: number): void {
  if (!(0 < spread && spread <= 10)) {
    throw new RangeError(`the reading's uncertainty is ${spread}; more than 0 and at most 10 dB was expected`);
  }
}

/**
 * @returns without mono sums t = (|c_RL| − |c_LR|)/2 as an angle, and the mean leak that both ways come to; with them the tilt of least
 *   leak, or why the three readings do not fit each other
 * @throws RangeError naming the reading, its value and its bounds
 */
export function tiltFromTwoReadings(pair: PairOfReadings & { readonly mono?: undefined }): TiltFromMeter;
export function tiltFromTwoReadings(pair: PairOfReadings): MeterAnswer;
export function tiltFromTwoReadings(pair: PairOfReadings): MeterAnswer {
  checkReading('left into right', pair.leftToRightDb);
  checkReading('right into left', pair.rightToLeftDb);
  const spread = pair.readingUncertaintyDb ?? DEFAULT_READING_UNCERTAINTY_DB;
  checkSpread(spread);
  const leftIntoRight = dbToRatio(-pair.leftToRightDb);
  const rightIntoLeft = dbToRatio(-pair.rightToLeftDb);
  if (pair.mono !== undefined) {
    const read = tiltFromMonoSums(leftIntoRight, rightIntoLeft, pair.mono, {
      separationDb: spread,
      monoDb: pair.readingUncertaintyDb ?? DEFAULT_MONO_UNCERTAINTY_DB,
    });
    if (!read.found) return read;
    const { leaks, tilt, uncertainty } = read;
    const after = predictAfterTurn(leaks, tilt);
    return {
      found: true,
      angleDeg: radToDeg(tilt),
      readingDeg: radToDeg(uncertainty),
      uncertaintyDeg: radToDeg(uncertainty),
      leaks,
      predictedLeftToRightDb: separationDb(after.leftIntoRight),
      predictedRightToLeftDb: separationDb(after.rightIntoLeft),
      assumption: statement('equal-gain-read'),
    };
  }
  const angle = Math.atan((rightIntoLeft - leftIntoRight) / 2);
  const after = -ratioToDb((leftIntoRight + rightIntoLeft) / 2);
  const reading = (Math.hypot(leftIntoRight, rightIntoLeft) * spread) / DB / 2;
  return {
    found: true,
    angleDeg: radToDeg(angle),
    readingDeg: radToDeg(reading),
    uncertaintyDeg: radToDeg(Math.hypot(Math.atan((leftIntoRight + rightIntoLeft) / 2), reading)),
    leaks: null,
    predictedLeftToRightDb: after,
    predictedRightToLeftDb: after,
    assumption: statement('no-phase-on-a-meter'),
  };
}

/**
 * Fits both parabolas at once. With two different tilts the scale is taken as true (1); with three or more it is found.
 * @throws RangeError naming the row and the value
 */
export function tiltFromReadings(rows: readonly ReadingAtTilt[], readingUncertaintyDb?: number): MeterAnswer {
  rows.forEach((row, i) => {
    if (!(Math.abs(row.tiltDeg) <= 15)) {
      throw new RangeError(`row ${i + 1}: tilt is ${row.tiltDeg}; between −15 and 15 degrees was expected`);
    }
    checkReading(`row ${i + 1}: left into right`, row.leftToRightDb);
    checkReading(`row ${i + 1}: right into left`, row.rightToLeftDb);
  });
  checkSpread(readingUncertaintyDb ?? DEFAULT_READING_UNCERTAINTY_DB);
  const spreadDb = readingUncertaintyDb ?? DEFAULT_READING_UNCERTAINTY_DB;
  const tilts = new Set(rows.map((row) => row.tiltDeg));
  if (tilts.size === 1) {
    const last = rows[rows.length - 1];
    if (last.mono !== undefined) return tiltFromTwoReadings({ ...last, readingUncertaintyDb });
  }
  const span = Math.max(...tilts) - Math.min(...tilts);
  if (tilts.size < 2 || !(span >= 0.2)) {
    return { found: false, why: statement('tilts-needed') };
  }
  const fitScale = tilts.size >= 3;
  const fit = fitParabolas(rows, spreadDb, fitScale);
  if (!fit.found) return fit;
  const { curvature, slopeLeft, slopeRight, floorLeft, floorRight, covariance } = fit;
  const best = -(slopeLeft + slopeRight) / (4 * curvature);
  const at = (slope: number, floor: number) => Math.max(1e-12, curvature * best * best + slope * best + floor);
  const s = Math.sqrt(curvature);
  // first-order propagation of the readings' spread; `readingUncertaintyDb` is k = 2, and so is what comes of it
  const spreadOf = (byCurvature: number, bySlope: number): number => {
    const gradient = [...(fitScale ? [byCurvature] : []), bySlope, bySlope, 0, 0];
    const variance = gradient.reduce(
      (sum, g, i) => sum + g * gradient.reduce((inner, h, j) => inner + covariance[i][j] * h, 0),
      0,
    );
    return Math.sqrt(Math.max(0, variance));
  };
  // least of the sum at τ = −(b_L + b_R)/4s² on the scale, at −s τ of the tip: what a degree of the scale is, the leaks tell themselves
  const uncertainty = spreadOf(-best / curvature, -1 / (4 * curvature));
  const ofTip = spreadOf(best / (2 * s), 1 / (4 * s));
  if (!(radToDeg(uncertainty) < 5) || !(Math.abs(radToDeg(best)) < 20)) {
    return { found: false, why: statement('readings-do-not-bend') };
  }
  // with the scale at zero: x_L = −b_L/2s, x_R = b_R/2s, y² what is left of the floor
  const leakOf = (re: number, floor: number): Complex => ({ re, im: Math.sqrt(Math.max(0, floor - re * re)) });
  return {
    found: true,
    angleDeg: radToDeg(-best * s),
    readingDeg: radToDeg(ofTip),
    uncertaintyDeg: radToDeg(ofTip),
    leaks: {
      leftIntoRight: leakOf(-slopeLeft / (2 * s), floorLeft),
      rightIntoLeft: leakOf(slopeRight / (2 * s), floorRight),
    },
    predictedLeftToRightDb: -ratioToDb(Math.sqrt(at(slopeLeft, floorLeft))),
    predictedRightToLeftDb: -ratioToDb(Math.sqrt(at(slopeRight, floorRight))),
    bestTiltDeg: radToDeg(best),
    bestReadingDeg: radToDeg(uncertainty),
    scale: s,
    lastTiltDeg: rows[rows.length - 1].tiltDeg,
    assumption: fitScale ? statement('scale-alike') : statement('scale-true'),
  };
}

type ParabolaFit =
  | {
      found: true;
      curvature: number;
      slopeLeft: number;
      slopeRight: number;
      floorLeft: number;
      floorRight: number;
      covariance: number[][];
    }
  | { found: false; why: Statement };

/** P_L = s²τ² + b_L τ + e_L and P_R = s²τ² + b_R τ + e_R by weighted least squares, linear in all five. */
function fitParabolas(rows: readonly ReadingAtTilt[], spreadDb: number, fitScale: boolean): ParabolaFit {
  const design: number[][] = [];
  const values: number[] = [];
  const weights: number[] = [];
  for (const row of rows) {
    const tau = degToRad(row.tiltDeg);
    for (const side of ['left', 'right'] as const) {
      const power = dbToRatio(-(side === 'left' ? row.leftToRightDb : row.rightToLeftDb)) ** 2;
      // the spread of P is 2P/DB times that of its dB; floored at 50 dB so that one deep null does not rule the fit
      const sigma = (Math.max(power, 1e-5) * 2 * spreadDb) / DB;
      const line = side === 'left' ? [tau, 0, 1, 0] : [0, tau, 0, 1];
      design.push(fitScale ? [tau * tau, ...line] : line);
      values.push(fitScale ? power : power - tau * tau);
      weights.push(1 / (sigma * sigma));
    }
  }
  const solved = weightedLeastSquares(design, values, weights);
  if (!solved.found) return solved;
  const [curvature, slopeLeft, slopeRight, floorLeft, floorRight] = fitScale
    ? solved.parameters
    : [1, ...solved.parameters];
  if (!(curvature > 0.02)) {
    return { found: false, why: statement('readings-grow-one-way') };
  }
  return { found: true, curvature, slopeLeft, slopeRight, floorLeft, floorRight, covariance: solved.covariance };
}
