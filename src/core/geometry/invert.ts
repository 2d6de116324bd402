/** Invert: readings → the arm as it stands → the move, what it brings, and how far the answer is uncertain. */

import { within } from '../units/bounds.ts';
import { radToDeg } from '../units/units.ts';
import type { Found } from '../words/found.ts';
import { type Statement, statement } from '../words/statement.ts';
import type { PivotedArm } from './arm.ts';
import { bestOnEdges, constrainArm, type Limits } from './constrain.ts';
import {
  type ArmFigures,
  armFigures,
  errorTangents,
  harmonicScale,
  peakOfTangents,
  spreadRadii,
  usualLoudness,
} from './distortion.ts';
import { armFromReadings, type Estimated, type EstimatedArm } from './estimate.ts';
import { criterionNodes } from './exact.ts';
import { nullRadii } from './law.ts';
import { type Move, movesTold, type SpreadFigures } from './moves.ts';
import { normalNumbers, quantile } from './random.ts';
import type { Reading } from './readings.ts';
import { armAfterMove, type Mount, moveBetween, type ShellMove, straightMount, USUAL_TIP_AHEAD } from './slide.ts';
import { type ArmWithFigures, closedFormArm, type SolveRequest } from './solve.ts';

/** How far the cartridge can still go from where it is now. */
export interface Travel {
  /** mm left in the slots towards the front, ≥ 0 */
  readonly forward?: number;
  /** mm left towards the pivot, ≥ 0 */
  readonly back?: number;
  /** rad either way, ≥ 0; 0 where the shell does not let it turn */
  readonly turn?: number;
}

export interface MoveRequest extends Omit<SolveRequest, 'length'> {
  readonly readings: readonly Reading[];
  /** as measured, mm, with its expanded uncertainty */
  readonly spindleToPivot: { readonly value: number; readonly uncertainty?: number };
  readonly travel?: Travel;
  /** tip ahead of the two screws, mm, 0–30 */
  readonly tipAhead?: number;
  /** slots against the line pivot to tip, rad; along the cartridge where left out */
  readonly slotAngle?: number;
  /** what the arm does not allow of the target */
  readonly limits?: Limits;
  /** of the draws behind the spreads */
  readonly seed?: number;
}

export interface Inversion {
  readonly estimate: EstimatedArm;
  /** what was aimed at */
  readonly target: PivotedArm;
  readonly targetFigures: ArmFigures;
  /** as it stands; withheld with its reason where the offset is not known or the span is out of reach */
  readonly before: Found<SpreadFigures>;
  /** mm, forward positive */
  readonly slide: Estimated;
  /** rad, clockwise positive; withheld where nothing read tells the angle */
  readonly twist: Found<Estimated>;
  readonly after: Found<SpreadFigures & { readonly arm: PivotedArm }>;
  /** the slots end before the target: best that remains was taken */
  readonly heldBy: readonly Statement[];
  readonly moves: readonly Move[];
}

/** smallest step that is spoken of where something ends, mm or degrees */
const LEAST_STEP = 0.005;
const DRAWS = 200;
/** radii at which a draw's distortion is looked at */
const RADII = 25;

function spreadFigures(
  arm: PivotedArm,
  draws: readonly PivotedArm[],
  request: Pick<SolveRequest, 'span' | 'loudness'>,
): Found<SpreadFigures> {
  const figures = armFigures(arm, request.span, request.loudness);
  if (!figures.found) return figures;
  const scale = 100 * harmonicScale(request.loudness ?? usualLoudness);
  const radii = spreadRadii(request.span, RADII);
  const tangents = new Float64Array(RADII);
  const sorted = Float64Array.from(
    draws,
    (drawn) => scale * peakOfTangents(errorTangents(drawn, radii, tangents), radii),
  ).sort();
  const nulls = figures.value.nullPointsMm;
  const drawn = draws.map(nullRadii);
  const same = drawn.every((radii) => radii.length === nulls.length);
  return {
    found: true,
    value: {
      figures: figures.value,
      nullPointsUncertaintyMm: same
        ? nulls.map((n, i) => 2 * Math.sqrt(drawn.reduce((sum, radii) => sum + (radii[i] - n) ** 2, 0) / drawn.length))
        : null,
      peakDistortionFromPercent: quantile(sorted, 0.025),
      peakDistortionToPercent: quantile(sorted, 0.975),
    },
  };
}

