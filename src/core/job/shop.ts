/** What a shop has set for all its jobs: kept once in the store, under a job's own. */
import { z } from 'zod';
import { benchKnown, shopBenchNames } from './stations/run/bench.ts';
import { type ChosenLimits, chosenLimits, limitsTypedSchema } from './stations/run/limits.ts';
import type { RunTyped } from './stations/run.ts';
import { each, fieldText, type TypedBy } from './stations/stationModel.ts';
import type { TiltTyped } from './stations/tilt.ts';

export const shopSchema = z.strictObject({
  limits: limitsTypedSchema.optional(),
  bench: each(shopBenchNames, fieldText).optional(),
  /** what the jobs teach of a record is not used */
  learnedOff: z.boolean().optional(),
});
export type Shop = TypedBy<typeof shopSchema>;

/** What a job and its shop have typed, as far as verdicts and budgets rest on it. */
export interface JobAndShop {
  readonly run: RunTyped;
  readonly tilt: TiltTyped;
  readonly shop: Shop;
}

/** What the shop has set, written into the job: as a file that stands alone carries it. */
export function withShop(run: RunTyped, shop: Shop): RunTyped {
  const [own, under] = [run.limits ?? {}, shop.limits ?? {}];
  const deckClass = own.class ?? under.class;
  const names = new Set([
    ...(own.class === undefined ? Object.keys(under.own ?? {}) : []),
    ...Object.keys(own.own ?? {}),
  ]);
  const limits = Object.fromEntries(
    [...names].map((name) => [
      name,
      { ...(own.class === undefined ? under.own?.[name] : undefined), ...own.own?.[name] },
    ]),
  );
  const layers = [own.class === undefined ? under.recheck : undefined, own.recheck];
  const recheck = Object.fromEntries(
    layers.flatMap((one) => Object.entries(one ?? {}).filter(([, text]) => text !== '')),
  );
  const rechecked = Object.keys(recheck).length > 0;
  const bench = { ...shop.bench, ...run.bench };
  return {
    ...run,
    ...(deckClass === undefined && names.size === 0 && !rechecked
      ? {}
      : {
          limits: {
            ...(deckClass === undefined ? {} : { class: deckClass }),
            ...(names.size === 0 ? {} : { own: limits }),
            ...(rechecked ? { recheck } : {}),
          },
        }),
    ...(Object.keys(bench).length === 0 ? {} : { bench }),
  };
}

export const limitsOf = ({ run, shop }: Pick<JobAndShop, 'run' | 'shop'>): ChosenLimits =>
  chosenLimits(run.limits, shop.limits);

export const benchOf = ({ run, tilt, shop }: JobAndShop) =>
  benchKnown(run.bench ?? {}, shop.bench ?? {}, tilt.setByMirror === true);
