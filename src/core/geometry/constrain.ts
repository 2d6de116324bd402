/**
 * Constrain: the best that remains under the exact law when the arm does not let overhang and offset both be chosen,
 * and what that costs against the free optimum.
 *
 * In the null radii's sum and product the criteria are convex, so an optimum that the limits shut out leaves the best
 * that remains on their edge: each edge is searched, the least is taken.
 */

import { within } from '../units/bounds.ts';
import { radToDeg } from '../units/units.ts';
import { type Found, none } from '../words/found.ts';
import { type Statement, statement } from '../words/statement.ts';
import { type Arm, LARGEST_OFFSET, LONGEST_ARM, type PivotedArm, SHORTEST_ARM, type TangentialArm } from './arm.ts';
import type { CriterionName } from './criteria.ts';
import { type ArmFigures, armFigures, type Loudness, usualLoudness } from './distortion.ts';
import { armFrom, cost, criterionNodes, freeLength, type KnownLength } from './exact.ts';
import { solveMinimum } from './iterate.ts';
import type { MusicWeight } from './music.ts';
import type { Node } from './quadrature.ts';
import { type SolveRequest, solveArm } from './solve.ts';
import type { GrooveSpan } from './span.ts';

/** From least to most; equal where fixed. Lengths mm, angles rad. */
export interface Range {
  readonly least: number;
  readonly most: number;
}

export const fixedAt = (value: number): Range => ({ least: value, most: value });

/** What the arm allows. What is left out is free. */
export interface Limits {
  /** slots that end, or a length that is fixed, mm */
  readonly effectiveLength?: Range;
  /** where the pivot may stand, when the effective length is the known one, mm */
  readonly spindleToPivot?: Range;
  /** how far the cartridge can be turned in its shell, rad */
  readonly offset?: Range;
  /** for a tangential arm: how far its line may pass the spindle, mm */
  readonly overhang?: Range;
}

export interface ConstrainedArm<A extends Arm = PivotedArm> {
  readonly arm: A;
  readonly figures: ArmFigures;
  /** the free optimum under the exact law; or why there is none */
  readonly free: Found<ArmFigures>;
  /** best that remains less free optimum, in percentage points; null where there is no free optimum */
  readonly costsPeakPercent: number | null;
  readonly costsRmsPercent: number | null;
  /** limits that hold the arm away from the free optimum, empty where none does */
  readonly heldBy: readonly Statement[];
}

function checkedRange(name: string, range: Range, low: number, high: number, unit: string): Range {
  const fixed = range.least === range.most;
  within(fixed ? name : `least ${name}`, range.least, low, high, unit);
  within(fixed ? name : `most ${name}`, range.most, low, high, unit);
  if (!(range.least <= range.most)) {
    throw new RangeError(
      `${name} may run from ${range.least} to ${range.most} ${unit}; the first must not be over the second`,
    );
  }
  return range;
}

/** A box of two free numbers with the search ranges that stand in where no limit is given. */
interface Box {
  readonly length: Range;
  readonly offset: Range;
  readonly lengthLimited: boolean;
  readonly offsetLimited: boolean;
}

const edges = ({ least, most }: Range): readonly number[] => (least === most ? [least] : [least, most]);

export function bestOnEdges<A extends Arm>(
  make: (length: number, offset: number) => A,
  box: Box,
  criterion: CriterionName,
  span: GrooveSpan,
  nodes: readonly Node[],
): A {
  const tried: A[] = [];
  const weigh = (arm: A): number => cost(criterion, arm, span, nodes);
  if (box.lengthLimited || !box.offsetLimited) {
    for (const length of edges(box.length)) {
      const q = solveMinimum((offset) => weigh(make(length, offset)), box.offset.least, box.offset.most);
      tried.push(make(length, q));
    }
  }
  if (box.offsetLimited) {
    for (const offset of edges(box.offset)) {
      const p = solveMinimum((length) => weigh(make(length, offset)), box.length.least, box.length.most);
      tried.push(make(p, offset));
    }
  }
  return tried.reduce((best, arm) => (weigh(arm) < weigh(best) ? arm : best));
}

