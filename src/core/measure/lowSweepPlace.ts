/**
 * Where a sweep of a known law lies in the bottom of a recording: ears tell nothing there, the record file knows what is cut.
 *
 * Spectra of a second, each frequency over the middle of its neighbours, are summed along the law for every start and length; the best
 * sum is the sweep's where it stands out.
 */
import { ComplexFft } from '../signal/fft.ts';
import { median } from '../signal/robust.ts';
import { hannPeriodic } from '../signal/windows.ts';
import type { LowRateSignal } from './lowRate.ts';

export interface SweepCut {
  readonly fromHz: number;
  readonly toHz: number;
  readonly law: 'log' | 'linear';
  /** s, where the record file states it */
  readonly durationS: number | null;
}

/** As played: s of the signal; the frequencies are the record file's. */
export interface SweepPlace {
  readonly startS: number;
  readonly lengthS: number;
}

/** Frequency, its rate, and the phase in cycles since the start. */
export function lawAt({ fromHz, toHz, law }: SweepCut, { startS, lengthS }: SweepPlace, t: number) {
  const s = t - startS;
  if (law === 'linear') {
    const slope = (toHz - fromHz) / lengthS;
    return { hz: fromHz + slope * s, hzPerS: slope, cycles: s * (fromHz + (slope * s) / 2) };
  }
  const k = Math.log(toHz / fromHz) / lengthS;
  const hz = fromHz * Math.exp(k * s);
  return { hz, hzPerS: k * hz, cycles: (hz - fromHz) / k };
}

const WINDOW_S = 1;
const HOP_S = 0.1;
const PADDED = 4;
/** a line stands at most so far out in the sum: one hum line must not outweigh a sweep */
const MOST_SHARE = 30;
/** mean log of how far the sweep stands out, and how much of it must be in the signal */
const LEAST_MEAN = 1.1;
const LEAST_INSIDE = 0.6;
/** a stated length holds within this; shorter than that nothing is swept, s */
const LENGTH_TOLERANCE = 0.08;
const LEAST_LENGTH_S = 3;

/** @returns null where nothing of that law stands out */
export function findLowSweep(signal: LowRateSignal, cut: SweepCut): SweepPlace | null {
  const map = standingOut(signal, Math.max(cut.fromHz, cut.toHz));
  const seconds = signal.left.length / signal.rateHz;
  const lengths = lengthsOf(cut, seconds);
  let best = { score: 0, mean: 0, startS: 0, lengthS: 0 };
  for (const lengthS of lengths) {
    for (let startS = -0.4 * lengthS; startS < seconds - LEAST_INSIDE * lengthS; startS += HOP_S) {
      let sum = 0;
      let count = 0;
      const whole = Math.floor(lengthS / HOP_S);
      for (let i = 0; i < map.frames.length; i++) {
        const t = map.startS + i * HOP_S;
        if (t < startS + HOP_S || t > startS + lengthS - HOP_S) continue;
        const bin = lawAt(cut, { startS, lengthS }, t).hz / map.binHz;
        const low = Math.floor(bin);
        const row = map.frames[i];
        if (low < 1 || low + 1 >= row.length) continue;
        sum += row[low] + (row[low + 1] - row[low]) * (bin - low);
        count += 1;
      }
      if (count < LEAST_INSIDE * whole) continue;
      // a longer stretch of the law that stands out as far is better evidence
      const score = sum / Math.sqrt(count);
      if (score > best.score) best = { score, mean: sum / count, startS, lengthS };
    }
  }
  return best.mean >= LEAST_MEAN ? refined(signal, cut, best) : null;
}

function lengthsOf({ durationS }: SweepCut, seconds: number): number[] {
  const [from, to, step] =
    durationS === null
      ? [LEAST_LENGTH_S, seconds / LEAST_INSIDE, 1.04]
      : [durationS * (1 - LENGTH_TOLERANCE), durationS * (1 + LENGTH_TOLERANCE), 1.01];
  const lengths: number[] = [];
  for (let length = from; length <= to * 1.0001; length *= step) lengths.push(length);
  return lengths;
}

