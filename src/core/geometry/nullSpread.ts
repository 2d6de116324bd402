/** How far the null points move within the setting tolerances, to first order. */
import type { PivotedArm } from './arm.ts';
import { nullRadii } from './law.ts';
import type { SettingTolerances } from './tolerance.ts';

/**
 *   U(n) = √ Σ ((n(+t) − n(−t)) / 2)²   over overhang, twist and spindle to pivot
 *
 * @param tolerances k = 2: mm, rad, mm
 * @returns mm for each null point, k = 2; null where the arm, set within the tolerances, may have another number of them
 */
export function nullSpread(arm: PivotedArm, tolerances: SettingTolerances): readonly number[] | null {
  const nulls = nullRadii(arm);
  const { overhang, twist, spindleToPivot } = tolerances;
  const pairs = [
    (sign: number): PivotedArm => ({ ...arm, effectiveLength: arm.effectiveLength + sign * overhang }),
    (sign: number): PivotedArm => ({ ...arm, offset: arm.offset + sign * twist }),
    (sign: number): PivotedArm => ({ ...arm, spindleToPivot: arm.spindleToPivot + sign * spindleToPivot }),
  ].map((set) => [nullRadii(set(1)), nullRadii(set(-1))] as const);
  if (pairs.some(([up, down]) => up.length !== nulls.length || down.length !== nulls.length)) return null;
  return nulls.map((_, i) => Math.hypot(...pairs.map(([up, down]) => (up[i] - down[i]) / 2)));
}
