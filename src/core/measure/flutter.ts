/**
 * Wow and flutter of one speed trace: zero to peak, 2σ — the size that the weighted deviation passes for 5 % of the time.
 *
 *   Y(f) transform of the deviation; N(f) what noise alone would put there, taken from the level:
 *   additive noise shakes the level and the phase of a tone alike, so  N_deviation(f) = (fs/π f̄ · sin(πf/fs))² N_level(f)
 *   X(f) = Y(f) · √max(0, 1 − N/Y)   weighted, back to time, 95 % point of |x|
 *
 * N and Y are smoothed over neighbouring bins before they are compared; lines stay whole, stretches that hold nothing but
 * noise go to nothing. The result is scaled so that its power is Σ(Y − N), which is free of the bias that max(0, ·) makes.
 *
 * Slow lines (slowLines.ts) are taken out first and put back with their exact weight; the rest is continued by its mirror
 * images before it is transformed.
 *
 * Uncertainty: the noise that was taken out, and how much the figure changes when one turn's length of the trace is left
 * out (jackknife): another stretch of the same deck would read that much differently.
 *
 * @checked flutter.test.ts (sines, noise levels); test/loops
 */
import { ComplexFft } from '../signal/fft.ts';
import { quasiPeak } from '../signal/quasiPeak.ts';
import { coverageFactor, quantile } from '../signal/robust.ts';
import { findSlowLines, type SlowLine } from './slowLines.ts';
import { thinned } from './thinTrace.ts';
import type { SpeedTrace } from './toneSegment.ts';

export interface FlutterFigure {
  /** ratio, zero to peak */
  readonly peak2Sigma: number;
  /** ratio: the highest that a quasi-peak meter would have shown, for comparison with older data sheets */
  readonly quasiPeak: number;
  /** k = 2 for 95 %: half the expanded uncertainty, ratio */
  readonly spread: number;
  /** power that was noise, of the power before it was taken out */
  readonly noiseShare: number;
}

export interface FlutterSpectrum {
  readonly binHz: number;
  /** one-sided densities per bin, ratio²/Hz: of the deviation as heard, and of the noise in it */
  readonly heard: Float64Array;
  readonly noise: Float64Array;
}

interface Transformed {
  readonly re: Float64Array;
  readonly im: Float64Array;
  readonly size: number;
  readonly lead: number;
}

/** Smoothing reaches this share of the frequency, and at least this many independent bins, to either side. */
const SMOOTH_SHARE = 0.06;
const SMOOTH_BINS = 5;
/** length that the jackknife leaves out, about one turn, s */
const BLOCK_S = 1.8;

export class FlutterAnalysis {
  private readonly trace: SpeedTrace;
  private readonly lines: readonly SlowLine[];
  private readonly rest: Transformed;
  private readonly restPower: Float64Array;
  private readonly noisePower: Float64Array;
  private readonly smoothRest: Float64Array;
  private readonly smoothNoise: Float64Array;

  /** @param trace at least 64 samples */
  constructor(trace: SpeedTrace) {
    const { deviation, level, rateHz, meanHz } = trace;
    if (!(deviation.length >= 64))
      throw new RangeError(`deviation holds ${deviation.length} samples, at least 64 needed`);
    this.trace = trace;
    this.lines = findSlowLines(thinned(trace));
    const rest = deviation.slice();
    addLines(rest, this.lines, rateHz, () => -1);
    this.rest = mirrored(rest);
    const noise = mirrored(level);
    const { size } = this.rest;
    const half = size / 2;
    this.restPower = new Float64Array(half + 1);
    this.noisePower = new Float64Array(half + 1);
    for (let k = 1; k <= half; k++) {
      const perPhase = (rateHz / (Math.PI * meanHz)) * Math.sin((Math.PI * k) / size);
      this.restPower[k] = this.rest.re[k] ** 2 + this.rest.im[k] ** 2;
      this.noisePower[k] = (noise.re[k] ** 2 + noise.im[k] ** 2) * perPhase ** 2;
    }
    const least = Math.ceil((SMOOTH_BINS * size) / deviation.length);
    this.smoothRest = smoothed(this.restPower, least);
    this.smoothNoise = smoothed(this.noisePower, least);
  }