/** ln(1 + power over the middle of what lies within 4 Hz), frame by frame. */
function standingOut({ rateHz, left, right }: LowRateSignal, mostHz: number) {
  const window = hannPeriodic(Math.round(WINDOW_S * rateHz));
  let size = 1;
  while (size < PADDED * window.length) size *= 2;
  const fft = new ComplexFft(size);
  const re = new Float64Array(size);
  const im = new Float64Array(size);
  const binHz = rateHz / size;
  const bins = Math.min(size / 2, Math.ceil((1.3 * mostHz + 5) / binHz));
  const around = Math.round(4 / binHz);
  const frames: Float64Array[] = [];
  const hop = HOP_S * rateHz;
  for (let n = 0; Math.round(n * hop) + window.length <= left.length; n++) {
    const from = Math.round(n * hop);
    re.fill(0);
    im.fill(0);
    for (let k = 0; k < window.length; k++) {
      re[k] = window[k] * left[from + k];
      im[k] = window[k] * right[from + k];
    }
    fft.forward(re, im);
    const power = Float64Array.from({ length: bins + around + 1 }, (_, k) => {
      const m = k === 0 ? 0 : size - k;
      return re[k] ** 2 + im[k] ** 2 + re[m] ** 2 + im[m] ** 2;
    });
    frames.push(
      Float64Array.from({ length: bins }, (_, k) => {
        const middle = median(power.subarray(Math.max(1, k - around), k + around + 1));
        return middle > 0 ? Math.log1p(Math.min(MOST_SHARE, power[k] / middle)) : 0;
      }),
    );
  }
  return { frames, binHz, startS: window.length / 2 / rateHz };
}

/** Start and length where most of the power follows the law. */
function refined(signal: LowRateSignal, cut: SweepCut, coarse: SweepPlace): SweepPlace {
  let best = { startS: coarse.startS, lengthS: coarse.lengthS };
  let most = alongLaw(signal, cut, best);
  for (let step = 0.08; step > 0.004; step /= 2) {
    for (let moved = true; moved; ) {
      moved = false;
      for (const [ds, dl] of [
        [step, 0],
        [-step, 0],
        [0, step],
        [0, -step],
        [step, -step],
        [-step, step],
      ]) {
        const next = { startS: best.startS + ds, lengthS: best.lengthS + dl };
        const power = alongLaw(signal, cut, next);
        if (power > most * (1 + 1e-9)) {
          most = power;
          best = next;
          moved = true;
        }
      }
    }
  }
  return best;
}

/** Power that follows the law, each second of it weighing alike in the logarithm. */
function alongLaw(signal: LowRateSignal, cut: SweepCut, place: SweepPlace): number {
  let sum = 0;
  for (let s = place.startS + 0.5; s < place.startS + place.lengthS - 0.5; s += 0.5) {
    const heard = lockIn(signal, cut, place, s, WINDOW_S, 0);
    if (heard !== null) sum += Math.log(1e-30 + heard.power);
  }
  return sum === 0 ? Number.NEGATIVE_INFINITY : Math.exp(sum / (2 * place.lengthS));
}

/** Left and right against the law's phase, under a Hann window about a moment. */
export interface LockIn {
  readonly left: { readonly re: number; readonly im: number };
  readonly right: { readonly re: number; readonly im: number };
  /** of both, squared peaks */
  readonly power: number;
}

/** @param atS of the signal @param asideHz the same so far beside the law: what else is there @returns null where the window does not fit */
export function lockIn(
  { rateHz, left, right }: LowRateSignal,
  cut: SweepCut,
  place: SweepPlace,
  atS: number,
  windowS: number,
  asideHz: number,
): LockIn | null {
  const from = Math.ceil((atS - windowS / 2) * rateHz);
  const to = Math.floor((atS + windowS / 2) * rateHz);
  if (from < 0 || to >= left.length || to - from < 8) return null;
  const of = { left: { re: 0, im: 0 }, right: { re: 0, im: 0 } };
  let weight = 0;
  for (let n = from; n <= to; n++) {
    const t = n / rateHz;
    const w = 0.5 + 0.5 * Math.cos((2 * Math.PI * (t - atS)) / windowS);
    const cycles = lawAt(cut, place, t).cycles + asideHz * (t - atS);
    const angle = 2 * Math.PI * (cycles - Math.floor(cycles));
    const c = w * Math.cos(angle);
    const s = -w * Math.sin(angle);
    of.left.re += left[n] * c;
    of.left.im += left[n] * s;
    of.right.re += right[n] * c;
    of.right.im += right[n] * s;
    weight += w;
  }
  for (const channel of [of.left, of.right]) {
    channel.re *= 2 / weight;
    channel.im *= 2 / weight;
  }
  return { ...of, power: of.left.re ** 2 + of.left.im ** 2 + of.right.re ** 2 + of.right.im ** 2 };
}
