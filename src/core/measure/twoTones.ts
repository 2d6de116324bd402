/**
 * The two-tone bands of a side, solved: what each says of the tip's path, and of the tip's radius. Needs the record file's radius
 * and velocity; without them only the intermodulation can be told.
 */

import type { Band } from '../record/band.ts';
import type { SheetBand } from '../record/sheet.ts';
import type { Complex } from '../units/complex.ts';
import { playbackResponse } from './playbackEqualisation.ts';
import type { SideReadings } from './sideReadings.ts';
import type { ComplexLeaks } from './tilt.ts';
import { twoToneAxes } from './twoToneAxes.ts';
import type { ChannelLines, TwoToneReading } from './twoToneEstimator.ts';
import { solveTwoTone, type TwoToneSolution, type Undo } from './twoToneSolve.ts';

type Heard = Extract<TwoToneReading, { found: true }>;

/** A band that could be followed; swapped channels put right. */
export interface TwoToneBand {
  readonly band: Band;
  readonly cut: SheetBand | null;
  readonly heard: Heard;
}

export interface SolvedTwoTone extends TwoToneBand {
  readonly vertical: boolean;
  readonly radiusMm: number;
  /** groove, cm/s */
  readonly speed: number;
  /** lower tone, cm/s peak, as the record file states it */
  readonly velocity: number;
  readonly solution: TwoToneSolution;
  /** the leaks were known and undone */
  readonly leaksKnown: boolean;
}

export function twoToneBands({ passages = [], sheet, order }: SideReadings): TwoToneBand[] {
  return passages.flatMap(({ passage: { band }, readings: { twoTone } }): TwoToneBand[] => {
    if (band === null || twoTone === undefined || !twoTone.found) return [];
    const heard = order === 'swapped' ? { ...twoTone, left: twoTone.right, right: twoTone.left } : twoTone;
    return [{ band, cut: band.sheetBand === null ? null : (sheet?.bands[band.sheetBand] ?? null), heard }];
  });
}

/** Velocity of the lower tone: the band's stated peak is that of both together. */
export function lowerVelocity({ peakVelocityCmS, levelCorrectionDb = 0, ratio = 4 }: SheetBand): number | null {
  if (peakVelocityCmS === undefined) return null;
  return peakVelocityCmS * 10 ** (levelCorrectionDb / 20) * (ratio / (1 + ratio));
}

/** Groove speed, cm/s. */
export const grooveSpeed = (rpm: number, radiusMm: number): number => (2 * Math.PI * (rpm / 60) * radiusMm) / 10;

/** Undoes the playback equalisation; nothing where there was none. */
export const undoing =
  (flat: boolean): Undo =>
  (line, hz): Complex => {
    if (flat) return line;
    const h = playbackResponse(hz);
    const size = h.re ** 2 + h.im ** 2;
    return { re: (line.re * h.re + line.im * h.im) / size, im: (line.im * h.re - line.re * h.im) / size };
  };

/** @param leaks as heard, gains removed; null where they could not be read */
export function solvedTwoTones(side: SideReadings, leaks: ComplexLeaks | null, flat: boolean): SolvedTwoTone[] {
  return twoToneBands(side).flatMap((of): SolvedTwoTone[] => {
    const { cut, heard } = of;
    if (cut === null || (cut.motion !== 'lateral' && cut.motion !== 'vertical')) return [];
    const velocity = lowerVelocity(cut);
    if (velocity === null || cut.radiusMm === undefined || heard.turns < 1) return [];
    const vertical = cut.motion === 'vertical';
    const axes = twoToneAxes(heard, vertical, leaks);
    if (axes === null) return [];
    const solution = solveTwoTone(axes, heard.frequenciesHz, velocity, vertical ? 'along' : 'across', undoing(flat));
    if (solution === null || !Number.isFinite(solution.k)) return [];
    const speed = grooveSpeed(side.rpm, cut.radiusMm);
    return [{ ...of, vertical, radiusMm: cut.radiusMm, speed, velocity, solution, leaksKnown: leaks !== null }];
  });
}

export interface Intermodulation {
  /** shares of the upper tone, as captured: of second order, of third, both together; and the standard uncertainty of the last */
  readonly second: number;
  readonly third: number;
  readonly total: number;
  readonly spread: number;
}

/**
 * Modulation distortion: of each order the arithmetic sum of its two side lines over the upper tone, the orders by squares.
 *
 *   d₂ = (|f2+f1| + |f2−f1|) / |f2|     d₃ = (|f2+2f1| + |f2−2f1|) / |f2|     d = √(d₂² + d₃²)
 *
 * @source IEC 60268-3, modulation distortion of the n-th order, from memory
 * @returns null where the second order is out of reach
 */
export function intermodulationOf({ upper, plus, minus, plus2, minus2 }: ChannelLines): Intermodulation | null {
  const tone = Math.hypot(upper.re, upper.im);
  if (plus === null || minus === null || !(tone > 0)) return null;
  // noise adds to a size on average what its square says
  const clean = (line: typeof plus | null): number =>
    line === null ? 0 : Math.sqrt(Math.max(0, line.re ** 2 + line.im ** 2 - 2 * line.variance)) / tone;
  const variance = (line: typeof plus | null): number => (line === null ? 0 : line.variance / tone ** 2);
  const second = clean(plus) + clean(minus);
  const third = clean(plus2) + clean(minus2);
  const total = Math.hypot(second, third);
  const v2 = variance(plus) + variance(minus);
  const v3 = variance(plus2) + variance(minus2);
  const spread = total > 0 ? Math.sqrt(second ** 2 * v2 + third ** 2 * v3) / total : Math.sqrt(v2 + v3);
  return { second, third, total, spread };
}
