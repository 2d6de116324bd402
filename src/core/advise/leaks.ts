/**
 * What a turn of the cartridge does to the two leaks, when their size and phase are known.
 *
 * A leak is the undriven channel over the driven one, gains removed, at the test tone: `leftIntoRight` from the
 * left-only band, `rightIntoLeft` from the right-only band. A tilt of φ (clockwise seen from the cartridge's face is
 * positive) adds −tan φ to the first and +tan φ to the second; it cannot touch their imaginary parts.
 */
import { radToDeg, ratioToDb } from '../units/units.ts';

export interface Complex {
  readonly re: number;
  readonly im: number;
}

export interface Leaks {
  readonly leftIntoRight: Complex;
  readonly rightIntoLeft: Complex;
}

export interface SeparationsDb {
  /** dB, positive */
  readonly leftToRight: number;
  readonly rightToLeft: number;
}

/** Separation of a leak of this size, dB. Limited to 120 dB, far below any groove, so that it stays finite. */
export function separationDb(leak: Complex): number {
  return Math.min(120, -ratioToDb(Math.max(1e-6, Math.hypot(leak.re, leak.im))));
}

/**
 * Tilt present for the least total leak: minimise |c_LR + t|² + |c_RL − t|², hence t = (Re c_RL − Re c_LR)/2, φ = atan t.
 * @returns rad, clockwise in the front view positive
 */
export function tiltOfLeastLeak({ leftIntoRight, rightIntoLeft }: Leaks): number {
  return Math.atan((rightIntoLeft.re - leftIntoRight.re) / 2);
}

/**
 * Tilt present by the bench's usual rule, equal separations: |c_LR + t| = |c_RL − t|.
 * @returns rad, or why there is none: the rule divides by the common in-phase leak, and a cartridge may have none
 */
export function tiltOfEqualSeparations({
  leftIntoRight: a,
  rightIntoLeft: b,
}: Leaks): { found: true; tilt: number } | { found: false; why: string } {
  const common = a.re + b.re;
  const difference = b.re ** 2 + b.im ** 2 - a.re ** 2 - a.im ** 2;
  const t = difference / (2 * common);
  if (!(Math.abs(common) > 1e-4) || !(Math.abs(t) < Math.tan(Math.PI / 12))) {
    return { found: false, why: 'the two channels have too little leak in common for equal readings to mean anything' };
  }
  return { found: true, tilt: Math.atan(t) };
}

/** The leaks after the cartridge has been turned back by `tilt` rad (clockwise tilt removed when positive). */
export function leaksAfterRemoving({ leftIntoRight, rightIntoLeft }: Leaks, tilt: number): Leaks {
  const t = Math.tan(tilt);
  return {
    leftIntoRight: { re: leftIntoRight.re + t, im: leftIntoRight.im },
    rightIntoLeft: { re: rightIntoLeft.re - t, im: rightIntoLeft.im },
  };
}

export function separationsOf(leaks: Leaks): SeparationsDb {
  return { leftToRight: separationDb(leaks.leftIntoRight), rightToLeft: separationDb(leaks.rightIntoLeft) };
}

/** True where meters alone would see nothing wrong (separations within 1 dB) although the tilt is worth a turn. */
export function equalSeparationsHideTilt(leaks: Leaks, worthTurningRad: number): boolean {
  const now = separationsOf(leaks);
  return (
    Math.abs(now.leftToRight - now.rightToLeft) < 1 && Math.abs(tiltOfLeastLeak(leaks)) > Math.abs(worthTurningRad)
  );
}

/** Degrees, for sentences. */
export const tiltDeg = (tilt: number): number => radToDeg(tilt);
