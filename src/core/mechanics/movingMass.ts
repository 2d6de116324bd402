/** Mass as the stylus feels it: what sits elsewhere counts by the square of its distance from the pivot. */
import { within } from '../units/bounds.ts';

/**
 * Mass at the tip that has the same moment of inertia about the pivot (parallel-axis rule, the body's own inertia about
 * its centre being small beside it).
 *
 *   M = m (x / L)²
 *
 * @param mass kg
 * @param distance pivot to the body's centre, mm, either side of the pivot
 * @param effectiveLength pivot to tip, mm
 * @returns kg
 * @throws RangeError naming the argument, its value and its bounds
 * @checked src/core/mechanics/movingMass.test.ts
 */
export function massAtTip(mass: number, distance: number, effectiveLength: number): number {
  within('mass', mass, 0, 5, 'kg');
  within('distance', distance, -1000, 1000, 'mm');
  within('effectiveLength', effectiveLength, 20, 2000, 'mm');
  return mass * (distance / effectiveLength) ** 2;
}
