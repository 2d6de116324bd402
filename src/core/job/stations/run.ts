/** Run: recordings are kept as captures; typed are the job's limits, the bench's own figures and notes. */
import { z } from 'zod';
import { benchFields, benchLines, benchNames } from './run/bench.ts';
import { exchangedFields, exchangedLines, exchangedSchema } from './run/exchanged.ts';
import { halfTurnFields, halfTurnLines, halfTurnSchema } from './run/halfTurn.ts';
import {
  chosenLimits,
  deckClassChoice,
  limitFields,
  limitLines,
  limitsTypedSchema,
  recheckLabel,
} from './run/limits.ts';
import { responseFields, responseLines, responsesSchema } from './run/responses.ts';
import { each, fieldText, ofEveryStation, type StationModel, type TypedBy, without } from './stationModel.ts';

const schema = z.strictObject({
  ...ofEveryStation,
  limits: limitsTypedSchema.optional(),
  bench: each(benchNames, fieldText).optional(),
  responses: responsesSchema.optional(),
  exchanged: exchangedSchema.optional(),
  halfTurn: halfTurnSchema.optional(),
});
export type RunTyped = TypedBy<typeof schema>;

export const runModel: StationModel<RunTyped> = {
  schema,
  wholes: [['responses', 'preamp'], ['responses', 'record'], ['exchanged'], ['halfTurn']],
  lines: ({ limits, bench = {}, responses = {}, exchanged, halfTurn = {} }, { shop, stations, captures }) => [
    { label: 'Limits', text: limitLines(chosenLimits(limits, shop.limits)).join('; ') },
    ...benchLines(bench, shop.bench ?? {}),
    ...responseLines(responses, stations.match ?? {}),
    ...exchangedLines(exchanged, captures),
    ...halfTurnLines(halfTurn, captures),
  ],
  fromOlder: without('forReport'),
  fields: {
    limits: { class: deckClassChoice, own: { '*': limitFields }, recheck: { '*': recheckLabel } },
    bench: benchFields,
    responses: responseFields,
    exchanged: exchangedFields,
    halfTurn: halfTurnFields,
  },
};
