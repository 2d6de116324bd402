/** A figure read from sound, as it is said wherever it stands: its interval where it has one, else value and uncertainty. */
import { isCount, shownFigure, shownInterval, withThisRecord } from './figure.ts';
import { isSigned } from './quantities.ts';

export interface Quantified {
  readonly quantity: string;
  readonly value: number | string;
  readonly unit: string;
  /** expanded, k = 2, in `unit` */
  readonly uncertainty: number | null;
  readonly repeatability?: number | null;
  /** 95 %, in `unit`; `high` null: open, nothing bounds it */
  readonly low?: number;
  readonly high?: number | null;
}

/** Of the deck; then, where it says something else, with this record. Of an interval the reading is the second line. */
export function figureLines(finding: Quantified): readonly [string, string | null] {
  const { quantity, value, unit, uncertainty, repeatability, low, high } = finding;
  const signed = isSigned(quantity);
  const interval = shownInterval(low, high, unit);
  if (interval === null) return [shownFigure(value, unit, uncertainty, signed), withThisRecord(finding)];
  // how much was counted is in its note; a ± beside it would reach under 0
  if (isCount(unit)) return [interval, null];
  const reading = shownFigure(value, unit, repeatability ?? uncertainty, signed);
  return [interval, repeatability === undefined || repeatability === null ? reading : `${reading} with this record`];
}
