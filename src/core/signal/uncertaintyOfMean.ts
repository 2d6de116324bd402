/**
 * How uncertain the mean of a long, coloured, holed series is: its spectral density near zero frequency over its length.
 *
 *   var(mean) = S(0) / T,   S two-sided density, T time in use
 *
 * Noise around a tone is not white (rumble and hum lean on it from one side), and what the mean has already taken out at
 * zero must not be counted as quiet: the density is averaged over bins from 1/T to the larger of 8 Hz and 10/T. Where the
 * lowest ten bins stand well above that average (slow wander), they are believed instead.
 */
import type { Complex } from '../units/complex.ts';
import { sharedFft, transformSize } from './sharedFft.ts';
import { onLoan, workArray } from './workArrays.ts';

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
  return onLoan(() => spreadOf(re, im, good, from, to, rateHz));
}

function spreadOf(
  re: Float64Array,
  im: Float64Array,
  good: Uint8Array,
  from: number,
  to: number,
  rateHz: number,
): MeanUncertainty {
  const size = transformSize(to - from);
  const fr = workArray(size);
  const fi = workArray(size);
  let count = 0;
  for (let n = from; n < to; n++) {
    if (good[n] === 0) continue;
    fr[n - from] = re[n];
    fi[n - from] = im[n];
    count += 1;
  }
  if (count < 2) return { varRe: 0, varIm: 0, degreesOfFreedom: 1 };
  sharedFft(size).forward(fr, fi);
  // Bins of the padded transform lie closer than 1/T: `step` of them make one independent bin.
  const step = size / (to - from);
  const highest = Math.min((to - from) / 2 - 1, Math.max(10, (WIDTH_HZ * (to - from)) / rateHz));
  const average = (first: number, last: number): Complex => {
    let a = 0;
    let b = 0;
    let bins = 0;
    for (let k = Math.ceil(first * step); k <= Math.floor(last * step); k++) {
      const m = size - k;
      // transforms of the real and of the imaginary series, from that of their sum re + i im
      a += ((fr[k] + fr[m]) / 2) ** 2 + ((fi[k] - fi[m]) / 2) ** 2;
      b += ((fi[k] + fi[m]) / 2) ** 2 + ((fr[m] - fr[k]) / 2) ** 2;
      bins += 1;
    }
    return bins === 0 ? { re: 0, im: 0 } : { re: a / bins, im: b / bins };
  };
  const wide = average(1, highest);
  const low = average(1, Math.min(highest, LOW_BINS));
  const wanders = low.re + low.im > WANDER * (wide.re + wide.im);
  const believed = wanders ? low : wide;
  const bins = wanders ? LOW_BINS : highest;
  return {
    varRe: believed.re / (count * count),
    varIm: believed.im / (count * count),
    degreesOfFreedom: Math.max(2, 2 * bins * (count / (to - from))),
  };
}
