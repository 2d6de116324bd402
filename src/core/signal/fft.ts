import { firstRadix4, lastRadix4, radix2, radix4, radix8 } from './fftPasses.ts';

/** Larger transforms do not fit the nearest cache, where eight streams a power of two apart push each other out. */
const LARGEST_RADIX_8 = 4096;

/**
 * Complex discrete Fourier transform of a fixed power-of-two size, in place, Float64, real and imaginary parts apart.
 *
 *   X[k] = Σ x[n] e^(−2πi kn/N)
 *
 * Stockham radix 8, radix 4 for long ones (self-sorting, so no bit reversal), with a last pass of radix 4 or 2 where log2 N
 * asks for it. Twiddles are computed one by one, not by recurrence: the error stays near 1e-16 · √log N of the largest value.
 *
 * Two real channels cost one transform: put left in `re` and right in `im`, then read each bin with `stereoBin`.
 *
 * @source J. W. Cooley and J. W. Tukey 1965; T. G. Stockham 1966 for the self-sorting order (from memory, not seen in a source)
 * @checked fft.test.ts, against fft.js, the definition, Parseval and shift
 */
export class ComplexFft {
  readonly size: number;
  private readonly radix: 4 | 8;
  /** e^(−2πi kp/N) for k = 1 … radix − 1, for each p = 0 … N/radix − 1, as the passes read them */
  private readonly turns: Float64Array;
  private readonly workRe: Float64Array;
  private readonly workIm: Float64Array;

  /** @param size points, a power of two, 1 to 2²⁴ */
  constructor(size: number) {
    if (!(Number.isInteger(size) && size >= 1 && size <= 1 << 24 && (size & (size - 1)) === 0)) {
      throw new RangeError(`size ${size} must be a power of two from 1 to ${1 << 24}`);
    }
    this.size = size;
    this.radix = size <= LARGEST_RADIX_8 ? 8 : 4;
    const { radix } = this;
    const groups = Math.floor(size / radix);
    this.turns = new Float64Array(2 * (radix - 1) * groups);
    for (let p = 0, t = 0; p < groups; p++) {
      for (let k = 1; k < radix; k++, t += 2) {
        this.turns[t] = Math.cos((2 * Math.PI * k * p) / size);
        this.turns[t + 1] = -Math.sin((2 * Math.PI * k * p) / size);
      }
    }
    this.workRe = new Float64Array(size);
    this.workIm = new Float64Array(size);
  }

  /** Replaces (re, im) by its transform, unscaled. Both must hold exactly `size` values. */
  forward(re: Float64Array, im: Float64Array): void {
    const { size, radix, turns } = this;
    if (re.length !== size || im.length !== size) {
      throw new RangeError(`re and im hold ${re.length} and ${im.length} values, both must hold ${size}`);
    }
    let xr = re;
    let xi = im;
    let yr = this.workRe;
    let yi = this.workIm;
    let n = size;
    let stride = 1;
    while (n > 1) {
      if (n === 2) radix2(stride, xr, xi, yr, yi);
      else if (n === 4) lastRadix4(stride, xr, xi, yr, yi);
      else if (radix === 8) radix8(n, stride, turns, xr, xi, yr, yi);
      else if (stride === 1) firstRadix4(n, turns, xr, xi, yr, yi);
      else radix4(n, stride, turns, xr, xi, yr, yi);
      [xr, yr] = [yr, xr];
      [xi, yi] = [yi, xi];
      const parts = Math.min(n, radix);
      n /= parts;
      stride *= parts;
    }
    if (xr !== re) {
      re.set(xr);
      im.set(xi);
    }
  }

  /** Undoes `forward`, scaled by 1/size. */
  inverse(re: Float64Array, im: Float64Array): void {
    // Swapping the parts conjugates on both sides: F⁻¹(x) = swap(F(swap x)) / N.
    this.forward(im, re);
    const scale = 1 / this.size;
    for (let i = 0; i < this.size; i++) {
      re[i] *= scale;
      im[i] *= scale;
    }
  }
}

/** One bin of two real channels that were transformed together, left in `re` and right in `im`. */
export interface StereoBin {
  readonly leftRe: number;
  readonly leftIm: number;
  readonly rightRe: number;
  readonly rightIm: number;
}

/**
 * Bin k of left and right, from the transform of left + i·right.
 *
 *   L = (Z[k] + Z*[N−k]) / 2,   R = (Z[k] − Z*[N−k]) / 2i
 *
 * @param k bin, 0 to N/2
 */
export function stereoBin(re: Float64Array, im: Float64Array, k: number): StereoBin {
  const n = re.length;
  if (!(Number.isInteger(k) && k >= 0 && k <= n / 2)) throw new RangeError(`k ${k} must be a bin from 0 to ${n / 2}`);
  const m = k === 0 ? 0 : n - k;
  return {
    leftRe: (re[k] + re[m]) / 2,
    leftIm: (im[k] - im[m]) / 2,
    rightRe: (im[k] + im[m]) / 2,
    rightIm: (re[m] - re[k]) / 2,
  };
}
