/**
 * The arm as geometry sees it. Lengths mm, angles rad.
 *
 * Signs: overhang is positive when the tip swings past the spindle; offset is positive when the cartridge stands
 * clockwise of the line from pivot to tip, seen from above, so a clockwise twist raises it.
 */

import { within } from '../units/bounds.ts';
import { type Found, none } from '../words/found.ts';
import { statement } from '../words/statement.ts';

/** An arm that swings about one pivot. Underhung (effective length < spindle to pivot) and zero-offset arms are legal. */
export interface PivotedArm {
  readonly kind: 'pivoted';
  /** d, mm */
  readonly spindleToPivot: number;
  /** L, pivot to tip, mm */
  readonly effectiveLength: number;
  /** φ, rad */
  readonly offset: number;
}

/**
 * An arm whose tip travels along a straight line: the limit of a pivoted arm of endless length.
 * Its overhang is how far that line passes in front of the spindle.
 */
export interface TangentialArm {
  readonly kind: 'tangential';
  /** o, mm */
  readonly overhang: number;
  /** φ, rad: the cartridge's twist against the square of the tip's line */
  readonly offset: number;
}

export type Arm = PivotedArm | TangentialArm;

/** Bounds of what is taken for an arm, mm. */
export const SHORTEST_ARM = 50;
export const LONGEST_ARM = 20_000;
/** Bound of the offset either way, rad (60°). */
export const LARGEST_OFFSET = Math.PI / 3;

/**
 * A pivoted arm, checked.
 *
 * @param spindleToPivot d, mm, 50–20 000
 * @param effectiveLength L, mm, 50–20 000
 * @param offset φ, rad, −π/3 to π/3
 * @throws RangeError naming the argument, its value and its bounds
 */
export function pivotedArm(spindleToPivot: number, effectiveLength: number, offset: number): PivotedArm {
  within('spindle to pivot', spindleToPivot, SHORTEST_ARM, LONGEST_ARM, 'mm');
  within('effective length', effectiveLength, SHORTEST_ARM, LONGEST_ARM, 'mm');
  within('offset', offset, -LARGEST_OFFSET, LARGEST_OFFSET, 'rad');
  return { kind: 'pivoted', spindleToPivot, effectiveLength, offset };
}

/** Overhang o = L − d, mm; positive past the spindle. */
export const overhang = (arm: Arm): number =>
  arm.kind === 'tangential' ? arm.overhang : arm.effectiveLength - arm.spindleToPivot;

/** Linear offset L sin φ, mm: how far the cartridge's axis passes the pivot. None for a tangential arm. */
export const linearOffset = (arm: PivotedArm): number => arm.effectiveLength * Math.sin(arm.offset);

/**
 * The pivoted arm that has two given null radii.
 *
 *   L = √(d² + n1 n2),  φ = asin((n1 + n2) / 2L)
 *
 * @param spindleToPivot d, mm
 * @param sum n1 + n2, mm
 * @param product n1 n2, mm²
 * @throws RangeError where d is out of bounds
 * @source algebra from sin θ = (r² + L² − d²) / (2 r L); exact
 * @checked test/standards/geometry.test.ts
 */
export function armWithNulls(spindleToPivot: number, sum: number, product: number): Found<PivotedArm> {
  within('spindle to pivot', spindleToPivot, SHORTEST_ARM, LONGEST_ARM, 'mm');
  const square = spindleToPivot ** 2 + product;
  if (!(square >= SHORTEST_ARM ** 2)) {
    return none(statement('arm-too-short', { leastMm: SHORTEST_ARM, product }));
  }
  const effectiveLength = Math.sqrt(square);
  const sine = sum / (2 * effectiveLength);
  if (!(Math.abs(sine) <= Math.sin(LARGEST_OFFSET))) {
    return none(statement('offset-too-large', { lengthMm: effectiveLength, sumMm: sum }));
  }
  return { found: true, value: { kind: 'pivoted', spindleToPivot, effectiveLength, offset: Math.asin(sine) } };
}
