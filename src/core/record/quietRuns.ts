/**
 * Stretches between tones, cut where the levels of their octaves step by 3 dB within a fifth of a second. Medians and the
 * lower quartile carry it, so that clicks neither cut a stretch nor make it restless.
 */
import { median } from '../signal/robust.ts';
import type { HopSpectra } from './hopSpectra.ts';
import { OCTAVES } from './octaveRanges.ts';

/** octaves that tell groove, noise and needle-up apart: 700 Hz to 11 kHz */
export const FIRST = 5;
export const LAST = 8;
const STEP_DB = 3;
const WINDOW = 4;
const BURST_HOPS = 20;

/** dB by hop of one stretch: total, left and right over FIRST…LAST, then the total of each octave; the floors are seldom asked for. */
export class HopLevels {
  readonly total: Float64Array;
  readonly left: Float64Array;
  readonly right: Float64Array;
  readonly octaves: readonly Float64Array[];
  readonly from: number;
  private readonly spectra: HopSpectra;

  constructor(spectra: HopSpectra, from: number, to: number) {
    const n = Math.max(0, to - from);
    this.from = from;
    this.spectra = spectra;
    this.total = new Float64Array(n);
    this.left = new Float64Array(n);
    this.right = new Float64Array(n);
    this.octaves = Array.from({ length: OCTAVES }, () => new Float64Array(n));
    for (let i = 0; i < n; i++) {
      let l = 0;
      let r = 0;
      for (let o = 0; o < OCTAVES; o++) {
        const v = spectra.octave(from + i, o);
        this.octaves[o][i] = db(v.left + v.right);
        if (o >= FIRST && o <= LAST) {
          l += v.left;
          r += v.right;
        }
      }
      this.total[i] = db(l + r);
      // What lies 20 dB under the other channel is leak, and its clicks are not the band's.
      this.left[i] = db(Math.max(l, 0.01 * r));
      this.right[i] = db(Math.max(r, 0.01 * l));
    }
  }

  /** See `floorDb`; hops are counted from the levels' own first. */
  floorDb(octave: number, from: number, to: number): number {
    return floorDb(this.spectra, octave, this.from + from, this.from + to);
  }

  /** the series whose steps count; the lowest octaves and the highest are rumble's and the preamp's */
  get watched(): readonly Float64Array[] {
    return this.octaves.slice(3, OCTAVES);
  }
}

/** Median floor between the lines of an octave, dB. @param from @param to hops of the capture */
export function floorDb(spectra: HopSpectra, octave: number, from: number, to: number): number {
  const part = new Float64Array(Math.max(0, to - from));
  for (let i = 0; i < part.length; i++) part[i] = db(spectra.octave(from + i, octave).floor);
  return medianOf(part, 0, part.length);
}

/** A stretch of one kind; hops are counted from the levels' own first. */
export interface Run {
  readonly from: number;
  readonly to: number;
  readonly totalDb: number;
  readonly leftDb: number;
  readonly rightDb: number;
  readonly octaveDb: readonly number[];
  /** floor between lines, by octave */
  readonly floorDb: readonly number[];
  /** last third over first third, dB */
  readonly driftDb: number;
  /** how far the total's lower quartile lies under its median, doubled, dB: clicks do not count */
  readonly unrestDb: number;
}

const db = (power: number): number => 10 * Math.log10(power + 1e-13);
const medianOf = (series: Float64Array, from: number, to: number): number =>
  to > from ? median(series.subarray(from, to)) : -130;

/** Cuts hops `from` … `to` where their spectrum steps, and joins again what only clicks had cut. */
export function runsIn(levels: HopLevels, from: number, to: number): Run[] {
  const cuts = [from];
  const score = (i: number): number => {
    const a = Math.max(from, i - WINDOW);
    const b = Math.min(to, i + WINDOW);
    const step = (series: Float64Array): number => Math.abs(medianOf(series, i, b) - medianOf(series, a, i));
    const octaves = levels.watched.map(step);
    const mean = octaves.reduce((sum, d) => sum + d, 0) / octaves.length;
    return Math.max(mean, step(levels.left), step(levels.right)) / STEP_DB;
  };
  const steps = new Float64Array(to - from);
  for (let i = from + 3; i < to - 2; i++) steps[i - from] = score(i);
  for (let i = from + 3; i < to - 2; i++) {
    const s = steps[i - from];
    if (s < 1) continue;
    const near = steps.subarray(Math.max(0, i - from - WINDOW), i - from + WINDOW + 1);
    if (s < Math.max(...near) || i - cuts[cuts.length - 1] < 3) continue;
    cuts.push(sharpest(levels, i, from, to));
  }
  cuts.push(to);
  const runs: Run[] = [];
  for (let i = 1; i < cuts.length; i++) {
    if (cuts[i] - cuts[i - 1] < 2) continue;
    const next = describe(levels, cuts[i - 1], cuts[i]);
    const last = runs[runs.length - 1];
    if (last !== undefined && alike(last, next)) runs[runs.length - 1] = describe(levels, last.from, next.to);
    else runs.push(next);
  }
  return withoutBursts(levels, runs);
}

