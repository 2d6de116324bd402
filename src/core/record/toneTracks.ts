/**
 * Lines of successive hops joined into tracks, in frequency: a steady tone under wow, or a sweep.
 *
 * A line belongs to the track that expects it nearest: within 2.2 % (wow of ±1 % moves a tone by 0.2 % in a hop) and
 * 0.4 bin, along the track's own slope once it has one. A young track, which may be a sweep, accepts up to 12 %.
 */
import { median } from '../signal/robust.ts';
import type { LinesOfHop } from './heardLines.ts';
import { CROSSOVER_HZ, type HopSpectra } from './hopSpectra.ts';
import type { Line } from './lineStore.ts';

/** hops that may be missing (a click) before a track ends */
const MOST_MISSED = 3;
const YOUNG = 4;
/** ln f per hop; wow of ±1 % moves a tone by half of it */
const LEAST_SLOPE = 0.003;

/** Points in rising hops, at most one a hop, gaps of at most `MOST_MISSED`. */
export type Track = readonly Line[];

interface Growing {
  readonly points: Line[];
  /** change of ln f per hop */
  slope: number;
  missed: number;
}

/** Each as soon as it has ended, so that none need be held until the last one has. */
export function* toneTracks(
  spectra: HopSpectra,
  linesOf: LinesOfHop,
  fromHop: number,
  toHop: number,
  leastPoints: number,
): Generator<Track> {
  let growing: Growing[] = [];
  for (let hop = fromHop; hop < toHop; hop++) {
    const free = new Set(linesOf(hop));
    // Strong tracks choose first.
    growing.sort((a, b) => power(b.points[b.points.length - 1]) - power(a.points[a.points.length - 1]));
    for (const track of growing) {
      const line = nearest(track, free, hop, spectra);
      if (line === undefined) {
        track.missed += 1;
        continue;
      }
      free.delete(line);
      track.points.push(line);
      track.missed = 0;
      track.slope = slopeOf(track.points);
    }
    const ended = growing.filter((track) => track.missed > MOST_MISSED);
    if (ended.length > 0) growing = growing.filter((track) => track.missed <= MOST_MISSED);
    for (const line of free) growing.push({ points: [line], slope: 0, missed: 0 });
    for (const { points } of ended) if (points.length >= leastPoints) yield points;
  }
  for (const { points } of growing) if (points.length >= leastPoints) yield points;
}

export const power = (line: Line): number => line.left + line.right;

function nearest(track: Growing, free: ReadonlySet<Line>, hop: number, spectra: HopSpectra): Line | undefined {
  const { points, slope } = track;
  const last = points[points.length - 1];
  const expected = Math.log(last.frequencyHz) + slope * (hop - last.hop);
  const binHz = last.frequencyHz < CROSSOVER_HZ ? spectra.lowBinHz : spectra.mainBinHz;
  const young = points.length < YOUNG ? 0.1 : 0;
  const reach = 0.022 + young + 0.5 * Math.abs(slope) + (0.4 * binHz) / last.frequencyHz;
  let best: Line | undefined;
  let least = reach;
  for (const line of free) {
    const off = Math.abs(Math.log(line.frequencyHz) - expected);
    // A line 30 dB under the track is not its continuation while a better one may come.
    if (off < least && power(line) > 1e-3 * power(last)) {
      least = off;
      best = line;
    }
  }
  return best;
}

/** Median step of ln f per hop over the last few points; 0 while it is within what wow does. */
function slopeOf(points: readonly Line[]): number {
  const n = Math.min(7, points.length - 1);
  if (n < 3) return 0;
  const last = points[points.length - 1];
  const before = points[points.length - 1 - n];
  const mean = Math.log(last.frequencyHz / before.frequencyHz) / (last.hop - before.hop);
  // Most tracks stand still; the median is for those that move.
  if (Math.abs(mean) < 0.5 * LEAST_SLOPE) return 0;
  const steps: number[] = [];
  for (let i = points.length - n; i < points.length; i++) {
    steps.push(Math.log(points[i].frequencyHz / points[i - 1].frequencyHz) / (points[i].hop - points[i - 1].hop));
  }
  const slope = median(steps);
  return Math.abs(slope) > LEAST_SLOPE ? slope : 0;
}
