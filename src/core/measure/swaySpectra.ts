/**
 * How a tone's wavering goes with what the tip does sideways and up and down at the same time: spectra and cross spectra of the speed's deviation
 * and of both channels below 45 Hz. Where the arm swings on its spring it carries the tip along the groove, and both are parts of one motion.
 *
 * Both channels come through the tone's own decimators, mixed by 20 Hz: so they are in step with the deviation sample by sample.
 */
import { ComplexFft } from '../signal/fft.ts';
import type { Steps } from '../signal/steps.ts';
import type { Baseband } from '../signal/toneMixer.ts';
import { hannPeriodic } from '../signal/windows.ts';
import type { Complex } from '../units/complex.ts';
import type { SpeedTrace } from './toneSegment.ts';

/** Sums over segments; bins of equal width, from the first on. Plain data. */
export interface SwaySpectra {
  /** Hz, of each bin */
  readonly hz: Float64Array;
  readonly binHz: number;
  /** independent periodograms in every mean */
  readonly averages: number;
  /** deviation of the speed, ratio²/Hz */
  readonly speed: Float64Array;
  /** of (left + right)/√2 and (left − right)/√2, as captured², the same scale for both */
  readonly inPhase: Float64Array;
  readonly antiphase: Float64Array;
  /** deviation · conj(channel) */
  readonly withInPhase: Series;
  readonly withAntiphase: Series;
  /** in phase · conj(antiphase) */
  readonly between: Series;
}

/** points a segment: some four seconds */
const SIZE = 4096;
const MIX_HZ = 20;
const FROM_HZ = 1.5;
const TO_HZ = 45;
/** of Hann windows overlapped by half */
const WORTH = 0.95;
/** fewer tell no coherence from chance */
const LEAST_SEGMENTS = 6;
/** segments that are transformed in one step */
const SEGMENTS_A_STEP = 8;

/** Hz to mix by, 20 or a little more: an even number of bins, so that segments half of one another apart are in one phase. */
export const swayMixHz = (rateHz: number): number => (2 * Math.ceil((MIX_HZ * SIZE) / rateHz / 2) * rateHz) / SIZE;

/** @param low of the same mixing stages as the tone, from the same frame on @returns null where the stretch is too short */
export function* swaySpectraInSteps(trace: SpeedTrace, low: Baseband): Steps<SwaySpectra | null> {
  const { rateHz, deviation } = trace;
  const offset = Math.round((trace.startS - low.startS) * rateHz - 0.5);
  const length = Math.min(deviation.length, low.length - offset);
  const segments = Math.floor((2 * length) / SIZE) - 1;
  if (offset < 0 || segments < LEAST_SEGMENTS) return null;
  const binHz = rateHz / SIZE;
  const from = Math.ceil(FROM_HZ / binHz);
  const bins = Math.floor(TO_HZ / binHz) - from + 1;
  const empty = () => new Float64Array(bins);
  const pair = () => ({ re: empty(), im: empty() });
  const sums = {
    speed: empty(),
    inPhase: empty(),
    antiphase: empty(),
    withInPhase: pair(),
    withAntiphase: pair(),
    between: pair(),
  };
  const window = hannPeriodic(SIZE);
  const scale = 1 / (segments * rateHz * window.reduce((sum, w) => sum + w * w, 0));
  const fft = new ComplexFft(SIZE);
  const whole = (): Series => ({ re: new Float64Array(SIZE), im: new Float64Array(SIZE) });
  const series = { speed: whole(), left: whole(), right: whole() };
  const mixed = Math.round(low.mixHz / binHz);
  for (let s = 0; s < segments; s++) {
    if (s > 0 && s % SEGMENTS_A_STEP === 0) yield;
    const at = (s * SIZE) / 2;
    windowed(deviation, at, window, series.speed.re);
    series.speed.im.fill(0);
    windowed(low.leftRe, offset + at, window, series.left.re);
    windowed(low.leftIm, offset + at, window, series.left.im);
    windowed(low.rightRe, offset + at, window, series.right.re);
    windowed(low.rightIm, offset + at, window, series.right.im);
    for (const { re, im } of [series.speed, series.left, series.right]) fft.forward(re, im);
    addBins(series, from, mixed, scale, sums);
  }
  const hz = Float64Array.from({ length: bins }, (_, i) => (from + i) * binHz);
  return { hz, binHz, averages: Math.max(1, WORTH * segments), ...sums };
}

