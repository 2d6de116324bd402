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
 * Uncertainty (flutterSpread.ts): the noise that was taken out; how much the figure changes from turn to turn; what the mean
 * of a stretch of not quite whole turns is uncertain by; what the weighting is uncertain by between its points.
 *
 * @checked flutter.test.ts (sines, noise levels); test/loops
 */

import { quasiPeak } from '../signal/quasiPeak.ts';
import { quantile } from '../signal/robust.ts';
import { sharedFft, transformSize } from '../signal/sharedFft.ts';
import { atOnce, type Lent, ofTheCaller, type Steps } from '../signal/steps.ts';
import { LongLoan, onLoan, workArray } from '../signal/workArrays.ts';
import { spreadOfMean, spreadOfWeighting, spreadOverTurns } from './flutterSpread.ts';
import { addLines, type Gain, mirrored, smoothed } from './flutterTrace.ts';
import { unweightedGain, weightedGain, weightingDoubt } from './flutterWeighting.ts';
import { type SlowLine, slowLinesInSteps } from './slowLines.ts';
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

/** The weighted deviation itself, thinned: what a figure without the record's hole is made from. Plain data. */
export interface WeightedTrace {
  readonly rateHz: number;
  /** s from the recording's first frame */
  readonly startS: number;
  /** ratio; not lent */
  readonly deviation: Float32Array;
}

export interface FlutterFigures {
  readonly weighted: FlutterFigure;
  readonly unweighted: FlutterFigure;
  readonly weightedTrace: WeightedTrace;
}

export interface FlutterSpectrum {
  readonly binHz: number;
  /** one-sided densities per bin, ratio²/Hz: of the deviation as heard, and of the noise in it */
  readonly heard: Float64Array;
  readonly noise: Float64Array;
}

/** smoothing reaches at least this many independent bins to either side */
const SMOOTH_BINS = 5;
/** by how much noise moves a 95 % point more than an rms value */
const PERCENTILE_SHARE = 1.4;
/** values a second that are kept of the weighted trace: a 95 % point needs no more */
const KEPT_HZ = 250;

export class FlutterAnalysis {
  private readonly trace: SpeedTrace;
  private lines: readonly SlowLine[] = [];
  private readonly size: number;
  /** samples of the mirrored trace before the trace itself */
  private readonly lead: number;
  /** transform of the deviation without its lines, bins 0 … size/2 */
  private readonly restRe: Float64Array;
  private readonly restIm: Float64Array;
  private readonly restPower: Float64Array;
  private readonly noisePower: Float64Array;
  private smoothRest: Float64Array;
  private smoothNoise: Float64Array;

  /** At one go. @param trace at least 64 samples */
  static of(trace: SpeedTrace): FlutterAnalysis {
    return atOnce(FlutterAnalysis.inSteps(trace, ofTheCaller));
  }

  static *inSteps(trace: SpeedTrace, lent: Lent): Steps<FlutterAnalysis> {
    const analysis = lent(() => new FlutterAnalysis(trace));
    yield* analysis.prepare(lent);
    return analysis;
  }

  private constructor(trace: SpeedTrace) {
    const { deviation } = trace;
    if (!(deviation.length >= 64))
      throw new RangeError(`deviation holds ${deviation.length} samples, at least 64 needed`);
    this.trace = trace;
    const size = transformSize(2 * deviation.length);
    this.size = size;
    this.lead = (size - deviation.length) >> 1;
    const bins = size / 2 + 1;
    this.restRe = workArray(bins);
    this.restIm = workArray(bins);
    this.restPower = workArray(bins);
    this.noisePower = workArray(bins);
    this.smoothRest = this.restPower;
    this.smoothNoise = this.noisePower;
  }

  /** Lines out, both transforms, powers smoothed. */
  private *prepare(lent: Lent): Steps<void> {
    const { deviation } = this.trace;
    this.lines = yield* slowLinesInSteps(thinned(this.trace));
    yield;
    // its tables are worked out once
    sharedFft(this.size);
    yield;
    const loan = new LongLoan();
    const { re, im } = loan.during(() => this.transformed());
    yield;
    this.part(re, im);
    loan.end();
    yield;
    const least = Math.ceil((SMOOTH_BINS * this.size) / deviation.length);
    this.smoothRest = lent(() => smoothed(this.restPower, least));
    this.smoothNoise = lent(() => smoothed(this.noisePower, least));
  }