const inside = (value: number, { least, most }: Range): boolean =>
  value >= least - 1e-9 * Math.abs(least) && value <= most + 1e-9 * Math.abs(most);

/** At an end of its range, as the search ends there: within a part in a million. */
const atEdge = (value: number, range: Range): boolean =>
  edges(range).some((edge) => Math.abs(value - edge) <= 1e-6 * Math.max(1, Math.abs(edge)));

const heldMm = (what: string, { least, most }: Range): Statement =>
  least === most
    ? statement('held-fixed-mm', { what, value: least })
    : statement('held-between-mm', { what, least, most });

/** @param range rad */
function heldDeg(what: string, range: Range): Statement {
  const [least, most] = [radToDeg(range.least), radToDeg(range.most)];
  return range.least === range.most
    ? statement('held-fixed-deg', { what, value: least })
    : statement('held-between-deg', { what, least, most });
}

function finish<A extends Arm>(
  arm: A,
  free: Found<ArmFigures>,
  heldBy: readonly Statement[],
  span: GrooveSpan,
  loudness: Loudness,
): Found<ConstrainedArm<A>> {
  const figures = armFigures(arm, span, loudness);
  if (!figures.found) return figures;
  return {
    found: true,
    value: {
      arm,
      figures: figures.value,
      free,
      costsPeakPercent: free.found ? figures.value.peakDistortionPercent - free.value.peakDistortionPercent : null,
      costsRmsPercent: free.found ? figures.value.rmsDistortionPercent - free.value.rmsDistortionPercent : null,
      heldBy,
    },
  };
}

/** Where the free length may run, mm: the limits given, cut to what reaches the span. */
function freeRange(
  length: KnownLength,
  limits: Limits,
  span: GrooveSpan,
): Found<{ readonly range: Range; readonly limited: boolean }> {
  const { effectiveLength, spindleToPivot } = limits;
  let given: Range | undefined;
  let possible: Range;
  if (length.known === 'spindle-to-pivot') {
    within('spindle to pivot', length.mm, SHORTEST_ARM, LONGEST_ARM, 'mm');
    given = effectiveLength && checkedRange('effective length', effectiveLength, SHORTEST_ARM, LONGEST_ARM, 'mm');
    possible = { least: length.mm - span.inner, most: length.mm + span.inner };
  } else if (length.known === 'effective-length') {
    within('effective length', length.mm, SHORTEST_ARM, LONGEST_ARM, 'mm');
    given = spindleToPivot && checkedRange('spindle to pivot', spindleToPivot, SHORTEST_ARM, LONGEST_ARM, 'mm');
    possible = { least: length.mm - span.inner, most: length.mm + span.inner };
  } else {
    within('overhang', length.mm, -span.inner, span.inner, 'mm');
    const fromLength = effectiveLength && {
      least: effectiveLength.least - length.mm,
      most: effectiveLength.most - length.mm,
    };
    const range = spindleToPivot ?? fromLength;
    given = range && checkedRange('spindle to pivot', range, SHORTEST_ARM, LONGEST_ARM, 'mm');
    possible = { least: SHORTEST_ARM, most: 1000 };
  }
  const least = Math.max(SHORTEST_ARM, possible.least, given?.least ?? 0);
  const most = Math.min(possible.most, given?.most ?? LONGEST_ARM);
  if (!(least <= most)) {
    const which = length.known === 'spindle-to-pivot' ? 'effective length' : 'spindle to pivot';
    const { least, most } = given as Range;
    const limit =
      least === most
        ? statement('limit-fixed', { mm: least })
        : statement('limit-between', { leastMm: least, mostMm: most });
    return none(
      statement('limit-out-of-reach', {
        known: length.known.replaceAll('-', ' '),
        mm: length.mm,
        limited: which,
        leastMm: Math.max(SHORTEST_ARM, possible.least),
        mostMm: possible.most,
        radiusMm: span.inner,
        limit,
      }),
    );
  }
  return { found: true, value: { range: { least, most }, limited: given !== undefined } };
}

