/**
 * The document of the Place station: what `place --json` prints and the page shows. Units are in the names.
 * Keys are fixed by docs/contract.md; more may be added.
 */

import { radToDeg } from '../units/units.ts';
import { type Found, none } from '../words/found.ts';
import { type Statement, say, statement } from '../words/statement.ts';
import type { Arm, PivotedArm } from './arm.ts';
import { type ConstrainedArm, constrainArm, constrainTangentialArm, type Limits, type Range } from './constrain.ts';
import { type CriterionName, criteria } from './criteria.ts';
import { armCurve, type CurvePoint, type NamedCurve } from './curve.ts';
import { type ArmFigures, armFigures, type Loudness, usualLoudness } from './distortion.ts';
import type { KnownLength } from './exact.ts';
import { findMove, type Inversion, type MoveRequest } from './invert.ts';
import type { Move, SpreadFigures } from './moves.ts';
import type { MusicWeight } from './music.ts';
import { type PivotChoice, pivotChoices } from './pivot.ts';
import { type Difference, type SolvedArm, type SolveRequest, solveArm } from './solve.ts';
import type { GrooveSpan } from './span.ts';
import { type ToleranceBand, type ToleranceOptions, toleranceBand, usualTolerances } from './tolerance.ts';

export interface PlaceRequest {
  /** a length, or a tangential arm */
  readonly length: KnownLength | { readonly known: 'tangential' };
  readonly span: GrooveSpan;
  readonly criterion: CriterionName;
  readonly music?: MusicWeight;
  /** turns a minute; 33⅓ where left out. Distortions are for 10 cm/s peak lateral velocity */
  readonly rpm?: number;
  /** what the arm does not allow; left out where everything is free */
  readonly limits?: Limits;
  /** what was read, with everything about the reading */
  readonly readings?: Pick<MoveRequest, 'readings' | 'travel' | 'tipAhead' | 'slotAngle'> & {
    readonly spindleToPivotUncertainty?: number;
  };
  /** the maker's own arm, where the pivot was measured elsewhere: `length` then holds the measured distance */
  readonly makers?: PivotedArm;
  readonly tolerance?: Omit<ToleranceOptions, 'loudness'>;
  readonly seed?: number;
  /** of the curve, mm */
  readonly step?: number;
}

/** One criterion beside the others. */
export interface CriterionRow {
  readonly criterion: CriterionName;
  readonly title: string;
  readonly says: string;
  readonly source: string;
  readonly closedForm: ArmFigures;
  readonly exact: { readonly figures: ArmFigures; readonly difference: Difference } | null;
}

/** A figure with its expanded uncertainty, k = 2. */
export interface Uncertain {
  readonly value: number;
  readonly uncertainty: number;
}

/** What could not be given: `reason`, and the same in words. */
export interface NotGiven {
  readonly quantity: string;
  readonly why: string;
  readonly reason: Statement;
}

export interface AsItStands {
  readonly effectiveLengthMm: Uncertain;
  readonly overhangMm: Uncertain;
  readonly offsetDeg: Uncertain | null;
  readonly figures: SpreadFigures | null;
  readonly slideMm: Uncertain;
  readonly twistDeg: Uncertain | null;
  readonly after: SpreadFigures | null;
  /** `held` and `disagrees` in words */
  readonly heldBy: readonly string[];
  readonly disagreement: string | null;
  readonly held: readonly Statement[];
  readonly disagrees: Statement | null;
}

