/** Tilt: readings of a voltmeter; recordings are kept as captures. */
import { z } from 'zod';
import { moveRecordSchema } from '../moveRecord.ts';
import {
  fieldText,
  MOST_ROWS,
  ofEveryStation,
  oneOf,
  type StationModel,
  type TypedBy,
  without,
} from './stationModel.ts';
import { meterFields, meterLines, meterWays } from './tilt/meter.ts';

const meter = z.strictObject({
  way: oneOf(meterWays).optional(),
  leftToRight: fieldText.optional(),
  rightToLeft: fieldText.optional(),
  leftMono: fieldText.optional(),
  rightMono: fieldText.optional(),
  uncertainty: fieldText.optional(),
  /** mV: the left channel on the left-only band, and so on */
  leftOnLeft: fieldText.optional(),
  rightOnLeft: fieldText.optional(),
  leftOnRight: fieldText.optional(),
  rightOnRight: fieldText.optional(),
  rows: z
    .array(z.strictObject({ tilt: fieldText, leftToRight: fieldText, rightToLeft: fieldText }))
    .max(MOST_ROWS)
    .optional(),
});

const schema = z.strictObject({
  ...ofEveryStation,
  /** the body was set upright by mirror before it was heard */
  setByMirror: z.boolean().optional(),
  meter: meter.optional(),
  /** turns, oldest first; `reading` is what was typed before one by a meter, for when it is taken back */
  moves: z
    .array(moveRecordSchema.extend({ reading: meter.optional() }))
    .max(MOST_ROWS)
    .optional(),
});
export const setByMirror = { label: 'Set by mirror: in line with its image' };
export type TiltTyped = TypedBy<typeof schema>;

export const tiltModel: StationModel<TiltTyped> = {
  schema,
  lines: ({ meter }) => (meter === undefined ? [] : meterLines(meter)),
  fields: {
    setByMirror,
    meter: { ...meterFields, way: meterWays, rows: { label: meterWays.options.several } },
    moves: { label: 'Moves made' },
  },
  fromOlder: without('forReport'),
};
