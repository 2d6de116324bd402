/** Hand over: only notes are typed. */
import { z } from 'zod';
import { linesAsStored, ofEveryStation, type StationModel, type TypedBy } from './stationModel.ts';

const schema = z.strictObject({ ...ofEveryStation });
export type HandOverTyped = TypedBy<typeof schema>;

export const handOverModel: StationModel<HandOverTyped> = { schema, lines: linesAsStored, fromOlder: (data) => data };
