/** What a pass over a side has read, band by band, with what the sheet says of each; the figures are made from this. */
import type { Band } from '../record/band.ts';
import type { RecordSheet, SheetBand } from '../record/sheet.ts';
import type { ArmGeometry } from './armPhase.ts';
import type { Assumed } from './assumed.ts';
import type { Passage } from './bandEstimator.ts';
import type { PreampResponse } from './chainLevel.ts';
import type { Readings } from './estimators.ts';
import type { ToneReading } from './toneEstimator.ts';
import type { Driven } from './toneSegment.ts';

/** A tone band that could be followed, channels put right where the sheet shows them swapped. */
export interface ToneBand {
  readonly band: Band;
  /** in the sheet, where it was matched */
  readonly cut: SheetBand | null;
  /** wall that is cut, swap undone */
  readonly driven: Driven;
  readonly reading: ToneReading;
  /** Hz, mean over the segments */
  readonly meanHz: number;
  /** s free of clicks */
  readonly usedS: number;
  readonly startS: number;
  readonly endS: number;
}

export type ChannelOrder = 'normal' | 'swapped' | 'unknown';

/** A passage with what each estimator read of it, channels as captured. */
export interface PassageReading {
  readonly passage: Passage;
  readonly readings: Readings;
}

export interface SideReadings {
  readonly tones: readonly ToneBand[];
  /** everything that was listened to, in the order in which it plays */
  readonly passages?: readonly PassageReading[];
  /** the bands that are no single tone, as heard */
  readonly untoned?: readonly Band[];
  readonly sheet: RecordSheet | null;
  readonly order: ChannelOrder;
  /** turns a minute, nominal, and whether anyone said so */
  readonly rpm: number;
  readonly rpmStated: boolean;
  readonly nominalSpeedToneHz: number | null;
  /** the arm that played, where it is known */
  readonly arm: ArmGeometry | null;
  readonly assumed: Assumed;
  /** the preamplifier's response, where it was measured */
  readonly preamp: PreampResponse | null;
  /** what is cut over what is stated, from the record's calibration */
  readonly recordResponse: PreampResponse | null;
  /** stretches whose samples are not the groove's, s */
  readonly spoiled: readonly { readonly startS: number; readonly endS: number }[];
}

export const meanOf = (values: readonly { readonly weight: number; readonly value: number }[]): number => {
  const weight = values.reduce((sum, v) => sum + v.weight, 0);
  return values.reduce((sum, v) => sum + v.weight * v.value, 0) / weight;
};

/** A sheet's 33.333 means 33⅓. */
export const exactRpm = (rpm: number): number => (Math.abs(rpm - 100 / 3) < 0.005 ? 100 / 3 : rpm);
