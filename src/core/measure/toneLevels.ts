/** A tone band's ratio and level over all its segments, and which tones belong together. */
import { combineComplex, combineEstimates } from './combine.ts';
import type { ToneBand } from './sideReadings.ts';
import type { ComplexEstimate, Estimate } from './toneSegment.ts';

/** dB of a natural logarithm */
export const DB_PER_NEPER = 20 / Math.LN10;
/** separation and balance are figures at this tone, Hz */
export const REFERENCE_HZ = 1000;
/** bands this near count as the same tone */
const SAME_TONE = 0.08;

export const ratioOf = (tone: ToneBand): ComplexEstimate => combineComplex(tone.reading.segments.map((s) => s.ratio));
export const levelOf = (tone: ToneBand): Estimate => combineEstimates(tone.reading.segments.map((s) => s.logLevel));
export const sameTone = (hz: number, wanted: number): boolean => Math.abs(hz / wanted - 1) <= SAME_TONE;
export const bandsOf = (tones: readonly ToneBand[]): number[] => tones.map((t) => t.band.index).sort((a, b) => a - b);
export const fromReference = (tone: ToneBand): number => Math.abs(Math.log(tone.meanHz / REFERENCE_HZ));

/** ln of the level that the sheet says is cut, to be taken off; 0 where it says nothing. */
export function cutLevel(tone: ToneBand, velocityKnown: boolean): number {
  const velocity = velocityKnown ? Math.log(tone.cut?.peakVelocityCmS ?? 1) : 0;
  return velocity + (tone.cut?.levelCorrectionDb ?? 0) / DB_PER_NEPER;
}
