/**
 * Harmonics of a tone, second to fifth, of each channel that it drives.
 *
 *   h_k = mean of z_k e^(−ikφ)     z_k baseband around k times the tone, φ the tone's tracked phase
 *   ratio = |h_k| / |h_1|, as captured
 *
 * Lock-in on k times the tracked phase: what is no harmonic of this tone averages out, wow and all.
 * Cost: five mixers over at most five seconds of a band.
 *
 * @checked harmonics.test.ts; test/loops/harmonics.test.ts
 */
import type { StereoBlock } from '../capture/recording.ts';
import { coherentRatio } from '../signal/coherentRatio.ts';
import { narrowed } from '../signal/narrowed.ts';
import { ToneMixer } from '../signal/toneMixer.ts';
import { trackTone } from '../signal/trackedTone.ts';
import type { ComplexEstimate, Driven } from './toneSegment.ts';

/** s of a band that are looked at */
const MOST_S = 5;
const HIGHEST_ORDER = 5;
/** Hz; harmonics beyond are not counted */
const HIGHEST_HZ = 20_000;

export interface ChannelHarmonics {
  readonly channel: 'left' | 'right';
  /** orders 2 up, as far as the capture reaches: ratio to the fundamental as captured, and its standard uncertainty */
  readonly orders: readonly { readonly order: number; readonly ratio: number; readonly spread: number }[];
}

export class HarmonicEstimator {
  private readonly mixers: ToneMixer[];
  private readonly driven: Driven;
  private readonly frequencyHz: number;
  private readonly mostFrames: number;
  private taken = 0;

  /** @param frequencyHz as heard, 250 up */
  constructor(sampleRateHz: number, frequencyHz: number, driven: Driven) {
    if (!(frequencyHz >= 250)) throw new RangeError(`frequencyHz ${frequencyHz} must be at least 250`);
    const top = Math.min(HIGHEST_HZ, 0.45 * sampleRateHz);
    this.mixers = [];
    for (let k = 1; k <= HIGHEST_ORDER && (k === 1 || k * frequencyHz < top); k++) {
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

  /** @returns one entry for each driven channel; empty without a tone */
  result(): ChannelHarmonics[] {
    const bands = this.mixers.map((m) => narrowed(m.peek(), this.frequencyHz));
    const first = bands[0];
    const { rateHz, length } = first;
    const own = this.driven === 'right' ? 'right' : 'left';
    const re = own === 'left' ? first.leftRe : first.rightRe;
    const im = own === 'left' ? first.leftIm : first.rightIm;
    const tone = length === 0 ? null : trackTone(re, im, rateHz);
    if (tone === null || !tone.found) return [];
    const channels: ('left' | 'right')[] = this.driven === 'both' ? ['left', 'right'] : [own];
    const lockIn = (index: number, channel: 'left' | 'right'): ComplexEstimate => {
      const order = index + 1;
      const z = bands[index];
      const unit = { re: new Float64Array(length), im: new Float64Array(length) };
      for (let n = tone.from; n < tone.to; n++) {
        unit.re[n] = Math.cos(order * tone.phase[n]);
        unit.im[n] = Math.sin(order * tone.phase[n]);
      }
      const other = channel === 'left' ? { re: z.leftRe, im: z.leftIm } : { re: z.rightRe, im: z.rightIm };
      return coherentRatio(other, unit, tone.good, tone.from, tone.to, rateHz, order * this.frequencyHz);
    };
    return channels.map((channel) => {
      const h1 = lockIn(0, channel);
      const size = Math.hypot(h1.re, h1.im);
      const orders = bands.slice(1).flatMap((_, i) => {
        if (!(size > 0)) return [];
        const order = i + 2;
        const h = lockIn(i + 1, channel);
        const variance = (h.varRe + h.varIm) / 2;
        // noise adds to a size on average what its square says
        const clean = Math.sqrt(Math.max(0, h.re ** 2 + h.im ** 2 - 2 * variance));
        return [{ order, ratio: clean / size, spread: Math.sqrt(variance) / size }];
      });
      return { channel, orders };
    });
  }
}
