/** What an anti-skating device must pull: weight on a thread, weight on a lever. Moments N·mm, lengths mm, masses kg. */
import { within } from '../units/bounds.ts';
import { STANDARD_GRAVITY } from '../units/units.ts';

/**
 * Weight to hang on a thread that pulls the arm at a known distance from its pivot.
 *
 *   m = T / (g a sin ψ)
 *
 * @param moment to be balanced, N·mm, 0 or more
 * @param lever pivot to the point where the thread pulls, mm
 * @param pull angle between thread and lever seen from above, rad; π/2 when the thread pulls square to it
 * @returns kg
 * @throws RangeError naming the argument, its value and its bounds
 * @source statics
 * @checked src/core/mechanics/antiSkating.test.ts, worked by hand
 */
export function threadWeight(moment: number, lever: number, pull: number = Math.PI / 2): number {
  within('moment', moment, 0, 100, 'N·mm');
  within('lever', lever, 0.5, 300, 'mm');
  within('pull', pull, 0.1, Math.PI - 0.1, 'rad');
  return moment / (STANDARD_GRAVITY * lever * Math.sin(pull));
}

/**
 * Distance from the pivot at which a thread with a given weight must pull (a lever with notches).
 *
 * @param weight kg
 * @returns mm
 */
export function leverForWeight(moment: number, weight: number, pull: number = Math.PI / 2): number {
  within('moment', moment, 0, 100, 'N·mm');
  within('weight', weight, 1e-5, 0.2, 'kg');
  within('pull', pull, 0.1, Math.PI - 0.1, 'rad');
  return moment / (STANDARD_GRAVITY * weight * Math.sin(pull));
}

/** Moment that a weight on a thread gives, N·mm: m g a sin ψ. */
export function threadMoment(weight: number, lever: number, pull: number = Math.PI / 2): number {
  within('weight', weight, 0, 0.2, 'kg');
  within('lever', lever, 0, 300, 'mm');
  within('pull', pull, 0.1, Math.PI - 0.1, 'rad');
  return weight * STANDARD_GRAVITY * lever * Math.sin(pull);
}