const slotEnds = (leftMm: number, way: 'forward' | 'back'): Statement =>
  leftMm < 0.05 ? statement('slots-end-here', { way }) : statement('slots-end', { leftMm, way });

function checkedTravel(travel: Travel): Required<Travel> {
  return {
    forward: within('slot left forward', travel.forward ?? 90, 0, 90, 'mm'),
    back: within('slot left back', travel.back ?? 90, 0, 90, 'mm'),
    turn: within('turn left', travel.turn ?? Math.PI / 6, 0, Math.PI / 6, 'rad'),
  };
}

/** The target moves with the pivot distance: its null radii stay. */
function targetAt(target: PivotedArm, d: number): PivotedArm {
  const L = Math.sqrt(d * d + target.effectiveLength ** 2 - target.spindleToPivot ** 2);
  return {
    ...target,
    spindleToPivot: d,
    effectiveLength: L,
    offset: Math.asin((target.effectiveLength * Math.sin(target.offset)) / L),
  };
}

/** The move as far as slots and headshell let it go: best that remains where they end. */
function allowedMove(
  wanted: ShellMove,
  travel: Required<Travel>,
  stands: PivotedArm,
  mount: Mount,
  { criterion, span, music }: Pick<MoveRequest, 'criterion' | 'span' | 'music'>,
): { readonly move: ShellMove; readonly heldBy: readonly Statement[] } {
  const slack = 1e-6;
  const heldBy: Statement[] = [];
  if (wanted.slide > travel.forward + slack) heldBy.push(slotEnds(travel.forward, 'forward'));
  if (wanted.slide < -travel.back - slack) heldBy.push(slotEnds(travel.back, 'back'));
  if (Math.abs(wanted.twist) > travel.turn + slack) {
    heldBy.push(
      travel.turn === 0
        ? statement('no-twist-in-headshell')
        : statement('little-twist-in-headshell', { mostDeg: radToDeg(travel.turn) }),
    );
  }
  if (heldBy.length === 0) return { move: wanted, heldBy };
  const reached = bestOnEdges(
    (slide, twist) => ({ ...armAfterMove(stands, mount, { slide, twist }), move: { slide, twist } }),
    {
      length: { least: -travel.back, most: travel.forward },
      offset: { least: -travel.turn, most: travel.turn },
      lengthLimited: true,
      offsetLimited: true,
    },
    criterion,
    span,
    criterionNodes(criterion, span, music),
  );
  return { move: reached.move, heldBy };
}

const shifted = (stands: PivotedArm, by: readonly number[]): PivotedArm => ({
  kind: 'pivoted',
  effectiveLength: stands.effectiveLength + by[0],
  offset: stands.offset + by[1],
  spindleToPivot: stands.spindleToPivot + by[2],
});

/** Covariance of the move: its slopes over (L, φ, d) times the Cholesky factor. @returns expanded uncertainties, mm and rad */
function moveUncertainty(
  { arm, factor }: EstimatedArm,
  moveFrom: (arm: PivotedArm) => Found<ShellMove>,
): Found<ShellMove> {
  let slideVariance = 0;
  let twistVariance = 0;
  for (let k = 0; k < 3; k++) {
    const column = factor.map((row) => row[k]);
    const up = moveFrom(shifted(arm, column));
    const down = moveFrom(
      shifted(
        arm,
        column.map((x) => -x),
      ),
    );
    if (!up.found) return up;
    if (!down.found) return down;
    slideVariance += ((up.value.slide - down.value.slide) / 2) ** 2;
    twistVariance += ((up.value.twist - down.value.twist) / 2) ** 2;
  }
  return { found: true, value: { slide: 2 * Math.sqrt(slideVariance), twist: 2 * Math.sqrt(twistVariance) } };
}

