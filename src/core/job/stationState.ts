/** How a station's state changes by its own page. What a move made at another station does to it is in `marks.ts`. */
import type { StationChange, StationState } from './api.ts';
import { applyLeaves, type LeafConflict } from './leafPaths.ts';
import { sameJson } from './sameJson.ts';
import { type StationName, stationNames } from './station.ts';
import { checkStation } from './stations/index.ts';

export type Stations = Record<StationName, StationState>;

/** Nine stations at which nothing was done yet. @param at ISO time */
export function freshStations(at: string): Stations {
  const fresh = (): StationState => ({ status: 'untouched', data: {}, revision: 0, updatedAt: at });
  return Object.fromEntries(stationNames.map((name) => [name, fresh()])) as Stations;
}

export type Changed =
  | { readonly outcome: 'changed'; readonly state: StationState }
  /** what was sent is what stands there: a repeated request, nothing to write */
  | { readonly outcome: 'same'; readonly state: StationState }
  /** somebody else changed the same since; no conflicts: only the status */
  | { readonly outcome: 'conflict'; readonly state: StationState; readonly conflicts: readonly LeafConflict[] }
  /** the station keeps no such thing; one clause says what and where */
  | { readonly outcome: 'refused'; readonly why: string };

/**
 * A station after its page wrote to it. A change begins an untouched station.
 *
 * A stale station that is worked at stays stale, with its reasons, until it is closed (`done`) or cleared
 * (`untouched`): writing a note into it must not hide that it has to be looked at again.
 *
 * @param at ISO time of the change
 */
export function changeStation(name: StationName, state: StationState, change: StationChange, at: string): Changed {
  const applied = applyLeaves(state.data, change.changes ?? []);
  if (applied.outcome === 'conflict') return { outcome: 'conflict', state, conflicts: applied.conflicts };
  const typed = !sameJson(applied.document, state.data);
  const wanted = change.status ?? { was: state.status, is: state.status };
  if (wanted.was !== state.status && wanted.is !== state.status) return { outcome: 'conflict', state, conflicts: [] };
  const begins = typed && state.status === 'untouched' && wanted.is === 'untouched';
  const stays = state.status === 'stale' && (wanted.is === 'now' || wanted.is === 'stale');
  // closing or clearing says that all of it was looked at; writing into a station that stays as it is says nothing
  const keepsMarks = stays || state.status === wanted.is;
  const status = stays ? 'stale' : begins ? 'now' : wanted.is;
  if (!typed && status === state.status) return { outcome: 'same', state };
  const checked = checkStation(name, applied.document);
  if (!checked.found) return { outcome: 'refused', why: checked.why };
  return {
    outcome: 'changed',
    state: {
      status,
      ...(stays && state.staleBecause !== undefined ? { staleBecause: state.staleBecause } : {}),
      ...(stays && state.readSince !== undefined ? { readSince: state.readSince } : {}),
      ...(keepsMarks && state.marks !== undefined ? { marks: state.marks } : {}),
      data: checked.data,
      revision: state.revision + 1,
      updatedAt: at,
    },
  };
}
