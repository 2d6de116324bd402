/** Hand over: notes, and why it was closed while other stations were open. */
import { z } from 'zod';
import { ofEveryStation, type StationModel, type TypedBy, without } from './stationModel.ts';

const schema = z.strictObject({
  ...ofEveryStation,
  /** the person's reason; asked for only where a station before it is not done */
  closedOver: z.string().max(1000).optional(),
});
export type HandOverTyped = TypedBy<typeof schema>;

export const handOverModel: StationModel<HandOverTyped> = {
  schema,
  lines: ({ closedOver = '' }) =>
    closedOver.trim() === '' ? [] : [{ label: 'Closed with stations open', text: closedOver.trim() }],
  fromOlder: without('forReport'),
};
