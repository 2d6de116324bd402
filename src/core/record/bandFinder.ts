/**
 * Finds the bands of a whole recorded side without being told the record, from blocks in order.
 *
 * The ear (hopSpectra.ts) turns every 23 to 46 ms into a few numbers; at the end, or any time while the record plays,
 * these are looked at as a whole: lines into tracks, tracks into pieces, pieces into bands, then what lies between.
 * docs/methods/finding-bands.md tells the method and its limits.
 *
 * @checked bandFinder.test.ts; test/faults/bandFinding.test.ts over seeds, rates and faults
 */

import { type Problem, problem } from '../capture/problem.ts';
import type { StereoBlock } from '../capture/recording.ts';
import type { Band } from './band.ts';
import { heardLines } from './heardLines.ts';
import { channelBalance, heardMotion } from './heardMotion.ts';
import { HOP, HopSpectra, type HopsPart, type KeptHops } from './hopSpectra.ts';
import { LevelTrace, type Overview } from './levelTrace.ts';
import { noiseAndSilence, type QuietPart } from './noiseAndSilence.ts';
import type { Shelf } from './shelf.ts';
import type { Stretch } from './stretch.ts';
import { type ToneBand, toneBands } from './toneBands.ts';
import { toneTracks } from './toneTracks.ts';

export type { Overview } from './levelTrace.ts';

export interface BandFinderOptions {
  /** Hz, 8000 to 768000 */
  readonly sampleRateHz: number;
  /** for a stretch of a capture, see `part`: its hops, counted from the first one pushed */
  readonly kept?: KeptHops;
  /** where what is kept of long captures goes; without one it stays in memory, 0.4 MB a minute */
  readonly shelf?: Shelf | null;
}

/** What the finder keeps of a stretch of a capture: plain data, to be joined with its neighbours. */
export interface HeardPart {
  readonly frames: number;
  readonly hops: HopsPart;
  /** mean squares of left and right, hop by hop */
  readonly levels: Float64Array;
}

export interface FoundBands {
  readonly bands: Band[];
  /** what lies between bands and may be worth hearing, in order */
  readonly stretches: Stretch[];
  readonly problems: Problem[];
  readonly overview: Overview;
}

/** A band as heard in the last seconds: provisional, for a live input. */
export interface LateBand {
  readonly band: Omit<Band, 'index'>;
  /** nothing has ended it yet */
  readonly isPlaying: boolean;
  /** it began before what was looked at; its `startS` is then no edge */
  readonly beganEarlier: boolean;
}

/** s kept between a band's edge and its steady part */
const TRIM_S = 0.055;
/** s without it that end a band, for `heardLately` */
const GONE_S = 0.25;
/** s about the moment that `heardLately` looks back to, within which a start is no edge */
const CUT_S = 0.5;
const LEAST_POINTS = 8;

interface Heard {
  readonly band: Omit<Band, 'index'>;
  /** s, the edges themselves */
  readonly startS: number;
  readonly endS: number;
}

export class BandFinder {
  private readonly spectra: HopSpectra;
  private readonly trace = new LevelTrace();
  private done: FoundBands | null = null;
  private joined = false;
  private readonly levels: number[] = [];

  constructor({ sampleRateHz, kept, shelf = null }: BandFinderOptions) {
    this.spectra = new HopSpectra(
      sampleRateHz,
      ({ left, right }) => {
        if (kept === undefined) this.trace.add(left, right);
        else this.levels.push(left, right);
      },
      kept,
      shelf,
    );
  }

  push({ left, right, frames }: Pick<StereoBlock, 'left' | 'right' | 'frames'>): void {
    if (this.done !== null) throw new RangeError('push after finish: a new recording needs a new BandFinder');
    if (!(frames >= 0 && frames <= left.length && frames <= right.length)) {
      throw new RangeError(`frames ${frames} must be from 0 to ${Math.min(left.length, right.length)}`);
    }
    this.spectra.push(left, right, frames);
  }

  /**
   * What was heard in the hops to keep, for another finder to join.
   *
   * @param frames of the capture, that these hops stand for @param isLast nothing comes after them
   */
  part(frames: number, isLast: boolean): HeardPart {
    if (isLast) this.spectra.finish();
    return { frames, hops: this.spectra.part(), levels: Float64Array.from(this.levels) };
  }

  /** Takes over a stretch that follows what is known so far. A finder either joins stretches or is pushed blocks. */
  append({ frames, hops, levels }: HeardPart): void {
    this.joined = true;
    this.spectra.append(hops, frames);
    for (let i = 0; i < levels.length; i += 2) this.trace.add(levels[i], levels[i + 1]);
  }

