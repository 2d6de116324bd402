/** Weigh: gauge, dial and calibration as they were read, the force as it was set, anti-skating as it was set. */

import { z } from 'zod';
import { factFields } from '../fields/factFields.ts';
import { wordsWithin } from '../fields/wording.ts';
import { moveRecordSchema } from '../moveRecord.ts';
import {
  doneAt,
  fieldText,
  MOST_ROWS,
  ofEveryStation,
  oneOf,
  type StationModel,
  type TypedBy,
} from './stationModel.ts';
import { typedFacts } from './typedFacts.ts';
import { alsoMovedSchema, movedHereSchema, skatingSetSchema, weighFromOlder } from './weigh/kept.ts';
import { weighLines } from './weigh/reportLines.ts';
import {
  forceFields,
  gaugeFields,
  notchesWording,
  skatingFields,
  weighChoices,
  weighFields,
} from './weigh/weighData.ts';

const force = z.number().min(0).max(1000);
const readUnder = z.array(z.string().max(64)).max(MOST_ROWS);

const schema = z.strictObject({
  ...ofEveryStation,
  /** what a bare number stands for */
  forceUnit: oneOf(weighChoices.forceUnit).optional(),
  facts: typedFacts.optional(),
  /** mm behind the pivot at which the counterweight's centre floats this arm */
  floatsAt: fieldText.optional(),
  /** ids of the steps of balancing */
  ticked: z.array(z.string().max(80)).max(MOST_ROWS).optional(),
  temperature: fieldText.optional(),
  target: fieldText.optional(),
  gauge: z
    .strictObject({
      reading: fieldText.optional(),
      height: fieldText.optional(),
      digit: fieldText.optional(),
      /** how the force goes with height */
      effect: oneOf(weighChoices.effect).optional(),
      secondReading: fieldText.optional(),
      secondHeight: fieldText.optional(),
    })
    .optional(),
  /** known masses laid on the gauge */
  masses: z
    .array(z.strictObject({ mass: fieldText, within: fieldText, reading: fieldText }))
    .max(MOST_ROWS)
    .optional(),
  dial: fieldText.optional(),
  /** what stood against the force when the reading was typed (`reasonKeys`); another reason since then makes the reading old */
  readUnder: readUnder.optional(),
  /** what was moved here since the force was set, a reason to weigh again; null where nothing was */
  movedHere: movedHereSchema.nullable().optional(),
  /** every move made here besides the force, oldest first, with whether the station was closed before it */
  alsoMoved: z.array(alsoMovedSchema).max(MOST_ROWS).optional(),
  skating: z
    .strictObject({
      friction: fieldText.optional(),
      inner: fieldText.optional(),
      outer: fieldText.optional(),
      device: oneOf(weighChoices.device).optional(),
      lever: fieldText.optional(),
      weight: fieldText.optional(),
      notches: wordsWithin(notchesWording).optional(),
      dialFriction: fieldText.optional(),
    })
    .optional(),
  /** the force as it was left, oldest first */
  sets: z
    .array(
      z.strictObject({
        at: doneAt,
        by: z.enum(['gauge', 'dial']),
        mn: force,
        /** k = 2; null where the dial alone says it */
        uncertaintyMn: force.nullable(),
        targetMn: force,
        dialMn: force.nullable(),
        /** the gauge had been held against known masses */
        calibrated: z.boolean(),
        /** weighed again and left as it was: nothing was moved */
        left: z.boolean(),
        /** what taking it back brings back: the gauge as it was read, and what had been moved before */
        before: z
          .strictObject({
            reading: fieldText,
            secondReading: fieldText,
            readUnder: readUnder.optional(),
            movedHere: movedHereSchema.nullable(),
          })
          .optional(),
      }),
    )
    .max(MOST_ROWS)
    .optional(),
  /** what was moved, what it should bring and what came; oldest first */
  moves: z.array(moveRecordSchema).max(MOST_ROWS).optional(),
  skatingSet: skatingSetSchema.nullable().optional(),
});
export type WeighTyped = TypedBy<typeof schema>;

export const weighModel: StationModel<WeighTyped> = {
  schema,
  wholes: [['skatingSet'], ['movedHere']],
  fields: {
    ...weighFields,
    ...forceFields,
    forceUnit: weighChoices.forceUnit,
    facts: factFields,
    ticked: { label: 'Steps of balancing' },
    gauge: { ...gaugeFields, effect: weighChoices.effect },
    masses: { label: 'Known masses on the gauge' },
    readUnder: { label: 'What the gauge was read under' },
    movedHere: { label: 'Moved since the force was set' },
    alsoMoved: { label: 'Deck levelled, counterweight changed' },
    skating: { ...skatingFields, device: weighChoices.device, notches: notchesWording },
    sets: { label: 'Force as it was left' },
    moves: { label: 'Moves made' },
    skatingSet: { label: 'Anti-skating as it was set' },
  },
  lines: weighLines,
  fromOlder: weighFromOlder,
};
