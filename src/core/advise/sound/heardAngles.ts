/**
 * The angles that two-tone bands tell, with what they rest on.
 *
 *   lateral   ε = atan(± k V) − zenith of the cut        vertical   tan α_play = tan α_cut ∓ k V
 *
 * The sign is that of the chain: turned over, it turns every angle over, so nothing is told until the pinch has decided it.
 * `tracking-error` is that of the tip's path: a tilted body shears it (−tan α · sin φ) and skating pulls it, and no sound can undo that.
 */
import { budgetOf, type Doubt } from '../../measure/budget.ts';
import type { BudgetLine } from '../../measure/finding.ts';
import type { SolvedTwoTone } from '../../measure/twoTones.ts';
import type { SheetCut } from '../../record/sheet.ts';
import { degToRad, radToDeg } from '../../units/units.ts';
import { statement } from '../../words/statement.ts';
import { doubts } from './doubts.ts';

export interface HeardAngle {
  readonly band: number;
  readonly radiusMm: number;
  /** deg */
  readonly value: number;
  /** deg, k = 2: the signal alone; total */
  readonly repeatability: number;
  readonly uncertainty: number;
  readonly budget: readonly BudgetLine[];
}

/** where the record file says nothing, deg (IEC 60098:2020: 20° +5/−0) */
export const USUAL_CUT_DEG = 20;

/** @param sign of the chain @param apartDeg playback less cutting angle, where a vertical band told it */
export function trackingAngles(
  bands: readonly SolvedTwoTone[],
  sign: 1 | -1,
  cut: SheetCut | undefined,
  apartDeg: number | null,
  equalisationDb: number,
): HeardAngle[] {
  const of = doubts(cut, equalisationDb);
  return bands
    .filter(({ vertical }) => !vertical)
    .map(({ band, radiusMm, speed, solution, leaksKnown }) => {
      const heard = radToDeg(Math.atan(sign * solution.k * speed));
      const perK = radToDeg(speed);
      const parts: Doubt[] = [
        { of: statement('signal'), size: 2 * Math.sqrt(solution.kVariance) * perK },
        { of: statement('cut-velocity'), size: Math.abs(heard) * of.velocity },
        { of: statement('band-radius'), size: (Math.abs(heard) * of.radiusMm) / radiusMm },
        { of: statement('cut-zenith'), size: of.zenith },
        { of: statement('cut-tilt'), size: of.cutTilt * Math.tan(degToRad(Math.abs(apartDeg ?? of.verticalApart))) },
        { of: statement('equalisation'), size: Math.abs(heard) * of.equalisation },
        { of: statement('leaks'), size: Math.abs(solution.kPerRadian) * of.phase(leaksKnown) * perK },
      ];
      const { total, budget } = budgetOf(parts, 'deg');
      return {
        band: band.index,
        radiusMm,
        value: heard - (cut?.zenithDeg ?? 0),
        repeatability: parts[0].size,
        uncertainty: total,
        budget,
      };
    });
}

/** Playback less cutting angle, deg. */
export function verticalAngles(
  bands: readonly SolvedTwoTone[],
  sign: 1 | -1,
  cut: SheetCut | undefined,
  equalisationDb: number,
): HeardAngle[] {
  const of = doubts(cut, equalisationDb);
  const cutDeg = cut?.verticalAngleDeg ?? USUAL_CUT_DEG;
  return bands
    .filter(({ vertical }) => vertical)
    .map(({ band, radiusMm, speed, solution, leaksKnown }) => {
      const apart = -sign * solution.k * speed;
      const play = Math.atan(Math.tan(degToRad(cutDeg)) + apart);
      const value = radToDeg(play) - cutDeg;
      const perK = radToDeg(speed) * Math.cos(play) ** 2;
      const parts: Doubt[] = [
        { of: statement('signal'), size: 2 * Math.sqrt(solution.kVariance) * perK },
        { of: statement('cut-velocity'), size: Math.abs(value) * of.velocity },
        { of: statement('band-radius'), size: (Math.abs(value) * of.radiusMm) / radiusMm },
        { of: statement('cut-vertical-angle'), size: of.verticalAngle },
        { of: statement('equalisation'), size: Math.abs(value) * of.equalisation },
        { of: statement('leaks'), size: Math.abs(solution.kPerRadian) * of.phase(leaksKnown) * perK },
      ];
      const { total, budget } = budgetOf(parts, 'deg');
      return { band: band.index, radiusMm, value, repeatability: parts[0].size, uncertainty: total, budget };
    });
}
