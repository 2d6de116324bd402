/** A plain fast Fourier transform of this folder's own: it must share nothing with what it is to judge. */

/**
 * In place, unscaled; direction −1 analyses, +1 puts together.
 * @param re @param im of one length, a power of two
 */
export function transform(re: Float64Array, im: Float64Array, direction: 1 | -1): void {
  const n = re.length;
  if (n !== im.length || (n & (n - 1)) !== 0) throw new RangeError(`length ${n} must be a power of two`);
  for (let i = 1, j = 0; i < n; i++) {
    let bit = n >> 1;
    for (; (j & bit) !== 0; bit >>= 1) j ^= bit;
    j ^= bit;
    if (i < j) {
      [re[i], re[j]] = [re[j], re[i]];
      [im[i], im[j]] = [im[j], im[i]];
    }
  }
  const cos = new Float64Array(n / 2);
  const sin = new Float64Array(n / 2);
  for (let k = 0; k < n / 2; k++) {
    cos[k] = Math.cos((2 * Math.PI * k) / n);
    sin[k] = direction * Math.sin((2 * Math.PI * k) / n);
  }
  for (let size = 2; size <= n; size *= 2) {
    const half = size / 2;
    const step = n / size;
    for (let start = 0; start < n; start += size) {
      for (let k = 0; k < half; k++) {
        const c = cos[k * step];
        const s = sin[k * step];
        const p = start + k;
        const q = p + half;
        const tr = re[q] * c - im[q] * s;
        const ti = re[q] * s + im[q] * c;
        re[q] = re[p] - tr;
        im[q] = im[p] - ti;
        re[p] += tr;
        im[p] += ti;
      }
    }
  }
}

export interface Complex {
  readonly re: number;
  readonly im: number;
}

/**
 * Two real signals through a 2 × 2 matrix of responses.
 * @param respond at a frequency of 0 Hz up: [left from left, left from right, right from left, right from right]
 * @returns the first `out.length` samples at `rateHz · out / in`; content above the new half rate is left out
 */
export function throughMatrix(
  left: Float64Array,
  right: Float64Array,
  rateHz: number,
  respond: (hz: number) => readonly [Complex, Complex, Complex, Complex],
  shrink: 1 | 2 | 4 = 1,
): { left: Float64Array; right: Float64Array } {
  const n = left.length;
  const re = Float64Array.from(left);
  const im = Float64Array.from(right);
  transform(re, im, -1);
  const m = n / shrink;
  const outRe = new Float64Array(m);
  const outIm = new Float64Array(m);
  for (let k = 0; k < m / 2; k++) {
    const j = (n - k) % n;
    // spectra of the two real signals that were packed into one
    const lr = (re[k] + re[j]) / 2;
    const li = (im[k] - im[j]) / 2;
    const rr = (im[k] + im[j]) / 2;
    const ri = (re[j] - re[k]) / 2;
    const [ll, lx, rx, r2] = respond((k * rateHz) / n);
    const ar = ll.re * lr - ll.im * li + lx.re * rr - lx.im * ri;
    const ai = ll.re * li + ll.im * lr + lx.re * ri + lx.im * rr;
    const br = rx.re * lr - rx.im * li + r2.re * rr - r2.im * ri;
    const bi = rx.re * li + rx.im * lr + r2.re * ri + r2.im * rr;
    outRe[k] = ar - bi;
    outIm[k] = ai + br;
    if (k > 0) {
      outRe[m - k] = ar + bi;
      outIm[m - k] = br - ai;
    }
  }
  transform(outRe, outIm, 1);
  for (let i = 0; i < m; i++) {
    outRe[i] /= n;
    outIm[i] /= n;
  }
  return { left: outRe, right: outIm };
}
