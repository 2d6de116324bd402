/**
 * The slow periodic parts of a speed trace: a few sines below 3 Hz, found one after the other and fitted together.
 *
 * They are taken out before weighting and put back with their exact weight, because a stretch of a few turns cut off in
 * mid-swing would otherwise leave a kink at its ends, which the weighting, 10 dB stronger at 2 Hz than at once per turn,
 * would take for wow.
 */
import { sharedFft, transformSize } from '../signal/sharedFft.ts';
import { solveSymmetric } from '../signal/solveSymmetric.ts';
import type { Steps } from '../signal/steps.ts';
import type { ThinTrace } from './thinTrace.ts';

/** a cos 2πft + b sin 2πft, t from the middle of the trace */
export interface SlowLine {
  readonly hz: number;
  readonly cos: number;
  readonly sin: number;
}

const HIGHEST_HZ = 3;
const MOST_LINES = 6;

/** @returns lines, strongest first, one a step; empty for a trace of less than 2 s */
export function* slowLinesInSteps(trace: ThinTrace): Steps<SlowLine[]> {
  const { deviation, rateHz } = trace;
  const count = deviation.length;
  const lengthS = count / rateHz;
  if (lengthS < 2) return [];
  const size = transformSize(8 * count);
  const fft = sharedFft(size);
  const window = Float64Array.from(deviation, (_, n) => Math.sin((Math.PI * (n + 0.5)) / count) ** 2);
  const seconds = (n: number): number => (n - (count - 1) / 2) / rateHz;
  const frequencies: number[] = [];
  let lines: SlowLine[] = [];
  let left: Float64Array = deviation.slice();
  const power = (x: Float64Array): number => x.reduce((sum, v) => sum + v * v, 0);
  let before = power(left);
  for (let round = 0; round < MOST_LINES; round++) {
    yield;
    const re = new Float64Array(size);
    const im = new Float64Array(size);
    for (let n = 0; n < count; n++) re[n] = left[n] * window[n];
    fft.forward(re, im);
    const at = (k: number): number => re[k] * re[k] + im[k] * im[k];
    let peak = -1;
    // one whole period at least, a resolvable distance from lines already found
    for (let k = Math.ceil(size / count); k <= Math.min(size / 2 - 1, (HIGHEST_HZ * size) / rateHz); k++) {
      const hz = (k * rateHz) / size;
      if (frequencies.some((f) => Math.abs(f - hz) * lengthS < 0.8)) continue;
      if (peak < 0 || at(k) > at(peak)) peak = k;
    }
    if (peak < 1) break;
    const [a, b, c] = [at(peak - 1), at(peak), at(peak + 1)].map((v) => Math.log(Math.max(v, 1e-300)));
    const bend = a - 2 * b + c;
    const shift = bend < 0 ? Math.max(-0.5, Math.min(0.5, (a - c) / (2 * bend))) : 0;
    frequencies.push(((peak + shift) * rateHz) / size);
    const fitted = fitLines(deviation, frequencies, seconds);
    if (fitted === null) break;
    const after = power(fitted.left);
    // a line that takes away less than a twentieth of what was left is no line
    if (after > 0.95 * before) break;
    lines = fitted.lines;
    left = fitted.left;
    before = after;
  }
  return lines;
}

function fitLines(
  x: Float64Array,
  frequencies: readonly number[],
  seconds: (n: number) => number,
): { lines: SlowLine[]; left: Float64Array } | null {
  const width = 1 + 2 * frequencies.length;
  const normal = Array.from({ length: width }, () => new Float64Array(width));
  const right = new Float64Array(width);
  const row = new Float64Array(width);
  const fill = (n: number): void => {
    row[0] = 1;
    frequencies.forEach((hz, i) => {
      row[1 + 2 * i] = Math.cos(2 * Math.PI * hz * seconds(n));
      row[2 + 2 * i] = Math.sin(2 * Math.PI * hz * seconds(n));
    });
  };
  for (let n = 0; n < x.length; n++) {
    fill(n);
    for (let i = 0; i < width; i++) {
      right[i] += row[i] * x[n];
      for (let j = 0; j < width; j++) normal[i][j] += row[i] * row[j];
    }
  }
  const solved = solveSymmetric(normal, right);
  if (solved === null) return null;
  const left = x.map((v, n) => {
    fill(n);
    return v - row.reduce((sum, r, i) => sum + r * solved.solution[i], 0);
  });
  const lines = frequencies.map((hz, i) => ({
    hz,
    cos: solved.solution[1 + 2 * i],
    sin: solved.solution[2 + 2 * i],
  }));
  return { lines, left };
}
