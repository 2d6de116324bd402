/** Hand over: only notes are typed. */
import { z } from 'zod';
import { ofEveryStation, type StationModel, type TypedBy, without } from './stationModel.ts';

const schema = z.strictObject({ ...ofEveryStation });
export type HandOverTyped = TypedBy<typeof schema>;

export const handOverModel: StationModel<HandOverTyped> = { schema, lines: () => [], fromOlder: without('forReport') };
