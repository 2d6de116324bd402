/**
 * A track cut into pieces that could each be one band: where the tone stops for a moment, where its level, its motion or
 * its frequency steps, and where a steady tone turns into a sweep.
 *
 * Steps are looked for with medians over a quarter of a second on either side, so that clicks do not count, and must hold
 * over a second. Wow, flutter and slow drift are no steps: 2.2 % or 2.2 dB within a quarter of a second are.
 */

import { median } from '../signal/robust.ts';
import { CROSSOVER_HZ, type HopSpectra } from './hopSpectra.ts';
import type { Line } from './lineStore.ts';
import { OCTAVES, octaveAt } from './octaveRanges.ts';
import { power, type Track } from './toneTracks.ts';

export interface Piece {
  readonly kind: 'steady' | 'moving';
  /** the points inside the piece, in order */
  readonly points: readonly Line[];
  /** the whole track, for what lies just outside */
  readonly track: Track;
  readonly fromHop: number;
  /** one past the last */
  readonly toHop: number;
  /** the boundary is a step within the track: the tone goes on beyond it */
  readonly startsAtStep: boolean;
  readonly endsAtStep: boolean;
}

/** a tone that sinks by this much, power, is gone */
const GONE = 1 / 8;
const STEP_DB = 2.2;
const STEP_FREQUENCY = 0.022;
const WINDOW = 6;
const LEAST_SIDE = 12;
/** ln f off the middle; wow of ±1 % stays within */
const STRAY = 0.025;
/** what lies further below the stronger channel is leak and noise, dB */
const LEAK_DB = 11;

export function trackSegments(track: Track, spectra: HopSpectra): Piece[] {
  return whereSounding(track, spectra).flatMap((run) => {
    const parts = byMovement(run);
    return parts.flatMap(({ kind, points }) => {
      const runs = kind === 'steady' ? byStep(points).map(withoutStrays) : [points];
      return runs.map(
        (inside): Piece => ({
          kind,
          points: inside,
          track,
          fromHop: inside[0].hop,
          toHop: inside[inside.length - 1].hop + 1,
          startsAtStep: inside[0] !== run[0],
          endsAtStep: inside[inside.length - 1] !== run[run.length - 1],
        }),
      );
    });
  });
}

/** Runs without a pause. A pause is four hops without the tone, or three in which nothing else could have hidden it. */
function whereSounding(track: Track, spectra: HopSpectra): Line[][] {
  const levels = track.map(power);
  const runs: Line[][] = [];
  let run: Line[] = [];
  track.forEach((point, i) => {
    const around = median(levels.slice(Math.max(0, i - 12), i + 13));
    if (levels[i] < GONE * around) return;
    const last = run[run.length - 1];
    if (last !== undefined) {
      const missing = point.hop - last.hop - 1;
      let quiet = 0;
      for (let hop = last.hop + 1; hop < point.hop; hop++) if (isQuiet(hop, point, around, spectra)) quiet += 1;
      if (missing >= 4 || quiet >= 3) {
        runs.push(run);
        run = [];
      }
    }
    run.push(point);
  });
  if (run.length > 0) runs.push(run);
  return runs;
}

/** Nothing in the tone's octave is near its level. */
function isQuiet(hop: number, { frequencyHz }: Line, level: number, spectra: HopSpectra): boolean {
  if (frequencyHz < CROSSOVER_HZ) return false;
  const { left, right } = spectra.octave(hop, Math.min(OCTAVES - 1, octaveAt(frequencyHz)));
  return left + right < 0.3 * level;
}

interface Part {
  readonly kind: 'steady' | 'moving';
  readonly points: readonly Line[];
}

/** A run is steady, or moving, or moving with a steady stretch of two seconds before or after. */
function byMovement(points: readonly Line[]): Part[] {
  const lnF = points.map((p) => Math.log(p.frequencyHz));
  if (!isMoving(lnF)) return [{ kind: 'steady', points }];
  const hold = steadyStart(lnF);
  const tail = steadyStart([...lnF].reverse());
  const parts: Part[] = [
    { kind: 'steady', points: points.slice(0, hold) },
    { kind: 'moving', points: points.slice(hold, points.length - tail) },
    { kind: 'steady', points: points.slice(points.length - tail) },
  ];
  return parts.filter((part) => part.points.length > 0);
}

/** More than 6 % from end to end, most of it in one direction. */
function isMoving(lnF: readonly number[]): boolean {
  const n = lnF.length;
  if (n < 8) return false;
  const eighth = Math.max(1, n >> 3);
  const ends = median(lnF.slice(n - eighth)) - median(lnF.slice(0, eighth));
  if (Math.abs(ends) < 0.06) return false;
  // Steps between three stays are not movement: the path must be spread over the run.
  let along = 0;
  const stride = Math.max(1, n >> 4);
  for (let i = stride; i < n; i += stride)
    if ((lnF[i] - lnF[i - stride]) * ends > 0.2 * ((ends * ends) / 16)) along += 1;
  return along >= 0.6 * Math.floor((n - 1) / stride);
}

