/** A turn as a move: what was read before it by a meter or a recording, and what is foretold. */
import type { Advice, JudgedFinding } from '../../../advise/document.ts';
import { isTurn, shim, signedTurn } from '../../../advise/turn.ts';
import type { TiltFromMeter } from '../../../advise/voltmeter.ts';
import type { MoveStep } from '../../moveRecord.ts';
import type { TiltTyped } from '../tilt.ts';
import { type MeterTyped, separationsRead } from './meter.ts';

export type TurnMove = NonNullable<TiltTyped['moves']>[number];
/** deg; a turn that no scale shows */
const LEAST_DEG = 0.005;

export type TurnedBy = 'turn-shell' | 'shim';

/**
 * What is still to be turned, deg, clockwise seen from the cartridge's face positive; null where nothing is to be. Of
 * readings at several tilts the advice counts from the scale's zero, the hand from where the cartridge stood last.
 */
export function turnLeft({ lastTiltDeg = 0, scale = 1 }: TiltFromMeter, advice: Advice): number | null {
  const turn = (isTurn(advice) ? signedTurn(advice) : 0) - lastTiltDeg * scale;
  return Math.abs(turn) < LEAST_DEG ? null : turn;
}

/** @param turnDeg clockwise seen from the cartridge's face positive @returns signed, in the move's own unit: deg, mm of shim */
export const turnedBy = (by: TurnedBy, turnDeg: number): number => (by === 'shim' ? shim(-turnDeg).mm : turnDeg);

function stepOf(by: TurnedBy, turnDeg: number): MoveStep {
  if (by === 'shim') {
    const { mm, side } = shim(-turnDeg);
    return { move: 'shim', amount: mm, unit: 'mm', direction: `on the ${side} side` };
  }
  const way = turnDeg >= 0 ? 'clockwise' : 'anticlockwise';
  return { move: 'turn-shell', amount: Math.abs(turnDeg), unit: 'deg', direction: `${way}, seen from its face` };
}

function turnMove(by: TurnedBy, turnDeg: number, advice: Advice, before: TurnMove['before'], at: string): TurnMove {
  return {
    ...stepOf(by, turnDeg),
    at,
    station: 'tilt',
    before,
    foretold: advice.predicts.map(({ quantity, value, unit }) => ({ quantity, value, unit, uncertainty: null })),
    came: null,
  };
}

/** Turned by what a meter said. @param at ISO time */
export const meterMove = (
  by: TurnedBy,
  turnDeg: number,
  advice: Advice,
  reading: MeterTyped,
  at: string,
): TurnMove => ({ ...turnMove(by, turnDeg, advice, separationsRead(reading) ?? [], at), reading });

/** Turned by what a recording advised: read before are the figures of that recording that the advice foretells. */
export function recordingMove(by: TurnedBy, advice: Advice, findings: readonly JudgedFinding[], at: string): TurnMove {
  const before = advice.predicts.flatMap(({ quantity, unit }) =>
    findings
      .filter((one) => one.quantity === quantity && one.unit === unit && typeof one.value === 'number')
      .slice(0, 1)
      .map(({ value, uncertainty }) => ({ quantity, value: value as number, unit, uncertainty })),
  );
  return turnMove(by, signedTurn(advice), advice, before, at);
}

/** The form once the turn is made: two readings or four voltages, typed anew; a table of several tilts stays with it. */
export const afterTurn = ({ way, uncertainty, rows }: MeterTyped): MeterTyped => ({
  way: way === 'volts' ? 'volts' : 'db',
  ...(uncertainty === undefined ? {} : { uncertainty }),
  ...(rows === undefined ? {} : { rows }),
});
