/**
 * Frames that vanished without a gap, no zeros and no event: only the phase of the tone tells.
 *
 * The tone is mixed down in windows of 10 ms. A line through the phases of the ten windows before a place and one through the ten after
 * it meet there; wow bends both alike, so that it cancels. Where they miss each other by far more than they did in the second
 * before, frames are missing or the tip jumped. The window of the jump itself is part before and part after it and belongs to
 * neither line: of the places next to each other that look like a jump, the one where both lines fit best is it. δ frames turn the phase by 2π f δ / rate: a whole number of cycles,
 * within 17° either way (one in ten by chance), is not seen.
 *
 *   u² = (1.48 · median |step| of the second before)² + 0.93 · s²    s: what windows scatter about their lines, 2 · (1/10 + 5.5²/82.5) = 0.93
 *   ± = 2 u, and no less than 0.1°
 *
 * @checked phaseJumps.test.ts
 */

import type { StereoBlock } from '../capture/recording.ts';
import { median } from '../signal/robust.ts';
import { wrapped } from '../units/units.ts';
import type { ToneReading } from './leakSteps.ts';

export interface PhaseJump {
  readonly startS: number;
  readonly endS: number;
  /** deg, −180 to 180 */
  readonly degrees: number;
  /** deg, k = 2 */
  readonly plusMinus: number;
}

export const WINDOW_S = 0.01;
/** windows on either side of a place */
const SIDE = 10;
const SPAN = 2 * SIDE + 1;
/** rad; and in medians of the steps of the second before */
const LEAST_STEP = 0.3;
const TIMES_MEDIAN = 8;
const STEPS_KEPT = 100;
/** share of the step that one window may lie off its line: more is a click */
const MOST_OFF = 0.4;
/** a window under this share of the usual amplitude is an edge of the band */
const LEAST_AMPLITUDE = 0.5;
/** variance of where both lines meet, in variances of a window */
const OF_SCATTER = 2 * (1 / SIDE + ((SIDE + 1) / 2) ** 2 / ((SIDE ** 3 - SIDE) / 12));
const LEAST_PLUS_MINUS = 0.1;
const DEG = 180 / Math.PI;

interface Window {
  readonly left: ToneReading;
  readonly right: ToneReading;
}

/** What else wants the tone of each window. @param endS its end */
export type HearWindow = (left: ToneReading, right: ToneReading, endS: number) => void;

interface Line {
  readonly at: (x: number) => number;
  /** largest distance of a point, rad */
  readonly off: number;
  /** rad², of the points about it */
  readonly variance: number;
}

/** Least squares through phases that are unwrapped one after the other. @param x of the first */
function lineThrough(phases: readonly number[], x: number): Line {
  let unwrapped = phases[0];
  const y = phases.map((phase, i) => {
    if (i > 0) unwrapped += wrapped(phase - phases[i - 1]);
    return unwrapped;
  });
  const n = y.length;
  const meanX = x + (n - 1) / 2;
  const meanY = y.reduce((sum, one) => sum + one, 0) / n;
  let xy = 0;
  let xx = 0;
  for (let i = 0; i < n; i++) {
    xy += (x + i - meanX) * (y[i] - meanY);
    xx += (x + i - meanX) ** 2;
  }
  const at = (place: number): number => meanY + (xy / xx) * (place - meanX);
  const apart = y.map((one, i) => Math.abs(one - at(x + i)));
  return { at, off: Math.max(...apart), variance: apart.reduce((sum, one) => sum + one * one, 0) / (n - 2) };
}

export class PhaseJumps {
  readonly #rate: number;
  readonly #windowFrames: number;
  /** Hz that is mixed down at; null where no tone plays */
  #frequencyHz: number | null = null;
  /** of either channel, of the last windows */
  #windows: Window[] = [];
  #steps: number[] = [];
  /** off of the last jump, while the places next to it may fit better */
  #lastOff = 0;
  #sum = { re: 0, im: 0, otherRe: 0, otherIm: 0, n: 0 };
  readonly jumps: PhaseJump[] = [];
  readonly #hearWindow: HearWindow;

  constructor(sampleRateHz: number, hearWindow: HearWindow = () => undefined) {
    this.#hearWindow = hearWindow;
    this.#rate = sampleRateHz;
    this.#windowFrames = Math.round(WINDOW_S * sampleRateHz);
  }

