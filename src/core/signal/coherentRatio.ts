/**
 * One channel over another at the tone, as a complex number: lock-in whose reference is the driven channel itself, so
 * that wow moves both together and cancels.
 *
 *   m = Σ y d* / Σ |d|²          least squares of y[n] = m d[n] + noise
 *
 * The driven channel's own noise makes |m| too small by the ratio of its noise to its tone in ±220 Hz, below 1e-4 for
 * any groove that is worth measuring. Samples whose remainder stands off by more than 5.5 spreads (a click in y alone) are
 * left out, with what the filters smear.
 */
import type { Complex } from '../units/complex.ts';
import { varianceOfMainsUnderTone } from './mainsUnderTone.ts';
import { usableHalfWidthHz } from './narrowed.ts';
import { median } from './robust.ts';
import { atOnce, type Lent, ofTheCaller, type Steps } from './steps.ts';
import { widenHoles } from './trackedTone.ts';
import { uncertaintyOfMeanInSteps } from './uncertaintyOfMean.ts';
import { LongLoan, workArray, workBytes } from './workArrays.ts';

export interface CoherentRatio extends Complex {
  /** variances of re and im, statistical only */
  readonly varRe: number;
  readonly varIm: number;
  readonly degreesOfFreedom: number;
  /** part of either variance that a mains harmonic under the tone may account for */
  readonly mainsUnderTone: number;
  /** s of signal used */
  readonly usedS: number;
  /** y − m d over the rms of d, and where it counts; for spectra and for the interference check; lent, see workArrays.ts */
  readonly remainderRe: Float64Array;
  readonly remainderIm: Float64Array;
  readonly good: Uint8Array;
}

export interface ComplexSeries {
  readonly re: Float64Array;
  readonly im: Float64Array;
}

interface Ratio extends Complex {
  /** Σ |d|² over the samples used, and how many these are */
  readonly power: number;
  readonly count: number;
}

interface Fit extends Ratio {
  readonly remainderRe: Float64Array;
  readonly remainderIm: Float64Array;
  readonly kept: Uint8Array;
}

/** @param good 1 where the driven tone may be used @param from @param to the tone's stretch */
export function coherentRatio(
  other: ComplexSeries,
  driven: ComplexSeries,
  good: Uint8Array,
  from: number,
  to: number,
  rateHz: number,
  mixHz: number,
): CoherentRatio {
  return atOnce(coherentRatioInSteps(other, driven, { good, from, to, rateHz, mixHz }, ofTheCaller));
}

/** Of the driven tone what may be used, and where it lies. */
export interface ToneStretch {
  readonly good: Uint8Array;
  readonly from: number;
  readonly to: number;
  readonly rateHz: number;
  readonly mixHz: number;
}

/** The same in steps of some 10 ms for 100 000 samples. */
export function* coherentRatioInSteps(
  other: ComplexSeries,
  driven: ComplexSeries,
  { good, from, to, rateHz, mixHz }: ToneStretch,
  lent: Lent,
): Steps<CoherentRatio> {
  const fit = lent(() => fitted(other, driven, good, from, to, rateHz));
  const { re, im, power, count, remainderRe, remainderIm, kept } = fit;
  yield;
  const spread = yield* uncertaintyOfMeanInSteps(remainderRe, remainderIm, kept, from, to, rateHz);
  yield;
  // not turned into the driven channel's frame
  const loan = new LongLoan();
  const [leftRe, leftIm] = loan.during(() => [workArray(driven.re.length), workArray(driven.re.length)]);
  leaveUnturned(other, driven, fit, from, to, leftRe, leftIm);
  const halfWidthHz = usableHalfWidthHz(mixHz);
  const tone = { toneRe: driven.re, toneIm: driven.im, good: kept, from, to, rateHz, mixHz, halfWidthHz };
  const variance = yield* varianceOfMainsUnderTone({ re: leftRe, im: leftIm, ...tone });
  loan.end();
  const hidden = variance * (count > 0 ? count / power : 0);
  return {
    re,
    im,
    varRe: spread.varRe + hidden,
    varIm: spread.varIm + hidden,
    mainsUnderTone: hidden,
    degreesOfFreedom: spread.degreesOfFreedom,
    usedS: count / rateHz,
    remainderRe,
    remainderIm,
    good: kept,
  };
}