/** Has an arm's figures, so that templates can be drawn from it as it is. */
export interface PlaceDocument extends ArmFigures {
  readonly schema: 1;
  readonly criterion: CriterionName;
  readonly groove: {
    readonly innerMm: number;
    readonly outerMm: number;
    readonly name: string;
    readonly source: string;
    /** speed that such discs usually run at; `rpm` is the one used */
    readonly usualRpm: number;
  };
  readonly rpm: number;
  readonly at10CmS: true;
  /** the published closed form or the best within limits: which of the two the figures above are */
  readonly method: 'closed-form' | 'exact-within-limits';
  /** the exact law's own optimum and how it differs from the closed form; null where limits were given or there is none */
  readonly exact: { readonly figures: ArmFigures; readonly difference: Difference } | null;
  readonly limits: {
    /** `held` in words */
    readonly heldBy: readonly string[];
    readonly held: readonly Statement[];
    readonly free: ArmFigures | null;
    readonly costsPeakPercent: number | null;
    readonly costsRmsPercent: number | null;
  } | null;
  readonly criteria: readonly CriterionRow[];
  readonly asItStands: AsItStands | null;
  readonly pivotChoices: readonly PivotChoice[] | null;
  readonly curve: readonly CurvePoint[];
  /** the other criteria, and the arm as it stands, over the same radii */
  readonly overlays: readonly NamedCurve[];
  readonly tolerance: ToleranceBand & {
    readonly overhangMm: number;
    readonly twistDeg: number;
    readonly spindleToPivotMm: number;
  };
  readonly moves: readonly Move[];
  /** what could not be given, and why */
  readonly withheld: readonly NotGiven[];
}

const value = <T>(found: Found<T>): T | null => (found.found ? found.value : null);

const inDegrees = ({ value, uncertainty }: Uncertain): Uncertain => ({
  value: radToDeg(value),
  uncertainty: radToDeg(uncertainty),
});

function standing(inversion: Inversion): AsItStands {
  const { estimate, before, after, slide, twist } = inversion;
  const { arm, effectiveLength, factor } = estimate;
  // overhang = L − d: its variance from the factor's rows
  const difference = factor[0].map((x, k) => x - factor[2][k]);
  return {
    effectiveLengthMm: effectiveLength,
    overhangMm: {
      value: arm.effectiveLength - arm.spindleToPivot,
      uncertainty: 2 * Math.hypot(...difference),
    },
    offsetDeg: estimate.offset.found ? inDegrees(estimate.offset.value) : null,
    figures: value(before),
    slideMm: slide,
    twistDeg: twist.found ? inDegrees(twist.value) : null,
    after: value(after),
    heldBy: inversion.heldBy.map(say),
    held: inversion.heldBy,
    disagreement: estimate.disagreement === null ? null : say(estimate.disagreement),
    disagrees: estimate.disagreement,
  };
}

/** Solves the arm at hand for a criterion. */
type Solver = (criterion: CriterionName) => Found<SolvedArm>;

/** Each criterion solved once for all who ask. */
function solverFor(request: Omit<SolveRequest, 'criterion'>): Solver {
  const known = new Map<CriterionName, Found<SolvedArm>>();
  return (criterion) => {
    const solved = known.get(criterion) ?? solveArm({ ...request, criterion });
    known.set(criterion, solved);
    return solved;
  };
}

