/**
 * Predict, move, verify: one kind of record for every station where something is moved. What was foretold is kept with the
 * move, because it rests on figures that may be typed anew later; what came of it stands beside it.
 */

import { z } from 'zod';
import type { Advice, JudgedFinding } from '../advise/document.ts';
import { time } from './api/primitives.ts';
import type { CaptureEntry, PredictionCheck } from './api.ts';
import { checkAdvice, type Measured } from './checkAdvice.ts';
import { moveNames } from './moves.ts';
import { stationNames } from './station.ts';
import type { TypedBy } from './stations/stationModel.ts';

const shortText = z.string().max(80);
/** larger is no figure of a bench in any of its units */
const bounded = z.number().min(-1e6).max(1e6);

/** A figure before a move, foretold for after it, or read after it. */
const figure = z.strictObject({
  /** by its name in the catalogue of quantities */
  quantity: shortText,
  value: bounded,
  unit: shortText,
  /** k = 2, in `unit`; null where none can be given */
  uncertainty: bounded.min(0).nullable(),
  /** 95 draws in 100 lie between these, for a figure that cannot spread alike to both sides */
  low: bounded.optional(),
  high: bounded.optional(),
});
export type MoveFigure = TypedBy<typeof figure>;

const figures = z.array(figure).max(40);

const step = z.strictObject({
  move: z.enum(moveNames),
  /** how much, 0 or more, in `unit`; null where nobody measures it */
  amount: z.number().min(0).nullable(),
  unit: shortText,
  /** "up", "clockwise, seen from above"; null where there is only one way */
  direction: shortText.nullable(),
});
export type MoveStep = TypedBy<typeof step>;

export const moveRecordSchema = step.extend({
  at: time,
  station: z.enum(stationNames),
  /** what was moved in the same go, before anything was read again */
  also: z.array(step).max(4).optional(),
  before: figures,
  foretold: figures,
  /** what was read after it, kept once it is known; null until then */
  came: z.strictObject({ at: time, figures }).nullable(),
});
export type MoveRecord = TypedBy<typeof moveRecordSchema>;

/** As a phrase of a report: "force 1.5 mN more", "slid 1.2 mm forward". */
const what: Readonly<Partial<Record<MoveStep['move'], string>>> = {
  'set-force': 'force',
  'set-arm-height': 'arm height',
  'set-pivot-distance': 'pivot distance',
  'turn-shell': 'headshell turned',
  shim: 'shim put in:',
  slide: 'slid',
  twist: 'twisted',
};
const said: ReadonlySet<MoveStep['move']> = new Set(['slide', 'twist', 'turn-shell']);

function stepWords({ move, amount, unit, direction }: MoveStep): string {
  const name = what[move] ?? move.replaceAll('-', ' ');
  if (amount === null) return said.has(move) ? name : `${name} set`;
  const size = `${amount.toFixed(move === 'shim' || move === 'turn-shell' ? 2 : 1)}${unit === 'deg' ? '°' : ` ${unit}`}`;
  return `${name} ${size} ${direction ?? ''}`.trim();
}

/** What was done, as one phrase: "slid 1.2 mm forward; twisted 0.8° clockwise, seen from above". */
export const moveWords = ({ also = [], ...first }: MoveStep & Pick<MoveRecord, 'also'>): string =>
  [first, ...also].map(stepWords).join('; ');

/** What turns the cartridge about its length; the hand has its part in what comes. */
const turns: ReadonlySet<MoveStep['move']> = new Set(['turn-shell', 'shim']);

const measured = (list: readonly MoveFigure[]): Measured => ({
  findings: list.map(
    ({ quantity, value, unit, uncertainty }): JudgedFinding => ({
      quantity,
      value,
      unit,
      uncertainty,
      bands: [],
      note: '',
      verdict: 'info',
    }),
  ),
});

/**
 * Every figure foretold beside what came, by the rule that all advice is checked by.
 *
 * @param came what was read since, where the record does not keep it yet
 * @returns empty while nothing was read
 */
export function checkMove(
  record: Pick<MoveRecord, 'move' | 'before' | 'foretold' | 'came'>,
  came: readonly MoveFigure[] | null = record.came?.figures ?? null,
): readonly PredictionCheck[] {
  if (came === null) return [];
  const predicts = record.foretold.map(({ quantity, value, unit }) => ({ quantity, value, unit }));
  const action = turns.has(record.move) ? 'tilt' : record.move;
  const advice: Advice = { action, amount: null, unit: '', direction: null, predicts, why: '' };
  return checkAdvice(advice, measured(came), measured(record.before));
}

/**
 * The moves once one more is made: the reading that it rests on is what came of the one before.
 *
 * @param since ISO time from which what is fitted is on the deck, null from the beginning; a reading says nothing of a move
 *   made with what was there before
 */
export function withMove<Move extends MoveRecord>(
  moves: readonly Move[],
  move: Move,
  since: string | null = null,
): readonly Move[] {
  const last = moves.at(-1);
  if (last === undefined || (since !== null && last.at < since) || last.came !== null || move.before.length === 0)
    return [...moves, move];
  return [...moves.slice(0, -1), { ...last, came: { at: move.at, figures: move.before } }, move];
}

/**
 * What came of a move by the recordings heard after it: each figure foretold, of the first recording that holds it.
 *
 * @param captures that count of what was fitted then, oldest first
 * @returns null where none of them holds any
 */
export function cameFrom(
  { at, foretold }: { readonly at: string; readonly foretold: readonly Pick<MoveFigure, 'quantity'>[] },
  captures: readonly CaptureEntry[],
): readonly MoveFigure[] | null {
  const later = captures.filter(({ heardAt }) => heardAt > at);
  const found = foretold.flatMap(({ quantity }): MoveFigure[] => {
    for (const { findings } of later) {
      const finding = findings.find((one) => one.quantity === quantity);
      if (finding !== undefined && typeof finding.value === 'number') {
        return [{ quantity, value: finding.value, unit: finding.unit, uncertainty: finding.uncertainty }];
      }
    }
    return [];
  });
  return found.length === 0 ? null : found;
}