/** Clicks and scratches for less than a second do not end what goes on after them. */
function withoutBursts(levels: HopLevels, runs: readonly Run[]): Run[] {
  const joined: Run[] = [];
  for (let i = 0; i < runs.length; i++) {
    let whole = runs[i];
    for (let j = i + 1; j < runs.length && runs[j].from - whole.to < BURST_HOPS; j++) {
      if (!alike(whole, runs[j]) || Math.min(whole.to - whole.from, runs[j].to - runs[j].from) < 5) continue;
      // A pause is quieter than what it parts, a burst is louder.
      const between = describe(levels, whole.to, runs[j].from);
      if (runs[j].from > whole.to && between.totalDb < whole.totalDb - 3) break;
      whole = describe(levels, whole.from, runs[j].to);
      i = j;
    }
    joined.push(trimmed(levels, whole));
  }
  return joined;
}

/** Without loud or soft hops at its ends: a click beside a step moves the cut. */
function trimmed(levels: HopLevels, run: Run): Run {
  const off = (i: number): boolean => Math.abs(levels.total[i] - run.totalDb) > 4;
  let { from, to } = run;
  while (to - from > 4 && from < run.from + 8 && (off(from) || off(from + 1))) from += 1;
  while (to - from > 4 && to > run.to - 8 && (off(to - 1) || off(to - 2))) to -= 1;
  return { ...run, from, to };
}

/** The hop near i that best parts what is like the hops before from what is like those after. */
function sharpest({ total, left, right }: HopLevels, i: number, from: number, to: number): number {
  let best = i;
  let least = Infinity;
  const a = Math.max(from, i - 4);
  const b = Math.min(to, i + 5);
  const sides = [total, left, right].map((series) => ({
    series,
    before: medianOf(series, Math.max(from, i - 9), Math.max(from + 1, i - 2)),
    after: medianOf(series, Math.min(to - 1, i + 2), Math.min(to, i + 9)),
  }));
  for (let k = a + 1; k < b; k++) {
    let cost = 0;
    for (const { series, before, after } of sides) {
      for (let j = a; j < b; j++) cost += Math.min(12, Math.abs(series[j] - (j < k ? before : after)));
    }
    if (cost < least) {
      least = cost;
      best = k;
    }
  }
  return best;
}

function describe(levels: HopLevels, from: number, to: number): Run {
  const inner = to - from > 6 ? 1 : 0;
  const third = Math.max(1, Math.floor((to - from - 2 * inner) / 3));
  const m = (series: Float64Array): number => medianOf(series, from + inner, to - inner);
  const sorted = levels.total.slice(from + inner, to - inner).sort();
  return {
    from,
    to,
    totalDb: m(levels.total),
    leftDb: m(levels.left),
    rightDb: m(levels.right),
    octaveDb: levels.octaves.map(m),
    floorDb: levels.octaves.map((_, o) => levels.floorDb(o, from + inner, to - inner)),
    driftDb:
      medianOf(levels.total, to - inner - third, to - inner) -
      medianOf(levels.total, from + inner, from + inner + third),
    unrestDb: 2 * (sorted[Math.floor(0.5 * (sorted.length - 1))] - sorted[Math.floor(0.25 * (sorted.length - 1))]),
  };
}

function alike(a: Run, b: Run): boolean {
  const octaves = a.octaveDb.slice(3).map((v, i) => Math.abs(v - b.octaveDb[3 + i]));
  const mean = octaves.reduce((sum, d) => sum + d, 0) / octaves.length;
  return mean < 2.2 && Math.abs(a.leftDb - b.leftDb) < 2.5 && Math.abs(a.rightDb - b.rightDb) < 2.5;
}
