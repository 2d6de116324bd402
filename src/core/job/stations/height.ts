/** Height: what the arm stands over level, the record it is set on, and the height as it was left. */

import { z } from 'zod';
import { factFields } from '../fields/factFields.ts';
import { moveRecordSchema } from '../moveRecord.ts';
import { bearingChoice, heightFields, pillarReads } from './height/heightData.ts';
import { heightLines } from './height/reportLines.ts';
import {
  doneAt,
  fieldText,
  MOST_ROWS,
  ofEveryStation,
  oneOf,
  type StationModel,
  type TypedBy,
  without,
} from './stationModel.ts';
import { typedFacts } from './typedFacts.ts';

const schema = z.strictObject({
  ...ofEveryStation,
  facts: typedFacts.optional(),
  /** mm that the arm stands over level at the pivot */
  rise: fieldText.optional(),
  /** mm, the record it is set on */
  thickness: fieldText.optional(),
  /** mm, another record */
  other: fieldText.optional(),
  /** what stands at the pillar: a mark, a gap, a gauge */
  mark: fieldText.optional(),
  /** mm that the arm can still be moved */
  slackDown: fieldText.optional(),
  slackUp: fieldText.optional(),
  /** what the vertical bearing's axis is square to; empty: as the part says, else not known */
  squareTo: oneOf(bearingChoice, '').optional(),
  /** what was moved, what it should bring and what came; oldest first */
  moves: z.array(moveRecordSchema).max(MOST_ROWS).optional(),
  /** the height as it was left, oldest first */
  sets: z
    .array(
      z.strictObject({
        at: doneAt,
        /** mm over level at the pivot; lower negative */
        riseMm: z.number().min(-100).max(100),
        thicknessMm: z.number().min(0).max(100),
        /** what the person reads off the pillar, in their own words */
        mark: fieldText,
        /** looked at again and left as it was: nothing was moved */
        left: z.boolean(),
      }),
    )
    .max(MOST_ROWS)
    .optional(),
});
export type HeightTyped = TypedBy<typeof schema>;

export const heightModel: StationModel<HeightTyped> = {
  schema,
  fields: {
    ...heightFields,
    facts: factFields,
    mark: pillarReads,
    squareTo: bearingChoice,
    moves: { label: 'Moves made' },
    sets: { label: 'Height as it was left' },
  },
  lines: heightLines,
  fromOlder: without('forReport'),
};