  /** @param gain amplitude factor of the weighting at a frequency in Hz */
  figure(gain: (hz: number) => number): FlutterFigure {
    const { rateHz, deviation } = this.trace;
    const { size, lead } = this.rest;
    const half = size / 2;
    const re = new Float64Array(size);
    const im = new Float64Array(size);
    let heardSum = 0;
    let noiseSum = 0;
    let keptSum = 0;
    let variance = 0;
    for (let k = 1; k < half; k++) {
      const hz = (k * rateHz) / size;
      const u = (Math.PI * k) / size;
      // the second factor undoes the first difference that made the trace
      const w = (gain(hz) * u) / Math.sin(u);
      if (w === 0) continue;
      const noise = this.smoothNoise[k];
      const clean = Math.max(0, this.smoothRest[k] - noise);
      const g = w * Math.sqrt(clean / Math.max(this.smoothRest[k], 1e-300));
      re[k] = this.rest.re[k] * g;
      im[k] = this.rest.im[k] * g;
      re[size - k] = re[k];
      im[size - k] = -im[k];
      heardSum += this.restPower[k] * w * w;
      noiseSum += this.noisePower[k] * w * w;
      keptSum += this.restPower[k] * g * g;
      variance += 4 * (noise ** 2 + clean * noise) * w ** 4;
    }
    new ComplexFft(size).inverse(re, im);
    const weighted = re.slice(lead, lead + deviation.length);
    // Σ over positive bins → mean square of the trace: 2 / size²; independent values lie size / (2 length) bins apart
    const toSquare = 2 / size ** 2;
    const target = Math.max(0, heardSum - noiseSum) * toSquare;
    const kept = keptSum * toSquare;
    const scale = kept > 0 ? Math.sqrt(Math.min(1, target / kept)) : 0;
    for (let n = 0; n < weighted.length; n++) weighted[n] *= scale;
    addLines(weighted, this.lines, rateHz, gain);
    let linePower = 0;
    for (const { hz, cos, sin } of this.lines) linePower += (gain(hz) ** 2 * (cos * cos + sin * sin)) / 2;
    const needle = quasiPeak(weighted, rateHz).reduce((highest, v) => Math.max(highest, v), 0);
    for (let n = 0; n < weighted.length; n++) weighted[n] = Math.abs(weighted[n]);
    const peak2Sigma = quantile(weighted, 0.95);

    const power = target + linePower;
    const powerSpread = toSquare * Math.sqrt((variance * size) / (2 * deviation.length));
    const crest = power > 0 ? Math.max(1, peak2Sigma / Math.sqrt(power)) : 1.96;
    // √(P + 2u) − √P over 2 is u/2√P where P is large, and stays finite where it is not
    const ofNoise = (crest * (Math.sqrt(power + 2 * powerSpread) - Math.sqrt(power))) / 2;
    return {
      peak2Sigma,
      quasiPeak: needle,
      spread: Math.hypot(ofNoise, jackknife(weighted, rateHz)),
      noiseShare: heardSum > 0 ? Math.min(1, noiseSum / (heardSum + linePower / toSquare)) : 0,
    };
  }

  spectrum(): FlutterSpectrum {
    const { rateHz, deviation } = this.trace;
    const whole = mirrored(deviation);
    const toDensity = 2 / (whole.size * rateHz);
    return {
      binHz: rateHz / whole.size,
      heard: this.restPower.map((_, k) => (whole.re[k] ** 2 + whole.im[k] ** 2) * toDensity),
      noise: this.smoothNoise.map((v) => v * toDensity),
    };
  }
}

/** Adds the lines, each times `gain` at its frequency, to a trace. */
function addLines(x: Float64Array, lines: readonly SlowLine[], rateHz: number, gain: (hz: number) => number): void {
  for (const { hz, cos, sin } of lines) {
    const g = gain(hz);
    for (let n = 0; n < x.length; n++) {
      const angle = 2 * Math.PI * hz * ((n - (x.length - 1) / 2) / rateHz);
      x[n] += g * (cos * Math.cos(angle) + sin * Math.sin(angle));
    }
  }
}

/** Half of the expanded uncertainty that leaving out blocks of about one turn shows. */
function jackknife(size: Float64Array, rateHz: number): number {
  const blocks = Math.min(20, Math.floor(size.length / (BLOCK_S * rateHz)));
  if (blocks < 2) return quantile(size, 0.95) / 4;
  const without = Array.from({ length: blocks }, (_, b) => {
    const from = Math.floor((b * size.length) / blocks);
    const to = Math.floor(((b + 1) * size.length) / blocks);
    const kept = new Float64Array(size.length - (to - from));
    kept.set(size.subarray(0, from));
    kept.set(size.subarray(to), from);
    return quantile(kept, 0.95);
  });
  const mean = without.reduce((sum, v) => sum + v, 0) / blocks;
  const variance = ((blocks - 1) / blocks) * without.reduce((sum, v) => sum + (v - mean) ** 2, 0);
  return (coverageFactor(blocks - 1) / 2) * Math.sqrt(variance);
}

/** Transform of the trace, its mean out, continued by its mirror images to a power of two of at least twice its length. */
function mirrored(x: Float64Array): Transformed {
  const length = x.length;
  let size = 128;
  while (size < 2 * length) size *= 2;
  const lead = (size - length) >> 1;
  let mean = 0;
  for (let n = 0; n < length; n++) mean += x[n] / length;
  const re = new Float64Array(size);
  const im = new Float64Array(size);
  for (let n = 0; n < size; n++) {
    // reflect about the half samples at both ends, as often as needed
    let at = (((n - lead) % (2 * length)) + 2 * length) % (2 * length);
    if (at >= length) at = 2 * length - 1 - at;
    re[n] = x[at] - mean;
  }
  new ComplexFft(size).forward(re, im);
  return { re, im, size, lead };
}

function smoothed(power: Float64Array, least: number): Float64Array {
  const sums = new Float64Array(power.length + 1);
  for (let k = 0; k < power.length; k++) sums[k + 1] = sums[k] + power[k];
  return power.map((_, k) => {
    const reach = Math.max(least, Math.round(SMOOTH_SHARE * k));
    const from = Math.max(1, k - reach);
    const to = Math.min(power.length, k + reach + 1);
    return k === 0 ? 0 : (sums[to] - sums[from]) / (to - from);
  });
}
