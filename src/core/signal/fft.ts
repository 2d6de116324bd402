/**
 * Complex discrete Fourier transform of a fixed power-of-two size, in place, Float64, real and imaginary parts apart.
 *
 *   X[k] = Σ x[n] e^(−2πi kn/N)
 *
 * Stockham radix 4 (self-sorting, so no bit reversal), with one radix-2 pass where log2 N is odd. Twiddles are computed
 * one by one, not by recurrence: the error stays near 1e-16 · √log N of the largest value.
 *
 * Two real channels cost one transform: put left in `re` and right in `im`, then read each bin with `stereoBin`.
 *
 * @source J. W. Cooley and J. W. Tukey 1965; T. G. Stockham 1966 for the self-sorting order (from memory, not seen in a source)
 * @checked fft.test.ts, against fft.js, the definition, Parseval and shift
 */
export class ComplexFft {
  readonly size: number;
  /** e^(−2πi kp/N) for k = 1, 2, 3 and p = 0 … N/4 − 1: six numbers for each p, as the passes read them */
  private readonly turns: Float64Array;
  private readonly workRe: Float64Array;
  private readonly workIm: Float64Array;

  /** @param size points, a power of two, 1 to 2²⁴ */
  constructor(size: number) {
    if (!(Number.isInteger(size) && size >= 1 && size <= 1 << 24 && (size & (size - 1)) === 0)) {
      throw new RangeError(`size ${size} must be a power of two from 1 to ${1 << 24}`);
    }
    this.size = size;
    this.turns = new Float64Array(6 * (size >> 2));
    for (let p = 0; p < size >> 2; p++) {
      for (let k = 1; k <= 3; k++) {
        this.turns[6 * p + 2 * k - 2] = Math.cos((2 * Math.PI * k * p) / size);
        this.turns[6 * p + 2 * k - 1] = -Math.sin((2 * Math.PI * k * p) / size);
      }
    }
    this.workRe = new Float64Array(size);
    this.workIm = new Float64Array(size);
  }

  /** Replaces (re, im) by its transform, unscaled. Both must hold exactly `size` values. */
  forward(re: Float64Array, im: Float64Array): void {
    const size = this.size;
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
      else if (stride === 1) firstRadix4(n, this.turns, xr, xi, yr, yi);
      else radix4(n, stride, this.turns, xr, xi, yr, yi);
      [xr, yr] = [yr, xr];
      [xi, yi] = [yi, xi];
      n >>= 2;
      stride <<= 2;
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

/** The first pass, stride 1: the same butterfly as `radix4` without its inner loop. */
function firstRadix4(
  n: number,
  turns: Float64Array,
  xr: Float64Array,
  xi: Float64Array,
  yr: Float64Array,
  yi: Float64Array,
): void {
  const quarter = n >> 2;
  for (let p = 0, o = 0, t = 0; p < quarter; p++, o += 4, t += 6) {
    const p1 = p + quarter;
    const p2 = p1 + quarter;
    const p3 = p2 + quarter;
    const acr = xr[p] + xr[p2];
    const aci = xi[p] + xi[p2];
    const amr = xr[p] - xr[p2];
    const ami = xi[p] - xi[p2];
    const bdr = xr[p1] + xr[p3];
    const bdi = xi[p1] + xi[p3];
    // −i·(b − d)
    const jr = xi[p1] - xi[p3];
    const ji = xr[p3] - xr[p1];
    yr[o] = acr + bdr;
    yi[o] = aci + bdi;
    yr[o + 1] = (amr + jr) * turns[t] - (ami + ji) * turns[t + 1];
    yi[o + 1] = (amr + jr) * turns[t + 1] + (ami + ji) * turns[t];
    yr[o + 2] = (acr - bdr) * turns[t + 2] - (aci - bdi) * turns[t + 3];
    yi[o + 2] = (acr - bdr) * turns[t + 3] + (aci - bdi) * turns[t + 2];
    yr[o + 3] = (amr - jr) * turns[t + 4] - (ami - ji) * turns[t + 5];
    yi[o + 3] = (amr - jr) * turns[t + 5] + (ami - ji) * turns[t + 4];
  }
}

function radix4(
  n: number,
  stride: number,
  turns: Float64Array,
  xr: Float64Array,
  xi: Float64Array,
  yr: Float64Array,
  yi: Float64Array,
): void {
  const quarter = n >> 2;
  const step = stride * quarter;
  for (let p = 0; p < quarter; p++) {
    const t = 6 * p * stride;
    const c1 = turns[t];
    const s1 = turns[t + 1];
    const c2 = turns[t + 2];
    const s2 = turns[t + 3];
    const c3 = turns[t + 4];
    const s3 = turns[t + 5];
    const end = stride * (p + 1);
    for (let i = stride * p, o = 4 * stride * p; i < end; i++, o++) {
      const i1 = i + step;
      const i2 = i1 + step;
      const i3 = i2 + step;
      const acr = xr[i] + xr[i2];
      const aci = xi[i] + xi[i2];
      const amr = xr[i] - xr[i2];
      const ami = xi[i] - xi[i2];
      const bdr = xr[i1] + xr[i3];
      const bdi = xi[i1] + xi[i3];
      const jr = xi[i1] - xi[i3];
      const ji = xr[i3] - xr[i1];
      yr[o] = acr + bdr;
      yi[o] = aci + bdi;
      const r1 = amr + jr;
      const m1 = ami + ji;
      const o1 = o + stride;
      yr[o1] = r1 * c1 - m1 * s1;
      yi[o1] = r1 * s1 + m1 * c1;
      const r2 = acr - bdr;
      const m2 = aci - bdi;
      const o2 = o1 + stride;
      yr[o2] = r2 * c2 - m2 * s2;
      yi[o2] = r2 * s2 + m2 * c2;
      const r3 = amr - jr;
      const m3 = ami - ji;
      const o3 = o2 + stride;
      yr[o3] = r3 * c3 - m3 * s3;
      yi[o3] = r3 * s3 + m3 * c3;
    }
  }
}

/** The pass with n = 4, whose turning factors are all 1. */
function lastRadix4(s: number, xr: Float64Array, xi: Float64Array, yr: Float64Array, yi: Float64Array): void {
  for (let i = 0; i < s; i++) {
    const i1 = i + s;
    const i2 = i1 + s;
    const i3 = i2 + s;
    const acr = xr[i] + xr[i2];
    const aci = xi[i] + xi[i2];
    const amr = xr[i] - xr[i2];
    const ami = xi[i] - xi[i2];
    const bdr = xr[i1] + xr[i3];
    const bdi = xi[i1] + xi[i3];
    const jr = xi[i1] - xi[i3];
    const ji = xr[i3] - xr[i1];
    yr[i] = acr + bdr;
    yi[i] = aci + bdi;
    yr[i1] = amr + jr;
    yi[i1] = ami + ji;
    yr[i2] = acr - bdr;
    yi[i2] = aci - bdi;
    yr[i3] = amr - jr;
    yi[i3] = ami - ji;
  }
}

/** The last pass where log2 N is odd. */
function radix2(s: number, xr: Float64Array, xi: Float64Array, yr: Float64Array, yi: Float64Array): void {
  for (let i = 0; i < s; i++) {
    const p = i + s;
    yr[i] = xr[i] + xr[p];
    yi[i] = xi[i] + xi[p];
    yr[p] = xr[i] - xr[p];
    yi[p] = xi[i] - xi[p];
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
