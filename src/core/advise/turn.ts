/** A tilt found → the words for the hand: which way, how far, what goes under which side, with its caution. */
import { degToRad } from '../units/units.ts';
import type { Advice, Prediction } from './document.ts';
import type { SeparationsDb } from './leaks.ts';

/** mm between the two mounting holes, half an inch */
export const MOUNT_WIDTH_MM = 12.7;

export const TILT_CAUTION =
  'Before touching the headshell: mute the amplifier, lift the arm and lock it in its rest, put the stylus guard on. ' +
  "Hold the shell and never turn against the arm's bearings. The maker's manual wins over this advice.";

export type TurnDirection = 'clockwise-from-front' | 'anticlockwise-from-front';

/** A clockwise tilt is turned back anticlockwise. `tiltDeg` clockwise positive. */
export function turnDirection(tiltDeg: number): TurnDirection {
  return tiltDeg > 0 ? 'anticlockwise-from-front' : 'clockwise-from-front';
}

/**
 * Thickness to slip between headshell and cartridge at one screw, mm: 12.7 tan φ.
 * Seen from its face, turning anticlockwise lowers the left-hand (spindle) side, so the shim goes there.
 */
export function shim(tiltDeg: number): { mm: number; side: 'spindle' | 'rim' } {
  return {
    mm: MOUNT_WIDTH_MM * Math.tan(Math.abs(degToRad(tiltDeg))),
    side: tiltDeg > 0 ? 'spindle' : 'rim',
  };
}

export function predictSeparations(after: SeparationsDb): Prediction[] {
  return [
    { quantity: 'separation-left-to-right', value: after.leftToRight, unit: 'dB' },
    { quantity: 'separation-right-to-left', value: after.rightToLeft, unit: 'dB' },
  ];
}

/** Words for the direction that cannot be misread at the bench. */
export function turnWords(tiltDeg: number): string {
  return tiltDeg > 0
    ? 'Turn the cartridge anticlockwise, seen from its face: the side nearer the rim goes up, the side nearer the spindle goes down.'
    : 'Turn the cartridge clockwise, seen from its face: the side nearer the spindle goes up, the side nearer the rim goes down.';
}

export function shimWords(tiltDeg: number): string {
  const { mm, side } = shim(tiltDeg);
  const hand = side === 'spindle' ? 'left-hand' : 'right-hand';
  return (
    `In a fixed headshell that is about ${mm.toFixed(2)} mm of shim between shell and cartridge at the screw on the ` +
    `${side} side (${hand}, seen from its face) of a 12.7 mm mount.`
  );
}

/**
 * Advice to leave the tilt as it is.
 * @param withinDeg the angle that is not worth a turn, deg
 * @param more sentences that belong to this case, e.g. an assumption
 */
export function leaveTilt(withinDeg: number, predicts: readonly Prediction[] = [], more = ''): Advice {
  const why = `The cartridge stands within ${withinDeg.toFixed(2)}° of upright to the groove: leave the tilt as it is.`;
  return {
    action: 'leave-tilt',
    amount: null,
    unit: 'deg',
    direction: null,
    predicts,
    why: more === '' ? why : `${why} ${more}`,
  };
}

/**
 * Advice to turn the cartridge.
 * @param tiltDeg tilt present, deg, clockwise in the front view positive
 * @param uncertaintyDeg k = 2, or null where none can be given
 * @param more sentences that belong to this case, e.g. an assumption
 */
export function turnAdvice(
  tiltDeg: number,
  uncertaintyDeg: number | null,
  predicts: readonly Prediction[],
  more: string,
): Advice {
  return {
    action: 'tilt',
    amount: Math.abs(tiltDeg),
    unit: 'deg',
    uncertainty: uncertaintyDeg,
    direction: turnDirection(tiltDeg),
    predicts,
    why: [turnWords(tiltDeg), shimWords(tiltDeg), more].filter((s) => s !== '').join(' '),
    caution: TILT_CAUTION,
  };
}
