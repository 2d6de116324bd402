/**
 * The optimum of the exact law itself, nothing made linear: minimax by exchange of the three peaks with Newton's
 * method, least squares by Gauss–Newton over quadrature nodes. Stands beside the closed form, whose error it shows.
 *
 * One length is known (spindle to pivot, effective length or overhang); the other length and the offset are free.
 *
 * @checked test/standards/geometry.test.ts against recorded outputs of an outside optimiser and a brute-force search
 */

import { type Found, none } from '../words/found.ts';
import { statement } from '../words/statement.ts';
import { type Arm, LONGEST_ARM, type PivotedArm, SHORTEST_ARM } from './arm.ts';
import { type CriterionName, closedFormNulls } from './criteria.ts';
import { peaks, peakWeighted, reachesSpan, rmsWeighted } from './distortion.ts';
import { weightedError } from './law.ts';
import { evenWeight, type MusicWeight } from './music.ts';
import { type Node, spanNodes } from './quadrature.ts';
import type { GrooveSpan } from './span.ts';

/** The length that is known, mm. */
export type KnownLength =
  | { readonly known: 'spindle-to-pivot'; readonly mm: number }
  | { readonly known: 'effective-length'; readonly mm: number }
  | { readonly known: 'overhang'; readonly mm: number };

/** Arm from the known length, the free length (L where d is known, else d), and the offset. */
export function armFrom(length: KnownLength, free: number, offset: number): PivotedArm {
  const [d, L] =
    length.known === 'spindle-to-pivot'
      ? [length.mm, free]
      : length.known === 'effective-length'
        ? [free, length.mm]
        : [free, free + length.mm];
  return { kind: 'pivoted', spindleToPivot: d, effectiveLength: L, offset };
}

/** The free length of an arm, given which one is known. */
export const freeLength = (length: KnownLength, arm: PivotedArm): number =>
  length.known === 'spindle-to-pivot' ? arm.effectiveLength : arm.spindleToPivot;

/** What a criterion makes small, as one number; used wherever something limits the choice. */
export function cost(criterion: CriterionName, arm: Arm, span: GrooveSpan, nodes: readonly Node[]): number {
  switch (criterion) {
    case 'lofgren-a':
      return peakWeighted(arm, span);
    case 'stevenson':
      // the inner null comes first, the peaks after it
      return peakWeighted(arm, span) + 100 * Math.abs(weightedError(arm, span.inner));
    default:
      return rmsWeighted(arm, nodes);
  }
}

/** Nodes that a criterion's least squares runs over. */
export const criterionNodes = (criterion: CriterionName, span: GrooveSpan, music?: MusicWeight): readonly Node[] =>
  spanNodes(span.inner, span.outer, criterion === 'even-music' && music !== undefined ? music : evenWeight);

/** Newton's method for two equations in (free length, offset), slopes by central differences. */
function solvePair(
  f: (free: number, offset: number) => readonly [number, number],
  free: number,
  offset: number,
): { readonly free: number; readonly offset: number } {
  let p = free;
  let q = offset;
  const hp = 1e-5 * free;
  const hq = 1e-5;
  for (let i = 0; i < 60; i++) {
    const [f0, f1] = f(p, q);
    const [a0, a1] = f(p + hp, q);
    const [b0, b1] = f(p - hp, q);
    const [c0, c1] = f(p, q + hq);
    const [e0, e1] = f(p, q - hq);
    const j00 = (a0 - b0) / (2 * hp);
    const j10 = (a1 - b1) / (2 * hp);
    const j01 = (c0 - e0) / (2 * hq);
    const j11 = (c1 - e1) / (2 * hq);
    const determinant = j00 * j11 - j01 * j10;
    const stepP = (f0 * j11 - f1 * j01) / determinant;
    const stepQ = (f1 * j00 - f0 * j10) / determinant;
    if (!Number.isFinite(stepP) || !Number.isFinite(stepQ)) break;
    p -= stepP;
    q -= stepQ;
    if (Math.abs(stepP) < 1e-12 * p && Math.abs(stepQ) < 1e-13) break;
  }
  return { free: p, offset: q };
}

