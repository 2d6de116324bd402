/** How well one band heard fits one band of the sheet, for a wiring and a speed. */
import type { Band, BandMotion } from './band.ts';
import type { SheetBand } from './sheet.ts';

/** How the leads may be: channels exchanged, one channel upside down. */
export interface Wiring {
  readonly swapped: boolean;
  readonly inverted: boolean;
}

/** Hz, of tones and two-tones; empty for others */
export const frequenciesOf = (band: Band): number[] =>
  band.signal === 'tone' && band.frequencyHz !== null ? [band.frequencyHz] : [...(band.frequenciesHz ?? [])];
export const sheetFrequenciesOf = (band: SheetBand): number[] =>
  band.signal === 'tone' && band.frequencyHz !== undefined
    ? [band.frequencyHz]
    : [...(band.frequenciesHz ?? [])].sort((a, b) => a - b);

/**
 * How well a band heard fits one of the sheet, up to 1; null where it cannot be that one.
 * @param whole bands stand before and after it, so it was not cut off
 */
export function pairScore(band: Band, cut: SheetBand, ratio: number, wiring: Wiring, whole: boolean): number | null {
  const signal = signalScore(band, cut, ratio);
  if (signal === null) return null;
  const motion = motionScore(band.motion, throughWiring(cut.motion, wiring));
  if (motion === null) return null;
  return 0.55 * signal + 0.3 * motion + 0.15 * durationScore(band.endS - band.startS, cut.durationS, ratio, whole);
}

function signalScore(band: Band, cut: SheetBand, ratio: number): number | null {
  if (band.signal === 'sweep' && cut.signal === 'sweep') {
    const { fromHz, toHz } = band;
    if (fromHz === undefined || toHz === undefined || cut.fromHz === undefined || cut.toHz === undefined) return 0.5;
    return (toHz - fromHz) * (cut.toHz - cut.fromHz) > 0 ? 1 : null;
  }
  if (band.signal !== cut.signal) {
    // The weaker line of a two-tone may have been missed.
    if (band.signal !== 'tone' || cut.signal !== 'two-tone' || band.frequencyHz === null) return null;
    const near = sheetFrequenciesOf(cut).map((g) => frequencyScore(band.frequencyHz as number, g * ratio));
    return near.some((s) => s !== null) ? 0.5 : null;
  }
  const heard = frequenciesOf(band);
  const expected = sheetFrequenciesOf(cut);
  const scores = heard.map((f, i) => frequencyScore(f, expected[i] * ratio));
  return scores.reduce<number | null>((least, s) => (least === null || s === null ? null : Math.min(least, s)), 1);
}

/** 1 within 0.3 %, falling to nothing at 3 %: what is left after the common speed ratio is wow and the search's bins. */
function frequencyScore(heardHz: number, expectedHz: number): number | null {
  const off = Math.abs(Math.log(heardHz / expectedHz));
  return off > 0.03 ? null : 1 - Math.max(0, off - 0.003) / 0.03;
}

/** What ears hear of a motion. */
export function throughWiring(motion: BandMotion, { swapped, inverted }: Wiring): BandMotion {
  if (swapped && motion === 'left') return 'right';
  if (swapped && motion === 'right') return 'left';
  if (inverted && motion === 'lateral') return 'vertical';
  if (inverted && motion === 'vertical') return 'lateral';
  return motion;
}

/**
 * Left heard for right, or lateral for vertical, is another band, or another wiring. One side heard for both, or both for
 * one, may be leak and response at the top of the range: possible where everything else agrees, and never for free.
 */
function motionScore(heard: BandMotion, expected: BandMotion): number | null {
  if (heard === expected) return 1;
  if (heard === 'unknown' || expected === 'unknown') return 0.4;
  const sided = (motion: BandMotion): boolean => motion === 'left' || motion === 'right';
  return sided(heard) !== sided(expected) ? -0.8 : null;
}

/** 1 for the sheet's duration (edges are trimmed), 0.5 unknown; what is much longer, or shorter without being cut off, 0. */
function durationScore(heardS: number, cutS: number | undefined, ratio: number, whole: boolean): number {
  if (cutS === undefined) return 0.5;
  const off = Math.log((heardS + 0.12) / (cutS / ratio));
  if (off < 0 && !whole) return off > -0.1 ? 1 : 0.6;
  return Math.max(0, 1 - Math.max(0, Math.abs(off) - 0.05) / 0.5);
}
