/** Arm height: what a raised pivot does to the pitch and the tilt of the cartridge. Lengths mm, angles rad. */
import { within } from '../units/bounds.ts';

/** What the axis of the vertical bearing is square to: the line from pivot to tip, or the cartridge's own axis. */
export type BearingSquareTo = 'arm-line' | 'cartridge';

export interface ArmAtAngle {
  /** pivot to tip, mm */
  readonly effectiveLength: number;
  /** of the cartridge against the line from pivot to tip, φ, rad */
  readonly offset: number;
  readonly squareTo: BearingSquareTo;
}

export interface Attitude {
  /** rad; positive steepens the vertical tracking angle, and the rake with it */
  readonly pitch: number;
  /** rad; clockwise seen from the cartridge's face positive */
  readonly tilt: number;
}

/**
 * How the cartridge stands differently when the pivot is raised.
 *
 *   square to the arm's line:   pitch = atan(Δh / L) cos φ,  tilt = atan(Δh / L) sin φ
 *   square to the cartridge:    pitch = atan(Δh / (L cos φ)), tilt = 0
 *
 * The cantilever runs down and forward from the cartridge to the tip, so raising the arm at its pivot steepens it.
 *
 * @param rise of the pivot, mm, up positive; a thicker record is a negative rise of its own thickness
 * @throws RangeError naming the argument, its value and its bounds
 * @source statics: a turn about one axis, taken apart along and across the cartridge; good to 0.1 % up to 3°
 * @checked src/core/mechanics/armHeight.test.ts, against the rotation itself
 */
export function attitudeForRise(rise: number, arm: ArmAtAngle): Attitude {
  within('rise', rise, -100, 100, 'mm');
  check(arm);
  const { effectiveLength: L, offset, squareTo } = arm;
  if (squareTo === 'cartridge') return { pitch: Math.atan(rise / (L * Math.cos(offset))), tilt: 0 };
  const turn = Math.atan(rise / L);
  return { pitch: turn * Math.cos(offset), tilt: turn * Math.sin(offset) };
}

/** How far to raise the pivot for a change of pitch, mm. @param pitch rad, −0.5 to 0.5 */
export function riseForPitch(pitch: number, arm: ArmAtAngle): number {
  within('pitch', pitch, -0.5, 0.5, 'rad');
  check(arm);
  const { effectiveLength: L, offset, squareTo } = arm;
  return squareTo === 'cartridge' ? L * Math.cos(offset) * Math.tan(pitch) : L * Math.tan(pitch / Math.cos(offset));
}

function check({ effectiveLength, offset }: ArmAtAngle): void {
  within('effectiveLength', effectiveLength, 20, 2000, 'mm');
  within('offset', offset, -Math.PI / 3, Math.PI / 3, 'rad');
}
