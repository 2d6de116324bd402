/** What Weigh keeps as codes and values, its sentences, and how the sentences that earlier versions kept are read. */
import { z } from 'zod';
import type { AntiSkatingSetting } from '../../../advise/skatingSide.ts';
import { tidy } from '../../../words/number.ts';
import { type Statement, say, sayAll, statement } from '../../../words/statement.ts';
import type { StationData } from '../../api.ts';
import { type MoveName, moveNames } from '../../moves.ts';
import { markTold, whatMoveMakesStale } from '../../stale.ts';
import { EARLIER, reasonKeys } from '../../staleReasons.ts';
import { doneAt, type TypedBy, without } from '../stationModel.ts';

/** Without a move, or without a time: as an earlier version kept it. */
export const movedHereSchema = z.strictObject({ move: z.enum(moveNames).optional(), at: doneAt.optional() });
export type MovedHere = TypedBy<typeof movedHereSchema>;

export const alsoMovedSchema = z.strictObject({ move: z.enum(moveNames), at: doneAt, wasDone: z.boolean() });
export type AlsoMoved = TypedBy<typeof alsoMovedSchema>;

const figure = z.number().min(-1e6).max(1e6);
const settingOf = <const Code extends string, Values extends z.ZodRawShape>(codes: readonly Code[], values: Values) =>
  z.strictObject({ code: z.enum(codes), values: z.strictObject(values) });

const settingSchema = z.union([
  settingOf(['skating-notch'], { notch: figure, wanted: figure, grams: figure }),
  settingOf(['skating-notch-beyond'], { weight: z.enum(['heavier', 'lighter']) }),
  settingOf(['skating-thread', 'skating-thread-fine'], { grams: figure, within: z.string().max(20), lever: figure }),
  settingOf(['skating-dial', 'skating-dial-fine'], { grams: figure, mn: figure, friction: figure }),
]);

/** Anti-skating as it was set; `says` is a sentence that an earlier version kept. */
export const skatingSetSchema = z.union([
  z.strictObject({ at: doneAt, setting: z.array(settingSchema).min(1).max(4) }),
  z.strictObject({ at: doneAt, says: z.string().max(1000) }),
]);
export type SkatingSetting = TypedBy<typeof settingSchema>;

/** What the page says of a setting, as it is kept. @throws ZodError for statements that are no setting of an anti-skating */
export const keptSetting = (says: readonly Statement[]): readonly SkatingSetting[] =>
  z.array(settingSchema).parse(says);

/** "2.1 g" */
export const settingNote = ({ setting, unit }: Pick<AntiSkatingSetting, 'setting' | 'unit'>): string =>
  `${tidy(Number(setting.toPrecision(2)))} ${unit}`;

export const skatingSays = (set: TypedBy<typeof skatingSetSchema>): string =>
  'setting' in set ? sayAll(set.setting) : set.says;

/** Why a move that is made at Weigh itself asks for another weighing. */
export function movedHereSays({ move }: MovedHere): string {
  const mark = move === undefined ? undefined : reasonAtWeigh(move);
  return say(mark === undefined ? statement('moved-since') : markTold(mark));
}

/** undefined for a move that leaves the force as it is, and for the force itself: at Weigh it is weighed as it is set. Anti-skating moves none. */
export const reasonAtWeigh = (move: MoveName) =>
  move === 'set-force' || move === 'set-skating'
    ? undefined
    : whatMoveMakesStale(move).find(({ station }) => station === 'weigh');

/** What stands against the force as it was set, a key each. @param movedHere null where nothing was moved here */
export const reasonsToWeigh = (
  state: Parameters<typeof reasonKeys>[0],
  movedHere: MovedHere | null,
): readonly string[] => [...reasonKeys(state), ...(movedHere === null ? [] : [movedHere.at ?? EARLIER])];

/** A sentence of `movedHere` is looked up among today's; that of `readUnder` names no time and goes. */
export function weighFromOlder(data: StationData): StationData {
  const { movedHere, readUnder, ...rest } = without('forReport')(data);
  const move = moveNames.find((name) => typeof movedHere === 'string' && movedHereSays({ move: name }) === movedHere);
  const here = typeof movedHere !== 'string' ? movedHere : move === undefined ? {} : { move };
  return {
    ...rest,
    ...(here === undefined ? {} : { movedHere: here }),
    ...(readUnder === undefined || typeof readUnder === 'string' ? {} : { readUnder }),
  };
}
