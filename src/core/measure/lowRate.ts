/**
 * The bottom of a recording, decimated and kept whole: rumble and mains lines of a quiet stretch, sweeps through the arm's resonance, the arm
 * ringing down.
 */
import type { StereoBlock } from '../capture/recording.ts';
import { LANES, LaneDecimator } from '../signal/laneDecimator.ts';
import { lowpassTaps } from '../signal/lowpass.ts';
import { lentArray, takeBack } from '../signal/workArrays.ts';

export interface Bottom {
  /** flat up to here, Hz */
  readonly passHz: number;
  /** at least, Hz: over twice `passHz` */
  readonly rateHz: number;
  readonly attenuationDb: number;
  /** later frames are not kept, s */
  readonly mostS: number;
}

/** Where the arm resonates. Memory: 8 kB a second. */
export const ARM: Bottom = { passHz: 150, rateHz: 500, attenuationDb: 80, mostS: 600 };

export interface LowRateSignal {
  readonly rateHz: number;
  /** s from the first frame pushed to the middle of the first sample's window */
  readonly delayS: number;
  readonly left: Float64Array;
  readonly right: Float64Array;
}

export class LowRate {
  readonly rateHz: number;
  private readonly sampleRateHz: number;
  private readonly mostS: number;
  private readonly decimator: LaneDecimator;
  private readonly chunks: { left: Float64Array; right: Float64Array }[] = [];
  private lanes = new Float64Array(0);
  private out = new Float64Array(0);
  private kept = 0;

  constructor(sampleRateHz: number, { passHz, rateHz, attenuationDb, mostS }: Bottom) {
    this.sampleRateHz = sampleRateHz;
    this.mostS = mostS;
    const factor = Math.max(1, Math.floor(sampleRateHz / rateHz));
    this.rateHz = sampleRateHz / factor;
    const stopHz = this.rateHz - passHz;
    this.decimator = new LaneDecimator(lowpassTaps({ sampleRateHz, passHz, stopHz, attenuationDb }), factor);
  }

  push({ left, right, frames }: Pick<StereoBlock, 'left' | 'right' | 'frames'>): void {
    if (this.kept >= this.mostS * this.rateHz) return;
    if (this.lanes.length < LANES * frames) {
      this.giveBack();
      this.lanes = lentArray(LANES * frames);
      this.out = lentArray(LANES * (Math.ceil(frames / this.decimator.factor) + 2));
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
      rateHz: this.rateHz,
      delayS: this.decimator.delayFrames / this.sampleRateHz,
      left: joined('left'),
      right: joined('right'),
    };
  }

  /** Call once, when nothing more is pushed. */
  end(): void {
    this.decimator.end();
    this.giveBack();
  }

  private giveBack(): void {
    for (const array of [this.lanes, this.out]) if (array.length > 0) takeBack(array);
    this.lanes = new Float64Array(0);
    this.out = new Float64Array(0);
  }
}
