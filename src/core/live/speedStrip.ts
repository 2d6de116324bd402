/**
 * Speed of a tone while it plays, point by point: what the strip draws. Figures come from the estimators; this is the picture.
 *
 *   z[m] = Σ w[n] s[n] e^(−i2πf₀n/fs) over 20 ms, Hann, every 10 ms        f[m]/f₀ − 1 = arg(z[m] z*[m−1]) / (2πf₀ · 10 ms)
 *
 * A point where the tone's size leaves its usual one by half (a click, an edge) is none.
 *
 * @checked speedStrip.test.ts
 */
import type { StereoBlock } from '../capture/recording.ts';

export const STRIP_STEP_S = 0.01;
/** share of the usual size */
const LEAST_SIZE = 0.5;
const MOST_SIZE = 2;
/** how fast the usual size follows */
const FOLLOWS = 0.05;

/** Points since they were last taken. */
export interface StripPoints {
  /** Hz that 0 % is */
  readonly f0: number;
  /** changes with every tone */
  readonly tone: number;
  /** s of this input at the first of the points */
  readonly fromS: number;
  /** %, NaN-free: null where there is none */
  readonly percent: readonly (number | null)[];
}

export class SpeedStrip {
  readonly #rate: number;
  readonly #hop: number;
  /** the falling half of the window */
  readonly #fall: Float64Array;
  #f0: number | null = null;
  #tone = 0;
  #frame = 0;
  /** two halves of the window under way: the older ends at this hop */
  #older = { re: 0, im: 0 };
  #newer = { re: 0, im: 0 };
  #at = 0;
  #last: { re: number; im: number } | null = null;
  #usual = 0;
  #hops = 0;
  #points: (number | null)[] = [];
  #fromS = 0;

  constructor(sampleRateHz: number) {
    this.#rate = sampleRateHz;
    const hop = Math.round(STRIP_STEP_S * sampleRateHz);
    this.#hop = hop;
    this.#fall = Float64Array.from({ length: hop }, (_, n) => 0.5 + 0.5 * Math.cos((Math.PI * (n + 0.5)) / hop));
  }

  /** @param hz of the tone that plays now; null where none does. Kept until another tone comes. */
  tune(hz: number | null): void {
    if (hz === null ? this.#f0 === null : this.#f0 !== null && Math.abs(hz / this.#f0 - 1) < 0.02) return;
    this.#f0 = hz;
    this.#tone += 1;
    this.#older = { re: 0, im: 0 };
    this.#newer = { re: 0, im: 0 };
    this.#at = 0;
    this.#last = null;
    this.#usual = 0;
    this.#hops = 0;
    this.#points = [];
  }

  push({ left, right, frames }: Pick<StereoBlock, 'left' | 'right' | 'frames'>): void {
    if (this.#f0 === null) {
      this.#frame += frames;
      return;
    }
    for (let at = 0; at < frames; ) {
      const end = Math.min(frames, at + this.#hop - this.#at);
      this.#mix(this.#f0, left, right, at, end);
      this.#frame += end - at;
      this.#at += end - at;
      if (this.#at === this.#hop) this.#close();
      at = end;
    }
  }

  /** Within one hop. The phasor is set anew each time, so that its rounding does not gather. */
  #mix(f0: number, left: Float64Array, right: Float64Array, from: number, to: number): void {
    const turn = (2 * Math.PI * f0) / this.#rate;
    let c = Math.cos(turn * this.#frame);
    let s = Math.sin(turn * this.#frame);
    const stepC = Math.cos(turn);
    const stepS = Math.sin(turn);
    let { re: olderRe, im: olderIm } = this.#older;
    let { re: newerRe, im: newerIm } = this.#newer;
    for (let i = from, at = this.#at; i < to; i++, at++) {
      // the louder sum of both: a lateral tone adds up, a vertical one is told by its difference
      const sample = left[i] + 0.5 * right[i];
      const re = sample * c;
      const im = -sample * s;
      const fall = this.#fall[at];
      olderRe += fall * re;
      olderIm += fall * im;
      newerRe += (1 - fall) * re;
      newerIm += (1 - fall) * im;
      const next = c * stepC - s * stepS;
      s = c * stepS + s * stepC;
      c = next;
    }
    this.#older = { re: olderRe, im: olderIm };
    this.#newer = { re: newerRe, im: newerIm };
  }

  #close(): void {
    const z = this.#older;
    this.#older = this.#newer;
    this.#newer = { re: 0, im: 0 };
    this.#at = 0;
    this.#hops += 1;
    // the first window has one half
    if (this.#hops < 2) return;
    const size = Math.hypot(z.re, z.im);
    const isTone = size > LEAST_SIZE * this.#usual && (this.#usual === 0 || size < MOST_SIZE * this.#usual);
    this.#usual += (size - this.#usual) * (this.#usual === 0 ? 1 : FOLLOWS);
    const before = this.#last;
    this.#last = isTone ? z : null;
    if (this.#points.length === 0) this.#fromS = this.#frame / this.#rate - STRIP_STEP_S;
    if (before === null || !isTone || this.#f0 === null) {
      this.#points.push(null);
      return;
    }
    const re = z.re * before.re + z.im * before.im;
    const im = z.im * before.re - z.re * before.im;
    this.#points.push((100 * Math.atan2(im, re)) / (2 * Math.PI * this.#f0 * (this.#hop / this.#rate)));
  }

  /** What came since this was asked last; null while no tone plays. */
  take(): StripPoints | null {
    if (this.#f0 === null) return null;
    const percent = this.#points;
    this.#points = [];
    return { f0: this.#f0, tone: this.#tone, fromS: this.#fromS, percent };
  }
}

/** points left out at either end: where samples vanish a point or two lie anywhere, and would be the whole picture */
const ASTRAY = 0.01;

/** % between which all points lie but the outermost hundredth either way; null of none */
export function pointSpan(percent: readonly (number | null)[]): { readonly low: number; readonly high: number } | null {
  const told = percent.filter((one) => one !== null).sort((a, b) => a - b);
  if (told.length === 0) return null;
  const out = Math.floor(ASTRAY * told.length);
  return { low: told[out], high: told[told.length - 1 - out] };
}

/** % k = 2: how much single points scatter beside their neighbours; null of fewer than ten. */
export function pointScatter(percent: readonly (number | null)[]): number | null {
  const bends: number[] = [];
  for (let i = 2; i < percent.length; i++) {
    const [a, b, c] = [percent[i - 2], percent[i - 1], percent[i]];
    if (a !== null && b !== null && c !== null) bends.push(Math.abs(a - 2 * b + c));
  }
  if (bends.length < 10) return null;
  bends.sort((a, b) => a - b);
  // a second difference of independent points has √6 of their spread; 1.4826 from its median to a standard deviation
  return (2 * 1.4826 * bends[bends.length >> 1]) / Math.sqrt(6);
}
