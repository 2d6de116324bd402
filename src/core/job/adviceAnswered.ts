/** A move made at its own station's card answers what a recording advises of it. */
import { isTurn, signedTurn } from '../advise/turn.ts';
import { followed } from './adviceMoves.ts';
import type { AdviceEntry, Job, Move, Outcome } from './api.ts';
import type { MoveName } from './moves.ts';

interface Asked {
  readonly moves: readonly MoveName[];
  /** of the thing done, by the move that it was done with */
  did(move: MoveName): string;
  /** signed, in the unit of `move`; undefined where the advice has no amount, or in another unit */
  by(entry: AdviceEntry, move: MoveName): number | undefined;
}

/** By what a person can do about it; null where it moves nothing. */
function askedBy(entry: AdviceEntry): Asked | null {
  const { advice } = entry;
  if (isTurn(advice)) {
    return {
      moves: ['turn-shell', 'shim'],
      did: (move) => (move === 'shim' ? 'shim put in' : 'headshell turned'),
      by: (_, move) => (move === 'shim' ? undefined : signedTurn(advice)),
    };
  }
  if (!Object.hasOwn(followed, advice.action)) return null;
  const { move, did, by } = followed[advice.action];
  return { moves: [move], did: () => did, by: () => (advice.amount === null ? undefined : by?.(advice)) };
}

/** The other way is no answer to it. */
const sameWay = (asked: number | undefined, made: number | undefined): boolean =>
  asked === undefined || made === undefined || asked * made > 0;

/**
 * The open advice that a move answers, with its outcome: of the newest recording that asks for such a move, and only where
 * it asks for one thing. The outcome's time is the step, so that taking the step back finds it again.
 *
 * @param advice open or not, of recordings that count of what is fitted now, in the order given
 * @param at ISO time, the step of the move
 */
export function answeredBy(
  { move, by, note = '' }: Move,
  advice: readonly AdviceEntry[],
  at: string,
): { readonly id: string; readonly outcome: Outcome } | null {
  const fits = advice.flatMap((entry) => {
    const asked = askedBy(entry);
    return asked?.moves.includes(move) ? [{ entry, asked }] : [];
  });
  const newest = fits.at(-1)?.entry.captureId;
  const open = fits.filter(({ entry }) => entry.captureId === newest && entry.outcome.did === 'open');
  if (open.length !== 1) return null;
  const [{ entry, asked }] = open;
  if (!sameWay(asked.by(entry, move), by)) return null;
  return { id: entry.id, outcome: { did: 'done', note: `${asked.did(move)} ${note}`.trim(), at } };
}

/** True where the outcome was made by a move at its own station: it is taken back there. */
export const madeAtCard = ({ outcome }: AdviceEntry, { stations }: Pick<Job, 'stations'>): boolean =>
  outcome.at !== null &&
  Object.values(stations).some(({ data: { moves, rewired } }) =>
    [...(Array.isArray(moves) ? moves : []), { at: rewired }].some(
      (one) => (one as { readonly at?: unknown } | null)?.at === outcome.at,
    ),
  );
