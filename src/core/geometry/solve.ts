/** Solve: the arm that a criterion asks for, in closed form, with the exact law's own optimum beside it. */

import { within } from '../units/bounds.ts';
import { type Found, none } from '../words/found.ts';
import { statement } from '../words/statement.ts';
import { armWithNulls, LONGEST_ARM, type PivotedArm, SHORTEST_ARM } from './arm.ts';
import { type CriterionName, closedFormNulls, type NullPair } from './criteria.ts';
import { type ArmFigures, armFigures, type Loudness, usualLoudness } from './distortion.ts';
import { exactOptimum, type KnownLength } from './exact.ts';
import type { MusicWeight } from './music.ts';
import type { GrooveSpan } from './span.ts';

export interface SolveRequest {
  readonly length: KnownLength;
  readonly span: GrooveSpan;
  readonly criterion: CriterionName;
  /** for `even-music` */
  readonly music?: MusicWeight;
  readonly loudness?: Loudness;
}

/** Exact law's optimum less the closed form. */
export interface Difference {
  readonly nullPointsMm: readonly number[];
  readonly effectiveLengthMm: number;
  readonly overhangMm: number;
  readonly offsetDeg: number;
  /** percentage points */
  readonly peakDistortionPercent: number;
  readonly rmsDistortionPercent: number;
}

export interface SolvedArm {
  readonly criterion: CriterionName;
  /** the published closed form's arm */
  readonly arm: PivotedArm;
  readonly figures: ArmFigures;
  /** the exact law's own optimum; or why there is none */
  readonly exact: Found<{ readonly arm: PivotedArm; readonly figures: ArmFigures; readonly difference: Difference }>;
}

/**
 * Arm from one known length and a pair of null radii.
 *
 *   from d: L = √(d² + P);  from L: d = √(L² − P);  from o: d = (P/o − o) / 2
 *
 * @throws RangeError where the known length is out of bounds
 */
function armFromNulls(length: KnownLength, { sum, product }: NullPair): Found<PivotedArm> {
  if (length.known === 'spindle-to-pivot') return armWithNulls(length.mm, sum, product);
  if (length.known === 'effective-length') {
    within('effective length', length.mm, SHORTEST_ARM, LONGEST_ARM, 'mm');
    const square = length.mm ** 2 - product;
    if (!(square >= SHORTEST_ARM ** 2)) {
      const least = Math.sqrt(SHORTEST_ARM ** 2 + product);
      return none(statement('length-too-short', { lengthMm: length.mm, leastMm: least }));
    }
    return armWithNulls(Math.sqrt(square), sum, product);
  }
  within('overhang', length.mm, -100, 100, 'mm');
  if (!(length.mm > 0)) {
    return none(statement('overhang-without-nulls', { overhangMm: length.mm }));
  }
  const d = (product / length.mm - length.mm) / 2;
  if (!(d >= SHORTEST_ARM && d <= LONGEST_ARM)) {
    const bounds = { leastMm: SHORTEST_ARM, mostMm: LONGEST_ARM };
    return none(statement('overhang-asks-pivot', { overhangMm: length.mm, pivotMm: d, ...bounds }));
  }
  return armWithNulls(d, sum, product);
}

function difference(closed: ArmFigures, exact: ArmFigures): Difference {
  const pairs = closed.nullPointsMm.length === exact.nullPointsMm.length;
  return {
    nullPointsMm: pairs ? exact.nullPointsMm.map((n, i) => n - closed.nullPointsMm[i]) : [],
    effectiveLengthMm: (exact.effectiveLengthMm ?? 0) - (closed.effectiveLengthMm ?? 0),
    overhangMm: exact.overhangMm - closed.overhangMm,
    offsetDeg: exact.offsetDeg - closed.offsetDeg,
    peakDistortionPercent: exact.peakDistortionPercent - closed.peakDistortionPercent,
    rmsDistortionPercent: exact.rmsDistortionPercent - closed.rmsDistortionPercent,
  };
}

/** An arm with its figures on the span asked for. */
export interface ArmWithFigures {
  readonly arm: PivotedArm;
  readonly figures: ArmFigures;
}

/**
 * The published closed form's arm alone.
 *
 * @returns or the reason where no arm of that length plays that span
 * @throws RangeError naming the argument, its value and its bounds
 */
export function closedFormArm(request: SolveRequest): Found<ArmWithFigures> {
  const { length, span, criterion, music, loudness = usualLoudness } = request;
  const arm = armFromNulls(length, closedFormNulls(criterion, span, music));
  if (!arm.found) return arm;
  const figures = armFigures(arm.value, span, loudness);
  return figures.found ? { found: true, value: { arm: arm.value, figures: figures.value } } : figures;
}

/**
 * Solves an arm for a criterion.
 *
 * @returns or the reason where no arm of that length plays that span
 * @throws RangeError naming the argument, its value and its bounds
 */
export function solveArm(request: SolveRequest): Found<SolvedArm> {
  const { length, span, criterion, music, loudness = usualLoudness } = request;
  const closed = closedFormArm(request);
  if (!closed.found) return closed;
  const { arm, figures } = closed.value;
  const best = exactOptimum(criterion, length, span, arm, music);
  const bestFigures = best.found ? armFigures(best.value, span, loudness) : best;
  return {
    found: true,
    value: {
      criterion,
      arm,
      figures,
      exact:
        best.found && bestFigures.found
          ? {
              found: true,
              value: {
                arm: best.value,
                figures: bestFigures.value,
                difference: difference(figures, bestFigures.value),
              },
            }
          : none(best.found ? statement('optimum-not-on-span') : best.why),
    },
  };
}
