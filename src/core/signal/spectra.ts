/**
 * Averaged spectra of two channels and their cross spectrum (Welch): segments of one size, windowed, overlapped by
 * half, their periodograms averaged.
 *
 *   powerDensity[k] = 2 / (fs Σw²) · mean |X[k]|²      unit²/Hz, one-sided (bins 0 and N/2 without the factor 2)
 *   powerLine[k]    = 2 / (Σw)² · mean |X[k]|²         unit² rms of a tone that sits on the bin
 *
 * @source P. D. Welch 1967 (from memory, not seen in a source); scaling as in SciPy's `signal.welch`
 * @checked spectra.test.ts (Parseval, tone level, cross phase)
 */
import { ComplexFft } from './fft.ts';
import { type WindowName, windowSamples } from './windows.ts';

export interface StereoSpectrum {
  readonly sampleRateHz: number;
  readonly size: number;
  /** Hz between bins */
  readonly binHz: number;
  /** segments averaged; 0 where fewer frames than one segment came */
  readonly segments: number;
  /** bins 0 … size/2, unit²/Hz, one-sided */
  readonly leftDensity: Float64Array;
  readonly rightDensity: Float64Array;
  /** left · conj(right), unit²/Hz, one-sided: the phase is left's lead over right */
  readonly crossDensityRe: Float64Array;
  readonly crossDensityIm: Float64Array;
  /** multiply a density by this to get the mean square (rms²) of a tone on the bin */
  readonly lineBandwidthHz: number;
}

/** The size of a spectrum that so many points allow: a power of two, at most as many. @param points above 0 */
export const powerOfTwo = (points: number): number => 2 ** Math.floor(Math.log2(points));

/** Feed blocks of any length in order; ask for the spectrum when done. Memory: a few arrays of `size`. */
export class WelchSpectrum {
  private readonly fft: ComplexFft;
  private readonly window: Float64Array;
  private readonly heldLeft: Float64Array;
  private readonly heldRight: Float64Array;
  private readonly re: Float64Array;
  private readonly im: Float64Array;
  private readonly ll: Float64Array;
  private readonly rr: Float64Array;
  private readonly lrRe: Float64Array;
  private readonly lrIm: Float64Array;
  private held = 0;
  private segments = 0;
  private readonly sampleRateHz: number;

  /** @param sampleRateHz Hz, above 0 @param size points per segment, a power of two from 4 */
  constructor(sampleRateHz: number, size: number, window: WindowName = 'hann-periodic') {
    if (!(sampleRateHz > 0 && sampleRateHz < Infinity)) {
      throw new RangeError(`sampleRateHz ${sampleRateHz} must be above 0`);
    }
    if (!(size >= 4)) throw new RangeError(`size ${size} must be at least 4`);
    this.fft = new ComplexFft(size);
    this.sampleRateHz = sampleRateHz;
    this.window = windowSamples(window, size);
    this.heldLeft = new Float64Array(size);
    this.heldRight = new Float64Array(size);
    this.re = new Float64Array(size);
    this.im = new Float64Array(size);
    const bins = size / 2 + 1;
    this.ll = new Float64Array(bins);
    this.rr = new Float64Array(bins);
    this.lrRe = new Float64Array(bins);
    this.lrIm = new Float64Array(bins);
  }

  push(left: Float64Array, right: Float64Array, frames: number = left.length): void {
    if (!(frames >= 0 && frames <= left.length && frames <= right.length)) {
      throw new RangeError(`frames ${frames} must be from 0 to ${Math.min(left.length, right.length)}`);
    }
    const size = this.fft.size;
    let at = 0;
    while (at < frames) {
      const take = Math.min(size - this.held, frames - at);
      this.heldLeft.set(left.subarray(at, at + take), this.held);
      this.heldRight.set(right.subarray(at, at + take), this.held);
      this.held += take;
      at += take;
      if (this.held === size) {
        this.addSegment();
        this.heldLeft.copyWithin(0, size / 2);
        this.heldRight.copyWithin(0, size / 2);
        this.held = size / 2;
      }
    }
  }

  /** Forgets what came: the next frame is the first. Costs less than a new one. */
  clear(): void {
    this.held = 0;
    this.segments = 0;
    for (const sums of [this.ll, this.rr, this.lrRe, this.lrIm]) sums.fill(0);
  }

  private addSegment(): void {
    const { re, im, window, ll, rr, lrRe, lrIm } = this;
    const size = this.fft.size;
    for (let n = 0; n < size; n++) {
      re[n] = window[n] * this.heldLeft[n];
      im[n] = window[n] * this.heldRight[n];
    }
    this.fft.forward(re, im);
    for (let k = 0; k <= size / 2; k++) {
      const m = k === 0 ? 0 : size - k;
      const lr = (re[k] + re[m]) / 2;
      const li = (im[k] - im[m]) / 2;
      const rRe = (im[k] + im[m]) / 2;
      const rIm = (re[m] - re[k]) / 2;
      ll[k] += lr * lr + li * li;
      rr[k] += rRe * rRe + rIm * rIm;
      lrRe[k] += lr * rRe + li * rIm;
      lrIm[k] += li * rRe - lr * rIm;
    }
    this.segments += 1;
  }

  spectrum(): StereoSpectrum {
    const size = this.fft.size;
    let sum = 0;
    let squares = 0;
    for (let n = 0; n < size; n++) {
      sum += this.window[n];
      squares += this.window[n] * this.window[n];
    }
    const scale = this.segments === 0 ? 0 : 1 / (this.sampleRateHz * squares * this.segments);
    return {
      sampleRateHz: this.sampleRateHz,
      size,
      binHz: this.sampleRateHz / size,
      segments: this.segments,
      leftDensity: oneSided(this.ll, scale),
      rightDensity: oneSided(this.rr, scale),
      crossDensityRe: oneSided(this.lrRe, scale),
      crossDensityIm: oneSided(this.lrIm, scale),
      lineBandwidthHz: (this.sampleRateHz * squares) / (sum * sum),
    };
  }
}

/** A loop of its own: what is handed to `map` is made faster anew for every window. */
function oneSided(from: Float64Array, scale: number): Float64Array {
  const density = new Float64Array(from.length);
  const last = from.length - 1;
  for (let k = 0; k <= last; k++) density[k] = from[k] * scale * (k === 0 || k === last ? 1 : 2);
  return density;
}
