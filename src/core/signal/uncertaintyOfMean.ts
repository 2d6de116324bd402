/**
 * How uncertain the mean of a long, coloured, holed series is: its spectral density near zero frequency over its length.
 *
 *   var(mean) = S(0) / T,   S two-sided density, T time in use
 *
 * Noise around a tone is not white (rumble and hum lean on it from one side), and what the mean has already taken out at
 * zero must not be counted as quiet: the density is averaged over bins from 1/T to the larger of 8 Hz and 10/T. Where the
 * lowest ten bins stand well above that average (slow wander), they are believed instead. A steady line among them is no wander: what
 * swings once per turn averages out but for what a part of a period leaves, and that alone is counted (slowLine.ts).
 */
import type { Complex } from '../units/complex.ts';
import { sharedFft, transformSize } from './sharedFft.ts';
import { slowLineInSteps } from './slowLine.ts';
import { atOnce, type Lent, type Steps } from './steps.ts';
import { LongLoan, workArray } from './workArrays.ts';

export interface MeanUncertainty {
  /** variance of the mean of the real part, of the imaginary part */
  readonly varRe: number;
  readonly varIm: number;
  /** degrees of freedom of either */
  readonly degreesOfFreedom: number;
}

const WIDTH_HZ = 8;
const LOW_BINS = 10;
/** the mean of 10 bins of 2 degrees of freedom passes this by chance 1 time in 100 */
const WANDER = 1.9;
/** rotation and two harmonics */
const MOST_LINES = 3;

/**
 * @param re @param im series with its mean taken out (im may be all zero)
 * @param good 1 where a sample counts @param from @param to the part looked at
 */
export function uncertaintyOfMean(
  re: Float64Array,
  im: Float64Array,
  good: Uint8Array,
  from: number,
  to: number,
  rateHz: number,
): MeanUncertainty {
  return atOnce(uncertaintyOfMeanInSteps(re, im, good, from, to, rateHz));
}

/** The same in steps of some 10 ms for 100 000 samples. */
export function* uncertaintyOfMeanInSteps(
  re: Float64Array,
  im: Float64Array,
  good: Uint8Array,
  from: number,
  to: number,
  rateHz: number,
): Steps<MeanUncertainty> {
  const loan = new LongLoan();
  const lent: Lent = (work) => loan.during(work);
  const length = to - from;
  const x = lent(() => workArray(length));
  const y = lent(() => workArray(length));
  const kept = good.subarray(from, to);
  const count = takeKept(re, im, kept, from, x, y);
  if (count < 2) {
    loan.end();
    return { varRe: 0, varIm: 0, degreesOfFreedom: 1 };
  }
  const highest = Math.min(length / 2 - 1, Math.max(10, (WIDTH_HZ * length) / rateHz));
  const lowest = Math.min(highest, LOW_BINS);
  yield;
  let density = lent(() => densityOf(x, y));
  let lines = 0;
  const leaked = { re: 0, im: 0 };
  while (lines < MOST_LINES) {
    yield;
    const near = density;
    const line = yield* slowLineInSteps(x, y, kept, (b) => near(b, b), lowest);
    if (line === null) break;
    leaked.re += line.re;
    leaked.im += line.im;
    lines += 1;
    yield;
    density = lent(() => densityOf(x, y));
  }
  const [wide, low] = [density(1, highest), density(1, lowest)];
  loan.end();
  const wanders = low.re + low.im > WANDER * (wide.re + wide.im);
  const believed = wanders ? low : wide;
  // a line takes its own bin with it
  const bins = (wanders ? lowest : highest) - lines;
  const share = (bins + lines) / bins;
  return {
    varRe: (share * believed.re) / (count * count) + leaked.re,
    varIm: (share * believed.im) / (count * count) + leaked.im,
    degreesOfFreedom: Math.max(2, 2 * bins * (count / length)),
  };
}

/** Fills x and y with the samples that count, nothing in between. @returns how many these are */
function takeKept(
  re: Float64Array,
  im: Float64Array,
  kept: Uint8Array,
  from: number,
  x: Float64Array,
  y: Float64Array,
): number {
  let count = 0;
  for (let n = 0; n < kept.length; n++) {
    if (kept[n] === 0) continue;
    x[n] = re[from + n];
    y[n] = im[from + n];
    count += 1;
  }
  return count;
}

/** Mean power of both series between two frequencies in periods of their length; from the nearest bin where both are the same. */
function densityOf(x: Float64Array, y: Float64Array): (first: number, last: number) => Complex {
  const size = transformSize(x.length);
  const fr = workArray(size);
  const fi = workArray(size);
  fr.set(x);
  fi.set(y);
  sharedFft(size).forward(fr, fi);
  // Bins of the padded transform lie closer than 1/T: `step` of them make one independent bin.
  const step = size / x.length;
  return (first, last) => {
    const from = first === last ? Math.round(first * step) : Math.ceil(first * step);
    return meanPower(fr, fi, from, Math.max(from, Math.floor(last * step)));
  };
}

/** Mean power of the two real series whose transform as re + i im is given, over bins, both included. */
function meanPower(fr: Float64Array, fi: Float64Array, from: number, to: number): Complex {
  const size = fr.length;
  let a = 0;
  let b = 0;
  let bins = 0;
  for (let k = from; k <= to; k++) {
    const m = size - k;
    a += ((fr[k] + fr[m]) / 2) ** 2 + ((fi[k] - fi[m]) / 2) ** 2;
    b += ((fi[k] + fi[m]) / 2) ** 2 + ((fr[m] - fr[k]) / 2) ** 2;
    bins += 1;
  }
  return { re: a / bins, im: b / bins };
}
