/**
 * The arm in balance: moments about the pivot. Masses kg, lengths mm, moments kg·mm (front-heavy positive), forces N.
 */

import { within } from '../units/bounds.ts';
import { STANDARD_GRAVITY } from '../units/units.ts';
import { type Found, none } from '../words/found.ts';
import { statement } from '../words/statement.ts';

/** What hangs on the arm in front of the pivot, and what balances it. */
export interface ArmBalance {
  /** cartridge, hardware and headshell where it comes off, kg; taken as sitting at the tip */
  readonly frontMass: number;
  /** pivot to tip, mm */
  readonly effectiveLength: number;
  /** moment of the bare arm without its counterweight, kg·mm, front-heavy positive */
  readonly armMoment: number;
  /** kg */
  readonly counterweightMass: number;
}

function check(arm: ArmBalance): void {
  within('frontMass', arm.frontMass, 0, 0.5, 'kg');
  within('effectiveLength', arm.effectiveLength, 20, 2000, 'mm');
  within('armMoment', arm.armMoment, -200, 200, 'kg·mm');
  within('counterweightMass', arm.counterweightMass, 1e-4, 5, 'kg');
}

/**
 * Where the counterweight's centre must sit behind the pivot to leave `force` at the tip.
 *
 *   x = (m_front L + (m x)_arm − F L / g) / m_cw
 *
 * @param force tracking force, N, 0 for a floating arm
 * @returns mm behind the pivot; negative means in front of it
 * @throws RangeError naming the argument, its value and its bounds
 * @source statics
 * @checked src/core/mechanics/counterweight.test.ts, worked by hand
 */
export function counterweightPosition(arm: ArmBalance, force: number): number {
  check(arm);
  within('force', force, -1, 1, 'N');
  const { frontMass, effectiveLength, armMoment, counterweightMass } = arm;
  return (frontMass * effectiveLength + armMoment - (force / STANDARD_GRAVITY) * effectiveLength) / counterweightMass;
}

/**
 * The bare arm's moment from one state of balance: the counterweight's place at which the arm floats, with a front mass
 * that is known. The rest of the statics follows from it, so nobody has to know where the arm's own centre lies.
 *
 * @returns kg·mm
 */
export function armMomentFromFloat(arm: Omit<ArmBalance, 'armMoment'>, floatPosition: number): number {
  check({ ...arm, armMoment: 0 });
  within('floatPosition', floatPosition, -500, 500, 'mm');
  return arm.counterweightMass * floatPosition - arm.frontMass * arm.effectiveLength;
}

/** Force gained at the tip for each mm that the counterweight moves forward, N/mm: m g / L. */
export function forcePerMm(counterweightMass: number, effectiveLength: number): number {
  within('counterweightMass', counterweightMass, 1e-4, 5, 'kg');
  within('effectiveLength', effectiveLength, 20, 2000, 'mm');
  return (counterweightMass * STANDARD_GRAVITY) / effectiveLength;
}

export interface CounterweightMove {
  /** mm, forward (towards the tip, more force) positive */
  readonly forward: number;
  /** turns of a threaded weight, same sign; null where the weight slides on a plain stub */
  readonly turns: number | null;
}

/**
 * The way from one force to another by moving the counterweight alone.
 *
 * @param from force now, N; 0 for a floating arm
 * @param to force wanted, N
 * @param pitch travel for one turn, mm; null for a plain stub
 */
export function counterweightMove(
  counterweightMass: number,
  effectiveLength: number,
  from: number,
  to: number,
  pitch: number | null,
): CounterweightMove {
  within('from', from, -1, 1, 'N');
  within('to', to, -1, 1, 'N');
  if (pitch !== null) within('pitch', pitch, 0.05, 50, 'mm');
  const forward = (to - from) / forcePerMm(counterweightMass, effectiveLength);
  return { forward, turns: pitch === null ? null : forward / pitch };
}

/**
 * Counterweight mass that would sit at `position` for this force, kg: for choosing another weight when this one runs off
 * its stub.
 *
 * @param position mm behind the pivot, 1–500
 * @returns kg, or why no weight can balance the arm there
 */
export function counterweightMassFor(
  arm: Omit<ArmBalance, 'counterweightMass'>,
  force: number,
  position: number,
): Found<number> {
  check({ ...arm, counterweightMass: 0.1 });
  within('force', force, -1, 1, 'N');
  within('position', position, 1, 500, 'mm');
  const moment = arm.frontMass * arm.effectiveLength + arm.armMoment - (force / STANDARD_GRAVITY) * arm.effectiveLength;
  if (!(moment > 0)) {
    return none(statement('tail-heavy'));
  }
  return { found: true, value: moment / position };
}
