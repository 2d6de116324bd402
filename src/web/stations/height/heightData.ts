/** What Height keeps with the job, as it was typed, and the bounds of its fields. */
import type { TypedFacts } from '../weigh/facts.ts';

/** The height as it was left. */
export interface HeightSet {
  /** ISO time */
  readonly at: string;
  /** mm over level at the pivot; lower negative */
  readonly riseMm: number;
  readonly thicknessMm: number;
  /** what the person reads off the pillar, in their own words */
  readonly mark: string;
  /** looked at again and left as it was: nothing was moved */
  readonly left: boolean;
}

export interface HeightData {
  facts: TypedFacts;
  /** mm that the arm stands over level at the pivot */
  rise: string;
  /** mm, the record it is set on */
  thickness: string;
  /** mm, another record */
  other: string;
  /** what stands at the pillar: a mark, a gap, a gauge */
  mark: string;
  /** mm that the arm can still be moved */
  slackDown: string;
  slackUp: string;
  /** oldest first */
  sets: readonly HeightSet[];
  forReport: readonly { label: string; text: string }[];
}

export const RISE = { unit: 'mm', min: -30, max: 30 };
export const THICKNESS = { unit: 'mm', min: 0.2, max: 10 };
export const SLACK = { unit: 'mm', min: 0, max: 60 };
/** Where nothing is typed; common practice. */
export const USUAL_THICKNESS_MM = 2;
/** Thin and thick records as they come across a bench, mm; common practice. */
export const OTHER_THICKNESS_MM = [1, 1.5, 2, 2.5, 3] as const;
