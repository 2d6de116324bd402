/**
 * A sweep, fed in blocks → level of both channels and the cross product between them, over frequency.
 *
 * Octave by octave, at a rate that fits it, spectra under Hann windows as long as the sweep's pace asks for (1/√(df/dt), four cycles at least); every
 * line that rises out of its neighbourhood is kept with its power, summed over all the bins that it covers, so that neither window nor pace
 * changes it. At the end the law that most of them follow tells the sweep from hum, a pilot tone and its own harmonics (sweepLine.ts).
 *
 * Memory: some 20 kB a second of the sweep, its points at the end.
 */
import type { StereoBlock } from '../capture/recording.ts';
import { ComplexFft } from '../signal/fft.ts';
import { LEVEL_REACH, OctaveChain } from '../signal/octaveChain.ts';
import { hannPeriodic } from '../signal/windows.ts';
import { onLoan, workArray, workBytes } from '../signal/workArrays.ts';
import type { BandEstimator } from './bandEstimator.ts';
import { followedLine, type HeardLine, type LineLaw } from './sweepLine.ts';

export interface SweepSettings {
  /** Hz a second at a frequency: `perHz · f + perS` */
  readonly pace: { readonly perHz: number; readonly perS: number };
  readonly rising: boolean;
}

/** Squared peaks as captured, what else lies there taken off. */
export interface SweepPoint {
  readonly hz: number;
  readonly left: number;
  readonly right: number;
  /** right · conj(left) */
  readonly re: number;
  readonly im: number;
  /** standard, dB, of the louder channel */
  readonly spreadDb: number;
  /** of either channel's noise, squared peak, in a single spectrum */
  readonly noise: number;
  /** spectra in it that tell apart from each other */
  readonly spectra: number;
}

export interface SweepReading {
  /** null where no line goes through the stretch */
  readonly law: LineLaw | null;
  /** ascending in frequency, 1/24 octave apart at least */
  readonly points: readonly SweepPoint[];
}

/** the lowest frequency that is looked at, Hz */
const LOWEST_HZ = 8;
const LEAST_CYCLES = 4;
/** lines kept of a spectrum */
const MOST_LINES = 3;
/** power over that of as many bins of the neighbourhood */
const LEAST_OVER = 5;

interface Level {
  readonly rateHz: number;
  readonly delayS: number;
  readonly size: number;
  readonly window: Float64Array;
  readonly fft: ComplexFft;
  /** bins to either side that a line at a bin covers: a Hann line's own two, and what the sweep passes in the window */
  readonly half: Uint16Array;
  readonly fromBin: number;
  readonly toBin: number;
  /** squared peak of a line for a sum of |X|² */
  readonly scale: number;
  readonly left: Float64Array;
  readonly right: Float64Array;
  held: number;
  /** frames of the level before what is held */
  before: number;
  /** |X|² of both channels where no line was heard, summed over the spectra, and of how many */
  readonly quiet: Float64Array;
  readonly quietSpectra: Uint32Array;
}

export class SweepEstimator implements BandEstimator<SweepReading> {
  private readonly chain: OctaveChain;
  private readonly levels: Level[];
  private readonly lines: HeardLine[] = [];
  private readonly settings: SweepSettings;

  constructor(sampleRateHz: number, settings: SweepSettings) {
    this.settings = settings;
    let count = 1;
    while ((LEVEL_REACH * sampleRateHz) / 2 ** count > LOWEST_HZ) count += 1;
    this.chain = new OctaveChain(sampleRateHz, count, (level, left, right, n) => this.take(level, left, right, n));
    this.levels = this.chain.levels.map(({ rateHz, delayS }, k) => {
      const top = k === 0 ? 0.47 * rateHz : LEVEL_REACH * rateHz;
      const bottom = k === count - 1 ? LOWEST_HZ : (LEVEL_REACH * rateHz) / 2;
      const middle = Math.sqrt(top * bottom);
      const pace = settings.pace.perHz * middle + settings.pace.perS;
      const wantedS = Math.max(1 / Math.sqrt(pace), LEAST_CYCLES / bottom);
      const size = Math.max(32, 2 ** Math.round(Math.log2(wantedS * rateHz)));
      const windowS = size / rateHz;
      const window = hannPeriodic(size);
      const squares = window.reduce((sum, w) => sum + w * w, 0);
      const halfAt = (hz: number): number => {
        const passing = settings.pace.perHz * hz + settings.pace.perS;
        return Math.ceil(2 + (passing * windowS * windowS) / 2);
      };
      const most = halfAt(top);
      const bins = Array.from({ length: size / 2 }, (_, k) => halfAt((k * rateHz) / size));
      return {
        rateHz,
        delayS,
        size,
        window,
        fft: new ComplexFft(size),
        half: Uint16Array.from(bins),
        fromBin: Math.max(3, Math.floor((bottom * 0.97 * size) / rateHz)),
        toBin: Math.min(size / 2 - most - 1, Math.ceil((top * size) / rateHz)),
        scale: 4 / (size * squares),
        left: new Float64Array(size),
        right: new Float64Array(size),
        held: 0,
        before: 0,
        quiet: new Float64Array(size / 2),
        quietSpectra: new Uint32Array(size / 2),
      };
    });
  }