  /** @param frequencyHz of the tone that plays, the same as long as it plays; null for none */
  tune(frequencyHz: number | null): void {
    if (frequencyHz === this.#frequencyHz) return;
    this.#frequencyHz = frequencyHz;
    this.#windows = [];
    this.#steps = [];
    this.#sum = { re: 0, im: 0, otherRe: 0, otherIm: 0, n: 0 };
  }

  /** Blocks in order. */
  push({ left, right, frames, startFrame }: StereoBlock): void {
    if (this.#frequencyHz === null) return;
    const turn = (2 * Math.PI * this.#frequencyHz) / this.#rate;
    let re = Math.cos(turn * startFrame);
    let im = -Math.sin(turn * startFrame);
    const [stepRe, stepIm] = [Math.cos(turn), -Math.sin(turn)];
    const sum = this.#sum;
    for (let i = 0; i < frames; i++) {
      sum.re += left[i] * re;
      sum.im += left[i] * im;
      sum.otherRe += right[i] * re;
      sum.otherIm += right[i] * im;
      sum.n += 1;
      const next = re * stepRe - im * stepIm;
      im = re * stepIm + im * stepRe;
      re = next;
      if (sum.n === this.#windowFrames) this.#close(startFrame + i + 1);
    }
  }

  #close(endFrame: number): void {
    const { re, im, otherRe, otherIm, n } = this.#sum;
    const left = { amplitude: Math.hypot(re, im) / n, phase: Math.atan2(im, re) };
    const right = { amplitude: Math.hypot(otherRe, otherIm) / n, phase: Math.atan2(otherIm, otherRe) };
    this.#windows.push({ left, right });
    this.#hearWindow(left, right, endFrame / this.#rate);
    Object.assign(this.#sum, { re: 0, im: 0, otherRe: 0, otherIm: 0, n: 0 });
    if (this.#windows.length < SPAN) return;
    if (this.#windows.length > SPAN) this.#windows.shift();
    this.#judge(endFrame);
  }

  #judge(endFrame: number): void {
    // the louder channel all along: two that are nearly as loud take turns, and differ in phase
    const loudness = (of: 'left' | 'right'): number => this.#windows.reduce((sum, w) => sum + w[of].amplitude, 0);
    const louder = loudness('left') >= loudness('right') ? 'left' : 'right';
    const amplitudes = this.#windows.map((w) => w[louder].amplitude);
    const phases = this.#windows.map((w) => w[louder].phase);
    // of the louder side: where a band ends, most of the windows may be silent
    const usual = Math.max(median(amplitudes.slice(0, SIDE)), median(amplitudes.slice(SIDE + 1)));
    if (amplitudes.some((one, i) => i !== SIDE && one < LEAST_AMPLITUDE * usual)) return;
    const before = lineThrough(phases.slice(0, SIDE), 0);
    const after = lineThrough(phases.slice(SIDE + 1), SIDE + 1);
    const step = wrapped(after.at(SIDE) - before.at(SIDE));
    const size = Math.abs(step);
    const usualStep = median(this.#steps);
    const off = Math.max(before.off, after.off);
    const looksLikeOne =
      this.#steps.length >= SIDE && size > LEAST_STEP && size > TIMES_MEDIAN * usualStep && off < MOST_OFF * size;
    if (looksLikeOne) {
      const variance = (1.4826 * usualStep) ** 2 + (OF_SCATTER * (before.variance + after.variance)) / 2;
      const middleS = endFrame / this.#rate - (SIDE + 0.5) * WINDOW_S;
      this.#take(middleS, step * DEG, Math.max(LEAST_PLUS_MINUS, 2 * Math.sqrt(variance) * DEG), off);
    }
    this.#steps.push(size);
    if (this.#steps.length > STEPS_KEPT) this.#steps.shift();
  }
  /** One jump looks like one at several places next to each other. */
  #take(middleS: number, degrees: number, plusMinus: number, off: number): void {
    const last = this.jumps.at(-1);
    const isNew = last === undefined || middleS > last.endS + SIDE * WINDOW_S;
    if (!isNew && off >= this.#lastOff) return;
    if (!isNew) this.jumps.pop();
    this.#lastOff = off;
    this.jumps.push({ startS: middleS - 1.5 * WINDOW_S, endS: middleS + 1.5 * WINDOW_S, degrees, plusMinus });
  }
}