interface Series {
  readonly re: Float64Array;
  readonly im: Float64Array;
}

function windowed(from: Float64Array, at: number, window: Float64Array, into: Float64Array): void {
  for (let n = 0; n < SIZE; n++) into[n] = window[n] * from[at + n];
}

/** One segment's spectra to the sums; the channels' lie lower by `mixed` bins. */
function addBins(
  { speed, left, right }: { readonly speed: Series; readonly left: Series; readonly right: Series },
  from: number,
  mixed: number,
  scale: number,
  sums: Omit<SwaySpectra, 'hz' | 'binHz' | 'averages'>,
): void {
  for (let i = 0; i < sums.speed.length; i++) {
    const k = from + i;
    const m = (k - mixed + SIZE) % SIZE;
    const d = { re: speed.re[k], im: speed.im[k] };
    const a = { re: (left.re[m] + right.re[m]) * Math.SQRT1_2, im: (left.im[m] + right.im[m]) * Math.SQRT1_2 };
    const b = { re: (left.re[m] - right.re[m]) * Math.SQRT1_2, im: (left.im[m] - right.im[m]) * Math.SQRT1_2 };
    sums.speed[i] += 2 * scale * (d.re * d.re + d.im * d.im);
    sums.inPhase[i] += scale * (a.re * a.re + a.im * a.im);
    sums.antiphase[i] += scale * (b.re * b.re + b.im * b.im);
    addProduct(sums.withInPhase, i, scale, d, a);
    addProduct(sums.withAntiphase, i, scale, d, b);
    addProduct(sums.between, i, scale, a, b);
  }
}

/** scale · x · conj(y) */
function addProduct(sum: Series, i: number, scale: number, x: Complex, y: Complex): void {
  sum.re[i] += scale * (x.re * y.re + x.im * y.im);
  sum.im[i] += scale * (x.im * y.re - x.re * y.im);
}

/** Of the speed's deviation the part that goes with one motion and not with the other. */
export interface Along {
  readonly hz: readonly number[];
  readonly binHz: number;
  readonly averages: number;
  /** power that is coherent, chance taken off: may fall below nothing */
  readonly power: readonly number[];
  /** all of the deviation's */
  readonly whole: readonly number[];
  /** share that is coherent */
  readonly coherence: readonly number[];
}

/** @param motion in phase (lateral) or in antiphase (vertical) */
export function goesWith(spectra: SwaySpectra, motion: 'inPhase' | 'antiphase'): Along {
  const { hz, binHz, averages, speed, inPhase, antiphase, between } = spectra;
  const [own, other] = motion === 'inPhase' ? [inPhase, antiphase] : [antiphase, inPhase];
  const [with_, without] =
    motion === 'inPhase' ? [spectra.withInPhase, spectra.withAntiphase] : [spectra.withAntiphase, spectra.withInPhase];
  // other · conj(own)
  const sign = motion === 'inPhase' ? -1 : 1;
  const coherence: number[] = [];
  const power = Array.from(hz, (_, i) => {
    // what the other motion explains is taken out of both first
    const [bRe, bIm] = [between.re[i], sign * between.im[i]];
    const dRe = with_.re[i] - (without.re[i] * bRe - without.im[i] * bIm) / other[i];
    const dIm = with_.im[i] - (without.re[i] * bIm + without.im[i] * bRe) / other[i];
    const ownLeft = own[i] - (bRe * bRe + bIm * bIm) / other[i];
    // the deviation's spectrum is one-sided, the channels' stand at half of theirs
    const explained = ownLeft > 0 ? (2 * (dRe * dRe + dIm * dIm)) / ownLeft : 0;
    const share = Math.min(1, explained / speed[i]);
    const sure = (share - 1 / averages) / (1 - 1 / averages);
    coherence.push(Math.max(0, sure));
    return sure * speed[i];
  });
  return { hz: [...hz], binHz, averages, power, whole: [...speed], coherence };
}
