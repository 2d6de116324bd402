/** Tracking force depends on how high the tip stands: record, mat, or the pan of a force gauge. N, mm, kg. */
import { within } from '../units/bounds.ts';
import { STANDARD_GRAVITY } from '../units/units.ts';

/** The arm as it swings, everything on it included. */
export interface SwingingArm {
  /** force at the tip in the reference position, N */
  readonly force: number;
  /** pivot to tip, mm */
  readonly effectiveLength: number;
  /** how far the tip stands below the pivot in the reference position, mm */
  readonly pivotAboveTip: number;
  /** arm, counterweight, cartridge and hardware together, kg */
  readonly movingMass: number;
  /** centre of gravity of all that below the pivot in the reference position, mm; above it negative */
  readonly centreBelowPivot: number;
}

/**
 * Force at the tip when it stands `rise` mm above the reference position, by moments about the pivot.
 *
 * With the centre of gravity at (x, −z) and the tip at (l, −h) from the pivot, l = √(L² − h²), and everything turned up
 * by δ:
 *
 *   F(δ) = m g (x cos δ + z sin δ) / (l cos δ + h sin δ),   x = F(0) l / (m g)
 *
 * An arm whose weight hangs below the pivot presses harder when it is lifted; one balanced in its own line hardly cares.
 * Springs that set the force, and stiff lead wires, are left out.
 *
 * @param rise mm, up positive
 * @returns N
 * @throws RangeError naming the argument, its value and its bounds
 * @source statics
 * @checked src/core/mechanics/forceAndHeight.test.ts: against the slope of the potential energy
 */
export function forceAtRise(arm: SwingingArm, rise: number): number {
  const { force, effectiveLength: L, pivotAboveTip: h, movingMass, centreBelowPivot: z } = arm;
  within('force', force, -1, 1, 'N');
  within('effectiveLength', L, 20, 2000, 'mm');
  within('pivotAboveTip', h, -L / 2, L / 2, 'mm');
  within('movingMass', movingMass, 1e-3, 5, 'kg');
  within('centreBelowPivot', z, -200, 200, 'mm');
  within('rise', rise, -L / 4, L / 4, 'mm');
  const l = Math.sqrt(L * L - h * h);
  // the tip stays at distance L from the pivot: its depth becomes h − rise
  const delta = Math.asin(h / L) - Math.asin((h - rise) / L);
  const weight = movingMass * STANDARD_GRAVITY;
  const x = (force * l) / weight;
  return (weight * (x * Math.cos(delta) + z * Math.sin(delta))) / (l * Math.cos(delta) + h * Math.sin(delta));
}
