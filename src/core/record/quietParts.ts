/**
 * What lies between tones: noise bands, unmodulated groove, and the needle up.
 *
 * Stretches without a tone are cut where their spectrum, in octaves, steps by 3 dB within a fifth of a second. The groove's
 * own noise is known from the stretches between bands, or from between the lines of the tones themselves. A stretch is
 *
 * - needle up, when its noise from 700 Hz to 11 kHz lies 7 dB or more under the groove's, or it is digital silence;
 * - noise, when it is steady and lies 10 dB or more over it, 8 dB where it is cut in one direction (5 dB more before the
 *   first and after the last band, where lead-in and lead-out may be rough);
 * - silent groove, when it is neither and stays steady for three seconds.
 *
 * A capture without any tone and with one level only has nothing to compare with: then noise is what is louder than
 * −45 dBFS, and the needle is up where nothing is louder than −78 dBFS.
 */
import type { ChannelPowers } from './heardMotion.ts';
import { type HopSpectra, OCTAVES } from './hopSpectra.ts';
import { covered } from './pieceEdges.ts';
import { median } from './toneTracks.ts';

export interface QuietPart extends ChannelPowers {
  readonly kind: 'noise' | 'silent-groove' | 'needle-up' | 'other';
  readonly startS: number;
  readonly endS: number;
}

export interface Span {
  readonly startS: number;
  readonly endS: number;
}

const FIRST = 5;
const LAST = 8;
const STEP_DB = 3;
const WINDOW = 4;
const BURST_HOPS = 20;
const LEAST_NOISE_S = 0.9;
const MOST_DRIFT_DB = 1.5;
const MOST_LINE_DB = 7;
const LEAST_UNDIRECTED_S = 2.5;
const LEAST_SILENT_S = 3;
const DIGITAL_SILENCE_DB = -115;

/** dB by hop: total, left and right over FIRST…LAST, then the total and the floor of each octave. */
class HopLevels {
  readonly total: Float64Array;
  readonly left: Float64Array;
  readonly right: Float64Array;
  readonly octaves: readonly Float64Array[];
  readonly floors: readonly Float64Array[];
  readonly from: number;