/** Least squares of tan ε / r over the nodes, free in one or two unknowns. */
function leastSquares(
  make: (a: number, b: number) => PivotedArm,
  start: readonly [number, number],
  steps: readonly [number, number],
  nodes: readonly Node[],
): PivotedArm {
  let [a, b] = start;
  const [ha, hb] = steps;
  for (let i = 0; i < 40; i++) {
    let saa = 0;
    let sab = 0;
    let sbb = 0;
    let ga = 0;
    let gb = 0;
    const here = make(a, b);
    const [upA, downA, upB, downB] = [make(a + ha, b), make(a - ha, b), make(a, b + hb), make(a, b - hb)];
    for (const { radius, weight } of nodes) {
      const w = weightedError(here, radius);
      const da = (weightedError(upA, radius) - weightedError(downA, radius)) / 2;
      const db = (weightedError(upB, radius) - weightedError(downB, radius)) / 2;
      saa += weight * da * da;
      sab += weight * da * db;
      sbb += weight * db * db;
      ga += weight * da * w;
      gb += weight * db * w;
    }
    const alone = sbb === 0;
    const determinant = alone ? saa : saa * sbb - sab * sab;
    const stepA = alone ? ga / saa : (ga * sbb - gb * sab) / determinant;
    const stepB = alone ? 0 : (gb * saa - ga * sab) / determinant;
    if (!Number.isFinite(stepA) || !Number.isFinite(stepB)) break;
    a -= stepA * ha;
    b -= stepB * hb;
    if (Math.abs(stepA * ha) < 1e-11 * Math.abs(a) && Math.abs(stepB * hb) < 1e-12) break;
  }
  return make(a, b);
}

/**
 * Arm that is best under the exact law.
 *
 * `lofgren-b` keeps A's linear offset L sin φ (as published) and frees the overhang alone.
 *
 * @param start an arm near by: the closed form's
 * @returns or the reason where the search leaves what an arm can be
 */
export function exactOptimum(
  criterion: CriterionName,
  length: KnownLength,
  span: GrooveSpan,
  start: PivotedArm,
  music?: MusicWeight,
): Found<PivotedArm> {
  const free = freeLength(length, start);
  const make = (p: number, q: number): PivotedArm => armFrom(length, p, q);
  let arm: PivotedArm;
  if (criterion === 'lofgren-a' || criterion === 'stevenson') {
    const atInner = criterion === 'stevenson';
    const solution = solvePair(
      (p, q) => {
        const tried = make(p, q);
        const all = peaks(tried, span);
        const between = all.slice(1, -1);
        const dip = between.length > 0 ? between[0] : all[Math.floor(all.length / 2)];
        const inner = weightedError(tried, span.inner);
        const last = weightedError(tried, span.outer) + dip.weighted;
        return [atInner ? inner : inner + dip.weighted, last];
      },
      free,
      start.offset,
    );
    arm = make(solution.free, solution.offset);
  } else if (criterion === 'lofgren-b') {
    const half = closedFormNulls('lofgren-a', span).sum / 2;
    const withLinearOffset = (p: number): PivotedArm => {
      const bare = make(p, 0);
      return { ...bare, offset: Math.asin(Math.min(1, half / bare.effectiveLength)) };
    };
    arm = leastSquares(withLinearOffset, [free, 0], [1e-4 * free, 0], criterionNodes(criterion, span));
  } else {
    const nodes = criterionNodes(criterion, span, music);
    arm = leastSquares(make, [free, start.offset], [1e-4 * free, 1e-4], nodes);
  }
  const { spindleToPivot: d, effectiveLength: L } = arm;
  if (
    !(d >= SHORTEST_ARM && L >= SHORTEST_ARM && d <= LONGEST_ARM && L <= LONGEST_ARM && Number.isFinite(arm.offset))
  ) {
    return none(statement('no-exact-optimum'));
  }
  const reached = reachesSpan(arm, span);
  return reached.found ? { found: true, value: arm } : reached;
}
