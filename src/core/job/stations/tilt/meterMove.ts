/** A turn made by what a meter said, as a move: the separations read before, those foretold, and what was typed. */
import type { Advice } from '../../../advise/document.ts';
import { isTurn, shim, signedTurn } from '../../../advise/turn.ts';
import type { TiltFromMeter } from '../../../advise/voltmeter.ts';
import type { MoveStep } from '../../moveRecord.ts';
import type { TiltTyped } from '../tilt.ts';
import { type MeterTyped, separationsRead } from './meter.ts';

export type MeterMove = NonNullable<TiltTyped['moves']>[number];
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

/** @param at ISO time */
export function meterMove(by: TurnedBy, turnDeg: number, advice: Advice, reading: MeterTyped, at: string): MeterMove {
  return {
    ...stepOf(by, turnDeg),
    at,
    station: 'tilt',
    before: separationsRead(reading) ?? [],
    foretold: advice.predicts.map(({ quantity, value, unit }) => ({ quantity, value, unit, uncertainty: null })),
    came: null,
    reading,
  };
}

/** The form once the turn is made: two readings or four voltages, typed anew; a table of several tilts stays with it. */
export const afterTurn = ({ way, uncertainty, rows }: MeterTyped): MeterTyped => ({
  way: way === 'volts' ? 'volts' : 'db',
  ...(uncertainty === undefined ? {} : { uncertainty }),
  ...(rows === undefined ? {} : { rows }),
});
