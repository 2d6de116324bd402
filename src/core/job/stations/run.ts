/** Run: recordings are kept as captures; typed are the job's limits, the bench's own figures and notes. */
import { z } from 'zod';
import { benchFields, benchNames } from './run/bench.ts';
import { chosenLimits, limitLines, limitsTypedSchema } from './run/limits.ts';
import { each, fieldText, ofEveryStation, type StationModel, type TypedBy, without } from './stationModel.ts';

const schema = z.strictObject({
  ...ofEveryStation,
  limits: limitsTypedSchema.optional(),
  bench: each(benchNames, fieldText).optional(),
});
export type RunTyped = TypedBy<typeof schema>;

export const runModel: StationModel<RunTyped> = {
  schema,
  lines: ({ limits, bench }, { shop }) => [
    { label: 'Limits', text: limitLines(chosenLimits(limits, shop.limits)).join('; ') },
    ...(bench?.strobe === undefined || bench.strobe.trim() === ''
      ? []
      : [{ label: benchFields.strobe.label, text: `${bench.strobe.replace(/\s*%\s*$/, '')} %` }]),
  ],
  fromOlder: without('forReport'),
  label([group, name, edge]) {
    if (group === 'bench') return benchFields[name as keyof typeof benchFields]?.label;
    if (group !== 'limits') return undefined;
    return name === 'class' ? 'Deck class' : edge === undefined ? 'Limits' : `Limit of ${edge.replaceAll('-', ' ')}`;
  },
};
