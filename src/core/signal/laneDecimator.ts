/**
 * Low pass and decimation of four interleaved lanes at once: left real, left imaginary, right real, right imaginary.
 *
 * Only whole windows are given out: the first output stands for the middle of the first `taps.length` inputs, so there
 * is no start-up transient to cut away.
 */
import { lentArray, takeBack } from './workArrays.ts';

export const LANES = 4;

export class LaneDecimator {
  private readonly taps: Float64Array;
  readonly factor: number;
  private held: Float64Array<ArrayBuffer>;
  private heldFrames = 0;

  /** @param taps symmetric low-pass taps @param factor inputs per output, at least 1 */
  constructor(taps: Float64Array, factor: number) {
    if (!(Number.isInteger(factor) && factor >= 1))
      throw new RangeError(`factor ${factor} must be a whole number, 1 up`);
    if (!(taps.length >= factor))
      throw new RangeError(`taps ${taps.length} must be at least as many as factor ${factor}`);
    this.taps = taps;
    this.factor = factor;
    this.held = lentArray(LANES * (taps.length + 1024));
  }

  /** inputs from the first input to the middle of the first output's window */
  get delayFrames(): number {
    return (this.taps.length - 1) / 2;
  }

  /**
   * @param input interleaved lanes @param frames valid in it
   * @param output receives the outputs; must hold `frames / factor + 1` frames
   * @returns frames written to `output`
   */
  push(input: Float64Array, frames: number, output: Float64Array): number {
    const need = LANES * (this.heldFrames + frames);
    if (need > this.held.length) {
      const grown = lentArray(need + LANES * 1024);
      grown.set(this.held.subarray(0, LANES * this.heldFrames));
      takeBack(this.held);
      this.held = grown;
    }
    this.held.set(input.subarray(0, LANES * frames), LANES * this.heldFrames);
    this.heldFrames += frames;
    const { held, taps, factor } = this;
    const length = taps.length;
    let written = 0;
    let at = 0;
    // two windows at a time: their sums do not wait for one another
    const stride = LANES * factor;
    for (; at + factor + length <= this.heldFrames; at += 2 * factor) {
      let a = 0;
      let b = 0;
      let c = 0;
      let d = 0;
      let a2 = 0;
      let b2 = 0;
      let c2 = 0;
      let d2 = 0;
      let p = LANES * at;
      let q = p + stride;
      for (let k = 0; k < length; k++) {
        const h = taps[k];
        a += h * held[p];
        b += h * held[p + 1];
        c += h * held[p + 2];
        d += h * held[p + 3];
        a2 += h * held[q];
        b2 += h * held[q + 1];
        c2 += h * held[q + 2];
        d2 += h * held[q + 3];
        p += LANES;
        q += LANES;
      }
      const o = LANES * written;
      output[o] = a;
      output[o + 1] = b;
      output[o + 2] = c;
      output[o + 3] = d;
      output[o + 4] = a2;
      output[o + 5] = b2;
      output[o + 6] = c2;
      output[o + 7] = d2;
      written += 2;
    }
    for (; at + length <= this.heldFrames; at += factor) {
      let a = 0;
      let b = 0;
      let c = 0;
      let d = 0;
      let p = LANES * at;
      for (let k = 0; k < length; k++) {
        const h = taps[k];
        a += h * held[p];
        b += h * held[p + 1];
        c += h * held[p + 2];
        d += h * held[p + 3];
        p += LANES;
      }
      const o = LANES * written;
      output[o] = a;
      output[o + 1] = b;
      output[o + 2] = c;
      output[o + 3] = d;
      written += 1;
    }
    held.copyWithin(0, LANES * at, LANES * this.heldFrames);
    this.heldFrames -= at;
    return written;
  }

  /** Gives back what it holds; nothing may be pushed afterwards. */
  end(): void {
    takeBack(this.held);
    this.held = new Float64Array(0);
    this.heldFrames = 0;
  }
}
