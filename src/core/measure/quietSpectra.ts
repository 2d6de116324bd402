/** Spectra of a quiet stretch under the reference: weighted sums with what chance leaves open, and the curve. */
import type { Channel } from './channels.ts';
import { playbackGain } from './playbackEqualisation.ts';
import { LOW_HZ, type QuietPart } from './quietEstimator.ts';

/** the fine spectrum is used up to here, the click-free one above, Hz */
const JOIN_HZ = 400;
/** share of the sample rate that a spectrum is used to */
const TOP_SHARE = 0.45;

export type Gain = (hz: number) => number;

/** Density of one channel, bins from 1; bins of both parts side by side. */
interface Slice {
  readonly density: Float64Array;
  readonly binHz: number;
  readonly from: number;
  readonly to: number;
  /** independent periodograms in the mean */
  readonly averages: number;
}

/** What playback without equalisation lacks. */
export const undoing =
  (flat: boolean): Gain =>
  (hz) =>
    flat ? playbackGain(hz) : 1;

/** Overlapped Hann segments: worth nearly one each. */
const worth = (segments: number): number => Math.max(1, 0.95 * segments);

/** @param toHz at most; the spectra end at 0.45 of the sample rate */
function slices(reading: QuietPart, channel: Channel, fromHz: number, toHz: number): Slice[] {
  const { low, wide } = reading;
  const join = Math.min(toHz, JOIN_HZ, LOW_HZ);
  const top = Math.min(toHz, (TOP_SHARE / 0.5) * wide.binHz * wide.left.length);
  return [
    {
      density: channel === 'left' ? low.leftDensity : low.rightDensity,
      binHz: low.binHz,
      from: Math.max(1, Math.ceil(fromHz / low.binHz)),
      to: Math.floor(join / low.binHz),
      averages: worth(low.segments),
    },
    {
      density: wide[channel],
      binHz: wide.binHz,
      from: Math.max(1, Math.ceil(Math.max(join, fromHz) / wide.binHz)),
      to: Math.floor(top / wide.binHz),
      averages: worth(wide.segments),
    },
  ];
}

export interface WeightedPower {
  /** mean square */
  readonly power: number;
  /** standard, from chance alone: what is noise taken as noise */
  readonly spread: number;
}

/** Mean square between two frequencies after a gain. */
export function weightedPower(
  reading: QuietPart,
  channel: Channel,
  fromHz: number,
  toHz: number,
  gain: Gain,
): WeightedPower {
  let power = 0;
  let variance = 0;
  for (const { density, binHz, from, to, averages } of slices(reading, channel, fromHz, toHz)) {
    for (let k = from; k <= to; k++) {
      const p = density[k] * gain(k * binHz) ** 2 * binHz;
      power += p;
      // neighbouring bins under a Hann window: 1 + 2·(4/9) + 2·(1/36)
      variance += (1.944 * p * p) / averages;
    }
  }
  return { power, spread: Math.sqrt(variance) };
}

/** Level of every third octave from 10 Hz to 20 kHz, dB over `referencePower`, at the exact middle frequencies. */
export function thirdOctaves(
  reading: QuietPart,
  channel: Channel,
  referencePower: number,
  gain: Gain,
): { readonly x: number[]; readonly y: number[] } {
  const x: number[] = [];
  const y: number[] = [];
  const half = 10 ** 0.05;
  const top = (TOP_SHARE / 0.5) * reading.wide.binHz * reading.wide.left.length;
  for (let k = 10; k <= 43; k++) {
    const hz = 10 ** (k / 10);
    if (hz * half > top) break;
    const { power, width } = bandPower(reading, channel, hz / half, hz * half, gain);
    // a band narrower than two bins says nothing
    if (!(width > 0) || !(power > 0)) continue;
    x.push(hz);
    y.push(10 * Math.log10(power / referencePower));
  }
  return { x, y };
}

/** Bins that lie in the band, scaled to its true width. */
function bandPower(reading: QuietPart, channel: Channel, fromHz: number, toHz: number, gain: Gain) {
  let power = 0;
  let width = 0;
  for (const { density, binHz, from, to } of slices(reading, channel, fromHz, toHz)) {
    for (let k = from; k <= to; k++) power += density[k] * gain(k * binHz) ** 2 * binHz;
    width += Math.max(0, to - from + 1) * binHz;
  }
  return { width, power: width > 0 ? (power * (toHz - fromHz)) / width : 0 };
}