/**
 * Best pivoted arm within limits.
 *
 * @returns or the reason where nothing within the limits plays the span
 * @throws RangeError for limits out of bounds or the wrong way round
 */
export function constrainArm(request: SolveRequest & { readonly limits: Limits }): Found<ConstrainedArm> {
  const { length, span, criterion, music, limits, loudness = usualLoudness } = request;
  const allowed = freeRange(length, limits, span);
  if (!allowed.found) return allowed;
  const { range, limited } = allowed.value;
  const offset = limits.offset
    ? checkedRange('offset', limits.offset, -LARGEST_OFFSET, LARGEST_OFFSET, 'rad')
    : { least: -Math.PI / 6, most: LARGEST_OFFSET };
  const offsetLimited = limits.offset !== undefined;
  const solved = solveArm({ length, span, criterion, music, loudness });
  const exact = solved.found ? solved.value.exact : solved;
  const free: Found<ArmFigures> = exact.found ? { found: true, value: exact.value.figures } : exact;
  if (
    exact.found &&
    (!limited || inside(freeLength(length, exact.value.arm), range)) &&
    (!offsetLimited || inside(exact.value.arm.offset, offset))
  ) {
    return finish(exact.value.arm, free, [], span, loudness);
  }
  const arm = bestOnEdges(
    (p, q) => armFrom(length, p, q),
    { length: range, offset, lengthLimited: limited, offsetLimited },
    criterion,
    span,
    criterionNodes(criterion, span, music),
  );
  const heldBy: Statement[] = [];
  if (limited && atEdge(freeLength(length, arm), range)) {
    const which = length.known === 'spindle-to-pivot' ? 'effective length' : 'spindle to pivot';
    heldBy.push(heldMm(which, range));
  }
  if (offsetLimited && atEdge(arm.offset, offset)) {
    heldBy.push(heldDeg('offset', offset));
  }
  return finish(arm, free, heldBy, span, loudness);
}

/**
 * Best tangential arm within limits. Free, its line passes through the spindle with the cartridge square: no error at all.
 *
 * @throws RangeError for limits out of bounds or the wrong way round
 */
export function constrainTangentialArm(
  criterion: CriterionName,
  span: GrooveSpan,
  limits: Limits,
  loudness: Loudness = usualLoudness,
  music?: MusicWeight,
): Found<ConstrainedArm<TangentialArm>> {
  const make = (overhang: number, offset: number): TangentialArm => ({ kind: 'tangential', overhang, offset });
  const ideal = make(0, 0);
  const free = armFigures(ideal, span, loudness);
  const most = span.inner - 0.001;
  const length = limits.overhang
    ? checkedRange('overhang', limits.overhang, -most, most, 'mm')
    : { least: -most, most };
  const offset = limits.offset
    ? checkedRange('offset', limits.offset, -LARGEST_OFFSET, LARGEST_OFFSET, 'rad')
    : { least: -LARGEST_OFFSET, most: LARGEST_OFFSET };
  if (inside(0, length) && inside(0, offset)) return finish(ideal, free, [], span, loudness);
  const box = {
    length,
    offset,
    lengthLimited: limits.overhang !== undefined,
    offsetLimited: limits.offset !== undefined,
  };
  const arm = bestOnEdges(make, box, criterion, span, criterionNodes(criterion, span, music));
  const heldBy: Statement[] = [];
  if (box.lengthLimited && atEdge(arm.overhang, length)) heldBy.push(heldMm('overhang', length));
  if (box.offsetLimited && atEdge(arm.offset, offset)) {
    heldBy.push(heldDeg('twist', offset));
  }
  return finish(arm, free, heldBy, span, loudness);
}
