/** The fields of Height. */

import { chosen } from '../../fields/chosen.ts';
import type { Fields } from '../../fields/field.ts';
import type { Wording } from '../../fields/wording.ts';
import type { HeightTyped } from '../height.ts';

/** The height as it was left. */
export type HeightSet = NonNullable<HeightTyped['sets']>[number];

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

export const bearingChoice = chosen('Vertical bearing is square to', {
  'arm-line': 'the line pivot to tip',
  cartridge: 'the cartridge',
});
/** What stands at the pillar, in the person's own words. */
export const pillarReads: Wording = { label: 'Pillar reads', most: 120 };
