/**
 * One stretch of a tone, at most two minutes long: the complex ratio between the channels, how loud, and the course of its
 * frequency. Everything later works on this.
 */

import {
  type CoherentRatio,
  type ComplexSeries,
  coherentRatioInSteps,
  type ToneStretch,
} from '../signal/coherentRatio.ts';
import { narrowed } from '../signal/narrowed.ts';
import { atOnce, type Lent, ofTheCaller, type Steps } from '../signal/steps.ts';
import type { Baseband } from '../signal/toneMixer.ts';
import { type TrackedTone, trackTone } from '../signal/trackedTone.ts';
import { type MeanUncertainty, uncertaintyOfMeanInSteps } from '../signal/uncertaintyOfMean.ts';
import { workArray, workBytes } from '../signal/workArrays.ts';
import type { Complex } from '../units/complex.ts';

/** which channel the tone is cut in, as heard */
export type Driven = 'left' | 'right' | 'both';

export interface ComplexEstimate extends Complex {
  readonly varRe: number;
  readonly varIm: number;
  readonly degreesOfFreedom: number;
}

/** A mean with its variance. */
export interface Estimate {
  readonly value: number;
  readonly variance: number;
  readonly degreesOfFreedom: number;
}

/** Course of the tone's frequency and level, sample by sample, holes bridged by straight lines. */
export interface SpeedTrace {
  readonly rateHz: number;
  /** s from the recording's first frame to `deviation[0]` */
  readonly startS: number;
  /** Hz, the mean over the trace */
  readonly meanHz: number;
  /** (f − mean)/mean, at half samples: the first difference of the tracked phase */
  readonly deviation: Float64Array;
  /** (amplitude − mean)/mean: carries the same noise as the phase and next to none of the modulation */
  readonly level: Float64Array;
  /** share of samples that were not bridged */
  readonly goodShare: number;
}

export interface ToneSegment {
  readonly startS: number;
  readonly endS: number;
  /** s free of clicks */
  readonly usedS: number;
  readonly driven: Driven;
  /** undriven over driven; for `both` left over right */
  readonly ratio: ComplexEstimate;
  /** natural logarithm of the peak amplitude of the driven channel (`both`: of the mean of the two) */
  readonly logLevel: Estimate;
  readonly speed: SpeedTrace;
}

export type SegmentReading = ({ readonly found: true } & ToneSegment) | { readonly found: false };

/** Its traces are lent, see workArrays.ts. */
export const readSegment = (wide: Baseband, driven: Driven): SegmentReading =>
  atOnce(segmentInSteps(() => wide, driven, ofTheCaller));

/** The same in steps of some 10 ms for two minutes of a tone. */
export function* segmentInSteps(wide: () => Baseband, driven: Driven, lent: Lent): Steps<SegmentReading> {
  const z = lent(() => narrowed(wide()));
  const left: ComplexSeries = { re: z.leftRe, im: z.leftIm };
  const right: ComplexSeries = { re: z.rightRe, im: z.rightIm };
  yield;
  const d = lent(() => (driven === 'left' ? left : driven === 'right' ? right : inStep(left, right)));
  yield;
  const tone = lent(() => trackTone(d.re, d.im, z.rateHz));
  if (!tone.found) return tone;
  yield;
  const { from, to } = tone;
  const stretch = { good: tone.good, from, to, rateHz: z.rateHz, mixHz: z.mixHz };
  const over = (other: ComplexSeries): Steps<CoherentRatio> => coherentRatioInSteps(other, d, stretch, lent);
  let ratio: ComplexEstimate;
  if (driven === 'both') {
    const l = yield* over(left);
    yield;
    const r = yield* over(right);
    yield;
    const rr = r.re * r.re + r.im * r.im;
    const re = (l.re * r.re + l.im * r.im) / rr;
    const im = (l.im * r.re - l.re * r.im) / rr;
    if (!(rr > 0) || !Number.isFinite(re) || !Number.isFinite(im)) return { found: false };
    ratio = { re, im, ...(yield* quotientSpread(l, r, { re, im }, stretch, lent)) };
  } else {
    const { re, im, varRe, varIm, degreesOfFreedom } = yield* over(driven === 'left' ? right : left);
    ratio = { re, im, varRe, varIm, degreesOfFreedom };
  }
  yield;
  const logLevel = yield* levelOf(d, tone, z.rateHz, lent);
  yield;
  return {
    found: true,
    startS: z.startS + from / z.rateHz,
    endS: z.startS + to / z.rateHz,
    usedS: tone.goodCount / z.rateHz,
    driven,
    ratio,
    logLevel,
    speed: lent(() => speedOf(z, d, tone)),
  };
}