/** What the arm does as it stands and after the move, spread over arms drawn from the estimate. */
function spreadsOf(
  estimate: EstimatedArm,
  mountOf: (arm: PivotedArm) => Mount,
  move: ShellMove,
  request: MoveRequest,
): Pick<Inversion, 'before' | 'after'> {
  const { arm: stands, factor, offset } = estimate;
  if (!offset.found) return { before: offset, after: offset };
  const normal = normalNumbers(request.seed ?? 1);
  const draws = Array.from({ length: DRAWS }, () => {
    const z = [normal(), normal(), normal()];
    return shifted(
      stands,
      factor.map((row) => row.reduce((sum, x, j) => sum + x * z[j], 0)),
    );
  });
  const afterArm = armAfterMove(stands, mountOf(stands), move);
  const afterDraws = draws.map((drawn) => armAfterMove(drawn, mountOf(drawn), move));
  const after = spreadFigures(afterArm, afterDraws, request);
  return {
    before: spreadFigures(stands, draws, request),
    after: after.found ? { found: true, value: { ...after.value, arm: afterArm } } : after,
  };
}

/**
 * From readings to the move.
 *
 * @returns or the reason where the readings do not fix the arm, or no arm of that pivot distance plays the span
 * @throws RangeError for anything out of bounds
 */
export function findMove(request: MoveRequest): Found<Inversion> {
  const { readings, spindleToPivot, span, criterion, music, loudness } = request;
  const tipAhead = within('tip ahead of the screws', request.tipAhead ?? USUAL_TIP_AHEAD, 0, 30, 'mm');
  const slotAngle =
    request.slotAngle === undefined
      ? undefined
      : within('slot angle', request.slotAngle, -Math.PI / 3, Math.PI / 3, 'rad');
  const travel = checkedTravel(request.travel ?? {});
  const aim = (d: number): Found<ArmWithFigures> => {
    const asked = { length: { known: 'spindle-to-pivot', mm: d } as const, span, criterion, music, loudness };
    return request.limits === undefined ? closedFormArm(asked) : constrainArm({ ...asked, limits: request.limits });
  };
  const first = aim(spindleToPivot.value);
  if (!first.found) return first;
  const estimated = armFromReadings(readings, first.value.arm, spindleToPivot);
  if (!estimated.found) return estimated;
  const estimate = estimated.value;
  const stands = estimate.arm;
  const aimed = aim(stands.spindleToPivot);
  if (!aimed.found) return aimed;
  const target = aimed.value.arm;
  const mountOf = (arm: PivotedArm): Mount =>
    slotAngle === undefined ? straightMount(arm, tipAhead) : { slotAngle, tipAhead };

  const moveFrom = (arm: PivotedArm): Found<ShellMove> =>
    moveBetween(arm, targetAt(target, arm.spindleToPivot), mountOf(arm));
  const wanted = moveFrom(stands);
  if (!wanted.found) return wanted;

  const { move, heldBy } = allowedMove(wanted.value, travel, stands, mountOf(stands), request);
  const uncertainty = moveUncertainty(estimate, moveFrom);
  if (!uncertainty.found) return uncertainty;
  const slide: Estimated = { value: move.slide, uncertainty: uncertainty.value.slide };
  const twist: Found<Estimated> = estimate.offset.found
    ? { found: true, value: { value: move.twist, uncertainty: uncertainty.value.twist } }
    : estimate.offset;
  const { before, after } = spreadsOf(estimate, mountOf, move, request);

  return {
    found: true,
    value: {
      estimate,
      target,
      targetFigures: aimed.value.figures,
      before,
      slide,
      twist,
      after,
      heldBy,
      moves: movesTold(slide, twist, before, after, heldBy, wanted.value).filter(
        ({ action, amount }) =>
          (action === 'slide' ? travel.forward + travel.back > 0 : travel.turn > 0) &&
          // slots that end right here leave nothing to do
          (heldBy.length === 0 || amount >= LEAST_STEP),
      ),
    },
  };
}
