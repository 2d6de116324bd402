/** Predict, move, verify: what an advice promised beside what was measured after the move. */
import type { Advice, JudgedFinding } from '../advise/document.ts';
import { HAND_DEG, isTurn } from '../advise/turn.ts';
import { degToRad } from '../units/units.ts';
import { type Statement, say, statement } from '../words/statement.ts';
import type { PredictionCheck } from './api.ts';

/** Of a side document only its findings are read. */
export interface Measured {
  readonly findings: readonly JudgedFinding[];
}

type Figure = JudgedFinding & { readonly value: number };

/**
 * The figure that a prediction speaks of. Where a capture holds several (bands played twice), the one with the least
 * uncertainty; one without uncertainty only where there is no other.
 */
export function figureOf(measured: Measured, quantity: string, unit: string): Figure | undefined {
  const own = (finding: JudgedFinding): number => finding.uncertainty ?? Number.POSITIVE_INFINITY;
  return measured.findings
    .filter((one): one is Figure => one.quantity === quantity && one.unit === unit && typeof one.value === 'number')
    .sort((a, b) => own(a) - own(b))[0];
}

/**
 * What `HAND_DEG` of tilt changes at most, dB: a leak of size |c| by tan 0.1°, and the balance on a lateral tone, where one
 * channel gains what the other loses, by twice that.
 */
function handDb(quantity: string, predictedDb: number): number {
  const perNeper = 20 / Math.LN10;
  const turn = Math.tan(degToRad(HAND_DEG));
  if (quantity.startsWith('separation-')) return perNeper * turn * 10 ** (predictedDb / 20);
  return quantity === 'channel-balance' ? 2 * perNeper * turn : 0;
}

/**
 * Each prediction of `advice` against the later capture.
 *
 *   came as predicted when |measured − predicted| ≤ √(U² + H²),   U = √(U_measured² + U_before²)
 *
 * A prediction is worked out from the earlier figure and carries at least that figure's uncertainty. H is what a tenth of a
 * degree at the screw makes of the figure, where the advice was to turn: no hand sets it finer, and the measurements are
 * so much finer that without H every turn would come out "otherwise". A figure that is only bounded can tell that it came
 * otherwise, never that it came as predicted.
 *
 * @param later what was measured after the move
 * @param earlier what was measured when the advice was given, where known
 * @returns one entry a prediction, in its order; uncertainty k = 2 in the prediction's unit
 */
export function checkAdvice(advice: Advice, later: Measured, earlier?: Measured): PredictionCheck[] {
  return advice.predicts.map(({ quantity, value, unit }) => {
    const before = earlier === undefined ? undefined : figureOf(earlier, quantity, unit);
    const after = figureOf(later, quantity, unit);
    const entry = { quantity, unit, before: before?.value ?? null, predicted: value };
    if (after === undefined) {
      return {
        ...entry,
        measured: null,
        uncertainty: null,
        came: 'cannot-tell' as const,
        why: say(statement('figure-not-held')),
      };
    }
    const { low, high } = after;
    if (
      after.uncertainty === null &&
      low !== undefined &&
      (value < low || value > (high ?? Number.POSITIVE_INFINITY))
    ) {
      return {
        ...entry,
        measured: after.value,
        uncertainty: null,
        came: 'otherwise' as const,
        why: say(statement('difference-beyond-interval')),
      };
    }
    if (after.uncertainty === null) {
      return {
        ...entry,
        measured: after.value,
        uncertainty: null,
        came: 'cannot-tell' as const,
        why: say(statement(low === undefined ? 'figure-without-uncertainty' : 'figure-within-interval')),
      };
    }
    const uncertainty = Math.hypot(after.uncertainty, before?.uncertainty ?? 0);
    const hand = isTurn(advice) ? handDb(quantity, value) : 0;
    const within = Math.abs(after.value - value) <= Math.hypot(uncertainty, hand);
    return {
      ...entry,
      measured: after.value,
      uncertainty,
      came: within ? ('as-predicted' as const) : ('otherwise' as const),
      why: say(differenceTold(within, hand > 0)),
    };
  });
}

function differenceTold(within: boolean, byHand: boolean): Statement {
  if (!byHand) return statement(within ? 'difference-within' : 'difference-beyond');
  return statement(within ? 'difference-within-hand' : 'difference-beyond-hand', { handDeg: HAND_DEG });
}

export interface HeardCapture {
  readonly id: string;
  /** ISO time in UTC */
  readonly heardAt: string;
  readonly sha256: string | null;
}

/**
 * The first capture heard after the one an advice came from, the same file played again left aside; null where there is
 * none yet. `captures` in the order heard.
 */
export function captureAfter(captures: readonly HeardCapture[], captureId: string): string | null {
  const place = captures.findIndex((capture) => capture.id === captureId);
  if (place === -1) return null;
  const own = captures[place].sha256;
  const next = captures.slice(place + 1).find((capture) => own === null || capture.sha256 !== own);
  return next?.id ?? null;
}
