/**
 * What a mains harmonic that lies under the tone may do to a coherent ratio.
 *
 * The 20th harmonic of 50 Hz is exactly 1000 Hz: where the record runs true, no filter parts it from the tone. But its
 * neighbours, one mains frequency to either side, stand alone in the remainder. Their mean square h² is taken for the
 * hidden line's, and the part of it that stays in step with the tone for the whole stretch is
 *
 *   C = | mean of e^{i(ω t − φ(t))} |,   φ the tone's tracked phase
 *
 * (small where wow or an off speed makes them slide), so each part of the ratio has a variance of h² C² / (2 |d|²) more.
 */
import { median } from './robust.ts';
import { sharedFft, transformSize } from './sharedFft.ts';
import type { Steps } from './steps.ts';
import { LongLoan, onLoan, workArray } from './workArrays.ts';

const MAINS_HZ = [50, 60];
/** how far a mains frequency strays, share */
const STRAY = 0.004;
/** neighbours looked at on either side */
const NEIGHBOURS = 3;
/** the mean of the neighbours' power must stand this far over the noise; chance alone seldom reaches it in the search */
const STANDS_OUT = 4;
/** beyond this the hidden line is no longer hidden, Hz */
const FAR_HZ = 30;

export interface LineSearch {
  /** what is left of the channel when the tone is taken out, not turned */
  readonly re: Float64Array;
  readonly im: Float64Array;
  /** the tone: its phase is what the line is compared with */
  readonly toneRe: Float64Array;
  readonly toneIm: Float64Array;
  readonly good: Uint8Array;
  readonly from: number;
  readonly to: number;
  readonly rateHz: number;
  readonly mixHz: number;
  /** lines further than this from `mixHz` are not kept by the baseband, Hz */
  readonly halfWidthHz: number;
}

/** @returns variance of one part of (line in step with the tone), in squared units of the remainder; 0 where no line shows */
export function* varianceOfMainsUnderTone(search: LineSearch): Steps<number> {
  const loan = new LongLoan();
  const size = transformSize(2 * (search.to - search.from));
  const [fr, fi] = loan.during(() => [workArray(size), workArray(size)]);
  const count = fillIn(search, fr, fi);
  yield;
  // its tables are worked out once
  const fft = sharedFft(size);
  yield;
  if (count >= 64) fft.forward(fr, fi);
  yield;
  const variance = count < 64 ? 0 : onLoan(() => largestVariance(search, fr, fi, count));
  loan.end();
  return variance;
}

/** @returns how many samples are good */
function fillIn({ re, im, good, from, to }: LineSearch, fr: Float64Array, fi: Float64Array): number {
  let count = 0;
  for (let n = from; n < to; n++) {
    if (good[n] === 0) continue;
    fr[n - from] = re[n];
    fi[n - from] = im[n];
    count += 1;
  }
  return count;
}

/** @param fr @param fi transform of what is left */
function largestVariance(search: LineSearch, fr: Float64Array, fi: Float64Array, count: number): number {
  const { rateHz, mixHz, halfWidthHz } = search;
  const size = fr.length;
  const binOf = (hz: number): number => Math.round((hz * size) / rateHz);
  const reach = binOf(halfWidthHz);
  // by bin from −reach to reach, looked at many times below
  const power = workArray(2 * reach + 1);
  for (let k = -reach; k <= reach; k++) {
    const at = ((k % size) + size) % size;
    power[k + reach] = (fr[at] * fr[at] + fi[at] * fi[at]) / count;
  }
  const stride = Math.max(1, Math.floor(reach / 2000));
  const some = workArray(Math.floor((2 * reach) / stride) + 1);
  for (let i = 0; i < some.length; i++) some[i] = power[i * stride];
  // the median of an exponential distribution is ln 2 of its mean
  const noise = median(some) / Math.LN2;
  let worst = 0;
  for (const mains of MAINS_HZ) {
    const order = Math.round(mixHz / mains);
    if (order < 2 || Math.abs(order * mains - mixHz) > FAR_HZ) continue;
    let most = 0;
    let mostHz = mains;
    const step = rateHz / size / order / 2;
    for (let hz = mains * (1 - STRAY); hz <= mains * (1 + STRAY); hz += step) {
      let sum = 0;
      let lines = 0;
      for (let k = -NEIGHBOURS; k <= NEIGHBOURS; k++) {
        const offset = (order + k) * hz - mixHz;
        if (k === 0 || Math.abs(offset) > halfWidthHz) continue;
        sum += power[binOf(offset) + reach];
        lines += 1;
      }
      if (lines >= 2 && sum / lines > most) {
        most = sum / lines;
        mostHz = hz;
      }
    }
    if (most < STANDS_OUT * noise) continue;
    // power is h² · count for a line on its bin
    const h2 = (most - noise) / count;
    const inStep = coherence(search, order * mostHz - mixHz, count);
    worst = Math.max(worst, (h2 * inStep * inStep) / 2);
  }
  return worst;
}

/** |mean of e^{i(ωt − φ)}|, at most over the width that the line's frequency is uncertain by. */
function coherence({ toneRe, toneIm, good, from, to, rateHz }: LineSearch, offsetHz: number, count: number): number {
  const lengthS = (to - from) / rateHz;
  const unitRe = workArray(to - from);
  const unitIm = workArray(to - from);
  for (let n = from; n < to; n++) {
    const size = Math.sqrt(toneRe[n] * toneRe[n] + toneIm[n] * toneIm[n]);
    unitRe[n - from] = size > 0 ? toneRe[n] / size : 0;
    unitIm[n - from] = size > 0 ? toneIm[n] / size : 0;
  }
  let most = 0;
  for (const shift of [-0.4, -0.2, 0, 0.2, 0.4]) {
    const omega = (2 * Math.PI * (offsetHz + shift / lengthS)) / rateHz;
    const stepC = Math.cos(omega);
    const stepS = Math.sin(omega);
    let c = 1;
    let s = 0;
    let sr = 0;
    let si = 0;
    for (let n = from; n < to; n++) {
      if (good[n] === 1) {
        sr += c * unitRe[n - from] + s * unitIm[n - from];
        si += s * unitRe[n - from] - c * unitIm[n - from];
      }
      const turned = c * stepC - s * stepS;
      s = c * stepS + s * stepC;
      c = turned;
    }
    most = Math.max(most, Math.hypot(sr, si) / count);
  }
  return most;
}