  constructor(spectra: HopSpectra, from: number, to: number) {
    const n = Math.max(0, to - from);
    this.from = from;
    this.total = new Float64Array(n);
    this.left = new Float64Array(n);
    this.right = new Float64Array(n);
    this.octaves = Array.from({ length: OCTAVES }, () => new Float64Array(n));
    this.floors = Array.from({ length: OCTAVES }, () => new Float64Array(n));
    for (let i = 0; i < n; i++) {
      let l = 0;
      let r = 0;
      for (let o = 0; o < OCTAVES; o++) {
        const v = spectra.octave(from + i, o);
        this.octaves[o][i] = db(v.left + v.right);
        this.floors[o][i] = db(v.floor);
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

  /** the series whose steps count; the lowest octaves and the highest are rumble's and the preamp's */
  get watched(): readonly Float64Array[] {
    return this.octaves.slice(3, OCTAVES);
  }
}

interface Run {
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
const medianOf = (series: Float64Array, from: number, to: number): number => {
  const part = series.slice(from, to).sort();
  return part.length === 0 ? -130 : part[part.length >> 1];
};

export function quietParts(spectra: HopSpectra, tones: readonly Span[], fromHop: number, toHop: number): QuietPart[] {
  const levels = new HopLevels(spectra, fromHop, toHop);
  const gaps = between(tones, spectra, fromHop, toHop);
  const runs = gaps.flatMap((gap) => runsIn(levels, gap.from - fromHop, gap.to - fromHop));
  const groove = grooveNoise(levels, spectra, tones, runs);
  return runs.map((run) => part(run, levels, spectra, groove, tones));
}

/** Hops wholly outside the tones. */
function between(tones: readonly Span[], spectra: HopSpectra, fromHop: number, toHop: number) {
  const hopOf = (s: number): number => (s - spectra.timeOf(0)) / spectra.hopS;
  const gaps: { from: number; to: number }[] = [];
  let from = fromHop;
  for (const { startS, endS } of tones) {
    const to = Math.floor(hopOf(startS) - 0.3);
    if (to - from >= 3) gaps.push({ from, to });
    from = Math.max(from, Math.ceil(hopOf(endS) + 0.3));
  }
  if (toHop - from >= 3) gaps.push({ from, to: toHop });
  return gaps;
}

function runsIn(levels: HopLevels, from: number, to: number): Run[] {
  const cuts = [from];
  const score = (i: number, window: number): number => {
    const a = Math.max(cuts[cuts.length - 1], i - window);
    const b = Math.min(to, i + window);
    const step = (series: Float64Array): number => Math.abs(medianOf(series, i, b) - medianOf(series, a, i));
    const octaves = levels.watched.map(step);
    const mean = octaves.reduce((sum, d) => sum + d, 0) / octaves.length;
    return Math.max(mean, step(levels.left), step(levels.right)) / STEP_DB;
  };
  const steps = new Float64Array(to - from);
  for (let i = from + 3; i < to - 2; i++) steps[i - from] = score(i, WINDOW);
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
      const both = describe(levels, whole.from, runs[j].to);
      whole = both;
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
    floorDb: levels.floors.map(m),
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

/** Octave levels of the groove's own noise, dB, or null where nothing tells. */
function grooveNoise(
  levels: HopLevels,
  spectra: HopSpectra,
  tones: readonly Span[],
  runs: readonly Run[],
): readonly number[] | null {
  if (tones.length === 0) {
    const steady = runs.filter((r) => r.to - r.from > 20 && r.unrestDb < 3 && r.totalDb > -78 && r.totalDb < -45);
    return steady.sort((a, b) => a.totalDb - b.totalDb)[0]?.octaveDb ?? null;
  }
  const hopOf = (s: number): number => (s - spectra.timeOf(0)) / spectra.hopS - levels.from;
  const first = hopOf(tones[0].startS);
  const last = hopOf(tones[tones.length - 1].endS);
  // Between the lines of a tone there is never less than the groove's noise.
  const under = levels.floors.map((series) =>
    Math.min(
      ...tones.map(({ startS, endS }) =>
        medianOf(series, Math.max(0, Math.ceil(hopOf(startS) + 1)), Math.max(0, Math.floor(hopOf(endS) - 1))),
      ),
    ),
  );
  const ceiling = under.map((floor) => floor + FLOOR_BIAS_DB);
  const over = (r: Run): number => middle(r.octaveDb.map((v, o) => v - ceiling[o]).slice(FIRST, LAST + 1));
  const heard = runs.filter((r) => r.totalDb > DIGITAL_SILENCE_DB);
  // A noise band lies over the ceiling; a pause at it, or under it where the tone makes noise of its own.
  const inside = heard.filter((r) => r.from >= first && r.to <= last && over(r) < 6);
  if (inside.length > 0) return ofRuns(inside);
  const beside = heard.filter((r) => Math.abs(over(r)) < 10 && r.to - r.from > 8).sort((a, b) => over(b) - over(a));
  return beside.length > 0 ? beside[0].octaveDb : ceiling;
}

const ofRuns = (runs: readonly Run[]): number[] =>
  runs[0].octaveDb.map((_, o) => median(runs.map((r) => r.octaveDb[o])));
const middle = (values: readonly number[]): number => median(values);

/** the floor between lines reads lower than the mean of the same noise */
const FLOOR_BIAS_DB = 2.5;

function part(
  run: Run,
  levels: HopLevels,
  spectra: HopSpectra,
  groove: readonly number[] | null,
  tones: readonly Span[],
): QuietPart {
  const startS = Math.max(0, spectra.timeOf(levels.from + run.from - leadOf(levels, run, -1)));
  const endS = Math.min(spectra.durationS, spectra.timeOf(levels.from + run.to + leadOf(levels, run, 1)));
  const outside = tones.length > 0 && (endS < tones[0].startS + 0.5 || startS > tones[tones.length - 1].endS - 0.5);
  const durationS = endS - startS;
  const powers = powersOf(run, levels, spectra, groove);
  return { kind: kindOf(), startS, endS, ...powers };

  function kindOf(): QuietPart['kind'] {
    if (run.totalDb < DIGITAL_SILENCE_DB) return 'needle-up';
    const isNoise =
      run.unrestDb < 2 &&
      Math.abs(run.driftDb) < MOST_DRIFT_DB &&
      lineDb(run, groove) < MOST_LINE_DB &&
      durationS > LEAST_NOISE_S;
    if (groove === null) {
      if (run.totalDb < -78) return 'needle-up';
      if (run.totalDb > -45) return isNoise ? 'noise' : 'other';
    }
    const over = run.octaveDb.map((v, o) => v - (groove ?? run.octaveDb)[o]);
    if (middle(over.slice(FIRST, LAST + 1)) < -7) return 'needle-up';
    const risen = over.slice(3).sort((a, b) => b - a)[1];
    // Surface noise has as much of either channel and nothing in common; a noise band is cut in some direction.
    const directed =
      Math.abs(10 * Math.log10(powers.left / powers.right)) > 8 ||
      Math.abs(powers.cross) > 0.6 * Math.sqrt(powers.left * powers.right);
    const isBand = isNoise && (directed || durationS > LEAST_UNDIRECTED_S);
    if (risen > (directed ? 8 : 10) + (outside ? 5 : 0)) {
      return isBand ? 'noise' : 'other';
    }
    return run.unrestDb < 3.5 && durationS >= LEAST_SILENT_S ? 'silent-groove' : 'other';
  }
}

/**
 * How far the floor between lines lies under the total, dB, median of the octaves that are louder than the groove: 2 to 5
 * for noise of any colour, much more for chords and voices.
 */
function lineDb(run: Run, groove: readonly number[] | null): number {
  const under = run.octaveDb
    .map((v, o) => ({ over: v - (groove?.[o] ?? -Infinity), lines: v - run.floorDb[o] }))
    .slice(2);
  const risen = under.filter(({ over }) => over > 8);
  return risen.length === 0 ? 0 : median(risen.map(({ lines }) => lines));
}

/** The part of the hop outside the run's first or last that its noise fills, from the power there. */
function leadOf({ total }: HopLevels, run: Run, side: 1 | -1): number {
  const i = side === 1 ? run.to : run.from - 1;
  if (i < 0 || i >= total.length) return 0;
  const share = 10 ** ((total[i] - run.totalDb) / 10);
  return share < 0.95 ? covered(Math.sqrt(share)) : 0;
}

/**
 * What each channel holds, the groove's own noise taken off, with every octave from 350 Hz to 5.6 kHz counting alike:
 * there separation is best, and white noise would speak of its top octave only.
 */
function powersOf(run: Run, levels: HopLevels, spectra: HopSpectra, groove: readonly number[] | null): ChannelPowers {
  let left = 0;
  let right = 0;
  let cross = 0;
  for (let o = 4; o <= 7; o++) {
    const series: { left: number[]; right: number[]; cross: number[] } = { left: [], right: [], cross: [] };
    for (let i = run.from + 1; i < run.to - 1; i++) {
      const v = spectra.octave(levels.from + i, o);
      series.left.push(v.left);
      series.right.push(v.right);
      series.cross.push(v.cross);
    }
    if (series.left.length === 0) continue;
    const l = median(series.left);
    const r = median(series.right);
    const noise = groove === null ? 0 : 10 ** (groove[o] / 10) / 2;
    const clear = (power: number): number => Math.max(0.1 * power, power - noise);
    const weight = 1 / (l + r + 1e-16);
    left += weight * clear(l);
    right += weight * clear(r);
    cross += weight * median(series.cross);
  }
  return { left: Math.max(1e-16, left), right: Math.max(1e-16, right), cross };
}