/** How many points at the start keep within ±1.1 % and do not drift. */
function steadyStart(lnF: readonly number[]): number {
  const LEAST = 40;
  let low = Infinity;
  let high = -Infinity;
  let n = 0;
  while (n < lnF.length) {
    low = Math.min(low, lnF[n]);
    high = Math.max(high, lnF[n]);
    if (high - low > 0.022) break;
    n += 1;
  }
  if (n < LEAST) return 0;
  const quarter = n >> 2;
  return Math.abs(median(lnF.slice(0, quarter)) - median(lnF.slice(n - quarter, n))) < 0.006 ? n : 0;
}

/** Cuts at the clearest step, then looks again in both parts. */
function byStep(points: readonly Line[]): (readonly Line[])[] {
  const n = points.length;
  if (n < 2 * LEAST_SIDE) return [points];
  const low = points[0].frequencyHz < CROSSOVER_HZ;
  // The slow spectrum needs four hops to pass from one level to the next.
  const guard = low ? 4 : 0;
  let best = 0;
  let at = -1;
  for (let i = LEAST_SIDE; i < n - LEAST_SIDE; i += 2) {
    const before = points.slice(Math.max(0, i - guard - WINDOW), i - guard);
    const after = points.slice(i + guard + 1, i + guard + 1 + WINDOW);
    const step = stepBetween(before, after, low ? 1.2 : 1);
    if (step > best) {
      best = step;
      at = i;
    }
  }
  if (best < 1) return [points];
  const side = (from: number, to: number): readonly Line[] => points.slice(Math.max(0, from), Math.max(0, to));
  const before = side(at - guard - 26, at - guard - 3);
  const after = side(at + guard + 3, at + guard + 26);
  if (stepBetween(before, after, 1) < 0.85) return [points];
  const cut = turningPoint(points, at, guard + 6, typical(before), typical(after));
  return [...byStep(points.slice(0, cut)), ...byStep(points.slice(cut))];
}

/** The index near `at` from which on the points are more like what comes after. */
function turningPoint(points: readonly Line[], at: number, reach: number, a: Typical, b: Typical): number {
  let best = at;
  let most = -Infinity;
  let sum = 0;
  for (let i = Math.max(1, at - reach); i < Math.min(points.length - 1, at + reach); i++) {
    // Prefix sums of "nearer to before": the largest one ends where the turn is.
    const p = typical([points[i - 1]]);
    sum += distance(p, b) - distance(p, a);
    if (sum > most) {
      most = sum;
      best = i;
    }
  }
  return best;
}

function distance(a: Typical, b: Typical): number {
  return (
    Math.min(3, Math.abs(a.leftDb - b.leftDb) / STEP_DB) +
    Math.min(3, Math.abs(a.rightDb - b.rightDb) / STEP_DB) +
    Math.min(3, Math.abs(a.lnF - b.lnF) / STEP_FREQUENCY) +
    (a.balanced && b.balanced ? Math.abs(a.coherence - b.coherence) : 0)
  );
}

/** Without points at the ends that came from another line: a harmonic's trail, or noise where the tone was not yet. */
function withoutStrays(points: readonly Line[]): readonly Line[] {
  const centre = median(points.map((p) => Math.log(p.frequencyHz)));
  // While a low tone begins, the slow spectrum still mixes it with what was there before.
  const reach = (p: Line): number => (p.frequencyHz < CROSSOVER_HZ ? STRAY + 6 / p.frequencyHz : STRAY);
  const near = (p: Line): boolean => Math.abs(Math.log(p.frequencyHz) - centre) < reach(p);
  const first = points.findIndex(near);
  const last = points.findLastIndex(near);
  return first < 0 ? points : points.slice(first, last + 1);
}

/** 1 where a step is just large enough to count. */
function stepBetween(before: readonly Line[], after: readonly Line[], slack: number): number {
  if (before.length < 3 || after.length < 3) return 0;
  const a = typical(before);
  const b = typical(after);
  const turned = a.coherence * b.coherence < -0.25 && a.balanced && b.balanced ? 2 : 0;
  return Math.max(
    Math.abs(a.leftDb - b.leftDb) / STEP_DB,
    Math.abs(a.rightDb - b.rightDb) / STEP_DB,
    Math.abs(a.lnF - b.lnF) / (STEP_FREQUENCY * slack),
    turned,
  );
}

interface Typical {
  readonly leftDb: number;
  readonly rightDb: number;
  readonly lnF: number;
  readonly coherence: number;
  /** both channels speak */
  readonly balanced: boolean;
}

function typical(points: readonly Line[]): Typical {
  const left = median(points.map((p) => p.left));
  const right = median(points.map((p) => p.right));
  const strongest = Math.max(left, right, 1e-30);
  const db = (v: number): number => 10 * Math.log10(Math.max(v, strongest * 10 ** (-LEAK_DB / 10)));
  return {
    leftDb: db(left),
    rightDb: db(right),
    lnF: median(points.map((p) => Math.log(p.frequencyHz))),
    coherence: median(points.map((p) => p.cross / Math.sqrt(p.left * p.right + 1e-30))),
    balanced: Math.min(left, right) > 0.05 * strongest,
  };
}
