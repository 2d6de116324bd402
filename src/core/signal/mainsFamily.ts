/**
 * The mains and its multiples in an averaged spectrum: one frequency for the family, the power of each of its lines in either channel.
 *
 *   line k       Σ of ±2 bins around k·f₀, less the floor beside it (median of bins 4 to 12 away on either side)
 *   f₀           within 0.4 % of 50 or 60 Hz, where Σ ln(1 + peak/floor) over the first orders is largest; the family with more power
 *
 * @checked mainsFamily.test.ts; test/loops/noise.test.ts
 */
import { median } from './robust.ts';
import type { StereoSpectrum } from './spectra.ts';

const MAINS_HZ = [50, 60] as const;
const STRAY = 0.004;
/** orders looked for, and those that tell the frequency */
const ORDERS = 20;
const TELLING = 10;
/** bins of a Hann window's main lobe on either side */
const LOBE = 2;
/** of a line between two bins the lobe leaves out as much, share of its power */
const LOBE_LOSS = 0.004;
/** a line counts where it rises this many standard deviations out of the noise, both channels together */
const RISES = 5;

export interface MainsLine {
  readonly order: number;
  /** mean squares, the noise taken off */
  readonly left: number;
  readonly right: number;
}

export interface ChannelHum {
  /** mean square of all lines together */
  readonly power: number;
  /** standard uncertainty of it */
  readonly spread: number;
  /** mean square that no line passes, 3 standard deviations: what is said where there are none */
  readonly atMost: number;
}

export interface MainsFamily {
  /** nominal, 50 or 60 */
  readonly mains: 50 | 60;
  /** Hz, as heard */
  readonly hz: number;
  /** those that rise out of the noise */
  readonly lines: readonly MainsLine[];
  readonly left: ChannelHum;
  readonly right: ChannelHum;
}

/** @returns null where the spectrum is too short or too coarse to part 50 from 60 Hz */
export function mainsFamily(spectrum: StereoSpectrum): MainsFamily | null {
  const { binHz, segments, leftDensity } = spectrum;
  if (segments < 2 || binHz * (2 * LOBE + 1) > 20) return null;
  const families = MAINS_HZ.map((mains) => familyAt(spectrum, mains, bestHz(spectrum, mains), leftDensity.length));
  return families.reduce((a, b) => (b.left.power + b.right.power > a.left.power + a.right.power ? b : a));
}

/** Both channels' floor beside a frequency. */
function floorAt(density: Float64Array, at: number): number {
  const beside: number[] = [];
  for (let d = 4; d <= 12; d++) {
    if (at - d >= 1) beside.push(density[at - d]);
    if (at + d < density.length) beside.push(density[at + d]);
  }
  return median(beside);
}

function bestHz({ leftDensity, rightDensity, binHz }: StereoSpectrum, mains: number): number {
  let best = mains;
  let most = -1;
  const steps = 40;
  for (let i = 0; i <= steps; i++) {
    const hz = mains * (1 + STRAY * ((2 * i) / steps - 1));
    let sum = 0;
    for (let order = 1; order <= TELLING; order++) {
      const at = Math.round((order * hz) / binHz);
      if (at + 12 >= leftDensity.length) break;
      // a parabola's worth between bins: the line pulls its neighbours up
      const near = (d: Float64Array): number => d[at] + 0.5 * (d[at - 1] + d[at + 1]);
      const floor = 2 * (floorAt(leftDensity, at) + floorAt(rightDensity, at));
      sum += Math.log1p((near(leftDensity) + near(rightDensity)) / Math.max(floor, 1e-300));
    }
    // of equals the one nearer to the nominal
    const score = sum - 1e-6 * Math.abs(2 * i - steps);
    if (score > most) {
      most = score;
      best = hz;
    }
  }
  return best;
}

interface LinePower {
  readonly power: number;
  /** standard */
  readonly spread: number;
}

function familyAt(spectrum: StereoSpectrum, mains: 50 | 60, hz: number, bins: number): MainsFamily {
  const { leftDensity, rightDensity, binHz, segments } = spectrum;
  // neighbouring segments share half their samples: correlated by 1/36
  const n = Math.max(1, segments * 0.95);
  const read = (density: Float64Array, at: number): LinePower => {
    // the median of a mean of n exponentials lies 1 − 1/(9n) cubed under their mean
    const floor = floorAt(density, at) / (1 - 1 / (9 * n)) ** 3;
    let power = 0;
    for (let k = at - LOBE; k <= at + LOBE; k++) power += (density[k] - floor) * binHz;
    const noise = floor * binHz;
    // five correlated bins of noise and the floor's own doubt; noise in step with the line
    return { power, spread: Math.sqrt((10 * noise ** 2 + 3 * Math.max(0, power) * noise) / n) };
  };
  const all: {
    readonly order: number;
    readonly left: LinePower;
    readonly right: LinePower;
    readonly rises: boolean;
  }[] = [];
  for (let order = 1; order <= ORDERS; order++) {
    const at = Math.round((order * hz) / binHz);
    if (at + 12 >= bins) break;
    const left = read(leftDensity, at);
    const right = read(rightDensity, at);
    const rises = left.power + right.power > RISES * Math.hypot(left.spread, right.spread);
    all.push({ order, left, right, rises });
  }
  const last = all.findLastIndex(({ rises }) => rises);
  // every line up to the last that rises counts, risen or not: leaving out the weak ones would read low
  const counted = all.slice(0, last + 1);
  const channel = (name: 'left' | 'right'): ChannelHum => {
    const power = counted.reduce((sum, line) => sum + line[name].power, 0);
    return {
      power: Math.max(0, power),
      spread: Math.hypot(LOBE_LOSS * power, ...counted.map((line) => line[name].spread)),
      atMost: Math.max(...all.map((line) => Math.max(0, line[name].power) + 3 * line[name].spread)),
    };
  };
  const lines = all
    .filter(({ rises }) => rises)
    .map(({ order, left, right }) => ({ order, left: Math.max(0, left.power), right: Math.max(0, right.power) }));
  return { mains, hz: centred(spectrum, hz, lines), lines, left: channel('left'), right: channel('right') };
}

/** The family's frequency by the centres of its lines, strong and high ones counting most: a bin is coarse. */
function centred(
  { leftDensity, rightDensity, binHz }: StereoSpectrum,
  hz: number,
  lines: readonly MainsLine[],
): number {
  let sum = 0;
  let weight = 0;
  for (const { order, left, right } of lines) {
    const at = Math.round((order * hz) / binHz);
    let power = 0;
    let moment = 0;
    for (let k = at - LOBE; k <= at + LOBE; k++) {
      const p = leftDensity[k] + rightDensity[k];
      power += p;
      moment += p * k * binHz;
    }
    const w = (left + right) * order * order;
    sum += (w * moment) / power / order;
    weight += w;
  }
  return weight > 0 ? sum / weight : hz;
}
