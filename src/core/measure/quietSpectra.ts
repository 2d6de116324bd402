/** Spectra of a quiet stretch under the reference: weighted sums with what chance leaves open, and the curve. */
import { type MainsFamily, mainsFamily } from '../signal/mainsFamily.ts';
import { median } from '../signal/robust.ts';
import type { StereoSpectrum } from '../signal/spectra.ts';
import type { Channel } from './channels.ts';
import { playbackGain } from './playbackEqualisation.ts';
import type { QuietPart } from './quietEstimator.ts';

/**
 * The fine spectrum goes over into the click-free one between these, along half a cosine: a window spreads a line over 40 Hz of the coarse one, and at
 * a sharp joint half of a line that lies there (the seventh of 60 Hz) was lost, or counted twice. Where both count by shares that add up to one
 * all along, it counts once.
 */
const JOIN_FROM_HZ = 450;
const JOIN_TO_HZ = 950;
/** share of the sample rate that a spectrum is used to */
const TOP_SHARE = 0.45;
/** bins in which a Hann window spreads what one holds, as squares: neighbours go together by 4/9 and 1/36 */
const HANN_BINS = 1.944;
/** bins on either side that a line fills, and those beside it that tell the noise */
const LINE_BINS = 2;
const BESIDE_FROM = 4;
const BESIDE_TO = 12;
/** standard, share of the power: window lobes that are left out, the end of the range */
const METHOD_SHARE = 0.003;

export type Gain = (hz: number) => number;

/** Density of one channel, bins from 1; bins of both parts side by side. */
interface Slice {
  readonly density: Float64Array;
  readonly binHz: number;
  readonly from: number;
  readonly to: number;
  /** independent periodograms in the mean */
  readonly averages: number;
  /** of a bin at a frequency, 0 to 1: what the other spectrum does not count */
  readonly share: Gain;
  /** floor of the noise at a bin that a mains line fills; null elsewhere */
  readonly floorUnderLine: (bin: number) => number | null;
}

/** What playback without equalisation lacks. */
export const undoing =
  (flat: boolean): Gain =>
  (hz) =>
    flat ? playbackGain(hz) : 1;

/** Hann segments overlapped by half do not weigh all of a stretch alike: the sum over many bins is worth so much of their number. */
const worth = (segments: number): number => Math.max(1, 0.92 * segments);

const ofCoarse: Gain = (hz) => {
  const along = Math.min(1, Math.max(0, (hz - JOIN_FROM_HZ) / (JOIN_TO_HZ - JOIN_FROM_HZ)));
  return (1 - Math.cos(Math.PI * along)) / 2;
};

/** @param toHz at most; the spectra end at 0.45 of the sample rate */
function slices(reading: QuietPart, channel: Channel, fromHz: number, toHz: number): Slice[] {
  const { low, wide } = reading;
  const top = Math.min(toHz, (TOP_SHARE / 0.5) * wide.binHz * wide.left.length);
  const fine = channel === 'left' ? low.leftDensity : low.rightDensity;
  return [
    {
      density: fine,
      binHz: low.binHz,
      from: Math.max(1, Math.ceil(fromHz / low.binHz)),
      to: Math.floor(Math.min(toHz, JOIN_TO_HZ) / low.binHz),
      averages: worth(low.segments),
      share: (hz) => 1 - ofCoarse(hz),
      floorUnderLine: floorsUnderLines(low, fine),
    },
    {
      density: wide[channel],
      binHz: wide.binHz,
      from: Math.max(1, Math.ceil(Math.max(JOIN_FROM_HZ, fromHz) / wide.binHz)),
      to: Math.floor(top / wide.binHz),
      averages: worth(wide.segments),
      share: ofCoarse,
      // its bins are too wide to tell a line from the noise beside it: it passes for chance
      floorUnderLine: () => null,
    },
  ];
}

/** One search for the mains serves every sum over a spectrum. */
const families = new WeakMap<StereoSpectrum, MainsFamily | null>();

function familyIn(spectrum: StereoSpectrum): MainsFamily | null {
  const known = families.get(spectrum);
  if (known !== undefined) return known;
  const family = mainsFamily(spectrum);
  families.set(spectrum, family);
  return family;
}

/** The noise under the bins of the mains lines that rise: the median of what lies beside each. */
function floorsUnderLines(spectrum: StereoSpectrum, density: Float64Array): Slice['floorUnderLine'] {
  const floors = new Map<number, number>();
  const family = familyIn(spectrum);
  for (const { order } of family?.lines ?? []) {
    const at = Math.round((order * (family as MainsFamily).hz) / spectrum.binHz);
    const beside: number[] = [];
    for (let d = BESIDE_FROM; d <= BESIDE_TO; d++) {
      if (at - d >= 1) beside.push(density[at - d]);
      if (at + d < density.length) beside.push(density[at + d]);
    }
    const floor = median(beside);
    for (let k = at - LINE_BINS; k <= at + LINE_BINS; k++) floors.set(k, floor);
  }
  return (bin) => floors.get(bin) ?? null;
}

export interface WeightedPower {
  /** mean square */
  readonly power: number;
  /** standard, from chance alone: what is noise taken as noise; a mains line is none, it counts for how it beats with the noise under it */
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
  for (const slice of slices(reading, channel, fromHz, toHz)) {
    const { density, binHz, from, to, averages, share, floorUnderLine } = slice;
    for (let k = from; k <= to; k++) {
      const weight = gain(k * binHz) ** 2 * binHz;
      const part = share(k * binHz);
      const p = density[k] * weight;
      power += part * p;
      const under = floorUnderLine(k);
      const floor = under === null ? p : Math.min(p, under * weight);
      // the square of a mean of n periodograms is (n + 1)/n times that of what it tells
      const square = under === null ? (p * p * averages) / (averages + 1) : floor * floor + 2 * (p - floor) * floor;
      // both spectra hear the same noise where they share a frequency: their parts add as they are, not by squares
      variance += (part * HANN_BINS * square) / averages;
    }
  }
  return { power, spread: Math.hypot(Math.sqrt(variance), METHOD_SHARE * power) };
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
  for (const { density, binHz, from, to, share } of slices(reading, channel, fromHz, toHz)) {
    for (let k = from; k <= to; k++) {
      power += share(k * binHz) * density[k] * gain(k * binHz) ** 2 * binHz;
      width += share(k * binHz) * binHz;
    }
  }
  return { width, power: width > 0 ? (power * (toHz - fromHz)) / width : 0 };
}
