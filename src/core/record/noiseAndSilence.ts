/**
 * What lies between tones: noise bands, unmodulated groove, and the needle up.
 *
 * The groove's own noise is known from the stretches between bands, or from between the lines of the tones themselves. A
 * stretch (quietRuns.ts) is
 *
 * - needle up, when its noise from 700 Hz to 11 kHz lies 7 dB or more under the groove's, or it is digital silence;
 * - noise, when it is steady and lies 10 dB or more over it, 8 dB where it is cut in one direction (5 dB more before the
 *   first and after the last band, where lead-in and lead-out may be rough);
 * - silent groove, when it is neither and stays steady for three seconds.
 *
 * A capture without any tone and with one level only has nothing to compare with: then noise is what is louder than
 * −45 dBFS, and the needle is up where nothing is louder than −78 dBFS.
 */

import { median } from '../signal/robust.ts';
import type { ChannelPowers } from './heardMotion.ts';
import type { HopSpectra } from './hopSpectra.ts';
import { OCTAVES } from './octaveRanges.ts';
import { covered } from './pieceEdges.ts';
import { FIRST, floorDb, HopLevels, LAST, type Run, runsIn } from './quietRuns.ts';

export interface QuietPart extends ChannelPowers {
  readonly kind: 'noise' | 'silent-groove' | 'needle-up' | 'other';
  readonly startS: number;
  readonly endS: number;
}

export interface Span {
  readonly startS: number;
  readonly endS: number;
}

const LEAST_NOISE_S = 0.9;
const MOST_DRIFT_DB = 1.5;
const MOST_LINE_DB = 7;
const LEAST_UNDIRECTED_S = 2.5;
const LEAST_SILENT_S = 3;
const DIGITAL_SILENCE_DB = -115;
/** without any tone to go by: louder is noise, softer is a needle in the air */
const NOISE_ALONE_DB = -45;
const AIR_ALONE_DB = -78;
/** under the groove's noise by this much, the needle is up */
const AIR_DB = 7;
/** the floor between lines reads lower than the mean of the same noise */
const FLOOR_BIAS_DB = 2.5;

export function noiseAndSilence(
  spectra: HopSpectra,
  tones: readonly Span[],
  fromHop: number,
  toHop: number,
): QuietPart[] {
  const runs = between(tones, spectra, fromHop, toHop).flatMap((gap) => runsOf(spectra, gap, fromHop, toHop));
  const groove = grooveNoise(spectra, tones, runs, fromHop, toHop);
  return runs.map((run) => part(run, spectra, groove, tones));
}

/** Hops of the capture between tones. */
interface Gap {
  readonly from: number;
  readonly to: number;
}

/** A run in hops of the capture. */
interface EdgedRun extends Run {
  /** hops, the part of the one before it, and after it, that it fills */
  readonly lead: number;
  readonly trail: number;
}

/** Levels are made of one gap at a time, a hop more on either side, so that a long capture's are never held all at once. */
function runsOf(spectra: HopSpectra, { from, to }: Gap, fromHop: number, toHop: number): EdgedRun[] {
  const first = Math.max(fromHop, from - 1);
  const levels = new HopLevels(spectra, first, Math.min(toHop, to + 1));
  return runsIn(levels, from - first, to - first).map((run) => ({
    ...run,
    from: first + run.from,
    to: first + run.to,
    lead: leadOf(levels, run, -1),
    trail: leadOf(levels, run, 1),
  }));
}

/** Hops wholly outside the tones. */
function between(tones: readonly Span[], spectra: HopSpectra, fromHop: number, toHop: number): Gap[] {
  const hopOf = (s: number): number => (s - spectra.timeOf(0)) / spectra.hopS;
  const gaps: Gap[] = [];
  let from = fromHop;
  for (const { startS, endS } of tones) {
    const to = Math.floor(hopOf(startS) - 0.3);
    if (to - from >= 3) gaps.push({ from, to });
    from = Math.max(from, Math.ceil(hopOf(endS) + 0.3));
  }
  if (toHop - from >= 3) gaps.push({ from, to: toHop });
  return gaps;
}

