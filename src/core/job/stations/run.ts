/** Run: recordings are kept as captures; only notes are typed. */
import { z } from 'zod';
import { linesAsStored, ofEveryStation, type StationModel, type TypedBy } from './stationModel.ts';

const schema = z.strictObject({ ...ofEveryStation });
export type RunTyped = TypedBy<typeof schema>;

export const runModel: StationModel<RunTyped> = { schema, lines: linesAsStored, fromOlder: (data) => data };
