/** Readings of a side written down by hand, for tests of what the figures make of them: nothing is listened to. */
import type { Band } from '../record/band.ts';
import type { SheetBand } from '../record/sheet.ts';
import { assumedInTests } from './assumed.fixture.ts';
import type { Passage } from './bandEstimator.ts';
import type { Readings } from './estimators.ts';
import type { PassageReading, SideReadings, ToneBand } from './sideReadings.ts';
import type { SegmentFigures, ToneReading } from './toneEstimator.ts';

export const madeBand = (more: Partial<Band> = {}): Band => ({
  index: 0,
  startS: 10 * (more.index ?? 0),
  endS: 10 * (more.index ?? 0) + 8,
  signal: 'tone',
  motion: 'lateral',
  frequencyHz: 1000,
  radiusMm: null,
  sheetBand: null,
  ...more,
});

export const madeCut = (more: Partial<SheetBand> = {}): SheetBand => ({ signal: 'tone', motion: 'lateral', ...more });

export type MadeSegment = Partial<Omit<SegmentFigures, 'ratio' | 'logLevel'>> & {
  readonly ratio?: Partial<SegmentFigures['ratio']>;
  readonly logLevel?: Partial<SegmentFigures['logLevel']>;
};

export const madeSegment = ({ ratio, logLevel, ...more }: MadeSegment = {}): SegmentFigures => ({
  startS: 0,
  endS: 8,
  usedS: 8,
  ratio: { re: 1, im: 0, varRe: 1e-8, varIm: 1e-8, degreesOfFreedom: 10, ...ratio },
  logLevel: { value: 0, variance: 1e-8, degreesOfFreedom: 10, ...logLevel },
  trace: { rateHz: 20, startS: 0, meanHz: 1000, deviation: new Float64Array(0), groupS: 1 / 20 },
  flutter: null,
  ...more,
});

export interface MadeTone extends Partial<Omit<ToneBand, 'band' | 'reading'>> {
  readonly band?: Partial<Band>;
  readonly segments?: readonly MadeSegment[];
  readonly harmonics?: ToneReading['harmonics'];
}

export function madeTone({ band, segments = [{}], harmonics, ...more }: MadeTone = {}): ToneBand {
  const of = madeBand(band);
  const driven = more.driven ?? (of.motion === 'left' || of.motion === 'right' ? of.motion : 'both');
  const read = segments.map(madeSegment);
  return {
    band: of,
    cut: null,
    driven,
    reading: { driven, segments: read, ...(harmonics === undefined ? {} : { harmonics }) },
    meanHz: of.frequencyHz ?? 1000,
    usedS: read.reduce((sum, { usedS }) => sum + usedS, 0),
    startS: of.startS,
    endS: of.endS,
    ...more,
  };
}

export const madeSide = (more: Partial<SideReadings> = {}): SideReadings => ({
  tones: [],
  sheet: null,
  order: 'unknown',
  rpm: 100 / 3,
  rpmStated: true,
  nominalSpeedToneHz: null,
  arm: null,
  preamp: null,
  recordResponse: null,
  spoiled: [],
  assumed: assumedInTests,
  ...more,
});

/** A band, or `null` for what lies between bands. */
export function madePassage(
  band: Partial<Band> | null,
  readings: Readings,
  more: Partial<Passage> = {},
): PassageReading {
  const of = band === null ? null : madeBand(band);
  return {
    passage: {
      signal: of?.signal ?? 'tip-drop',
      startS: of?.startS ?? 0,
      endS: of?.endS ?? 8,
      band: of,
      ...more,
    },
    readings,
  };
}
