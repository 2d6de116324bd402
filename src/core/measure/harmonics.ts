/**
 * Harmonics of a tone, second to fifth, of each channel that it drives.
 *
 *   h_k = mean of z_k e^(−ikφ)     z_k baseband around k times the tone, φ the tone's tracked phase
 *   ratio = |h_k| / |h_1|, as captured
 *
 * Lock-in on k times the tracked phase: what is no harmonic of this tone averages out, wow and all.
 * Cost: four mixers over at most five seconds of a band; the tone itself is the estimator's own.
 *
 * @checked harmonics.test.ts; test/loops/harmonics.test.ts
 */

import type { StereoBlock } from '../capture/recording.ts';
import { type ComplexSeries, coherentRatio, coherentRatioAlone } from '../signal/coherentRatio.ts';
import { narrowed } from '../signal/narrowed.ts';
import { atOnce, type Lent, type Steps } from '../signal/steps.ts';
import { type Baseband, ToneMixer } from '../signal/toneMixer.ts';
import { trackTone } from '../signal/trackedTone.ts';
import { LongLoan, onLoan, workArray } from '../signal/workArrays.ts';
import type { Complex } from '../units/complex.ts';
import type { Channel } from './channels.ts';
import type { Driven } from './toneSegment.ts';

/** s of a band that are looked at */
const MOST_S = 5;
/** below this they are not read, s */
export const LEAST_HARMONIC_S = 1.5;
const HIGHEST_ORDER = 5;
/** Hz; harmonics beyond are not counted */
const HIGHEST_HZ = 20_000;

export interface OrderRatio {
  readonly order: number;
  /** to the fundamental, as captured, and its standard uncertainty */
  readonly ratio: number;
  readonly spread: number;
  /** h_k / (h_1^k / |h_1|^(k−1)), as captured: the sign of `ratio`, against the fundamental's own phase; either part has `spread` */
  readonly phasor: Complex;
}

export interface ChannelHarmonics {
  readonly channel: Channel;
  /** orders 2 up, as far as the capture reaches */
  readonly orders: readonly OrderRatio[];
}

export class HarmonicEstimator {
  /** of orders 2 up */
  private readonly mixers: ToneMixer[] = [];
  private readonly driven: Driven;
  private readonly frequencyHz: number;
  private readonly mostFrames: number;
  private taken = 0;

  /** @param frequencyHz as heard, 250 up */
  constructor(sampleRateHz: number, frequencyHz: number, driven: Driven) {
    if (!(frequencyHz >= 250)) throw new RangeError(`frequencyHz ${frequencyHz} must be at least 250`);
    const top = Math.min(HIGHEST_HZ, 0.45 * sampleRateHz);
    for (let k = 2; k <= HIGHEST_ORDER && k * frequencyHz < top; k++) {
      this.mixers.push(new ToneMixer(sampleRateHz, k * frequencyHz));
    }
    this.driven = driven;
    this.frequencyHz = frequencyHz;
    this.mostFrames = MOST_S * sampleRateHz;
  }

  push({ left, right, frames, startFrame }: StereoBlock): void {
    const to = Math.min(frames, this.mostFrames - this.taken);
    if (to <= 0) return;
    for (const mixer of this.mixers) mixer.push(left, right, 0, to, startFrame);
    this.taken += to;
  }

  /** nothing more is looked at */
  get isFull(): boolean {
    return this.taken >= this.mostFrames;
  }

  /**
   * @param fundamental a mixer at `frequencyHz` that was given the same frames from the same first one on, or more
   * @returns one entry for each driven channel; empty without a tone, or where the capture reaches no harmonic
   */
  result(fundamental: ToneMixer): ChannelHarmonics[] {
    return atOnce(this.inSteps(fundamental));
  }

  /** The same, an order a step. */
  *inSteps(fundamental: ToneMixer): Steps<ChannelHarmonics[]> {
    const [any] = this.mixers;
    if (any === undefined || any.waitingS < 0.98 * LEAST_HARMONIC_S) return [];
    const loan = new LongLoan();
    const found = yield* this.read(
      loan.during(() => fundamental.peek(0, any.waiting)),
      (work) => loan.during(work),
    );
    loan.end();
    return found;
  }

  private *read(fundamental: Baseband, lent: Lent): Steps<ChannelHarmonics[]> {
    const { frequencyHz } = this;
    const first = lent(() => narrowed(fundamental, frequencyHz));
    const { rateHz, length } = first;
    const own: Channel = this.driven === 'right' ? 'right' : 'left';
    const reference = seriesOf(first, own);
    const tone = length === 0 ? null : lent(() => trackTone(reference.re, reference.im, rateHz));
    if (tone === null || !tone.found) return [];
    const { good, from, to, phase } = tone;
    const unit = lent(() => ({ re: workArray(length), im: workArray(length) }));
    turnTo(1, phase, unit, from, to);
    const driven: readonly Channel[] = this.driven === 'both' ? ['left', 'right'] : [own];
    const channels = driven.map((channel) => {
      const { re, im } = onLoan(() => coherentRatioAlone(seriesOf(first, channel), unit, good, from, to, rateHz));
      return { channel, size: Math.hypot(re, im), phase: Math.atan2(im, re), orders: [] as OrderRatio[] };
    });
    for (const [i, mixer] of this.mixers.entries()) {
      yield;
      const order = i + 2;
      turnTo(order, phase, unit, from, to);
      onLoan(() => {
        const z = narrowed(mixer.peek(), frequencyHz);
        for (const { channel, size, phase: own, orders } of channels) {
          if (!(size > 0)) continue;
          const h = coherentRatio(seriesOf(z, channel), unit, good, from, to, rateHz, order * frequencyHz);
          const variance = (h.varRe + h.varIm) / 2;
          // noise adds to a size on average what its square says
          const clean = Math.sqrt(Math.max(0, h.re ** 2 + h.im ** 2 - 2 * variance));
          const cos = Math.cos(order * own);
          const sin = Math.sin(order * own);
          const phasor = { re: (h.re * cos + h.im * sin) / size, im: (h.im * cos - h.re * sin) / size };
          orders.push({ order, ratio: clean / size, spread: Math.sqrt(variance) / size, phasor });
        }
      });
    }
    return channels.map(({ channel, orders }) => ({ channel, orders }));
  }

  /** Gives back what it holds; to be called when nothing more is asked for. */
  end(): void {
    for (const mixer of this.mixers) mixer.end();
  }
}

/** Makes `unit` turn as often as the harmonic of that order. */
function turnTo(order: number, phase: Float64Array, unit: ComplexSeries, from: number, to: number): void {
  for (let n = from; n < to; n++) {
    unit.re[n] = Math.cos(order * phase[n]);
    unit.im[n] = Math.sin(order * phase[n]);
  }
}

const seriesOf = (z: Baseband, channel: Channel): ComplexSeries =>
  channel === 'left' ? { re: z.leftRe, im: z.leftIm } : { re: z.rightRe, im: z.rightIm };
