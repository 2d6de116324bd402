/** A pivot that is not where the maker said: what can be done about it, and what each choice leaves. */

import { within } from '../units/bounds.ts';
import { type Found, none } from '../words/found.ts';
import { type Statement, say, statement } from '../words/statement.ts';
import { type PivotedArm, pivotedArm } from './arm.ts';
import { constrainArm, fixedAt } from './constrain.ts';
import { type ArmFigures, armFigures } from './distortion.ts';
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
  const add = (choice: PivotChoice['choice'], does: Statement, arm: Found<PivotedArm>): void => {
    if (!arm.found) return;
    const figures = armFigures(arm.value, span, loudness);
    if (figures.found) found.push({ choice, does: say(does), arm: arm.value, figures: figures.value });
  };
  const best = (limits: Parameters<typeof constrainArm>[0]['limits']): Found<PivotedArm> => {
    const answer = constrainArm({ ...request, length, limits });
    return answer.found ? { found: true, value: answer.value.arm } : answer;
  };
  const { effectiveLength, offset } = makers;
  add('leave', statement('pivot-leave'), {
    found: true,
    value: pivotedArm(measured, effectiveLength, offset),
  });
  add('slide', statement('pivot-slide'), best({ offset: fixedAt(offset) }));
  add('twist', statement('pivot-twist'), best({ effectiveLength: fixedAt(effectiveLength) }));
  const solved = solveArm({ ...request, length });
  add(
    'slide-and-twist',
    statement('pivot-slide-and-twist'),
    solved.found ? { found: true, value: solved.value.arm } : solved,
  );
  add('move-the-pivot', statement('pivot-move-the-pivot'), {
    found: true,
    value: pivotedArm(d, effectiveLength, offset),
  });
  if (found.length === 0) {
    return none(statement('no-pivot-choice', { innerMm: span.inner, outerMm: span.outer, pivotMm: measured }));
  }
  return { found: true, value: found };
}
