/**
 * erfcx(z) = e^(z²) erfc(z) of a complex number: what integrals over a chirp that dies away come to.
 *
 * Right half plane by a rational series of 20 terms, far out by its asymptote; left by erfcx(z) = 2 e^(z²) − erfcx(−z).
 * Relative error under 1e-6 on the right.
 *
 * @source J. A. C. Weideman, Computation of the complex error function, SIAM J. Numer. Anal. 31 (1994), from memory
 * @checked scaledErfc.test.ts: handbook values
 */
import type { Complex } from '../units/complex.ts';

const TERMS = 20;
const L = Math.sqrt(TERMS / Math.SQRT2);
const ROOT_PI = Math.sqrt(Math.PI);
/** |z|² from which three terms of the asymptote do */
const FAR = 120;

const SERIES = ((): Float64Array => {
  const half = 2 * TERMS;
  return Float64Array.from({ length: TERMS }, (_, i) => {
    let sum = 0;
    for (let k = 1 - half; k < half; k++) {
      const angle = (k * Math.PI) / half;
      const t2 = (L * Math.tan(angle / 2)) ** 2;
      sum += Math.exp(-t2) * (L * L + t2) * Math.cos((i + 1) * angle);
    }
    return sum / (2 * half);
  });
})();

/** Grows as 2 e^(z²) to the left: the caller keeps Re z² bounded there. */
export function scaledErfc(re: number, im: number): Complex {
  if (re >= 0) return rightOf(re, im);
  const { re: x, im: y } = rightOf(-re, -im);
  const size = 2 * Math.exp(re * re - im * im);
  const angle = 2 * re * im;
  return { re: size * Math.cos(angle) - x, im: size * Math.sin(angle) - y };
}

function rightOf(re: number, im: number): Complex {
  const square = re * re + im * im;
  if (square > FAR) {
    // (1 − 1/2z² + 3/4z⁴) / (√π z)
    const [ir, ii] = [re / square, -im / square];
    const [sr, si] = [ir * ir - ii * ii, 2 * ir * ii];
    const [x, y] = [1 - sr / 2 + 0.75 * (sr * sr - si * si), -si / 2 + 1.5 * sr * si];
    return { re: (ir * x - ii * y) / ROOT_PI, im: (ir * y + ii * x) / ROOT_PI };
  }
  // v = 1 / (L + z), Z = (L − z) v
  const [br, bi] = [L + re, im];
  const under = br * br + bi * bi;
  const [vr, vi] = [br / under, -bi / under];
  const [zr, zi] = [(L - re) * vr + im * vi, (L - re) * vi - im * vr];
  let [pr, pi] = [0, 0];
  for (let k = TERMS - 1; k >= 0; k--) {
    const next = pr * zr - pi * zi + SERIES[k];
    pi = pr * zi + pi * zr;
    pr = next;
  }
  // 2 p v² + v / √π
  const [qr, qi] = [2 * (pr * vr - pi * vi) + 1 / ROOT_PI, 2 * (pr * vi + pi * vr)];
  return { re: qr * vr - qi * vi, im: qr * vi + qi * vr };
}
