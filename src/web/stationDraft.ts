/** The drafts of the stations: what is typed there, and whether the station is begun, done or to be checked again. */
import { computed, type ReadonlySignal } from '@preact/signals';
import { type OpenStatus, type StationData, type StationState, stationConflictSchema } from '../core/job/api.ts';
import type { LeafPath } from '../core/job/leafPaths.ts';
import { type StationName, stationNames } from '../core/job/station.ts';
import { faultsOf, labelOf, modelOf, valueNamed } from '../core/job/stations/index.ts';
import { api } from './api.ts';
import { type Document, openDraft, type Told } from './draft.ts';
import { job, takeStation, whenJobComes } from './jobState.ts';

export interface StationDraft {
  readonly data: ReadonlySignal<StationData>;
  /** as it will be once saved */
  readonly status: ReadonlySignal<StationState['status']>;
  readonly saved: ReadonlySignal<boolean>;
  change(patch: StationData, status?: OpenStatus): void;
  take(state: StationState): void;
}

const PAUSE_MS = 350;
const drafts = new Map<string, StationDraft>();
const keyOf = (jobId: string, station: StationName) => `station/${jobId}/${station}`;

const told = ({ status, data, revision }: StationState): Told => ({ document: { status, data }, revision });
const isStatus = (path: LeafPath): boolean => path[0] === 'status';
const dataIn = (document: Document): StationData => (document.data ?? {}) as StationData;

export function draftOf(jobId: string, station: StationName): StationDraft {
  const key = keyOf(jobId, station);
  const there = drafts.get(key);
  if (there !== undefined) return there;
  const known = job.peek()?.id === jobId ? job.peek()?.stations[station] : undefined;
  const draft = openDraft(
    {
      key,
      pauseMs: PAUSE_MS,
      wholes: (modelOf(station).wholes ?? []).map((path) => ['data', ...path]),
      async send(changes) {
        const status = changes.find(({ path }) => isStatus(path));
        const typed = changes.filter(({ path }) => !isStatus(path));
        // what is typed begins an untouched station by itself
        const begins = status?.was === 'untouched' && status.is === 'now' && typed.length > 0;
        const state = await api.changeStation(jobId, station, {
          changes: typed.map((change) => ({ ...change, path: change.path.slice(1) })),
          ...(status === undefined || begins
            ? {}
            : { status: { was: status.was as StationState['status'], is: status.is as OpenStatus } }),
        });
        takeStation(jobId, station, state);
        return told(state);
      },
      current(body) {
        const conflict = stationConflictSchema.safeParse(body);
        return conflict.success ? told(conflict.data.current) : null;
      },
      cannotKeep: (document) => faultsOf(station, dataIn(document)).map((path) => ['data', ...path]),
      yields: isStatus,
      label: (path) => labelOf(station, path.slice(1)),
      named: (path, value) => valueNamed(station, path.slice(1), value),
    },
    known === undefined ? { document: { status: 'untouched' }, revision: 0 } : told(known),
  );
  const held: StationDraft = {
    data: computed(() => dataIn(draft.document.value)),
    status: computed(() => draft.document.value.status as StationState['status']),
    saved: draft.saved,
    change(patch, status) {
      const { document } = draft;
      const now = document.peek().status as StationState['status'];
      const next = status ?? (now === 'untouched' ? 'now' : now);
      draft.change({ status: next, data: { ...dataIn(document.peek()), ...patch } }, status !== undefined);
    },
    take: (state) => draft.take(told(state)),
  };
  drafts.set(key, held);
  return held;
}

whenJobComes((fresh) => {
  for (const name of stationNames) drafts.get(keyOf(fresh.id, name))?.take(fresh.stations[name]);
});