/** The ratio alone, for where its uncertainty is not asked for. */
export function coherentRatioAlone(
  other: ComplexSeries,
  driven: ComplexSeries,
  good: Uint8Array,
  from: number,
  to: number,
  rateHz: number,
): Complex {
  const { re, im } = fitted(other, driven, good, from, to, rateHz);
  return { re, im };
}

/** values that tell a median well enough */
const ENOUGH = 4000;

function fitted(
  other: ComplexSeries,
  driven: ComplexSeries,
  good: Uint8Array,
  from: number,
  to: number,
  rateHz: number,
): Fit {
  const length = driven.re.length;
  const kept = workBytes(length);
  kept.set(good);
  const reach = Math.ceil(0.014 * rateHz);
  const remainderRe = workArray(length);
  const remainderIm = workArray(length);
  let fit = ratioOf(other, driven, kept, from, to);
  const stride = Math.max(1, Math.floor((to - from) / ENOUGH));
  const squares = workArray(Math.ceil((to - from) / stride));
  const fresh = workBytes(length);
  for (let round = 0; round < 3; round++) {
    leaveRemainder(other, driven, fit, from, to, remainderRe, remainderIm);
    let looked = 0;
    for (let n = from; n < to; n += stride)
      if (kept[n] === 1) squares[looked++] = squareOf(remainderRe[n], remainderIm[n]);
    // median of a Rayleigh distribution is 1.1774 of one part's spread
    const limit = (5.5 / 1.1774) ** 2 * median(squares.subarray(0, looked));
    let marked = 0;
    fresh.fill(1);
    for (let n = from; n < to; n++) {
      if (kept[n] === 1 && squareOf(remainderRe[n], remainderIm[n]) > limit) {
        fresh[n] = 0;
        marked += 1;
      }
    }
    if (marked === 0) break;
    widenHoles(fresh, reach);
    let left = 0;
    for (let n = from; n < to; n++) left += kept[n] & fresh[n];
    // a leak that is mostly interruptions is no click: keep what the driven channel allowed
    if (left < fit.count / 2) break;
    for (let n = from; n < to; n++) kept[n] &= fresh[n];
    fit = ratioOf(other, driven, kept, from, to);
  }
  leaveRemainder(other, driven, fit, from, to, remainderRe, remainderIm);
  return { ...fit, remainderRe, remainderIm, kept };
}

// not inside `fitted`: what is made there anew for every tone would be made faster anew as well

const squareOf = (re: number, im: number): number => re * re + im * im;

/** Least squares over the samples that are kept. */
function ratioOf(other: ComplexSeries, driven: ComplexSeries, kept: Uint8Array, from: number, to: number): Ratio {
  let sr = 0;
  let si = 0;
  let power = 0;
  let count = 0;
  for (let n = from; n < to; n++) {
    if (kept[n] === 0) continue;
    const dr = driven.re[n];
    const di = driven.im[n];
    sr += other.re[n] * dr + other.im[n] * di;
    si += other.im[n] * dr - other.re[n] * di;
    power += dr * dr + di * di;
    count += 1;
  }
  return power > 0 ? { re: sr / power, im: si / power, power, count } : { re: 0, im: 0, power, count };
}

/** y − m d, turned into the driven channel's frame and scaled, so that the mean over good samples is m's own error. */
function leaveRemainder(
  other: ComplexSeries,
  driven: ComplexSeries,
  { re, im, power, count }: Ratio,
  from: number,
  to: number,
  remainderRe: Float64Array,
  remainderIm: Float64Array,
): void {
  const scale = count > 0 ? count / power : 0;
  for (let n = from; n < to; n++) {
    const dr = driven.re[n];
    const di = driven.im[n];
    const er = other.re[n] - (re * dr - im * di);
    const ei = other.im[n] - (re * di + im * dr);
    remainderRe[n] = (er * dr + ei * di) * scale;
    remainderIm[n] = (ei * dr - er * di) * scale;
  }
}

/** y − m d as it is. */
function leaveUnturned(
  other: ComplexSeries,
  driven: ComplexSeries,
  { re, im }: Ratio,
  from: number,
  to: number,
  leftRe: Float64Array,
  leftIm: Float64Array,
): void {
  for (let n = from; n < to; n++) {
    leftRe[n] = other.re[n] - (re * driven.re[n] - im * driven.im[n]);
    leftIm[n] = other.im[n] - (re * driven.im[n] + im * driven.re[n]);
  }
}
