/** Advice of a recording once it is followed: where that is done, by which move of the table, and how it is called. */
import type { Advice } from '../advise/document.ts';
import { signedTurn } from '../advise/turn.ts';
import type { Move } from './api.ts';
import type { MoveName } from './moves.ts';
import type { StationName } from './station.ts';

export interface Followed {
  readonly station: StationName;
  readonly move: MoveName;
  /** on the button */
  readonly says: string;
  /** of the thing done, before its amount */
  readonly did: string;
  /** signed, in the move's own unit; left out where the advice has no amount in it */
  by?(advice: Advice): number;
}

/** Up, forward and clockwise positive. */
const towards =
  (direction: string) =>
  (advice: Advice): number =>
    (advice.direction?.startsWith(direction) ? 1 : -1) * (advice.amount ?? 0);

const leadsMoved = { station: 'fit', move: 'rewire' } as const;

/** By action; a turn is not here: a headshell turned and a shim put in are two moves, and Tilt asks which it was. */
export const followed: Readonly<Record<string, Followed>> = {
  speed: { station: 'run', move: 'set-speed', says: 'I set the speed', did: 'speed set' },
  hum: { station: 'run', move: 'set-earth', says: 'I worked at the hum', did: 'hum worked at' },
  'reverse-one-channel': {
    ...leadsMoved,
    says: 'I exchanged the two leads',
    did: 'leads of one channel changed over',
  },
  'swap-channels': { ...leadsMoved, says: 'I exchanged left and right', did: 'left and right changed over' },
  slide: { station: 'place', move: 'slide', says: 'I slid it', did: 'slid', by: towards('forward') },
  twist: { station: 'place', move: 'twist', says: 'I twisted it', did: 'twisted', by: signedTurn },
  'set-skating': { station: 'run', move: 'set-skating', says: 'I set the anti-skating', did: 'anti-skating set' },
  // per cent of a force that the recording does not know: it is weighed at its own station
  'set-force': { station: 'run', move: 'set-force', says: 'I raised the force', did: 'tracking force raised' },
  'set-arm-height': {
    station: 'height',
    move: 'set-arm-height',
    says: 'I set the arm height',
    did: 'arm height',
    by: towards('raise'),
  },
};

/**
 * The move that following an advice is, as the store takes it; null for advice that moves nothing, or that is not here.
 * @param step what takes it back
 */
export function moveOfAdvice(advice: Advice, step: string): Move | null {
  if (!Object.hasOwn(followed, advice.action)) return null;
  const { station, move, by } = followed[advice.action];
  return { station, move, step, ...(by === undefined || advice.amount === null ? {} : { by: by(advice) }) };
}
