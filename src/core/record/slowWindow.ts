/**
 * Hops of 2048 frames → 64 slow frames each, at 1/32 of the rate, and the window of 512 of them that is centred on a hop: what
 * lies below 400 Hz is told apart in it.
 */
import { lowpassTaps } from '../signal/lowpass.ts';
import { HalfRate } from './halfRate.ts';

const RATIO = 32;
/** slow frames of a window */
export const SLOW_SIZE = 512;

export class SlowWindow {
  /** the first `SLOW_SIZE` frames are the window */
  readonly left: Float64Array;
  readonly right: Float64Array;
  /** Hz */
  readonly rateHz: number;
  private readonly hop: number;
  private readonly toEighth = [new HalfRate(), new HalfRate(), new HalfRate()] as const;
  private readonly taps: Float64Array;
  private readonly eighthL: Float64Array;
  private readonly eighthR: Float64Array;
  private held: number;

  /** @param rateHz of the frames that come in @param hop frames, a multiple of 64 */
  constructor(rateHz: number, hop: number) {
    this.rateHz = rateHz / RATIO;
    this.hop = hop;
    this.taps = lowpassTaps({
      sampleRateHz: rateHz / 8,
      passHz: 0.076 * (rateHz / 8),
      stopHz: 0.172 * (rateHz / 8),
      attenuationDb: 50,
    });
    const reach = this.taps.length - 1;
    this.eighthL = new Float64Array(reach + hop / 8);
    this.eighthR = new Float64Array(reach + hop / 8);
    // Slow frame q stands for frame 32 q − delay; the window for hop h is to be centred on frame (h + ½)·2048.
    const delay = (1 + 2 + 4) * HalfRate.delayFrames + (8 * reach) / 2;
    const centre = Math.round((hop / 2 + delay) / RATIO);
    this.left = new Float64Array(4 * SLOW_SIZE);
    this.right = new Float64Array(4 * SLOW_SIZE);
    // Nothing was before the first frame.
    this.held = SLOW_SIZE / 2 - centre;
  }

  /** whether the window is full: to be looked at, then moved on by `next` */
  get isFull(): boolean {
    return this.held >= SLOW_SIZE;
  }

  next(): void {
    const slowHop = this.hop / RATIO;
    this.left.copyWithin(0, slowHop, this.held);
    this.right.copyWithin(0, slowHop, this.held);
    this.held -= slowHop;
  }

  /** @param frameL @param frameR one hop; overwritten */
  push(frameL: Float64Array, frameR: Float64Array): void {
    const { hop, taps, eighthL, eighthR, left, right } = this;
    const reach = taps.length - 1;
    const middleTap = reach / 2;
    const [half, quarter, eighth] = this.toEighth;
    half.push(frameL, frameR, 0, hop, frameL, frameR, 0);
    quarter.push(frameL, frameR, 0, hop / 2, frameL, frameR, 0);
    eighth.push(frameL, frameR, 0, hop / 4, eighthL, eighthR, reach);
    // two at a time: their sums do not wait for one another
    for (let q = 0, to = this.held; q < hop / RATIO; q += 2, to += 2) {
      // The taps are symmetric: one product for two frames.
      let a = 4 * q;
      let b = a + reach;
      const middle = a + middleTap;
      const h = taps[middleTap];
      let l = h * eighthL[middle];
      let r = h * eighthR[middle];
      let l2 = h * eighthL[middle + 4];
      let r2 = h * eighthR[middle + 4];
      for (let i = 0; i < middleTap; i++, a++, b--) {
        const tap = taps[i];
        l += tap * (eighthL[a] + eighthL[b]);
        r += tap * (eighthR[a] + eighthR[b]);
        l2 += tap * (eighthL[a + 4] + eighthL[b + 4]);
        r2 += tap * (eighthR[a + 4] + eighthR[b + 4]);
      }
      left[to] = l;
      right[to] = r;
      left[to + 1] = l2;
      right[to + 1] = r2;
    }
    this.held += hop / RATIO;
    eighthL.copyWithin(0, hop / 8);
    eighthR.copyWithin(0, hop / 8);
  }
}
