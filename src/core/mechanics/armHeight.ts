/** Arm height and what it does to the vertical tracking angle. Lengths mm, angles rad. */
import { within } from '../units/bounds.ts';

/**
 * How far the vertical tracking angle grows when the pivot is raised.
 *
 *   Δα = atan(Δh / L)
 *
 * The cantilever runs down and forward from the cartridge to the tip, so raising the arm at its pivot steepens it.
 *
 * @param rise of the pivot, mm, up positive; a thicker record is a negative rise of its own thickness
 * @param effectiveLength pivot to tip, mm
 * @returns rad, same sign
 * @throws RangeError naming the argument, its value and its bounds
 * @source statics; for 230 mm 1° is 4.0 mm
 * @checked src/core/mechanics/armHeight.test.ts
 */
export function angleForRise(rise: number, effectiveLength: number): number {
  within('rise', rise, -100, 100, 'mm');
  within('effectiveLength', effectiveLength, 20, 2000, 'mm');
  return Math.atan(rise / effectiveLength);
}

/** How far to raise the pivot for a change of angle, mm: L tan Δα. */
export function riseForAngle(angle: number, effectiveLength: number): number {
  within('angle', angle, -0.5, 0.5, 'rad');
  within('effectiveLength', effectiveLength, 20, 2000, 'mm');
  return effectiveLength * Math.tan(angle);
}
