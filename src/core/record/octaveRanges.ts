/** Octaves, and the bins and sub-bands of a line finder that fall into each. */
import type { LineFinder } from './lineFinder.ts';

/** octaves of 31.5 Hz … 16 kHz */
export const OCTAVES = 10;

/** the octave that holds a frequency, 0 for 31.5 Hz; may lie outside what is kept */
export const octaveAt = (hz: number): number => Math.round(Math.log2(hz / 31.25));

export interface OctaveRange {
  readonly octave: number;
  readonly fromBin: number;
  readonly toBin: number;
  /** sub-bands of the line finder */
  readonly fromBand: number;
  readonly toBand: number;
}

/** The whole sub-bands whose middle lies in each octave. */
export function octaveRanges({ edges }: LineFinder, binHz: number, first: number, last: number): OctaveRange[] {
  const ranges: OctaveRange[] = [];
  for (let octave = first; octave <= last; octave++) {
    const inside = (j: number): boolean => octaveAt(((edges[j] + edges[j + 1]) * binHz) / 2) === octave;
    const bands = Array.from({ length: edges.length - 1 }, (_, j) => j).filter(inside);
    if (bands.length === 0) continue;
    const fromBand = bands[0];
    const toBand = bands[bands.length - 1] + 1;
    ranges.push({ octave, fromBin: edges[fromBand], toBin: edges[toBand], fromBand, toBand });
  }
  return ranges;
}
