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
import { hiddenLineVariance } from './hiddenLine.ts';
import { meanSpread } from './lowDensity.ts';
import { usableHalfWidthHz } from './narrowed.ts';
import { median } from './robust.ts';
import { widenHoles } from './trackedTone.ts';

export interface CoherentRatio {
  readonly re: number;
  readonly im: number;
  /** variances of re and im, statistical only */
  readonly varRe: number;
  readonly varIm: number;
  readonly degreesOfFreedom: number;
  /** part of either variance that a mains harmonic under the tone may account for */
  readonly hiddenLine: number;
  /** s of signal used */
  readonly usedS: number;
  /** y − m d over the rms of d, and where it counts; for spectra and for the interference check */
  readonly remainderRe: Float64Array;
  readonly remainderIm: Float64Array;
  readonly good: Uint8Array;
}

export interface ComplexSeries {
  readonly re: Float64Array;
  readonly im: Float64Array;
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
  const length = driven.re.length;
  const kept = good.slice();
  const reach = Math.ceil(0.014 * rateHz);
  const remainderRe = new Float64Array(length);
  const remainderIm = new Float64Array(length);
  let m = { re: 0, im: 0 };
  let power = 0;
  let count = 0;
  const fitRatio = (): void => {
    let sr = 0;
    let si = 0;
    power = 0;
    count = 0;
    for (let n = from; n < to; n++) {
      if (kept[n] === 0) continue;
      const dr = driven.re[n];
      const di = driven.im[n];
      sr += other.re[n] * dr + other.im[n] * di;
      si += other.im[n] * dr - other.re[n] * di;
      power += dr * dr + di * di;
      count += 1;
    }
    m = power > 0 ? { re: sr / power, im: si / power } : { re: 0, im: 0 };
  };
  const leave = (): void => {
    // turned into the driven channel's frame and scaled, so that the mean over good samples is m's own error
    const scale = count > 0 ? count / power : 0;
    for (let n = from; n < to; n++) {
      const dr = driven.re[n];
      const di = driven.im[n];
      const er = other.re[n] - (m.re * dr - m.im * di);
      const ei = other.im[n] - (m.re * di + m.im * dr);
      remainderRe[n] = (er * dr + ei * di) * scale;
      remainderIm[n] = (ei * dr - er * di) * scale;
    }
  };
  fitRatio();
  // some thousand values tell a median well enough
  const stride = Math.max(1, Math.floor((to - from) / 4000));
  for (let round = 0; round < 3; round++) {
    leave();
    const sizes: number[] = [];
    for (let n = from; n < to; n += stride) if (kept[n] === 1) sizes.push(Math.hypot(remainderRe[n], remainderIm[n]));
    // median of a Rayleigh distribution is 1.1774 of one part's spread
    const limit = (5.5 / 1.1774) * median(sizes);
    let marked = 0;
    const fresh = new Uint8Array(length).fill(1);
    for (let n = from; n < to; n++) {
      if (kept[n] === 1 && Math.hypot(remainderRe[n], remainderIm[n]) > limit) {
        fresh[n] = 0;
        marked += 1;
      }
    }
    if (marked === 0) break;
    widenHoles(fresh, reach);
    let left = 0;
    for (let n = from; n < to; n++) left += kept[n] & fresh[n];
    // a leak that is mostly interruptions is no click: keep what the driven channel allowed
    if (left < count / 2) break;
    for (let n = from; n < to; n++) kept[n] &= fresh[n];
    fitRatio();
  }
  leave();
  const spread = meanSpread(remainderRe, remainderIm, kept, from, to, rateHz);
  const unturned = (sign: 're' | 'im'): Float64Array =>
    other[sign].map((v, n) =>
      sign === 're' ? v - (m.re * driven.re[n] - m.im * driven.im[n]) : v - (m.re * driven.im[n] + m.im * driven.re[n]),
    );
  const hidden =
    hiddenLineVariance({
      re: unturned('re'),
      im: unturned('im'),
      toneRe: driven.re,
      toneIm: driven.im,
      good: kept,
      from,
      to,
      rateHz,
      mixHz,
      halfWidthHz: usableHalfWidthHz(mixHz),
    }) * (count > 0 ? count / power : 0);
  return {
    re: m.re,
    im: m.im,
    varRe: spread.varRe + hidden,
    varIm: spread.varIm + hidden,
    hiddenLine: hidden,
    degreesOfFreedom: spread.degreesOfFreedom,
    usedS: count / rateHz,
    remainderRe,
    remainderIm,
    good: kept,
  };
}