/** Rows of every criterion for one known length, in the order of `criteria`; `even-music` only with a weight. */
function criterionRows(solve: Solver, music: MusicWeight | undefined): readonly CriterionRow[] {
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

const armOf = (figures: ArmFigures): Arm => {
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
function chosenArm(
  request: PlaceRequest,
  loudness: Loudness,
  solve: Solver | null,
): Found<{
  readonly arm: Arm;
  readonly limited: ConstrainedArm<Arm> | null;
  readonly exact: PlaceDocument['exact'];
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

const isFixed = (range: Range | undefined): boolean => range !== undefined && range.least === range.most;

/** What the readings tell; null where nothing was read. A length or offset that is fixed cannot be moved. */
function invert(request: PlaceRequest, arm: Arm, loudness: Loudness, seed: number): Found<Inversion> | null {
  const { readings: read, length, span, criterion, music, limits } = request;
  if (read === undefined) return null;
  if (arm.kind === 'tangential') {
    return none(statement('tangential-not-read'));
  }
  if (length.known !== 'spindle-to-pivot') {
    return none(statement('pivot-not-measured'));
  }
  const { spindleToPivotUncertainty: uncertainty, travel = {}, ...rest } = read;
  const slots = isFixed(limits?.effectiveLength) ? { forward: 0, back: 0 } : {};
  const shell = isFixed(limits?.offset) ? { turn: 0 } : {};
  return findMove({
    ...rest,
    travel: { ...slots, ...shell, ...travel },
    spindleToPivot: { value: length.mm, uncertainty },
    span,
    criterion,
    music,
    loudness,
    limits,
    seed,
  });
}

/**
 * Everything that the Place station can tell.
 *
 * @returns or the reason where no such arm plays the span
 * @throws RangeError for anything out of bounds, naming argument, value and bounds
 */
export function placeDocument(request: PlaceRequest): Found<PlaceDocument> {
  const { length, span, criterion, music, seed = 1, step = 1 } = request;
  const loudness: Loudness = { ...usualLoudness, rpm: request.rpm ?? usualLoudness.rpm };
  const solve = length.known === 'tangential' ? null : solverFor({ length, span, music, loudness });
  const chosen = chosenArm(request, loudness, solve);
  if (!chosen.found) return chosen;
  const { arm, limited, exact } = chosen.value;
  const figures = armFigures(arm, span, loudness);
  if (!figures.found) return figures;
  const curve = armCurve(arm, span, loudness, step);
  if (!curve.found) return curve;
  const tolerances = request.tolerance?.tolerances ?? usualTolerances;
  const band = toleranceBand(arm, span, { ...request.tolerance, loudness, seed });
  if (!band.found) return band;
  const withheld: NotGiven[] = [];
  const notGiven = (quantity: string, reason: Statement): void => {
    withheld.push({ quantity, why: say(reason), reason });
  };

  const inverted = invert(request, arm, loudness, seed);
  if (inverted !== null && !inverted.found) notGiven('moves', inverted.why);
  const inversion = inverted?.found ? inverted.value : null;
  if (inversion !== null) {
    if (!inversion.twist.found) notGiven('twist', inversion.twist.why);
    else if (!inversion.before.found) {
      notGiven('distortion as it is set', inversion.before.why);
    }
  }
  const rows = solve === null ? [] : criterionRows(solve, music);
  const overlays: NamedCurve[] = [];
  const overlay = (name: string, other: Arm): void => {
    const points = armCurve(other, span, loudness, step);
    if (points.found) overlays.push({ name, points: points.value });
  };
  for (const row of rows) {
    if (limited !== null || row.criterion !== criterion) overlay(row.criterion, armOf(row.closedForm));
  }
  if (inversion?.before.found) overlay('as-it-stands', inversion.estimate.arm);
  const choices = request.makers
    ? pivotChoices(request.makers, (arm as PivotedArm).spindleToPivot, { span, criterion, music, loudness })
    : null;
  if (choices !== null && !choices.found) notGiven('pivot choices', choices.why);
  return {
    found: true,
    value: {
      schema: 1,
      criterion,
      ...figures.value,
      groove: {
        innerMm: span.inner,
        outerMm: span.outer,
        name: span.name,
        source: span.source,
        usualRpm: span.usualRpm,
      },
      rpm: loudness.rpm,
      at10CmS: true,
      method: limited === null ? 'closed-form' : 'exact-within-limits',
      exact,
      limits:
        limited === null
          ? null
          : {
              heldBy: limited.heldBy.map(say),
              held: limited.heldBy,
              free: value(limited.free),
              costsPeakPercent: limited.costsPeakPercent,
              costsRmsPercent: limited.costsRmsPercent,
            },
      criteria: rows,
      asItStands: inversion === null ? null : standing(inversion),
      pivotChoices: choices === null ? null : value(choices),
      curve: curve.value,
      overlays,
      tolerance: {
        overhangMm: tolerances.overhang,
        twistDeg: radToDeg(tolerances.twist),
        spindleToPivotMm: tolerances.spindleToPivot,
        ...band.value,
      },
      moves: inversion === null ? [] : inversion.moves,
      withheld,
    },
  };
}
