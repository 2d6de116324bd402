/** A frame laid over the tone's period: the period's harmonics, and those of the power over it. */
import { type ComplexFft, stereoBin } from '../signal/fft.ts';
import { sharedFft } from '../signal/sharedFft.ts';

interface FoldedChannel {
  /** mean square */
  readonly power: number;
  /** re and im in turn, from the first harmonic to the last */
  readonly lines: Float32Array;
  /** of the power, the fifth to the eighth */
  readonly bursts: Float32Array;
}

export interface Fold {
  readonly left: FoldedChannel;
  readonly right: FoldedChannel;
}

/** places of the period for each turn of the last harmonic: 1 % of its size is lost */
const PLACES = 12;
const [BURST_FROM, BURSTS] = [5, 4];

export class FoldedPeriod {
  readonly first: number;
  readonly last: number;
  private readonly fft: ComplexFft;
  private readonly re: Float64Array;
  private readonly im: Float64Array;
  private readonly squareRe: Float64Array;
  private readonly squareIm: Float64Array;

  constructor(first: number, last: number) {
    this.first = first;
    this.last = last;
    const size = 2 ** Math.ceil(Math.log2(PLACES * last));
    this.fft = sharedFft(size);
    this.re = new Float64Array(size);
    this.im = new Float64Array(size);
    this.squareRe = new Float64Array(size);
    this.squareIm = new Float64Array(size);
  }

  /** @param phaseAt rad, of the tone at a sample of the frame */
  of(frame: { left: Float64Array; right: Float64Array }, phaseAt: (n: number) => number): Fold {
    const { re, im, squareRe, squareIm, fft } = this;
    for (const bins of [re, im, squareRe, squareIm]) bins.fill(0);
    const { left, right } = frame;
    for (let n = 0; n < left.length; n++) {
      const turns = phaseAt(n) / (2 * Math.PI);
      const bin = Math.floor((turns - Math.floor(turns)) * fft.size) % fft.size;
      re[bin] += left[n];
      im[bin] += right[n];
      squareRe[bin] += left[n] * left[n];
      squareIm[bin] += right[n] * right[n];
    }
    const sum = (bins: Float64Array): number => bins.reduce((all, v) => all + v, 0) / left.length;
    const power = { left: sum(squareRe), right: sum(squareIm) };
    fft.forward(re, im);
    fft.forward(squareRe, squareIm);
    const lines = channels(re, im, this.first, this.last - this.first + 1, left.length);
    const bursts = channels(squareRe, squareIm, BURST_FROM, BURSTS, left.length);
    return {
      left: { power: power.left, lines: lines.left, bursts: bursts.left },
      right: { power: power.right, lines: lines.right, bursts: bursts.right },
    };
  }
}

/** Two real channels out of one transform. */
function channels(re: Float64Array, im: Float64Array, first: number, count: number, frames: number) {
  const left = new Float32Array(2 * count);
  const right = new Float32Array(2 * count);
  for (let i = 0; i < count; i++) {
    const bin = stereoBin(re, im, first + i);
    left[2 * i] = bin.leftRe / frames;
    left[2 * i + 1] = bin.leftIm / frames;
    right[2 * i] = bin.rightRe / frames;
    right[2 * i + 1] = bin.rightIm / frames;
  }
  return { left, right };
}
