/** A tilt found → the words for the hand: which way, how far, what goes under which side, with its caution. */
import { SHELL_TO_TUBE, SHIM_LEVER, shimForTilt, tubeTurn } from '../mechanics/cartridgeTurn.ts';
import { degToRad, radToDeg } from '../units/units.ts';
import { isKnown, type Statement, sayAll, statement } from '../words/statement.ts';
import { type Advice, type Prediction, toldAdvice } from './document.ts';

/** deg; a cartridge set by eye stands within this of upright: further out the record or the cartridge is the likelier cause */
const MIRROR_FIRST_DEG = 1.5;

/** Advice to turn the cartridge, surely worth it or as a trial. */
export const isTurn = ({ action }: Pick<Advice, 'action'>): boolean => action === 'tilt' || action === 'trial-tilt';

/** How far an advised turn turns, deg, clockwise in the front view positive. */
export const signedTurn = ({ amount, direction }: Pick<Advice, 'amount' | 'direction'>): number =>
  (direction?.startsWith('anticlockwise') ? -1 : 1) * (amount ?? 0);

export type TurnDirection = 'clockwise-from-front' | 'anticlockwise-from-front';

/** A clockwise tilt is turned back anticlockwise. `tiltDeg` clockwise positive. */
export function turnDirection(tiltDeg: number): TurnDirection {
  return tiltDeg > 0 ? 'anticlockwise-from-front' : 'clockwise-from-front';
}

export interface Shim {
  /** with the usual lever */
  readonly mm: number;
  /** a washer under the screw */
  readonly leastMm: number;
  /** a strip at the edge of a wide body */
  readonly mostMm: number;
  readonly side: 'spindle' | 'rim';
}

/**
 * Thickness to slip between headshell and cartridge at one screw, mm: lever · tan φ.
 * Seen from its face, turning anticlockwise lowers the left-hand (spindle) side, so the shim goes there.
 */
export function shim(tiltDeg: number): Shim {
  const thickness = (lever: number): number => shimForTilt(Math.abs(degToRad(tiltDeg)), lever);
  return {
    mm: thickness(SHIM_LEVER.usual),
    leastMm: thickness(SHIM_LEVER.least),
    mostMm: thickness(SHIM_LEVER.most),
    side: tiltDeg > 0 ? 'spindle' : 'rim',
  };
}

/** Which side goes up and which down: words that cannot be misread at the bench. */
export const sidesStatement = (tiltDeg: number): Statement =>
  statement('turn-sides', { up: tiltDeg > 0 ? 'rim' : 'spindle' });

const wayStatement = (tiltDeg: number): Statement =>
  statement('turn-way', { way: tiltDeg > 0 ? 'anticlockwise' : 'clockwise' });

function shimStatement(tiltDeg: number): Statement {
  const { leastMm, mostMm, side } = shim(tiltDeg);
  return statement('turn-shim', {
    least: leastMm,
    most: mostMm,
    side,
    hand: side === 'spindle' ? 'left-hand' : 'right-hand',
  });
}

/** Where the tube turns behind the shell instead: further, and with a share of pitch. */
function tubeStatement(tiltDeg: number): Statement {
  const tilt = Math.abs(degToRad(tiltDeg));
  const turnFor = (shellToTube: number): number => (1e-3 * tilt) / tubeTurn(1e-3, shellToTube).tilt;
  const [least, most] = [turnFor(SHELL_TO_TUBE.least), turnFor(SHELL_TO_TUBE.most)];
  return statement('turn-tube', {
    least: radToDeg(least),
    most: radToDeg(most),
    nose: tiltDeg > 0 ? 'down' : 'up',
    pitch: radToDeg((tubeTurn(least, SHELL_TO_TUBE.least).noseUp + tubeTurn(most, SHELL_TO_TUBE.most).noseUp) / 2),
  });
}

/** Codes of what every turn says: a card that draws them leaves them out of its text. */
export const turnCodes: readonly string[] = ['turn-way', 'turn-sides', 'turn-shim', 'turn-tube'];

/**
 * Advice to leave the tilt as it is.
 * @param reasons what belongs to this case
 */
export function leaveTilt(predicts: readonly Prediction[], reasons: readonly Statement[]): Advice {
  return toldAdvice({ action: 'leave-tilt', amount: null, unit: 'deg', direction: null, predicts, reasons });
}

/** What speaks for leaving it, for who has said already that it is left. */
export function whyLeft({ reasons = [], why }: Pick<Advice, 'reasons' | 'why'>): string {
  const isTold = reasons.some(({ code }) => code === 'leave-no-gain') && reasons.every(isKnown);
  return isTold ? sayAll(reasons.filter(({ code }) => code !== 'leave-tilt')) : why;
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
    reasons: [
      ...first,
      wayStatement(tiltDeg),
      sidesStatement(tiltDeg),
      shimStatement(tiltDeg),
      tubeStatement(tiltDeg),
      ...more,
    ],
    cautions: [statement('caution-headshell')],
  });
}

/** How exactly a hand sets a tilt with screw or shim, deg, k = 2. Common practice. */
export const HAND_DEG = 0.1;
