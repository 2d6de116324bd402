/** A tilt found → the words for the hand: which way, how far, what goes under which side, with its caution. */
import { degToRad } from '../units/units.ts';
import { plain, type Statement, statement } from '../words/statement.ts';
import { type Advice, type Prediction, toldAdvice } from './document.ts';

/** mm between the two mounting holes, half an inch */
export const MOUNT_WIDTH_MM = 12.7;

/** deg; a cartridge set by eye stands within this of upright: further out the record or the cartridge is the likelier cause */
const MIRROR_FIRST_DEG = 1.5;

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
 * @param reasons what belongs to this case
 */
export function leaveTilt(predicts: readonly Prediction[], reasons: readonly Statement[]): Advice {
  return toldAdvice({ action: 'leave-tilt', amount: null, unit: 'deg', direction: null, predicts, reasons });
}

/**
 * Advice to turn the cartridge.
 * @param action a turn, or a trial of one
 * @param tiltDeg tilt to be taken out, deg, clockwise in the front view positive
 * @param uncertaintyDeg k = 2, or null where none can be given
 * @param more statements that belong to this case, e.g. an assumption
 */
export function turnAdvice(
  action: 'tilt' | 'trial-tilt',
  tiltDeg: number,
  uncertaintyDeg: number | null,
  predicts: readonly Prediction[],
  more: readonly Statement[],
): Advice {
  const first = Math.abs(tiltDeg) > MIRROR_FIRST_DEG ? [statement('mirror-first')] : [];
  return toldAdvice({
    action,
    amount: Math.abs(tiltDeg),
    unit: 'deg',
    uncertainty: uncertaintyDeg,
    direction: turnDirection(tiltDeg),
    predicts,
    reasons: [...first, plain(turnWords(tiltDeg)), plain(shimWords(tiltDeg)), ...more],
    cautions: [plain(TILT_CAUTION)],
  });
}
