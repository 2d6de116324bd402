/**
 * Averaged spectra of two channels that clicks do not enter: every segment's periodogram goes to the heap of its own loudness, and
 * at the end only the heaps near the median are averaged. One pass, no sample kept.
 *
 *   density[k] = 2 / (fs Σw²) · mean |X[k]|²      as spectra.ts, Hann, overlapped by half
 *
 * @checked gatedSpectrum.test.ts
 */
import { ComplexFft, stereoBin } from './fft.ts';
import { median } from './robust.ts';
import { hannPeriodic } from './windows.ts';

export interface GatedSpectra {
  /** Hz between bins */
  readonly binHz: number;
  /** segments averaged, and all of them */
  readonly segments: number;
  readonly heard: number;
  /** unit²/Hz, one-sided, bins from 0 */
  readonly left: Float64Array;
  readonly right: Float64Array;
  /** runs of segments louder than the median by `burstDb` or more */
  readonly bursts: number;
}

/** heaps a decibel */
const STEPS = 2;
const SILENT_DB = -200;

export class GatedSpectrum {
  private readonly fft: ComplexFft;
  private readonly window: Float64Array;
  private readonly held: { readonly left: Float64Array; readonly right: Float64Array };
  private readonly re: Float64Array;
  private readonly im: Float64Array;
  /** powers of the segment in hand */
  private readonly left: Float64Array;
  private readonly right: Float64Array;
  private readonly bins: number;
  private readonly sampleRateHz: number;
  private readonly watchedFrom: number;
  private readonly heaps = new Map<number, { segments: number; left: Float64Array; right: Float64Array }>();
  private readonly levels: number[] = [];
  private filled = 0;

  /** @param size points a segment, a power of two @param watchedHz loudness counts from here up */
  constructor(sampleRateHz: number, size: number, watchedHz: number) {
    this.fft = new ComplexFft(size);
    this.window = hannPeriodic(size);
    this.held = { left: new Float64Array(size), right: new Float64Array(size) };
    this.re = new Float64Array(size);
    this.im = new Float64Array(size);
    this.bins = size / 2;
    this.left = new Float64Array(this.bins);
    this.right = new Float64Array(this.bins);
    this.sampleRateHz = sampleRateHz;
    this.watchedFrom = Math.max(1, Math.ceil((watchedHz * size) / sampleRateHz));
  }

  push(left: Float64Array, right: Float64Array, frames: number): void {
    const size = this.fft.size;
    for (let at = 0; at < frames; ) {
      const take = Math.min(size - this.filled, frames - at);
      this.held.left.set(left.subarray(at, at + take), this.filled);
      this.held.right.set(right.subarray(at, at + take), this.filled);
      this.filled += take;
      at += take;
      if (this.filled < size) continue;
      this.addSegment();
      this.held.left.copyWithin(0, size / 2);
      this.held.right.copyWithin(0, size / 2);
      this.filled = size / 2;
    }
  }

  private addSegment(): void {
    const { re, im, left, right, window, bins } = this;
    for (let n = 0; n < window.length; n++) {
      re[n] = window[n] * this.held.left[n];
      im[n] = window[n] * this.held.right[n];
    }
    this.fft.forward(re, im);
    let watched = 0;
    for (let k = 0; k < bins; k++) {
      const bin = stereoBin(re, im, k);
      left[k] = bin.leftRe ** 2 + bin.leftIm ** 2;
      right[k] = bin.rightRe ** 2 + bin.rightIm ** 2;
      if (k >= this.watchedFrom) watched += left[k] + right[k];
    }
    const level = Math.round(STEPS * Math.max(SILENT_DB, 10 * Math.log10(watched)));
    this.levels.push(level);
    const heap = this.heaps.get(level);
    if (heap === undefined) {
      this.heaps.set(level, { segments: 1, left: left.slice(), right: right.slice() });
      return;
    }
    heap.segments += 1;
    for (let k = 0; k < bins; k++) {
      heap.left[k] += left[k];
      heap.right[k] += right[k];
    }
  }

  /** Both heard together; neither is changed. @param other of the same rate and size */
  with(other: GatedSpectrum): GatedSpectrum {
    const sum = new GatedSpectrum(
      this.sampleRateHz,
      this.fft.size,
      (this.watchedFrom * this.sampleRateHz) / this.fft.size,
    );
    for (const { heaps, levels } of [this, other]) {
      sum.levels.push(...levels);
      for (const [level, { segments, left, right }] of heaps) {
        const heap = sum.heaps.get(level);
        if (heap === undefined) {
          sum.heaps.set(level, { segments, left: left.slice(), right: right.slice() });
          continue;
        }
        heap.segments += segments;
        for (let k = 0; k < this.bins; k++) {
          heap.left[k] += left[k];
          heap.right[k] += right[k];
        }
      }
    }
    return sum;
  }

  /** @param gateDb over the median: louder segments are left out @param burstDb over the median: a burst */
  spectra(gateDb: number, burstDb: number): GatedSpectra {
    const { bins, levels, sampleRateHz } = this;
    const middle = levels.length === 0 ? 0 : median(levels);
    const left = new Float64Array(bins);
    const right = new Float64Array(bins);
    let segments = 0;
    for (const [level, heap] of [...this.heaps].sort(([a], [b]) => a - b)) {
      if (level > middle + STEPS * gateDb) continue;
      segments += heap.segments;
      for (let k = 0; k < bins; k++) {
        left[k] += heap.left[k];
        right[k] += heap.right[k];
      }
    }
    const squares = this.window.reduce((sum, w) => sum + w * w, 0);
    for (let k = 0; k < bins; k++) {
      const scale = segments === 0 ? 0 : (k === 0 ? 1 : 2) / (sampleRateHz * squares * segments);
      left[k] *= scale;
      right[k] *= scale;
    }
    const isLoud = (i: number): boolean => levels[i] > middle + STEPS * burstDb;
    const bursts = levels.filter((_, i) => isLoud(i) && (i === 0 || !isLoud(i - 1))).length;
    return { binHz: sampleRateHz / this.fft.size, segments, heard: levels.length, left, right, bursts };
  }
}