/** Half of left plus right, right turned into left's phase first, so that antiphase does not cancel. */
function inStep(left: ComplexSeries, right: ComplexSeries): ComplexSeries {
  const length = left.re.length;
  let cr = 0;
  let ci = 0;
  for (let n = 0; n < length; n++) {
    cr += left.re[n] * right.re[n] + left.im[n] * right.im[n];
    ci += left.im[n] * right.re[n] - left.re[n] * right.im[n];
  }
  const size = Math.hypot(cr, ci);
  const ur = size > 0 ? cr / size : 1;
  const ui = size > 0 ? ci / size : 0;
  const re = workArray(length);
  const im = workArray(length);
  for (let n = 0; n < length; n++) {
    re[n] = (left.re[n] + right.re[n] * ur - right.im[n] * ui) / 2;
    im[n] = (left.im[n] + right.re[n] * ui + right.im[n] * ur) / 2;
  }
  return { re, im };
}

/** Spread of l/r, whose errors are not independent: the relative remainders are subtracted sample by sample. */
function* quotientSpread(
  l: CoherentRatio,
  r: CoherentRatio,
  q: Complex,
  { from, to, rateHz }: ToneStretch,
  lent: Lent,
): Steps<MeanUncertainty> {
  const length = l.good.length;
  const [re, im] = lent(() => [workArray(length), workArray(length)]);
  const good = lent(() => workBytes(length));
  const rr = r.re * r.re + r.im * r.im;
  let meanRe = 0;
  let meanIm = 0;
  let count = 0;
  for (let n = from; n < to; n++) {
    if ((l.good[n] & r.good[n]) === 0) continue;
    good[n] = 1;
    // δ(l/r) = (δl − q δr) / r
    const er = l.remainderRe[n] - (q.re * r.remainderRe[n] - q.im * r.remainderIm[n]);
    const ei = l.remainderIm[n] - (q.re * r.remainderIm[n] + q.im * r.remainderRe[n]);
    re[n] = (er * r.re + ei * r.im) / rr;
    im[n] = (ei * r.re - er * r.im) / rr;
    meanRe += re[n];
    meanIm += im[n];
    count += 1;
  }
  for (let n = from; n < to; n++) {
    if (good[n] === 1) {
      re[n] -= meanRe / count;
      im[n] -= meanIm / count;
    }
  }
  yield;
  const spread = yield* uncertaintyOfMeanInSteps(re, im, good, from, to, rateHz);
  const hidden = (l.mainsUnderTone + (q.re * q.re + q.im * q.im) * r.mainsUnderTone) / rr;
  return { ...spread, varRe: spread.varRe + hidden, varIm: spread.varIm + hidden };
}

/** Level over the samples within 1 dB of the usual one, so that a fade or a step does not count. */
function* levelOf(d: ComplexSeries, tone: TrackedTone, rateHz: number, lent: Lent): Steps<Estimate> {
  const { from, to, good, usualAmplitude } = tone;
  const length = d.re.length;
  const steady = lent(() => workBytes(length));
  const [off, nothing] = lent(() => [workArray(length), workArray(length)]);
  const reach = 10 ** (1 / 20);
  let sum = 0;
  let count = 0;
  for (let n = from; n < to; n++) {
    if (good[n] === 0) continue;
    const a = Math.sqrt(d.re[n] * d.re[n] + d.im[n] * d.im[n]);
    if (!(a < usualAmplitude * reach && a > usualAmplitude / reach)) continue;
    steady[n] = 1;
    off[n] = a;
    sum += a;
    count += 1;
  }
  const mean = sum / Math.max(1, count);
  for (let n = from; n < to; n++) if (steady[n] === 1) off[n] = off[n] / mean - 1;
  yield;
  const spread = yield* uncertaintyOfMeanInSteps(off, nothing, steady, from, to, rateHz);
  return { value: Math.log(mean), variance: spread.varRe, degreesOfFreedom: spread.degreesOfFreedom };
}

function speedOf(z: Baseband, d: ComplexSeries, tone: TrackedTone): SpeedTrace {
  const { from, to, good, phase } = tone;
  const count = to - from - 1;
  const slope = (phase[to - 1] - phase[from]) / count;
  const meanHz = z.mixHz + (slope * z.rateHz) / (2 * Math.PI);
  const perStep = z.rateHz / (2 * Math.PI * meanHz);
  const deviation = workArray(count);
  const level = workArray(count);
  let last = from;
  let sum = 0;
  for (let n = from; n < to; n++) {
    if (n > from) deviation[n - from - 1] = (phase[n] - phase[n - 1] - slope) * perStep;
    if (good[n] === 0 && n < to - 1) continue;
    const a = good[n] === 1 ? Math.sqrt(d.re[n] * d.re[n] + d.im[n] * d.im[n]) : tone.usualAmplitude;
    const before = last === n ? a : level[last - from];
    for (let k = last; k <= n && k - from < count; k++) {
      level[k - from] = n === last ? a : before + ((a - before) * (k - last)) / (n - last);
    }
    last = n;
  }
  for (let n = 0; n < count; n++) sum += level[n];
  const mean = sum / count;
  for (let n = 0; n < count; n++) level[n] = level[n] / mean - 1;
  return {
    rateHz: z.rateHz,
    startS: z.startS + (from + 0.5) / z.rateHz,
    meanHz,
    deviation,
    level,
    goodShare: tone.goodCount / (to - from),
  };
}