  push({ left, right, frames }: StereoBlock): void {
    this.chain.push(left, right, frames);
  }

  private take(index: number, left: Float64Array, right: Float64Array, count: number): void {
    const level = this.levels[index];
    const hop = level.size / 2;
    for (let from = 0; from < count; ) {
      const more = Math.min(level.size - level.held, count - from);
      level.left.set(left.subarray(from, from + more), level.held);
      level.right.set(right.subarray(from, from + more), level.held);
      level.held += more;
      from += more;
      if (level.held < level.size) return;
      onLoan(() => this.lookAt(level));
      level.left.copyWithin(0, hop);
      level.right.copyWithin(0, hop);
      level.held = hop;
      level.before += hop;
    }
  }

  /** At one window of a level. */
  private lookAt(level: Level): void {
    const { size, window, fft, fromBin, toBin, rateHz, scale } = level;
    const re = workArray(size);
    const im = workArray(size);
    for (let n = 0; n < size; n++) {
      re[n] = window[n] * level.left[n];
      im[n] = window[n] * level.right[n];
    }
    fft.forward(re, im);
    const power = (k: number): number => {
      const m = size - k;
      return (re[k] ** 2 + im[k] ** 2 + re[m] ** 2 + im[m] ** 2) / 2;
    };
    const all = workArray(size / 2);
    for (let k = 1; k < size / 2; k++) all[k] = power(k);
    const s = level.delayS + (level.before + size / 2) / rateHz;
    const free = workArray(size / 2);
    free.set(all);
    const busy = workBytes(size / 2);
    for (let found = 0; found < MOST_LINES; found++) {
      let top = fromBin;
      for (let k = fromBin; k <= toBin; k++) if (free[k] > free[top]) top = k;
      if (!(free[top] > 0)) return;
      const half = level.half[top];
      const line = lineAt(all, top, half);
      // centre of what the line covers: the top of a passing sweep is flat
      const at = Math.round(line.centre);
      // what is highest at the edge is the flank of a line that another level hears
      const isWithin = at >= fromBin && at <= toBin && all[top] >= all[top - 1] && all[top] >= all[top + 1];
      if (isWithin && line.power > LEAST_OVER * line.floor && at - half >= 1 && at + half < size / 2) {
        const sums = { left: 0, right: 0, re: 0, im: 0 };
        for (let k = at - half; k <= at + half; k++) {
          const m = size - k;
          const lr = (re[k] + re[m]) / 2;
          const li = (im[k] - im[m]) / 2;
          const rr = (im[k] + im[m]) / 2;
          const ri = (re[m] - re[k]) / 2;
          sums.left += lr * lr + li * li;
          sums.right += rr * rr + ri * ri;
          sums.re += rr * lr + ri * li;
          sums.im += ri * lr - rr * li;
        }
        const noise = line.floor / 2;
        // what lies there before and after the sweep: beside a line it may be quieter, as rumble is above it
        const noiseAtOtherTimes = () =>
          level.quietSpectra[at] === 0 ? 0 : ((level.quiet[at] / level.quietSpectra[at]) * (2 * half + 1) * scale) / 2;
        busy.fill(1, Math.max(0, at - 2 * half), at + 2 * half + 1);
        this.lines.push({
          s,
          hz: (line.centre * rateHz) / size,
          left: scale * Math.max(0, sums.left - noise),
          right: scale * Math.max(0, sums.right - noise),
          re: scale * sums.re,
          im: scale * sums.im,
          noise: scale * noise,
          noiseAtOtherTimes,
          windowS: size / rateHz,
          mostHzPerS: ((2 * half - 3) * rateHz ** 2) / size ** 2,
        });
      }
      free.fill(0, Math.max(0, top - 2 * half), top + 2 * half + 1);
    }
    for (let k = 1; k < size / 2; k++) {
      if (busy[k] === 1) continue;
      level.quiet[k] += all[k];
      level.quietSpectra[k] += 1;
    }
  }

  result(): SweepReading {
    return followedLine(this.lines, this.settings);
  }

  end(): void {
    this.chain.end();
  }
}

/** Power of a line, its centre in bins, and what as many bins of the quieter neighbourhood hold. */
function lineAt(power: Float64Array, top: number, half: number) {
  const width = 2 * half + 1;
  const mean = (from: number, to: number): number => {
    let sum = 0;
    let n = 0;
    for (let k = Math.max(1, from); k <= Math.min(power.length - 1, to); k++, n++) sum += power[k];
    return n === 0 ? Number.POSITIVE_INFINITY : sum / n;
  };
  const floorDensity = Math.min(mean(top - 3 * half - 2, top - half - 2), mean(top + half + 2, top + 3 * half + 2));
  let sum = 0;
  let moment = 0;
  for (let k = Math.max(1, top - half); k <= Math.min(power.length - 1, top + half); k++) {
    const over = Math.max(0, power[k] - floorDensity);
    sum += over;
    moment += over * k;
  }
  const floor = Number.isFinite(floorDensity) ? floorDensity * width : 0;
  return { power: sum, centre: sum > 0 ? moment / sum : top, floor };
}