/** Octave levels of the groove's own noise, dB, or null where nothing tells. */
function grooveNoise(
  spectra: HopSpectra,
  tones: readonly Span[],
  runs: readonly Run[],
  fromHop: number,
  toHop: number,
): readonly number[] | null {
  if (tones.length === 0) {
    const steady = runs.filter(
      (r) => r.to - r.from > 20 && r.unrestDb < 3 && r.totalDb > AIR_ALONE_DB && r.totalDb < NOISE_ALONE_DB,
    );
    return steady.sort((a, b) => a.totalDb - b.totalDb)[0]?.octaveDb ?? null;
  }
  const hopOf = (s: number): number => (s - spectra.timeOf(0)) / spectra.hopS;
  const first = hopOf(tones[0].startS);
  const last = hopOf(tones[tones.length - 1].endS);
  // Between the lines of a tone there is never less than the groove's noise.
  const ceiling = Array.from({ length: OCTAVES }, (_, o) => {
    let under = Number.POSITIVE_INFINITY;
    for (const { startS, endS } of tones) {
      const from = Math.max(fromHop, Math.ceil(hopOf(startS) + 1));
      const to = Math.min(toHop, Math.max(fromHop, Math.floor(hopOf(endS) - 1)));
      under = Math.min(under, floorDb(spectra, o, from, to));
    }
    return under + FLOOR_BIAS_DB;
  });
  const over = (r: Run): number => median(r.octaveDb.map((v, o) => v - ceiling[o]).slice(FIRST, LAST + 1));
  const heard = runs.filter((r) => r.totalDb > DIGITAL_SILENCE_DB);
  // A noise band lies over the ceiling; a pause at it, or under it where the tone makes noise of its own.
  const inside = heard.filter((r) => r.from >= first && r.to <= last && over(r) < 6);
  if (inside.length > 0) return ofRuns(inside);
  const beside = heard.filter((r) => Math.abs(over(r)) < 10 && r.to - r.from > 8).sort((a, b) => over(b) - over(a));
  return beside.length > 0 ? beside[0].octaveDb : ceiling;
}

const ofRuns = (runs: readonly Run[]): number[] =>
  runs[0].octaveDb.map((_, o) => median(runs.map((r) => r.octaveDb[o])));

function part(run: EdgedRun, spectra: HopSpectra, groove: readonly number[] | null, tones: readonly Span[]): QuietPart {
  const startS = Math.max(0, spectra.timeOf(run.from - run.lead));
  const endS = Math.min(spectra.durationS, spectra.timeOf(run.to + run.trail));
  const outside = tones.length > 0 && (endS < tones[0].startS + 0.5 || startS > tones[tones.length - 1].endS - 0.5);
  const durationS = endS - startS;
  const powers = powersOf(run, spectra, groove);
  return { kind: kindOf(), startS, endS, ...powers };

  function kindOf(): QuietPart['kind'] {
    if (run.totalDb < DIGITAL_SILENCE_DB) return 'needle-up';
    const isNoise =
      run.unrestDb < 2 &&
      Math.abs(run.driftDb) < MOST_DRIFT_DB &&
      lineDb(run, groove) < MOST_LINE_DB &&
      durationS > LEAST_NOISE_S;
    if (groove === null) {
      if (run.totalDb < AIR_ALONE_DB) return 'needle-up';
      if (run.totalDb > NOISE_ALONE_DB) return isNoise ? 'noise' : 'other';
    }
    const over = run.octaveDb.map((v, o) => v - (groove ?? run.octaveDb)[o]);
    if (median(over.slice(FIRST, LAST + 1)) < -AIR_DB) return 'needle-up';
    const risen = over.slice(3).sort((a, b) => b - a)[1];
    // Surface noise has as much of either channel and nothing in common; a noise band is cut in some direction.
    const directed =
      Math.abs(10 * Math.log10(powers.left / powers.right)) > 8 ||
      Math.abs(powers.cross) > 0.6 * Math.sqrt(powers.left * powers.right);
    const isBand = isNoise && (directed || durationS > LEAST_UNDIRECTED_S);
    if (risen > (directed ? 8 : 10) + (outside ? 5 : 0)) return isBand ? 'noise' : 'other';
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
function powersOf(run: Run, spectra: HopSpectra, groove: readonly number[] | null): ChannelPowers {
  let left = 0;
  let right = 0;
  let cross = 0;
  for (let o = 4; o <= 7; o++) {
    const series: { left: number[]; right: number[]; cross: number[] } = { left: [], right: [], cross: [] };
    for (let i = run.from + 1; i < run.to - 1; i++) {
      const v = spectra.octave(i, o);
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
