/** Place: arm, grooves and criterion, the reading off the template, the template, and the moves made. */

import { z } from 'zod';
import { knownElsewhere } from '../fields/benchFacts.ts';
import { moveRecordSchema } from '../moveRecord.ts';
import { armChoices, readChoices, sheetChoices } from './place/choices.ts';
import { armFields, armNotes, pointFields, pointRadius, readFields, sheetFields } from './place/fields.ts';
import { recordsOfOlder } from './place/olderMoves.ts';
import { placeLines } from './place/reportLines.ts';
import {
  each,
  fieldText,
  MOST_ROWS,
  namesOf,
  ofEveryStation,
  oneOf,
  type StationModel,
  type TypedBy,
  without,
} from './stationModel.ts';

const arm = each(namesOf(armFields), fieldText).extend({
  grooves: fieldText.optional(),
  known: oneOf(armChoices.known).optional(),
  movable: oneOf(armChoices.movable).optional(),
  /** the pivot stands elsewhere than the maker says */
  elsewhere: z.boolean().optional(),
  criterion: oneOf(armChoices.criterion).optional(),
  speed: oneOf(armChoices.speed).optional(),
});

const point = each(['radius', 'along', 'across', 'twist'], fieldText);
const read = each(namesOf(readFields), fieldText).extend({
  kind: oneOf(readChoices.kind).optional(),
  inner: point.optional(),
  outer: point.optional(),
  sheetFor: oneOf(readChoices.sheetFor).optional(),
});

/** mm, deg or %; no arm has a larger one. */
const size = z.number().min(-10_000).max(10_000);

/** The numbers that a template was drawn for: readings off it refer to these. */
const drawn = z.strictObject({
  spindleToPivotMm: size,
  effectiveLengthMm: size,
  nullPointsMm: z.array(size).max(2),
});

const schema = z.strictObject({
  ...ofEveryStation,
  arm: arm.optional(),
  read: read.optional(),
  sheet: z
    .strictObject({
      style: z.enum(['two-point', 'arc']).optional(),
      paper: oneOf(sheetChoices.paper).optional(),
      madeAcross: fieldText.optional(),
      madeDown: fieldText.optional(),
      mains: oneOf(sheetChoices.mains).optional(),
      drawnArc: drawn.optional(),
      drawnTwoPoint: drawn.optional(),
    })
    .optional(),
  /** oldest first; `reading` is what was typed before it, for when it is taken back */
  moves: z
    .array(moveRecordSchema.extend({ reading: read }))
    .max(MOST_ROWS)
    .optional(),
});
export type PlaceTyped = TypedBy<typeof schema>;

/** Both points have the same fields: the name says which is meant. */
const pointAt = (which: 'inner' | 'outer') => ({
  radius: pointRadius(which),
  ...Object.fromEntries(
    Object.entries(pointFields).map(([name, { label }]) => [name, { label: `${label}, ${which} point` }]),
  ),
});

export const placeModel: StationModel<PlaceTyped> = {
  schema,
  wholes: [
    ['sheet', 'drawnArc'],
    ['sheet', 'drawnTwoPoint'],
  ],
  fields: {
    arm: {
      ...armFields,
      ...armChoices,
      ...armNotes,
    },
    read: {
      ...readFields,
      ...readChoices,
      inner: pointAt('inner'),
      outer: pointAt('outer'),
    },
    sheet: {
      ...sheetFields,
      ...sheetChoices,
      drawnArc: { label: 'Arc template, drawn last' },
      drawnTwoPoint: { label: 'Two-point template, drawn last' },
    },
    moves: { label: 'Moves made' },
  },
  lines: (typed, { stations }) => placeLines(typed, knownElsewhere(stations)),
  fromOlder: (data) => recordsOfOlder(without('forReport')(data)),
};