  /** What is left of the deviation without its lines, and the level, in one transform. Lent. */
  private transformed(): { readonly re: Float64Array; readonly im: Float64Array } {
    const { deviation, level, rateHz } = this.trace;
    const rest = workArray(deviation.length);
    rest.set(deviation);
    addLines(rest, this.lines, rateHz, () => -1);
    const re = mirrored(rest, this.size, this.lead);
    const im = mirrored(level, this.size, this.lead);
    sharedFft(this.size).forward(re, im);
    return { re, im };
  }

  private part(re: Float64Array, im: Float64Array): void {
    const { size, restRe, restIm, restPower, noisePower } = this;
    const { rateHz, meanHz } = this.trace;
    for (let k = 1; k < restRe.length; k++) {
      const m = size - k;
      const perPhase = (rateHz / (Math.PI * meanHz)) * Math.sin((Math.PI * k) / size);
      restRe[k] = (re[k] + re[m]) / 2;
      restIm[k] = (im[k] - im[m]) / 2;
      restPower[k] = restRe[k] ** 2 + restIm[k] ** 2;
      noisePower[k] = (((im[k] + im[m]) / 2) ** 2 + ((re[m] - re[k]) / 2) ** 2) * perPhase ** 2;
    }
  }

  /** Weighted (IEC 60386) and unweighted. */
  figures(): FlutterFigures {
    return atOnce(this.figuresInSteps(ofTheCaller));
  }

  *figuresInSteps(lent: Lent): Steps<FlutterFigures> {
    const { lead, size } = this;
    const { rateHz } = this.trace;
    for (const gain of [weightedGain, weightingDoubt, unweightedGain]) yield* weightsInSteps(gain, size, rateHz);
    const weighted = lent(() => this.filter(weightedGain));
    yield;
    const unweighted = lent(() => this.filter(unweightedGain));
    yield;
    const { re, im } = lent(() => this.filtered(weighted, unweighted));
    yield;
    const length = this.trace.deviation.length;
    const ofWeighted = re.subarray(lead, lead + length);
    this.complete(ofWeighted, weighted, weightedGain);
    const weightedTrace = this.kept(ofWeighted);
    yield;
    const ofUnweighted = im.subarray(lead, lead + length);
    this.complete(ofUnweighted, unweighted, unweightedGain);
    yield;
    const first = yield* this.figure(ofWeighted, weighted, weightedGain);
    yield;
    const second = yield* this.figure(ofUnweighted, unweighted, unweightedGain);
    return { weighted: first, unweighted: second, weightedTrace };
  }

  /** Two real traces in one transform: weighted in its real part, unweighted in its imaginary part. */
  private filtered(
    weighted: Filtering,
    unweighted: Filtering,
  ): { readonly re: Float64Array; readonly im: Float64Array } {
    const { size } = this;
    const re = workArray(size);
    const im = workArray(size);
    for (let k = 1; k < size / 2; k++) {
      const [a, b] = [weighted.gains[k], unweighted.gains[k]];
      const [x, y] = [this.restRe[k], this.restIm[k]];
      re[k] = a * x - b * y;
      im[k] = a * y + b * x;
      re[size - k] = a * x + b * y;
      im[size - k] = b * x - a * y;
    }
    sharedFft(size).inverse(re, im);
    return { re, im };
  }

  /** What every bin is multiplied with, weighting and removal of noise together, and the powers that come of it. */
  private filter(gain: Gain): Filtering {
    const { size } = this;
    const weights = atOnce(weightsInSteps(gain, size, this.trace.rateHz));
    const doubts = atOnce(weightsInSteps(weightingDoubt, size, this.trace.rateHz));
    const gains = workArray(size / 2);
    let heard = 0;
    let noise = 0;
    let kept = 0;
    let variance = 0;
    let doubted = 0;
    for (let k = 1; k < size / 2; k++) {
      const w2 = weights[k] * weights[k];
      if (w2 === 0) continue;
      const n = this.smoothNoise[k];
      const clean = Math.max(0, this.smoothRest[k] - n);
      const g2 = (w2 * clean) / Math.max(this.smoothRest[k], 1e-300);
      gains[k] = Math.sqrt(g2);
      heard += this.restPower[k] * w2;
      noise += this.noisePower[k] * w2;
      kept += this.restPower[k] * g2;
      doubted += clean * w2 * doubts[k];
      variance += 4 * (n * n + clean * n) * w2 * w2;
    }
    // Σ over positive bins → mean square of the trace; independent values lie size / (2 length) bins apart
    const toSquare = 2 / size ** 2;
    return {
      gains,
      heard: heard * toSquare,
      clean: Math.max(0, heard - noise) * toSquare,
      noise: noise * toSquare,
      kept: kept * toSquare,
      doubted: doubted * toSquare,
      spread: toSquare * Math.sqrt((variance * size) / (2 * this.trace.deviation.length)),
    };
  }

