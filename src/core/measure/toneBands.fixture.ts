/** Bands, tones and sides written down by hand, for tests of what is made of readings. */
import type { Band } from '../record/band.ts';
import type { RecordSheet, SheetBand } from '../record/sheet.ts';
import { assumedInTests } from './assumed.fixture.ts';
import type { SideReadings, ToneBand } from './sideReadings.ts';
import type { SegmentFigures } from './toneEstimator.ts';
import type { Driven } from './toneSegment.ts';

export const bandOf = (more: Partial<Band> = {}): Band => ({
  index: 0,
  startS: 1,
  endS: 11,
  signal: 'tone',
  motion: 'lateral',
  frequencyHz: 1000,
  radiusMm: null,
  sheetBand: null,
  ...more,
});

export interface HandMade {
  readonly hz: number;
  readonly driven: Driven;
  /** undriven over driven, or left over right: re and im, and the variance of either */
  readonly ratio?: readonly [number, number];
  readonly variance?: number;
  readonly varIm?: number;
  readonly freedom?: number;
  readonly logLevel?: number;
  readonly levelVariance?: number;
  readonly levelFreedom?: number;
  readonly cut?: SheetBand | null;
  readonly band?: Partial<Band>;
  readonly usedS?: number;
  readonly segments?: readonly SegmentFigures[];
  readonly harmonics?: ToneBand['reading']['harmonics'];
}

export function segmentOf(made: HandMade, more: Partial<SegmentFigures> = {}): SegmentFigures {
  const [re, im] = made.ratio ?? [0.03, 0];
  return {
    startS: 1,
    endS: 11,
    usedS: made.usedS ?? 10,
    ratio: {
      re,
      im,
      varRe: made.variance ?? 1e-8,
      varIm: made.varIm ?? made.variance ?? 1e-8,
      degreesOfFreedom: made.freedom ?? 100,
    },
    logLevel: {
      value: made.logLevel ?? -2,
      variance: made.levelVariance ?? 1e-8,
      degreesOfFreedom: made.levelFreedom ?? 100,
    },
    trace: { rateHz: 20, startS: 1.025, meanHz: made.hz, deviation: new Float64Array(200), groupS: 0.05 },
    flutter: null,
    ...more,
  };
}

export function toneOf(made: HandMade): ToneBand {
  const motion = made.driven === 'both' ? 'lateral' : made.driven;
  const band = bandOf({ frequencyHz: made.hz, motion, ...made.band });
  const reading = { driven: made.driven, segments: made.segments ?? [segmentOf(made)] };
  return {
    band,
    cut: made.cut ?? null,
    driven: made.driven,
    reading: made.harmonics === undefined ? reading : { ...reading, harmonics: made.harmonics },
    meanHz: made.hz,
    usedS: made.usedS ?? 10,
    startS: band.startS,
    endS: band.endS,
  };
}

export const sheetOf = (bands: readonly SheetBand[] = [], more: Partial<RecordSheet> = {}): RecordSheet => ({
  schema: 1,
  name: 'written by hand',
  rpm: 100 / 3,
  bands,
  ...more,
});

export const sideOf = (tones: readonly ToneBand[], more: Partial<SideReadings> = {}): SideReadings => ({
  tones,
  sheet: null,
  order: 'normal',
  rpm: 100 / 3,
  rpmStated: true,
  nominalSpeedToneHz: null,
  arm: null,
  assumed: assumedInTests,
  preamp: null,
  recordResponse: null,
  spoiled: [],
  ...more,
});

/** RIAA playback re 1 kHz, dB, from its three time constants. */
export function riaaOf(hz: number): number {
  const raw = (f: number): number => {
    const w = 2 * Math.PI * f;
    return (
      10 * Math.log10(1 + (w * 318e-6) ** 2) -
      10 * Math.log10(1 + (w * 3180e-6) ** 2) -
      10 * Math.log10(1 + (w * 75e-6) ** 2)
    );
  };
  return raw(hz) - raw(1000);
}
