/** Intake: what came in, and what was looked at. */
import { z } from 'zod';
import { intakeLines } from './intake/intake.ts';
import { fieldText, ofEveryStation, type StationModel, type TypedBy, without } from './stationModel.ts';

/** What is looked at before anything is touched. */
export const inspected = ['guard', 'cantilever', 'tip', 'bearings', 'leads', 'platter', 'level', 'hours'] as const;

const schema = z.strictObject({
  ...ofEveryStation,
  cartridge: fieldText.optional(),
  stylusHours: fieldText.optional(),
  checked: z.array(z.enum(inspected)).max(inspected.length).optional(),
  faults: z.string().max(5000).optional(),
});
export type IntakeTyped = TypedBy<typeof schema>;

export const intakeModel: StationModel<IntakeTyped> = {
  schema,
  lines: intakeLines,
  fromOlder: without('forReport'),
};
