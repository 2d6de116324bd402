/**
 * The bottom of a recording, kept whole: decimated to some 500 Hz, where sweeps through the arm's resonance and the arm ringing down are heard.
 * Memory: 8 kB a second, ten minutes at most.
 */
import type { StereoBlock } from '../capture/recording.ts';
import { LANES, LaneDecimator } from '../signal/laneDecimator.ts';
import { lowpassTaps } from '../signal/lowpass.ts';

/** flat up to here, Hz */
export const LOW_PASS_HZ = 150;
const WANTED_RATE_HZ = 500;
const MOST_S = 600;

export interface LowRateSignal {
  readonly rateHz: number;
  /** s from the first frame pushed to the middle of the first sample's window */
  readonly delayS: number;
  readonly left: Float64Array;
  readonly right: Float64Array;
}

export class LowRate {
  private readonly sampleRateHz: number;
  private readonly decimator: LaneDecimator;
  private readonly chunks: { left: Float64Array; right: Float64Array }[] = [];
  private lanes = new Float64Array(0);
  private out = new Float64Array(0);
  private kept = 0;

  constructor(sampleRateHz: number) {
    this.sampleRateHz = sampleRateHz;
    const factor = Math.max(1, Math.floor(sampleRateHz / WANTED_RATE_HZ));
    const stopHz = sampleRateHz / factor - LOW_PASS_HZ;
    this.decimator = new LaneDecimator(
      lowpassTaps({ sampleRateHz, passHz: LOW_PASS_HZ, stopHz, attenuationDb: 80 }),
      factor,
    );
  }

  push({ left, right, frames }: Pick<StereoBlock, 'left' | 'right' | 'frames'>): void {
    const rate = this.sampleRateHz / this.decimator.factor;
    if (this.kept >= MOST_S * rate) return;
    if (this.lanes.length < LANES * frames) {
      this.lanes = new Float64Array(LANES * frames);
      this.out = new Float64Array(LANES * (Math.ceil(frames / this.decimator.factor) + 2));
    }
    for (let n = 0; n < frames; n++) {
      this.lanes[LANES * n] = left[n];
      this.lanes[LANES * n + 1] = right[n];
    }
    const count = this.decimator.push(this.lanes, frames, this.out);
    const chunk = { left: new Float64Array(count), right: new Float64Array(count) };
    for (let n = 0; n < count; n++) {
      chunk.left[n] = this.out[LANES * n];
      chunk.right[n] = this.out[LANES * n + 1];
    }
    this.chunks.push(chunk);
    this.kept += count;
  }

  signal(): LowRateSignal {
    const joined = (channel: 'left' | 'right'): Float64Array => {
      const all = new Float64Array(this.kept);
      let at = 0;
      for (const chunk of this.chunks) {
        all.set(chunk[channel], at);
        at += chunk[channel].length;
      }
      return all;
    };
    return {
      rateHz: this.sampleRateHz / this.decimator.factor,
      delayS: this.decimator.delayFrames / this.sampleRateHz,
      left: joined('left'),
      right: joined('right'),
    };
  }

  end(): void {
    this.decimator.end();
  }
}
