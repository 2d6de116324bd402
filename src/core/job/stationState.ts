/** How a station's state changes by its own page. What a move made at another station does to it is in `marks.ts`. */
import type { StationChange, StationState } from './api.ts';
import { sameJson } from './sameJson.ts';
import { type StationName, stationNames } from './station.ts';

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
  // closing or clearing says that all of it was looked at; writing into a station that stays as it is says nothing
  const keepsMarks = stays || state.status === change.status;
  const status = stays ? 'stale' : change.status;
  if (status === state.status && sameJson(state.data, change.data)) return { outcome: 'same', state };
  if (change.revision !== state.revision) return { outcome: 'conflict', state };
  return {
    outcome: 'changed',
    state: {
      status,
      ...(stays && state.staleBecause !== undefined ? { staleBecause: state.staleBecause } : {}),
      ...(keepsMarks && state.marks !== undefined ? { marks: state.marks } : {}),
      data: change.data,
      revision: state.revision + 1,
      updatedAt: at,
    },
  };
}
