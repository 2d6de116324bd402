/** A pivot that is not where the maker said: what can be done about it, and what each choice leaves. */
import { type PivotedArm, pivotedArm } from './arm.ts';
import { constrainArm, fixedAt } from './constrain.ts';
import { type ArmFigures, armFigures } from './distortion.ts';
import { type Found, within } from './outcome.ts';
import { type SolveRequest, solveArm } from './solve.ts';

export interface PivotChoice {
  readonly choice: 'leave' | 'slide' | 'twist' | 'slide-and-twist' | 'move-the-pivot';
  /** in words */
  readonly does: string;
  readonly arm: PivotedArm;
  readonly figures: ArmFigures;
}

/**
 * The choices left when the pivot stands at another distance than the maker's arm was made for.
 *
 * @param makers the arm as the maker states it: d, L, φ
 * @param measured spindle to pivot as it is, mm, within 30 mm of the maker's
 * @returns every choice that plays the span, or the reason where none does
 * @throws RangeError naming the argument, its value and its bounds
 */
export function pivotChoices(
  makers: PivotedArm,
  measured: number,
  request: Omit<SolveRequest, 'length'>,
): Found<readonly PivotChoice[]> {
  const d = makers.spindleToPivot;
  within('measured spindle to pivot', measured, d - 30, d + 30, 'mm');
  const { span, loudness } = request;
  const length = { known: 'spindle-to-pivot', mm: measured } as const;
  const found: PivotChoice[] = [];
  const add = (choice: PivotChoice['choice'], does: string, arm: Found<PivotedArm>): void => {
    if (!arm.found) return;
    const figures = armFigures(arm.value, span, loudness);
    if (figures.found) found.push({ choice, does, arm: arm.value, figures: figures.value });
  };
  const best = (limits: Parameters<typeof constrainArm>[0]['limits']): Found<PivotedArm> => {
    const answer = constrainArm({ ...request, length, limits });
    return answer.found ? { found: true, value: answer.value.arm } : answer;
  };
  const { effectiveLength, offset } = makers;
  add('leave', 'effective length and offset stay as the maker states them', {
    found: true,
    value: pivotedArm(measured, effectiveLength, offset),
  });
  add('slide', 'slide only: the offset stays as the maker states it', best({ offset: fixedAt(offset) }));
  add(
    'twist',
    'twist only: the effective length stays as the maker states it',
    best({ effectiveLength: fixedAt(effectiveLength) }),
  );
  const solved = solveArm({ ...request, length });
  add(
    'slide-and-twist',
    'slide and twist: solved anew for the pivot as it is',
    solved.found ? { found: true, value: solved.value.arm } : solved,
  );
  add('move-the-pivot', 'move the pivot back to where the maker wants it', {
    found: true,
    value: pivotedArm(d, effectiveLength, offset),
  });
  if (found.length === 0) {
    return {
      found: false,
      why: `no setting of the arm plays from ${span.inner} to ${span.outer} mm with the pivot at ${measured} mm`,
    };
  }
  return { found: true, value: found };
}
