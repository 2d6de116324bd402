/** Powers and cross power of both channels, bin by bin, from one complex transform of left + i·right under a Hann window. */
import { ComplexFft } from '../signal/fft.ts';
import { hannPeriodic } from '../signal/windows.ts';
import type { BandSpectrum } from './lineFinder.ts';

export class StereoSpectrum implements BandSpectrum {
  readonly power: Float64Array;
  readonly left: Float64Array;
  readonly cross: Float64Array;
  readonly fft: ComplexFft;
  readonly window: Float64Array;
  readonly re: Float64Array;
  readonly im: Float64Array;
  /** Σ|X|² over a line → mean square */
  readonly scale: number;
  sumLeft = 0;
  sumRight = 0;
  squaresLeft = 0;
  squaresRight = 0;

  constructor(size: number) {
    this.fft = new ComplexFft(size);
    this.window = hannPeriodic(size);
    this.re = new Float64Array(size);
    this.im = new Float64Array(size);
    this.power = new Float64Array(size / 2 + 1);
    this.left = new Float64Array(size / 2 + 1);
    this.cross = new Float64Array(size / 2 + 1);
    // Parseval: Σ over one side's bins of |X|² = N Σw² · (mean square) / 2; the sums below leave out a factor 1/4.
    this.scale = 2 / (size * this.window.reduce((s, w) => s + w * w, 0)) / 4;
  }

  /** Transforms the first frames of left and right, and sums them up on the way. */
  measure(left: Float64Array, right: Float64Array, firstBin: number, lastBin: number): void {
    const { re, im, window, power, cross } = this;
    const n = re.length;
    let sumL = 0;
    let sumR = 0;
    let squaresL = 0;
    let squaresR = 0;
    for (let i = 0; i < n; i++) {
      const w = window[i];
      const l = left[i];
      const r = right[i];
      sumL += l;
      sumR += r;
      squaresL += l * l;
      squaresR += r * r;
      re[i] = w * l;
      im[i] = w * r;
    }
    this.sumLeft = sumL;
    this.sumRight = sumR;
    this.squaresLeft = squaresL;
    this.squaresRight = squaresR;
    this.fft.forward(re, im);
    const ll = this.left;
    for (let k = firstBin; k <= lastBin; k++) {
      const m = n - k;
      const lr = re[k] + re[m];
      const li = im[k] - im[m];
      const rr = im[k] + im[m];
      const ri = re[m] - re[k];
      const l = lr * lr + li * li;
      ll[k] = l;
      power[k] = l + rr * rr + ri * ri;
      cross[k] = lr * rr + li * ri;
    }
  }
}
