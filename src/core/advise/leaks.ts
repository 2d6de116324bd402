/** What two complex leaks mean for the person at the bench: separations now and after, and where a meter is blind. */

import { type ComplexLeaks, tiltFromLeaks } from '../measure/tilt.ts';
import type { Complex } from '../units/complex.ts';
import { ratioToDb } from '../units/units.ts';

export interface SeparationsDb {
  /** dB, positive */
  readonly leftToRight: number;
  readonly rightToLeft: number;
}

/** Separation of a leak of this size, dB. Limited to 120 dB, far below any groove, so that it stays finite. */
export function separationDb(leak: Complex): number {
  return Math.min(120, -ratioToDb(Math.max(1e-6, Math.hypot(leak.re, leak.im))));
}

export function separationsOf(leaks: ComplexLeaks): SeparationsDb {
  return { leftToRight: separationDb(leaks.leftIntoRight), rightToLeft: separationDb(leaks.rightIntoLeft) };
}

/** True where meters alone would see nothing wrong (separations within 1 dB) although the tilt is worth a turn. */
export function equalSeparationsHideTilt(leaks: ComplexLeaks, worthTurningRad: number): boolean {
  const now = separationsOf(leaks);
  return Math.abs(now.leftToRight - now.rightToLeft) < 1 && Math.abs(tiltFromLeaks(leaks)) > Math.abs(worthTurningRad);
}
