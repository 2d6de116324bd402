/**
 * The document of the Place station: what `place --json` prints and the page shows. Units are in the names.
 * Keys are fixed by docs/contract.md; more may be added.
 */

import { radToDeg } from '../units/units.ts';
import { type Found, valueOrNull } from '../words/found.ts';
import { type Statement, say } from '../words/statement.ts';
import type { Arm, PivotedArm } from './arm.ts';
import { type AsItStands, invert, standing } from './asItStands.ts';
import { armOf, type CriterionRow, chosenArm, criterionRows, type ExactArm, solverFor } from './chosenArm.ts';
import type { CriterionName } from './criteria.ts';
import { armCurve, type CurvePoint, type NamedCurve } from './curve.ts';
import { type ArmFigures, armFigures, type Loudness, usualLoudness } from './distortion.ts';
import type { Move } from './moves.ts';
import { type PivotChoice, pivotChoices } from './pivot.ts';
import type { PlaceRequest } from './placeRequest.ts';
import { type ToleranceBand, toleranceBand, usualTolerances } from './tolerance.ts';

/** What could not be given: `reason`, and the same in words. */
export interface NotGiven {
  readonly quantity: string;
  readonly why: string;
  readonly reason: Statement;
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
  readonly exact: ExactArm | null;
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
              free: valueOrNull(limited.free),
              costsPeakPercent: limited.costsPeakPercent,
              costsRmsPercent: limited.costsRmsPercent,
            },
      criteria: rows,
      asItStands: inversion === null ? null : standing(inversion),
      pivotChoices: choices === null ? null : valueOrNull(choices),
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
