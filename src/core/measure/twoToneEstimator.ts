/**
 * One two-tone band, fed in blocks → the complex lines of each channel: both tones and the side lines round the upper one.
 *
 *   line(m) = mean of z e^(−i(φ2 + m φ1))     z: baseband at f2 + m f1;  φ1, φ2: the tones' own tracked phases
 *
 * Every line is turned by the phases of the two tones themselves, so wow and flutter drop out, whatever their course; a lock-in at
 * mean frequencies would lose the side lines under 0.3 % of wow. The mean runs over whole turns of the record.
 *
 * The upper tone's side lines stand in its own baseband: its phase is smoothed beyond them before it is used.
 *
 * @source derived here; @checked test/independent
 */

import type { StereoBlock } from '../capture/recording.ts';
import { narrowed } from '../signal/narrowed.ts';
import { type Baseband, ToneMixer } from '../signal/toneMixer.ts';
import { type ToneTracking, type TrackedTone, trackTone } from '../signal/trackedTone.ts';
import { uncertaintyOfMean } from '../signal/uncertaintyOfMean.ts';
import { onLoan, workArray, workBytes } from '../signal/workArrays.ts';
import type { Complex } from '../units/complex.ts';
import type { BandEstimator } from './bandEstimator.ts';

export interface TwoToneSettings {
  /** Hz, as heard, lower first */
  readonly frequenciesHz: readonly [number, number];
  /** s of one turn of the record */
  readonly turnS: number;
}

/** Complex, peak, as captured; the variance of either part. */
export interface HeardLine extends Complex {
  readonly variance: number;
}

/** Lines of one channel; the phases of `lower` and `upper` count from the same moment in both channels. */
export interface ChannelLines {
  readonly lower: HeardLine;
  readonly upper: HeardLine;
  /** at f2 + f1, f2 − f1, f2 + 2 f1, f2 − 2 f1; null where the capture does not reach */
  readonly plus: HeardLine | null;
  readonly minus: HeardLine | null;
  readonly plus2: HeardLine | null;
  readonly minus2: HeardLine | null;
}

export type TwoToneReading =
  | {
      readonly found: true;
      /** Hz, means as heard */
      readonly frequenciesHz: readonly [number, number];
      readonly left: ChannelLines;
      readonly right: ChannelLines;
      /** s of signal in use; whole turns, or less than one */
      readonly usedS: number;
      readonly turns: number;
    }
  | { readonly found: false };

/** s of a band that are looked at */
const MOST_S = 40;
const ORDERS = [1, -1, 2, -2] as const;

export class TwoToneEstimator implements BandEstimator<TwoToneReading> {
  private readonly settings: TwoToneSettings;
  private readonly lower: ToneMixer;
  private readonly upper: ToneMixer;
  private readonly sides: ReadonlyMap<number, ToneMixer>;
  private readonly mostFrames: number;
  private taken = 0;

  constructor(sampleRateHz: number, settings: TwoToneSettings) {
    this.settings = settings;
    const [f1, f2] = settings.frequenciesHz;
    if (!(f1 >= 20 && f2 > 2 * f1 && f2 < 0.45 * sampleRateHz)) {
      throw new RangeError(`frequenciesHz ${f1}, ${f2} must be 20 or more, and the upper more than twice the lower`);
    }
    this.lower = new ToneMixer(sampleRateHz, f1);
    this.upper = new ToneMixer(sampleRateHz, f2);
    this.sides = new Map(
      ORDERS.flatMap((m): [number, ToneMixer][] => {
        const hz = f2 + m * f1;
        return hz >= 20 && hz < 0.48 * sampleRateHz ? [[m, new ToneMixer(sampleRateHz, hz)]] : [];
      }),
    );
    this.mostFrames = MOST_S * sampleRateHz;
  }

  push({ left, right, frames, startFrame }: StereoBlock): void {
    const to = Math.min(frames, this.mostFrames - this.taken);
    if (to <= 0) return;
    for (const mixer of [this.lower, this.upper, ...this.sides.values()]) mixer.push(left, right, 0, to, startFrame);
    this.taken += to;
  }

  result(): TwoToneReading {
    if (this.lower.waiting === 0) return { found: false };
    return onLoan(() => this.read());
  }

  end(): void {
    for (const mixer of [this.lower, this.upper, ...this.sides.values()]) mixer.end();
  }