  private kept(trace: Float64Array): WeightedTrace {
    const { rateHz, startS } = this.trace;
    const step = Math.max(1, Math.floor(rateHz / KEPT_HZ));
    const deviation = Float32Array.from(
      { length: Math.floor((trace.length - 1) / step) + 1 },
      (_, n) => trace[n * step],
    );
    return { rateHz: rateHz / step, startS, deviation };
  }

  /** The filtered rest with its power put right and its lines put back, in place. */
  private complete(trace: Float64Array, of: Filtering, gain: Gain): void {
    const scale = of.kept > 0 ? Math.sqrt(Math.min(1, of.clean / of.kept)) : 0;
    for (let n = 0; n < trace.length; n++) trace[n] *= scale;
    addLines(trace, this.lines, this.trace.rateHz, gain);
  }

  /** @param trace complete; overwritten */
  private *figure(trace: Float64Array, of: Filtering, gain: Gain): Steps<FlutterFigure> {
    const { rateHz } = this.trace;
    let linePower = 0;
    let doubted = of.doubted;
    for (const { hz, cos, sin } of this.lines) {
      const square = (gain(hz) ** 2 * (cos * cos + sin * sin)) / 2;
      linePower += square;
      doubted += square * weightingDoubt(hz);
    }
    const needle = onLoan(() => quasiPeak(trace, rateHz).reduce((highest, v) => Math.max(highest, v), 0));
    yield;
    for (let n = 0; n < trace.length; n++) trace[n] = Math.abs(trace[n]);
    const power = of.clean + linePower;
    const peak2Sigma = quantile(trace, 0.95);
    yield;
    const crest = power > 0 ? Math.max(1, peak2Sigma / Math.sqrt(power)) : 1.96;
    // √(P + 2u) − √P over 2 is u/2√P where P is large, and stays finite where it is not; a percentile is less sure than rms
    const ofNoise = (PERCENTILE_SHARE * crest * (Math.sqrt(power + 2 * of.spread) - Math.sqrt(power))) / 2;
    return {
      peak2Sigma,
      quasiPeak: needle,
      spread: Math.hypot(
        ofNoise,
        spreadOverTurns(trace, peak2Sigma, rateHz, this.lines),
        gain === weightedGain
          ? peak2Sigma * spreadOfWeighting(power > 0 ? doubted / power : 0)
          : spreadOfMean(this.lines, gain, trace.length / rateHz),
      ),
      noiseShare: of.heard > 0 ? Math.min(1, of.noise / (of.heard + linePower)) : 0,
    };
  }

  /** To look at; lent, as everything here (workArrays.ts). */
  spectrum(): FlutterSpectrum {
    const { size, lead } = this;
    const { rateHz, deviation } = this.trace;
    const re = mirrored(deviation, size, lead);
    const im = workArray(size);
    sharedFft(size).forward(re, im);
    const toDensity = 2 / (size * rateHz);
    const heard = workArray(this.restPower.length);
    const noise = workArray(this.restPower.length);
    for (let k = 0; k < heard.length; k++) {
      heard[k] = (re[k] ** 2 + im[k] ** 2) * toDensity;
      noise[k] = this.smoothNoise[k] * toDensity;
    }
    return { binHz: rateHz / size, heard, noise };
  }
}

interface Filtering {
  /** per bin, 0 … size/2 − 1 */
  readonly gains: Float64Array;
  /** mean squares: weighted as heard, without noise, of noise, and after `gains` */
  readonly heard: number;
  readonly clean: number;
  readonly noise: number;
  readonly kept: number;
  /** `clean` times the doubt about the weighting at its frequency */
  readonly doubted: number;
  /** standard uncertainty of `clean` */
  readonly spread: number;
}

const knownWeights = new Map<string, Float64Array>();
/** bins that are worked out in one step */
const WEIGHTS_A_STEP = 32_768;

/** The weighting at every bin, with what the first difference took off the trace put back. */
function* weightsInSteps(gain: Gain, size: number, rateHz: number): Steps<Float64Array> {
  const key = `${gain.name} ${size} ${rateHz}`;
  const known = knownWeights.get(key);
  if (known !== undefined) return known;
  const weights = new Float64Array(size / 2);
  for (let k = 1; k < size / 2; k++) {
    if (k % WEIGHTS_A_STEP === 0) yield;
    const u = (Math.PI * k) / size;
    weights[k] = (gain((k * rateHz) / size) * u) / Math.sin(u);
  }
  if (knownWeights.size >= 12) knownWeights.clear();
  knownWeights.set(key, weights);
  yield;
  return weights;
}