  finish(): FoundBands {
    if (this.done !== null) return this.done;
    const { spectra } = this;
    if (!this.joined) spectra.finish();
    const { heard, parts } = hear(spectra, 0);
    const bands = heard.map(({ band }, index): Band => ({ index, ...band }));
    const problems: Problem[] = [];
    if (bands.length === 0) problems.push(problem('no-bands'));
    heard.forEach(({ startS, endS }, i) => {
      if (startS < 0.06)
        problems.push(problem('band-cut-start', { band: i + 1 }, { startS: 0, endS: bands[i].startS }));
      if (endS > spectra.durationS - 0.06) {
        problems.push(problem('band-cut-end', { band: i + 1 }, { startS: bands[i].endS, endS: spectra.durationS }));
      }
    });
    const stretches = stretchesOf(parts, bands, spectra.durationS);
    this.done = { bands, stretches, problems, overview: this.trace.overview(spectra.hopS, spectra.durationS) };
    return this.done;
  }

  /** s from the capture's first frame to the end of what can be told by now */
  get heardS(): number {
    return this.spectra.timeOf(this.spectra.hops);
  }

  /** frames of the capture between two moments at which there is something new to hear */
  get hopFrames(): number {
    return HOP * this.spectra.ratio;
  }

  /**
   * The bands of the last seconds, in order; may be asked at any time. Cost: about half a millisecond a second looked back.
   *
   * @param lookBackS s, 4 up
   */
  heardLately(lookBackS: number): LateBand[] {
    const { spectra, heardS } = this;
    const fromHop = Math.max(0, spectra.hops - Math.ceil(lookBackS / spectra.hopS));
    const fromS = spectra.timeOf(fromHop);
    return hear(spectra, fromHop).heard.map(({ band, startS, endS }) => ({
      band,
      isPlaying: endS >= heardS - GONE_S,
      beganEarlier: fromHop > 0 && startS < fromS + CUT_S,
    }));
  }
}

/** Everything from `fromHop` on. */
function hear(spectra: HopSpectra, fromHop: number): { heard: Heard[]; parts: QuietPart[] } {
  const { hops } = spectra;
  const linesOf = heardLines(spectra);
  const tones = toneBands(toneTracks(spectra, linesOf, fromHop, hops, LEAST_POINTS), linesOf, spectra);
  const parts = noiseAndSilence(spectra, tones, fromHop, hops);
  const noises = parts.filter((p) => p.kind === 'noise');
  const balance = channelBalance([...tones, ...noises]);
  const heard = [
    ...tones.map((b) => heardTone(b, heardMotion(b, balance))),
    ...noises.map((p) => heardPart(p, heardMotion(p, balance))),
    ...parts.filter((p) => p.kind === 'silent-groove').map((p) => heardPart(p, 'none')),
  ].sort((a, b) => a.startS - b.startS);
  return { heard, parts };
}

/** s heard before the tip meets the groove, and after it at most */
const BEFORE_DROP_S = 0.1;
const AFTER_DROP_S = 3;

/** The tip in the air, and coming down where sound follows. */
function stretchesOf(parts: readonly QuietPart[], bands: readonly Band[], durationS: number): Stretch[] {
  return parts
    .filter((part) => part.kind === 'needle-up')
    .flatMap(({ startS, endS }): Stretch[] => {
      const up: Stretch = { kind: 'tip-up', startS: rounded(startS, 4), endS: rounded(endS, 4) };
      if (endS > durationS - TRIM_S) return [up];
      const next = bands.find((band) => band.startS > endS)?.startS ?? durationS;
      const from = rounded(Math.max(startS, endS - BEFORE_DROP_S), 4);
      return [up, { kind: 'tip-drop', startS: from, endS: rounded(Math.min(next, endS + AFTER_DROP_S), 4) }];
    });
}

const rounded = (value: number, digits: number): number => Number(value.toFixed(digits));

function heardTone(b: ToneBand, motion: Band['motion']): Heard {
  const startS = rounded(Math.max(b.startS + TRIM_S, b.steadyFromS), 4);
  const endS = rounded(Math.max(startS, Math.min(b.endS - TRIM_S, b.steadyToS)), 4);
  const frequencyHz = rounded(b.frequencyHz, 3);
  const otherHz = b.otherHz === null ? null : rounded(b.otherHz, 3);
  const common = { startS, endS, signal: b.signal, motion, radiusMm: null, sheetBand: null };
  const band: Heard['band'] =
    b.signal === 'tone' || otherHz === null
      ? { ...common, frequencyHz }
      : b.signal === 'sweep'
        ? { ...common, frequencyHz: null, fromHz: frequencyHz, toHz: otherHz }
        : {
            ...common,
            frequencyHz: null,
            frequenciesHz: frequencyHz < otherHz ? [frequencyHz, otherHz] : [otherHz, frequencyHz],
          };
  return { band, startS: b.startS, endS: b.endS };
}

function heardPart(p: QuietPart, motion: Band['motion']): Heard {
  return {
    band: {
      startS: rounded(p.startS + TRIM_S, 4),
      endS: rounded(p.endS - TRIM_S, 4),
      signal: p.kind === 'noise' ? 'noise' : 'silent-groove',
      motion,
      frequencyHz: null,
      radiusMm: null,
      sheetBand: null,
    },
    startS: p.startS,
    endS: p.endS,
  };
}
