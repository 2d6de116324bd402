/**
 * What a slide and a twist in the headshell do to the arm, exactly.
 *
 * Seen in the arm's own frame (pivot at the origin, x along the line from pivot to tip, y to the clockwise side, which
 * is the spindle's side): the two screws hold the cartridge at a point M behind the tip. The slots let M travel along
 * their own line and let the cartridge turn about M.
 *
 *   M  = S − a (cos φ, sin φ)                       S = (L, 0), a = tip ahead of the screws
 *   S′ = M + x (cos σ, sin σ) + a (cos(φ + y), sin(φ + y))
 *   L′ = |S′|,   φ′ = φ + y − ψ,   ψ = angle of S′ from the old line
 *
 * With slots along the cartridge (σ = φ) a slide keeps the linear offset L sin φ.
 *
 * @source derived here
 * @checked src/core/geometry/slide.test.ts
 */

import { within } from '../units/bounds.ts';
import { type Found, none } from '../words/found.ts';
import { statement } from '../words/statement.ts';
import type { PivotedArm } from './arm.ts';

/** How the cartridge is held. */
export interface Mount {
  /** σ, rad: slots against the line from pivot to tip, clockwise positive, as the arm stands */
  readonly slotAngle: number;
  /** a, mm: tip ahead of the line through the two screws */
  readonly tipAhead: number;
}

/** Tip ahead of the screws, mm, where the person gives none: from memory, not seen in a source; measure the cartridge. */
export const USUAL_TIP_AHEAD = 9.5;

/** A cartridge that sits straight in its shell: slots along the cartridge. */
export const straightMount = (arm: PivotedArm, tipAhead: number = USUAL_TIP_AHEAD): Mount => ({
  slotAngle: arm.offset,
  tipAhead,
});

export interface ShellMove {
  /** x, mm, forward (away from the pivot) positive */
  readonly slide: number;
  /** y, rad, clockwise seen from above positive */
  readonly twist: number;
}

/**
 * The arm after a move in its shell.
 *
 * @param move slide −100 to 100 mm, twist −π/3 to π/3 rad
 * @throws RangeError naming the argument, its value and its bounds
 */
export function armAfterMove(arm: PivotedArm, mount: Mount, move: ShellMove): PivotedArm {
  within('slide', move.slide, -100, 100, 'mm');
  within('twist', move.twist, -Math.PI / 3, Math.PI / 3, 'rad');
  const { effectiveLength: L, offset } = arm;
  const turned = offset + move.twist;
  const a = mount.tipAhead;
  const x = L + move.slide * Math.cos(mount.slotAngle) + a * (Math.cos(turned) - Math.cos(offset));
  const y = move.slide * Math.sin(mount.slotAngle) + a * (Math.sin(turned) - Math.sin(offset));
  return {
    kind: 'pivoted',
    spindleToPivot: arm.spindleToPivot,
    effectiveLength: Math.hypot(x, y),
    offset: turned - Math.atan2(y, x),
  };
}

/**
 * The move that makes one arm into another of the same pivot distance.
 *
 * @returns or the reason where no slide along the slots gets there
 */
export function moveBetween(from: PivotedArm, to: PivotedArm, mount: Mount): Found<ShellMove> {
  let slide = (to.effectiveLength - from.effectiveLength) / Math.cos(mount.slotAngle);
  let twist = to.offset - from.offset;
  const miss = (x: number, y: number): readonly [number, number] => {
    const after = armAfterMove(from, mount, { slide: x, twist: y });
    return [after.effectiveLength - to.effectiveLength, after.offset - to.offset];
  };
  for (let i = 0; i < 30; i++) {
    if (!(Math.abs(slide) <= 99 && Math.abs(twist) <= 1)) break;
    const [m0, m1] = miss(slide, twist);
    if (Math.abs(m0) < 1e-10 && Math.abs(m1) < 1e-13) return { found: true, value: { slide, twist } };
    const h = 1e-4;
    const [a0, a1] = miss(slide + h, twist);
    const [b0, b1] = miss(slide, twist + h);
    const [j00, j10, j01, j11] = [(a0 - m0) / h, (a1 - m1) / h, (b0 - m0) / h, (b1 - m1) / h];
    const determinant = j00 * j11 - j01 * j10;
    slide -= (m0 * j11 - m1 * j01) / determinant;
    twist -= (m1 * j00 - m0 * j10) / determinant;
  }
  return none(statement('no-slide-along-slots', { fromMm: from.effectiveLength, toMm: to.effectiveLength }));
}
