/**
 * What listens to a stretch of a side, blocks in, a reading out; and how one kind of it is described. A new estimator is one
 * file and one line in estimators.ts: files, threads and live input then drive it without knowing it.
 */
import type { StereoBlock } from '../capture/recording.ts';
import type { Band } from '../record/band.ts';
import type { RecordSheet } from '../record/sheet.ts';
import type { Stretch } from '../record/stretch.ts';
import type { Steps } from '../signal/steps.ts';

/** A stretch of a capture to be listened to: a band, or what lies between bands. Plain data. */
export interface Passage {
  readonly signal: Band['signal'] | Stretch['kind'];
  /** s from the capture's first frame */
  readonly startS: number;
  readonly endS: number;
  /** null between bands */
  readonly band: Band | null;
  /** of what ears do not tell: place in the record file */
  readonly sheetBand?: number;
}

/** What is known of a side before it is measured. A live input knows the bands so far. */
export interface SideKnown {
  readonly sampleRateHz: number;
  readonly bands: readonly Band[];
  readonly sheet: RecordSheet | null;
  /** Hz that the speed tone was cut with, where someone said so */
  readonly nominalSpeedToneHz: number | null;
  /** turns a minute, nominal */
  readonly rpm: number;
  /** spectra of the bands are wanted, to look at */
  readonly withSpectra: boolean;
}

export interface BandEstimator<Reading> {
  /**
   * Blocks follow one another without a hole, cut anywhere; the arrays are the caller's and are overwritten afterwards.
   * What comes out must not depend on where they were cut.
   */
  push(block: StereoBlock): void;
  /** Plain data, structured-cloneable. The whole reading: asked once, at the end. */
  result(): Reading;
  /** The same in steps of some 10 ms a minute of the passage, for a live input that must not wait long; left out: in one. */
  inSteps?(): Steps<Reading>;
  /** What can be said while the passage plays, at a cost that does not grow with it: 5 ms at most. Left out: nothing. */
  running?(): Reading;
  /** Gives back its memory; nothing is asked afterwards. */
  end(): void;
}

/** `Settings` are plain data: they travel to threads. */
export interface EstimatorKind<Settings, Reading> {
  /** @returns null where it has nothing to say of this passage */
  settings(passage: Passage, side: SideKnown): Settings | null;
  begin(sampleRateHz: number, settings: Settings): BandEstimator<Reading>;
}
