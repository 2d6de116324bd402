/** Place: arm, grooves and criterion, the reading off the template, the template, and the moves made. */
import { z } from 'zod';
import { criteria } from '../../geometry/criteria.ts';
import { moveRecordSchema } from '../moveRecord.ts';
import { knownElsewhere } from './place/elsewhere.ts';
import { recordsOfOlder } from './place/olderMoves.ts';
import { placeLines } from './place/reportLines.ts';
import {
  each,
  fieldText,
  MOST_ROWS,
  ofEveryStation,
  type StationModel,
  type TypedBy,
  without,
} from './stationModel.ts';

const armNames = [
  'spindleToPivot',
  'effectiveLength',
  'overhang',
  'heldOffset',
  'heldLength',
  'slotsShortest',
  'slotsLongest',
  'turnLeast',
  'turnMost',
  'heldOverhang',
  'heldTwist',
  'makersPivot',
  'makersLength',
  'makersOffset',
  'grooves',
  'inner',
  'outer',
  'weightInner',
  'weightOuter',
  'rpm',
  'toleranceOverhang',
  'toleranceTwist',
  'tolerancePivot',
] as const;

const readNames = [
  'sheetPivot',
  'sheetLength',
  'squareFirst',
  'squareSecond',
  'rulerOverhang',
  'rulerTwist',
  'rulerRadius',
  'statedLength',
  'statedOffset',
  'withinMm',
  'withinDeg',
  'withinPivot',
  'slotsForward',
  'slotsBack',
  'turnLeft',
  'tipAhead',
  'slotAngle',
] as const;

const arm = each(armNames, fieldText).extend({
  known: z.enum(['spindle-to-pivot', 'effective-length', 'overhang', 'tangential']).optional(),
  movable: z.enum(['both', 'slide', 'twist', 'slots', 'nothing']).optional(),
  /** the pivot stands elsewhere than the maker says */
  elsewhere: z.boolean().optional(),
  criterion: z.enum(criteria.map(({ name }) => name)).optional(),
  speed: z.enum(['33', '45', '78', 'own']).optional(),
});

const point = each(['radius', 'along', 'across', 'twist'], fieldText);
const read = each(readNames, fieldText).extend({
  kind: z.enum(['miss', 'twist', 'square', 'ruler', 'stated']).optional(),
  inner: point.optional(),
  outer: point.optional(),
  sheetFor: z.enum(['solved', 'printed', 'other']).optional(),
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
      paper: z.enum(['a4', 'letter']).optional(),
      madeAcross: fieldText.optional(),
      madeDown: fieldText.optional(),
      mains: z.enum(['50', '60']).optional(),
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

export const placeModel: StationModel<PlaceTyped> = {
  schema,
  wholes: [
    ['sheet', 'drawnArc'],
    ['sheet', 'drawnTwoPoint'],
  ],
  lines: (typed, { stations }) => placeLines(typed, knownElsewhere(stations)),
  fromOlder: (data) => recordsOfOlder(without('forReport')(data)),
};
