/** The arm that is asked for, and the same length by every other criterion. */
import type { Found } from '../words/found.ts';
import type { Arm } from './arm.ts';
import { type ConstrainedArm, constrainArm, constrainTangentialArm } from './constrain.ts';
import { type CriterionName, criteria } from './criteria.ts';
import type { ArmFigures, Loudness } from './distortion.ts';
import type { MusicWeight } from './music.ts';
import type { PlaceRequest } from './placeRequest.ts';
import { type Difference, type SolvedArm, type SolveRequest, solveArm } from './solve.ts';

/** The exact law's own optimum and how it differs from the closed form. */
export interface ExactArm {
  readonly figures: ArmFigures;
  readonly difference: Difference;
}

/** One criterion beside the others. */
export interface CriterionRow {
  readonly criterion: CriterionName;
  readonly title: string;
  readonly says: string;
  readonly source: string;
  readonly closedForm: ArmFigures;
  readonly exact: ExactArm | null;
}

/** Solves the arm at hand for a criterion. */
export type Solver = (criterion: CriterionName) => Found<SolvedArm>;

/** Each criterion solved once for all who ask. */
export function solverFor(request: Omit<SolveRequest, 'criterion'>): Solver {
  const known = new Map<CriterionName, Found<SolvedArm>>();
  return (criterion) => {
    const solved = known.get(criterion) ?? solveArm({ ...request, criterion });
    known.set(criterion, solved);
    return solved;
  };
}

/** Rows of every criterion for one known length, in the order of `criteria`; `even-music` only with a weight. */
export function criterionRows(solve: Solver, music: MusicWeight | undefined): readonly CriterionRow[] {
  return criteria.flatMap(({ name, title, says, source }) => {
    if (name === 'even-music' && music === undefined) return [];
    const solved = solve(name);
    if (!solved.found) return [];
    const { figures, exact } = solved.value;
    return [
      {
        criterion: name,
        title,
        says,
        source,
        closedForm: figures,
        exact: exact.found ? { figures: exact.value.figures, difference: exact.value.difference } : null,
      },
    ];
  });
}

/** An arm from its figures. */
export const armOf = (figures: ArmFigures): Arm => {
  const offset = (figures.offsetDeg * Math.PI) / 180;
  return figures.spindleToPivotMm !== null && figures.effectiveLengthMm !== null
    ? {
        kind: 'pivoted',
        spindleToPivot: figures.spindleToPivotMm,
        effectiveLength: figures.effectiveLengthMm,
        offset,
      }
    : { kind: 'tangential', overhang: figures.overhangMm, offset };
};

/** The chosen arm: within limits by the exact law where there are limits, else the closed form. */
export function chosenArm(
  request: PlaceRequest,
  loudness: Loudness,
  solve: Solver | null,
): Found<{
  readonly arm: Arm;
  readonly limited: ConstrainedArm<Arm> | null;
  readonly exact: ExactArm | null;
}> {
  const { length, span, criterion, music, limits } = request;
  if (length.known === 'tangential' || solve === null) {
    const best = constrainTangentialArm(criterion, span, limits ?? {}, loudness, music);
    return best.found ? { found: true, value: { arm: best.value.arm, limited: best.value, exact: null } } : best;
  }
  if (limits !== undefined) {
    const best = constrainArm({ length, span, criterion, music, loudness, limits });
    return best.found ? { found: true, value: { arm: best.value.arm, limited: best.value, exact: null } } : best;
  }
  const solved = solve(criterion);
  if (!solved.found) return solved;
  const { arm, exact } = solved.value;
  return {
    found: true,
    value: {
      arm,
      limited: null,
      exact: exact.found ? { figures: exact.value.figures, difference: exact.value.difference } : null,
    },
  };
}
