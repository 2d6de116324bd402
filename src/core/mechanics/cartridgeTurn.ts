/** Ways to tilt a cartridge: a shim under one screw, a tube turned behind its shell. Lengths mm, angles rad. */
import { within } from '../units/bounds.ts';

/**
 * From a shim's inner edge to the far contact of cartridge and shell, mm. With a washer of 5 mm under one of two screws half
 * an inch apart it is 10.2 mm to the other screw and 11.4 mm to the edge of a narrow body; a wide body and a thin strip at
 * its edge come to 15 mm.
 */
export const SHIM_LEVER = { least: 10.2, usual: 12, most: 15 } as const;

/** Tilt that a shim gives: atan(t / lever). @param thickness 0 to 3 mm; 0.1 mm is 0.38 to 0.56° */
export function tiltOfShim(thickness: number, lever: number = SHIM_LEVER.usual): number {
  within('thickness', thickness, -3, 3, 'mm');
  within('lever', lever, 5, 30, 'mm');
  return Math.atan(thickness / lever);
}

/** Thickness of the shim that gives a tilt, mm: lever · tan φ. @param tilt rad, −0.3 to 0.3 */
export function shimForTilt(tilt: number, lever: number = SHIM_LEVER.usual): number {
  within('tilt', tilt, -0.3, 0.3, 'rad');
  within('lever', lever, 5, 30, 'mm');
  return lever * Math.tan(tilt);
}

/** Angle of a headshell to a straight tube behind it, rad; wider than the offset angle, which is measured at the tip. */
export const SHELL_TO_TUBE = { least: (26 * Math.PI) / 180, most: (30 * Math.PI) / 180 } as const;

export interface TubeTurn {
  /** rad; clockwise seen from the cartridge's face positive */
  readonly tilt: number;
  /** rad; the nose up positive: it flattens the vertical tracking angle */
  readonly noseUp: number;
}

/**
 * A tube turned by δ behind a shell that stands at the angle γ to it.
 *
 *   tilt = δ cos γ,  nose up = δ sin γ
 *
 * A collet that turns along the shell (γ = 0) tilts alone.
 *
 * @param turn δ, clockwise seen from the front positive
 * @param shellToTube γ, rad, 0 to 60°
 * @throws RangeError naming the argument, its value and its bounds
 * @source statics: a turn about one axis, taken apart along and across the shell; good to 0.1 % up to 3°
 * @checked src/core/mechanics/cartridgeTurn.test.ts, against the rotation itself
 */
export function tubeTurn(turn: number, shellToTube: number): TubeTurn {
  within('turn', turn, -0.3, 0.3, 'rad');
  within('shellToTube', shellToTube, 0, Math.PI / 3, 'rad');
  return { tilt: turn * Math.cos(shellToTube), noseUp: turn * Math.sin(shellToTube) };
}
