import type { Complex } from '../units/complex.ts';
import type { Statement } from '../words/statement.ts';
import type { IntermodulationBeside } from './intermodulationBeside.ts';

/** One source of an uncertainty. */
export interface BudgetLine {
  /** in a few words: "tilt of the record" */
  readonly of: Statement;
  /** expanded, k = 2 */
  readonly size: number;
  readonly unit: string;
  /** of the whole variance, 0 to 1 */
  readonly share: number;
}

/** A tone's once-per-turn swing as a phasor, ratio, its phase where the tone starts: a place on the record. */
export interface PhasorAtStart {
  readonly re: number;
  readonly im: number;
  /** of either part */
  readonly variance: number;
  readonly degreesOfFreedom: number;
  readonly rotationHz: number;
  /** of the tone, as heard */
  readonly frequencyHz: number;
  readonly radiusMm: number | null;
  /** in the record file, where it was matched */
  readonly sheetBand: number | null;
}

/** A measured figure with what it rests on. The verdict is `advise`'s to add. */
export interface Finding {
  /** name in docs/contract.md */
  readonly quantity: string;
  /** in `unit`; text only for polarity and channel order */
  readonly value: number | string;
  readonly unit: string;
  /**
   * expanded, k = 2, in `unit`; null only where none can be given, a note says why. From `measure` the signal's alone; `advise`
   * adds what record and chain may hide.
   */
  readonly uncertainty: number | null;
  /** expanded, k = 2, in `unit`: with this record played again, from the signal alone */
  readonly repeatability?: number | null;
  /** what `uncertainty` is made of, largest first */
  readonly budget?: readonly BudgetLine[];
  /** indices of the bands it was read from */
  readonly bands: readonly number[];
  /** one or two sentences a technician reads, as statements; may be empty */
  readonly notes: readonly Statement[];
  readonly channel?: 'left' | 'right';
  /** for what is an interval, 95 %, in `unit`; `high` null: open, nothing bounds it */
  readonly low?: number;
  readonly high?: number | null;
  /** a leak as heard, undriven over driven, gains removed, nothing that is known of the record taken off */
  readonly complex?: Complex;
  /** of `once-per-turn`: two recordings of one record are told apart by it (halfTurn.ts) */
  readonly atStart?: PhasorAtStart;
  /** of `intermodulation`: what a record not cut as stated would add; `advise` makes its ± of it and leaves it out */
  readonly beside?: IntermodulationBeside;
  /** Hz, of what is read at one frequency of many */
  readonly atHz?: number;
  /** of bands that were played again in this recording: the scatter of one play (standard), ± of their mean (k for 95 %), and the mean less `value` */
  readonly repeats?: {
    readonly count: number;
    readonly fromMean: number;
    readonly scatter: number;
    readonly uncertainty: number;
  };
  /** `value` before what is known of the record is taken off, in `unit` */
  readonly asHeard?: number;
}

/** A drawn curve; x and y have equal length and hold finite numbers only. */
export interface Curve {
  readonly quantity: string;
  readonly channel?: 'left' | 'right';
  /** what this line is, where a chart holds several that are no channels: heard, fitted */
  readonly name?: string;
  /** band it was read from, where one */
  readonly band?: number;
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly xUnit: string;
  readonly yUnit: string;
}
