/**
 * A steady line among the lowest frequencies of a series, found, fitted and taken out, with what it leaves in the series' mean.
 *
 *   x(t) = a cos ωt + b sin ωt + noise   →   the mean holds (a² + b²)/2 · |Σ e^{iωt}/n|², whatever the phase
 *
 * @checked uncertaintyOfMean.test.ts
 */
import type { Complex } from '../units/complex.ts';
import { solveSymmetric } from './solveSymmetric.ts';
import type { Steps } from './steps.ts';
import { RUN, turningRun } from './turningRun.ts';

/** the largest of ten bins of noise passes their mean by this much 1 time in 40 */
const STANDS_OUT = 6;
/** slower than this, in periods of the series, a line is not told from wander */
const SLOWEST = 1.5;
/** bins beside a line that it fills as well */
const BESIDE = 1.5;
/** it is looked for this far beside the loudest bin, in such steps, in periods */
const AROUND = 1.2;
const GRID = 0.1;
/** sums that a line is looked for in: of the fastest, 11 periods of them, they take off 0.3 %; the line found is fitted to every sample */
const GROUPS = 256;

/**
 * @param x @param y series of one length, zero where `good` is; the line is subtracted from both
 * @param density power of both near a frequency, in periods of the series
 * @param lowest how many periods the lowest frequencies reach to
 * @returns variance that the line leaves in the mean of either; null where none stands out
 */
export function* slowLineInSteps(
  x: Float64Array,
  y: Float64Array,
  good: Uint8Array,
  density: (periods: number) => Complex,
  lowest: number,
): Steps<Complex | null> {
  const powers: { readonly at: number; readonly power: number }[] = [];
  for (let at = 1; at <= lowest; at += 0.5) {
    const { re, im } = density(at);
    powers.push({ at, power: re + im });
  }
  const top = powers.reduce((best, one) => (one.power > best.power ? one : best), powers[0]);
  const others = powers.filter(({ at }) => Math.abs(at - top.at) >= BESIDE);
  if (top.at < SLOWEST || others.length === 0) return null;
  const rest = others.reduce((sum, { power }) => sum + power, 0) / others.length;
  if (!(top.power > STANDS_OUT * rest)) return null;
  const sums = inGroups(x, y, good);
  let nearest: { readonly at: number; readonly power: number } | null = null;
  for (let at = Math.max(1, top.at - AROUND); at <= top.at + AROUND; at += GRID) {
    const fit = fitted(sums.x, sums.y, sums.counts, (2 * Math.PI * at * sums.each) / x.length);
    if (fit !== null && (nearest === null || fit.power > nearest.power)) nearest = { at, power: fit.power };
  }
  if (nearest === null) return null;
  yield;
  const best = fitted(x, y, good, (2 * Math.PI * nearest.at) / x.length);
  if (best === null) return null;
  yield;
  takeOut(x, y, good, best);
  const { ofX, ofY, leak } = best;
  const left = ([, a, b]: Float64Array): number => ((a * a + b * b) / 2) * leak;
  return { re: left(ofX), im: left(ofY) };
}

interface Groups {
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** what is good of each */
  readonly counts: Float64Array;
  /** samples of one */
  readonly each: number;
}

/** Sums of samples that lie next to each other. */
function inGroups(x: Float64Array, y: Float64Array, good: Uint8Array): Groups {
  const each = Math.max(1, Math.floor(x.length / GROUPS));
  const groups = Math.ceil(x.length / each);
  const sums = { x: new Float64Array(groups), y: new Float64Array(groups), counts: new Float64Array(groups), each };
  for (let g = 0; g < groups; g++) {
    const end = Math.min(x.length, (g + 1) * each);
    let [ofX, ofY, count] = [0, 0, 0];
    for (let n = g * each; n < end; n++) {
      ofX += x[n];
      ofY += y[n];
      count += good[n];
    }
    sums.x[g] = ofX;
    sums.y[g] = ofY;
    sums.counts[g] = count;
  }
  return sums;
}

interface Fit {
  readonly omega: number;
  /** mean, cosine, sine */
  readonly ofX: Float64Array;
  readonly ofY: Float64Array;
  /** what it takes out of both */
  readonly power: number;
  /** |mean of e^{iωt}|² over what is good */
  readonly leak: number;
}

function takeOut(x: Float64Array, y: Float64Array, good: Uint8Array, { omega, ofX, ofY }: Fit): void {
  for (let from = 0; from < x.length; from += RUN) {
    const { c, s } = turningRun(omega * from, omega);
    const end = Math.min(RUN, x.length - from);
    for (let i = 0; i < end; i++) {
      if (good[from + i] !== 1) continue;
      x[from + i] -= ofX[0] + ofX[1] * c[i] + ofX[2] * s[i];
      y[from + i] -= ofY[0] + ofY[1] * c[i] + ofY[2] * s[i];
    }
  }
}

/** @param counts how many samples each of x and y is the sum of */
function fitted(x: Float64Array, y: Float64Array, counts: Uint8Array | Float64Array, omega: number): Fit | null {
  // each a number of its own: an array of them is made anew at every step where this is still run as it is read
  let count = 0;
  let c1 = 0;
  let s1 = 0;
  let cc = 0;
  let cs = 0;
  let ss = 0;
  let x0 = 0;
  let xc = 0;
  let xs = 0;
  let y0 = 0;
  let yc = 0;
  let ys = 0;
  for (let from = 0; from < x.length; from += RUN) {
    const run = turningRun(omega * from, omega);
    const end = Math.min(RUN, x.length - from);
    for (let i = 0; i < end; i++) {
      const n = from + i;
      const c = run.c[i];
      const s = run.s[i];
      const of = counts[n];
      count += of;
      c1 += of * c;
      s1 += of * s;
      cc += of * c * c;
      cs += of * c * s;
      ss += of * s * s;
      x0 += x[n];
      xc += c * x[n];
      xs += s * x[n];
      y0 += y[n];
      yc += c * y[n];
      ys += s * y[n];
    }
  }
  const [ofX, ofY] = [Float64Array.of(x0, xc, xs), Float64Array.of(y0, yc, ys)];
  const normal = [
    [count, c1, s1],
    [c1, cc, cs],
    [s1, cs, ss],
  ];
  const [solvedX, solvedY] = [solveSymmetric(normal, ofX), solveSymmetric(normal, ofY)];
  if (solvedX === null || solvedY === null) return null;
  const gain = (right: Float64Array, { solution }: { readonly solution: Float64Array }): number =>
    right.reduce((sum, r, i) => sum + r * solution[i], 0);
  return {
    omega,
    ofX: solvedX.solution,
    ofY: solvedY.solution,
    power: gain(ofX, solvedX) + gain(ofY, solvedY),
    leak: (c1 / count) ** 2 + (s1 / count) ** 2,
  };
}
