/** What Height keeps with the job, as it was typed, and the bounds of its fields. */

import type { TypedFacts } from '../../fields/benchFacts.ts';
import type { Fields } from '../../fields/field.ts';

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
}

/** Where nothing is typed; common practice. */
export const USUAL_THICKNESS_MM = 2;

export const heightFields = {
  rise: {
    label: 'Over level, at the pivot',
    unit: 'mm',
    min: -30,
    max: 30,
    help: 'Empty: tube level. Rear low is negative',
  },
  thickness: {
    label: 'Record that it is set on',
    unit: 'mm',
    min: 0.2,
    max: 10,
    usual: { value: USUAL_THICKNESS_MM, from: 'common practice' },
  },
  other: { label: 'Another record', unit: 'mm', min: 0.2, max: 10, help: 'Its thickness, to have it in the list' },
  slackDown: {
    label: 'The arm can still come down',
    unit: 'mm',
    min: 0,
    max: 60,
    help: 'With the way up: where its travel ends',
  },
  slackUp: { label: 'The arm can still go up', unit: 'mm', min: 0, max: 60 },
} as const satisfies Fields<'rise' | 'thickness' | 'other' | 'slackDown' | 'slackUp'>;

/** Thin and thick records as they come across a bench, mm; common practice. */
export const OTHER_THICKNESS_MM = [1, 1.5, 2, 2.5, 3] as const;
