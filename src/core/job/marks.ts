/** What a move made at one station does to the others: marked to be looked at again, or noted; and taken back. */

import { outOfTolerance, RECHECK_CLASSES, type RecheckTolerances } from '../advise/recheck.ts';
import type { Mark, Move, StationState } from './api.ts';
import { knownArm } from './knownArm.ts';
import type { MoveName } from './moves.ts';
import { moveEffects, movesAtStation, whatMoveMakesStale } from './stale.ts';
import { type KeptMark, markSays, sizedEffect } from './staleReasons.ts';
import { stationNames } from './station.ts';
import type { Stations } from './stationState.ts';

/** Marks kept per station; older ones give way, since the newest says what to do. */
const MOST_MARKS = 8;

const begun = (state: StationState): boolean =>
  state.status === 'done' || state.status === 'stale' || (state.status === 'now' && Object.keys(state.data).length > 0);

/** What was noted of one quantity since the station was last closed. */
const notedSum = (state: StationState, quantity: string): number =>
  (state.marks ?? [])
    .filter((mark) => !mark.counts && mark.effect?.quantity === quantity)
    .reduce((sum, { effect }) => sum + (effect?.size ?? 0), 0);

function withMark(state: StationState, mark: Mark, at: string): StationState {
  const { status, staleBecause = [], marks = [] } = state;
  const stale = mark.counts || status === 'stale';
  const reasons = mark.counts
    ? [...staleBecause.filter((reason) => reason !== mark.because), mark.because].slice(-MOST_MARKS)
    : staleBecause;
  return {
    status: stale ? 'stale' : status,
    ...(stale ? { staleBecause: reasons } : {}),
    ...(state.readSince === undefined ? {} : { readSince: state.readSince }),
    marks: [...marks.filter(({ because }) => because !== mark.because), mark].slice(-MOST_MARKS),
    data: state.data,
    revision: state.revision + 1,
    updatedAt: at,
  };
}

/** The station's own setting was made anew: what was only noted of it is dealt with. */
function withoutNotes(state: StationState, at: string): StationState | null {
  const counting = (state.marks ?? []).filter(({ counts }) => counts);
  if (counting.length === (state.marks ?? []).length) return null;
  return { ...state, marks: counting, revision: state.revision + 1, updatedAt: at };
}

/**
 * All stations after a move: what rests on it and changes by more than its tolerance becomes stale, what changes by less
 * has it noted, what was never begun stays as it is. Notes add up: together over the tolerance they count. A move by
 * nothing marks nothing. The station where it is made looks after itself; but Run only measures, and is marked.
 *
 * @param at ISO time of the move
 * @param tolerances of this job
 * @returns only the stations that change
 */
export function stationsAfterMove(
  stations: Stations,
  move: Move,
  at: string,
  tolerances: RecheckTolerances = RECHECK_CLASSES.shop,
): Partial<Stations> {
  const { makesStale } = moveEffects[move.move];
  const note = move.note?.trim() ?? '';
  const arm = move.by === undefined ? null : knownArm(stations);
  const changed: Partial<Stations> = {};
  let others = false;
  for (const { station } of move.by === 0 ? [] : whatMoveMakesStale(move.move)) {
    const state = stations[station];
    if (station === move.station && station !== 'run') continue;
    const effect = arm === null ? null : (makesStale[station]?.effect?.(move.by as number, arm) ?? null);
    const sum = effect === null ? 0 : effect.size + notedSum(state, effect.quantity);
    const counts: boolean =
      station === 'hand-over' ? others : effect === null || outOfTolerance({ ...effect, size: sum }, tolerances);
    others ||= counts;
    if (!begun(state) || (station === 'hand-over' && !counts)) continue;
    const mark: KeptMark = {
      move: move.move,
      station: move.station,
      at,
      ...(move.step === undefined ? {} : { step: move.step }),
      was: state.marks?.[0]?.was ?? (state.status === 'now' ? 'now' : 'done'),
      counts,
      ...(note === '' ? {} : { note }),
      ...(effect === null ? {} : { effect: sizedEffect(effect, sum, tolerances[effect.quantity]) }),
    };
    const because = markSays(mark, station) ?? '';
    changed[station] = withMark(state, { ...mark, because }, at);
  }
  if ((movesAtStation[move.station] as readonly MoveName[]).includes(move.move)) {
    const own = withoutNotes(stations[move.station], at);
    if (own !== null) changed[move.station] = own;
  }
  return changed;
}

/**
 * All stations once a step is said not to have been made: its marks and notes go. A station that nothing else has marked
 * is again what it was before; one that was closed since has nothing to take back.
 *
 * @param at ISO time
 * @returns only the stations that change
 */
export function stationsWithoutStep(stations: Stations, step: string, at: string): Partial<Stations> {
  const changed: Partial<Stations> = {};
  for (const name of stationNames) {
    const state = stations[name];
    const gone = (state.marks ?? []).filter((mark) => mark.step === step);
    if (gone.length === 0) continue;
    const marks = (state.marks ?? []).filter((mark) => mark.step !== step);
    const said = new Set(gone.map(({ because }) => because));
    const staleBecause = (state.staleBecause ?? []).filter((reason) => !said.has(reason));
    const { staleBecause: _, marks: __, ...rest } = state;
    const stale = state.status === 'stale' && staleBecause.length > 0;
    changed[name] = {
      ...rest,
      status: state.status === 'stale' && !stale ? gone[0].was : state.status,
      ...(stale ? { staleBecause } : {}),
      ...(marks.length === 0 ? {} : { marks }),
      revision: state.revision + 1,
      updatedAt: at,
    };
  }
  return changed;
}
