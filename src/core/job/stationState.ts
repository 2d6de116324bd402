/** How a station's state changes: by its own page, and by a move made at another station. */
import type { Move, StationChange, StationState } from './api.ts';
import { sameJson } from './sameJson.ts';
import { moveEffects, whatMoveMakesStale } from './stale.ts';
import { type StationName, stationNames, stationTitles } from './station.ts';

export type Stations = Record<StationName, StationState>;

/** Reasons kept per station; older ones give way, since the newest says what to do. */
const MOST_REASONS = 8;

/** Nine stations at which nothing was done yet. @param at ISO time */
export function freshStations(at: string): Stations {
  const fresh = (): StationState => ({ status: 'untouched', data: {}, revision: 0, updatedAt: at });
  return Object.fromEntries(stationNames.map((name) => [name, fresh()])) as Stations;
}

export type Changed =
  | { readonly outcome: 'changed'; readonly state: StationState }
  /** what was sent is what stands there: a repeated request, nothing to write */
  | { readonly outcome: 'same'; readonly state: StationState }
  /** somebody else changed it since; `state` is what stands there now */
  | { readonly outcome: 'conflict'; readonly state: StationState };

/**
 * A station after its page wrote to it.
 *
 * A stale station that is worked at stays stale, with its reasons, until it is closed (`done`) or cleared
 * (`untouched`): writing a note into it must not hide that it has to be looked at again.
 *
 * @param at ISO time of the change
 */
export function changeStation(state: StationState, change: StationChange, at: string): Changed {
  const stays = state.status === 'stale' && change.status === 'now';
  const status = stays ? 'stale' : change.status;
  if (status === state.status && sameJson(state.data, change.data)) return { outcome: 'same', state };
  if (change.revision !== state.revision) return { outcome: 'conflict', state };
  return {
    outcome: 'changed',
    state: {
      status,
      ...(stays && state.staleBecause !== undefined ? { staleBecause: state.staleBecause } : {}),
      data: change.data,
      revision: state.revision + 1,
      updatedAt: at,
    },
  };
}

const begun = (state: StationState): boolean =>
  state.status === 'done' || state.status === 'stale' || (state.status === 'now' && Object.keys(state.data).length > 0);

/**
 * All stations after a move: what rests on it becomes stale, what was never begun stays as it is.
 *
 * @param at ISO time of the move
 * @returns only the stations that change
 */
export function stationsAfterMove(stations: Stations, move: Move, at: string): Partial<Stations> {
  const changed: Partial<Stations> = {};
  const { said } = moveEffects[move.move];
  const note = move.note?.trim() ?? '';
  const told = `${said}${note === '' ? '' : ` (${note})`} at ${stationTitles[move.station].title}`;
  for (const mark of whatMoveMakesStale(move.move)) {
    const state = stations[mark.station];
    if (mark.station === move.station || !begun(state)) continue;
    const because = mark.because.replace(said, told);
    const before = (state.staleBecause ?? []).filter((reason) => reason !== because);
    changed[mark.station] = {
      status: 'stale',
      staleBecause: [...before, because].slice(-MOST_REASONS),
      data: state.data,
      revision: state.revision + 1,
      updatedAt: at,
    };
  }
  return changed;
}
