/**
 * Tilt from the two complex leaks, and what a turn does to them. Signs: physics of docs/signs.md, clockwise seen from the
 * cartridge's face positive.
 *
 * A tilt of φ turns the generator axes (L' = L cos φ + R sin φ, R' = R cos φ − L sin φ). With the channels' gains removed
 * a leak is the tangent of an angle, and the turn adds to that angle:
 *
 *   c_LR → (c_LR + t) / (1 − c_LR t)      c_RL → (c_RL − t) / (1 + c_RL t)      after turning back by φ, t = tan φ
 *
 * For small leaks this is c_LR + t and c_RL − t. The least total leak |c_LR + t|² + |c_RL − t|² lies at
 *
 *   t = (Re c_RL − Re c_LR) / 2,   φ = atan t
 *
 * which is the answer given. Against the tangent law it reads a tilt too large by t|c|², 0.003° at 3° with leaks of −30 dB and
 * 0.03° with leaks of −20 dB.
 *
 * @checked tilt.test.ts, against the turned matrix itself
 */
import { type Complex, over } from '../units/complex.ts';

/** Undriven over driven channel at the tone, gains removed. */
export interface ComplexLeaks {
  /** right over left where only left is driven */
  readonly leftIntoRight: Complex;
  /** left over right where only right is driven */
  readonly rightIntoLeft: Complex;
}

/** The leaks after the cartridge has been turned back by `tilt` rad: a clockwise tilt is removed by a positive one. */
export function predictAfterTurn({ leftIntoRight, rightIntoLeft }: ComplexLeaks, tilt: number): ComplexLeaks {
  if (!(Math.abs(tilt) < Math.PI / 4)) throw new RangeError(`tilt ${tilt} must lie between −π/4 and π/4 rad`);
  const t = Math.tan(tilt);
  return {
    leftIntoRight: over({ re: leftIntoRight.re + t, im: leftIntoRight.im }, minusTimes(leftIntoRight, t)),
    rightIntoLeft: over({ re: rightIntoLeft.re - t, im: rightIntoLeft.im }, minusTimes(rightIntoLeft, -t)),
  };
}

/** 1 − c t */
const minusTimes = (c: Complex, t: number): Complex => ({ re: 1 - c.re * t, im: -c.im * t });

/** Tilt present for the least total leak, rad, clockwise positive; within ±π/4. Leaks up to 1. */
export function tiltFromLeaks(leaks: ComplexLeaks): number {
  const { leftIntoRight: a, rightIntoLeft: b } = leaks;
  if (!(Math.hypot(a.re, a.im) <= 1 && Math.hypot(b.re, b.im) <= 1)) {
    throw new RangeError(`leaks ${a.re}+${a.im}i and ${b.re}+${b.im}i must not be larger than 1`);
  }
  return Math.atan((b.re - a.re) / 2);
}

/**
 * Tilt by the bench's usual rule, equal separations: |c_LR + t| = |c_RL − t|, t = (|c_RL|² − |c_LR|²) / 2 Re(c_LR + c_RL).
 * @param leastCommon in-phase leak the two must have in common for the rule to mean anything
 * @returns rad; null where they have too little
 */
export function tiltOfEqualSeparations(
  { leftIntoRight: a, rightIntoLeft: b }: ComplexLeaks,
  leastCommon = 1e-4,
): number | null {
  const common = a.re + b.re;
  const t = (b.re ** 2 + b.im ** 2 - a.re ** 2 - a.im ** 2) / (2 * common);
  return Math.abs(common) > leastCommon && Math.abs(t) < 0.3 ? Math.atan(t) : null;
}
