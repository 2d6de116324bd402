/**
 * What a pivoted arm makes of a hole off centre, for a fit: the once-per-turn phasor at radius r is E · h(r),
 *
 *   h(r) = e^(−i(λ − θ)) / (r cos θ),   cos λ = (r² + d² − L²)/(2rd),   sin θ = (r² + L² − d²)/(2rL)
 *
 * E is the hole in mm, its angle that of the groove's centre against the pivot, counted against the record's turning. On a
 * tangential arm h = 1/r, and the angle counts from the tip. Exact to 6·10⁻⁶ of itself for 0.2 mm (the virtual deck's kinematics, test/loops).
 */
import type { Complex } from '../units/complex.ts';

export type ArmGeometry =
  | 'tangential'
  | {
      /** mm */
      readonly spindleToPivot: number;
      readonly effectiveLength: number;
      /** of the cartridge, as it is meant to be, deg */
      readonly offsetDeg?: number;
    };

/** What lies on the record, heard at a radius, 1/mm. */
export interface ArmPhase {
  /** of a hole off centre */
  readonly hole: Complex;
  /**
   * of what lifts the tip along the groove: a warp z under a bearing that lies h above the record moves it by z·h/L along the arm.
   * It turns with the tip's bearing alone: e^(−iλ)/(r cos θ)
   */
  readonly warp: Complex;
}

/** @returns null where the arm does not reach the radius */
export function armPhase(arm: ArmGeometry, r: number): ArmPhase | null {
  if (arm === 'tangential') return { hole: { re: 1 / r, im: 0 }, warp: { re: 1 / r, im: 0 } };
  const { spindleToPivot: d, effectiveLength: l } = arm;
  const cosLambda = (r * r + d * d - l * l) / (2 * r * d);
  const sinTheta = (r * r + l * l - d * d) / (2 * r * l);
  if (!(Math.abs(cosLambda) < 1 && Math.abs(sinTheta) < 0.95)) return null;
  const theta = Math.asin(sinTheta);
  const lambda = Math.acos(cosLambda);
  const size = 1 / (r * Math.cos(theta));
  const at = (turn: number): Complex => ({ re: size * Math.cos(turn), im: -size * Math.sin(turn) });
  return { hole: at(lambda - theta), warp: at(lambda) };
}
