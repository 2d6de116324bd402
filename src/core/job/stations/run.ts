/** Run: recordings are kept as captures; only notes are typed. */
import { z } from 'zod';
import { ofEveryStation, type StationModel, type TypedBy, without } from './stationModel.ts';

const schema = z.strictObject({ ...ofEveryStation });
export type RunTyped = TypedBy<typeof schema>;

export const runModel: StationModel<RunTyped> = { schema, lines: () => [], fromOlder: without('forReport') };
