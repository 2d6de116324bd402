/**
 * Skating: the groove drags the tip along its tangent, the tangent misses the pivot, so the arm is drawn inward.
 *
 * θ is the angle between the arm's line (tip to pivot) and the groove's tangent at the tip; it comes in as an argument.
 * Forces N, lengths mm, moments N·mm.
 */
import { within } from '../units/bounds.ts';

function check(trackingForce: number, friction: number, theta: number): void {
  within('trackingForce', trackingForce, 0, 1, 'N');
  within('friction', friction, 0, 2);
  within('theta', theta, -1.4, 1.4, 'rad');
}

/**
 * Force that presses the tip against the inner groove wall, along the record's radius.
 *
 *   F = μ F_t tan θ
 *
 * The groove can only push at right angles to itself; its moment about the pivot, F L cos θ, balances that of the
 * friction, μ F_t L sin θ.
 *
 * @returns N, inward positive (zero-offset arms: θ and the force change sign where the arm stands square)
 * @throws RangeError naming the argument, its value and its bounds
 * @source statics
 * @checked test/standards/skating.test.ts
 */
export function skatingForce(trackingForce: number, friction: number, theta: number): number {
  check(trackingForce, friction, theta);
  return friction * trackingForce * Math.tan(theta);
}

/**
 * The same pull written as a force at the tip at right angles to the line from tip to pivot: what a force gauge or an
 * anti-skating device at the tip must match.
 *
 *   F = μ F_t sin θ
 *
 * @returns N, inward positive
 */
export function skatingForceAcrossArm(trackingForce: number, friction: number, theta: number): number {
  check(trackingForce, friction, theta);
  return friction * trackingForce * Math.sin(theta);
}

/** Moment of skating about the pivot, N·mm, inward positive: μ F_t L sin θ. */
export function skatingMoment(trackingForce: number, friction: number, theta: number, effectiveLength: number): number {
  within('effectiveLength', effectiveLength, 20, 2000, 'mm');
  return skatingForceAcrossArm(trackingForce, friction, theta) * effectiveLength;
}