  private read(): TwoToneReading {
    const [f1, f2] = this.settings.frequenciesHz;
    const wide1 = this.lower.peek();
    const wide2 = this.upper.peek();
    const low = narrowed(wide1, f1);
    const reach = (wide1.length - low.length) / 2;
    const one = tracked(low);
    const two = tracked(wide2);
    if (!one.found) return { found: false };
    if (!two.found) return { found: false };
    const phase2 = smoothed(two, wide2, f1, reach);
    // index n of what follows is sample n + reach of the wide basebands; the narrowed lines lose `reach` more on either side
    const from = Math.max(one.from, two.from) + reach;
    const end = Math.min(one.to, two.to - 2 * reach) - reach;
    const turn = this.settings.turnS * low.rateHz;
    const turns = Math.floor((end - from) / turn);
    const to = turns >= 1 ? from + Math.round(turns * turn) : end;
    if (!(to - from > 0.4 * low.rateHz)) return { found: false };
    const good = workBytes(low.length);
    let count = 0;
    for (let n = from; n < to; n++) {
      good[n] = one.good[n] & two.good[n + reach];
      count += good[n];
    }
    if (count < (to - from) / 2) return { found: false };

    const cos = workArray(low.length);
    const sin = workArray(low.length);
    const lineOf = (wide: Baseband, a: number, b: number): { left: HeardLine; right: HeardLine } =>
      onLoan(() => {
        turnBack(a, one.phase, b, phase2, { cos, sin }, from - reach, to + reach);
        const still = narrowed(turnedBy(wide, cos, sin, reach, from - reach, to + reach), f1);
        return {
          left: meanOf(still.leftRe, still.leftIm, good, from, to, low.rateHz),
          right: meanOf(still.rightRe, still.rightIm, good, from, to, low.rateHz),
        };
      });
    const lower = lineOf(wide1, 1, 0);
    const upper = lineOf(wide2, 0, 1);
    const side = (m: number): { left: HeardLine; right: HeardLine } | null => {
      const mixer = this.sides.get(m);
      return mixer === undefined ? null : lineOf(mixer.peek(), m, 1);
    };
    const [plus, minus, plus2, minus2] = ORDERS.map(side);
    const channel = (c: 'left' | 'right'): ChannelLines => ({
      lower: lower[c],
      upper: upper[c],
      plus: plus?.[c] ?? null,
      minus: minus?.[c] ?? null,
      plus2: plus2?.[c] ?? null,
      minus2: minus2?.[c] ?? null,
    });
    const slope = (phase: Float64Array): number =>
      ((phase[to - 1] - phase[from]) / (to - 1 - from)) * (low.rateHz / (2 * Math.PI));
    return {
      found: true,
      frequenciesHz: [f1 + slope(one.phase), f2 + slope(phase2)],
      left: channel('left'),
      right: channel('right'),
      usedS: count / low.rateHz,
      turns,
    };
  }
}

/** The tone of both channels, right turned into left's phase first; or of the one that carries it. */
function tracked(z: Baseband): ToneTracking {
  let cr = 0;
  let ci = 0;
  for (let n = 0; n < z.length; n++) {
    cr += z.leftRe[n] * z.rightRe[n] + z.leftIm[n] * z.rightIm[n];
    ci += z.leftIm[n] * z.rightRe[n] - z.leftRe[n] * z.rightIm[n];
  }
  const size = Math.hypot(cr, ci);
  const ur = size > 0 ? cr / size : 1;
  const ui = size > 0 ? ci / size : 0;
  const re = workArray(z.length);
  const im = workArray(z.length);
  for (let n = 0; n < z.length; n++) {
    re[n] = (z.leftRe[n] + z.rightRe[n] * ur - z.rightIm[n] * ui) / 2;
    im[n] = (z.leftIm[n] + z.rightRe[n] * ui + z.rightIm[n] * ur) / 2;
  }
  return trackTone(re, im, z.rateHz);
}

/** The phase without what swings as fast as the lower tone; sample n is sample n + reach of `phase`. */
function smoothed(tone: TrackedTone, wide: Baseband, spacingHz: number, reach: number): Float64Array {
  const filled = workArray(wide.length);
  filled.set(tone.phase);
  filled.fill(tone.phase[tone.from], 0, tone.from);
  filled.fill(tone.phase[tone.to - 1], tone.to);
  const none = workArray(wide.length);
  const { leftRe } = narrowed({ ...wide, leftRe: filled, leftIm: none, rightRe: none, rightIm: none }, spacingHz);
  if (leftRe.length !== wide.length - 2 * reach) throw new RangeError('smoothing must shift both tones alike');
  return leftRe;
}

/** The wide baseband turned by e^(−iφ), zero outside; sample n + reach of `wide` by the angle of n. */
function turnedBy(
  wide: Baseband,
  cos: Float64Array,
  sin: Float64Array,
  reach: number,
  from: number,
  to: number,
): Baseband {
  const [leftRe, leftIm] = turned(wide.leftRe, wide.leftIm, cos, sin, reach, from, to);
  const [rightRe, rightIm] = turned(wide.rightRe, wide.rightIm, cos, sin, reach, from, to);
  return { ...wide, leftRe, leftIm, rightRe, rightIm };
}

/** cos and sin of the angle that turns the line a φ1 + b φ2 back to none. */
function turnBack(
  a: number,
  phase1: Float64Array,
  b: number,
  phase2: Float64Array,
  { cos, sin }: { readonly cos: Float64Array; readonly sin: Float64Array },
  from: number,
  to: number,
): void {
  for (let n = from; n < to; n++) {
    const angle = a * phase1[n] + b * phase2[n];
    cos[n] = Math.cos(angle);
    sin[n] = -Math.sin(angle);
  }
}

function turned(
  re: Float64Array,
  im: Float64Array,
  cos: Float64Array,
  sin: Float64Array,
  reach: number,
  from: number,
  to: number,
): [Float64Array, Float64Array] {
  const outRe = workArray(re.length);
  const outIm = workArray(re.length);
  for (let n = from; n < to; n++) {
    const k = n + reach;
    outRe[k] = re[k] * cos[n] - im[k] * sin[n];
    outIm[k] = re[k] * sin[n] + im[k] * cos[n];
  }
  return [outRe, outIm];
}

function meanOf(
  re: Float64Array,
  im: Float64Array,
  good: Uint8Array,
  from: number,
  to: number,
  rateHz: number,
): HeardLine {
  let sr = 0;
  let si = 0;
  let count = 0;
  for (let n = from; n < to; n++) {
    if (good[n] === 0) continue;
    sr += re[n];
    si += im[n];
    count += 1;
  }
  const mean = { re: sr / count, im: si / count };
  const offRe = workArray(re.length);
  const offIm = workArray(re.length);
  for (let n = from; n < to; n++) {
    offRe[n] = re[n] - mean.re;
    offIm[n] = im[n] - mean.im;
  }
  const { varRe, varIm } = uncertaintyOfMean(offRe, offIm, good, from, to, rateHz);
  return { ...mean, variance: (varRe + varIm) / 2 };
}
