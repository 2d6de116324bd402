/**
 * What is typed at a station, shown at once and saved a moment later. A draft survives an absent server, a change made
 * elsewhere at the same time, and a closed window (it is kept in this browser until the server has it).
 */
import { computed, type ReadonlySignal, type Signal, signal } from '@preact/signals';
import type { Job, StationData, StationState } from '../core/job/api.ts';
import { stationConflictSchema } from '../core/job/api.ts';
import { type StationName, stationNames } from '../core/job/station.ts';
import { api, ServerSaid } from './api.ts';
import { refusal, send } from './connection.ts';
import { job, takeJob, whenJobComes } from './jobState.ts';

export type OpenStatus = 'untouched' | 'now' | 'done';

export interface Draft {
  readonly data: Signal<StationData>;
  /** as it will be once saved */
  readonly status: Signal<StationState['status']>;
  readonly saved: ReadonlySignal<boolean>;
  change(patch: StationData, status?: OpenStatus): void;
}

interface Held extends Draft {
  revision: number;
  /** keys changed here since the server last agreed */
  changed: Map<string, number>;
  statusChanged: boolean;
  edits: Signal<number>;
  sent: Signal<number>;
  timer: ReturnType<typeof setTimeout> | undefined;
}

const PAUSE_MS = 350;
const drafts = new Map<string, Held>();
const keyOf = (jobId: string, station: StationName) => `${jobId}/${station}`;
const storageKey = (key: string) => `platterside-unsaved/${key}`;

function keepAside(key: string, held: Held): void {
  try {
    if (held.changed.size === 0 && !held.statusChanged) localStorage.removeItem(storageKey(key));
    else {
      const patch = Object.fromEntries([...held.changed.keys()].map((name) => [name, held.data.value[name]]));
      localStorage.setItem(storageKey(key), JSON.stringify({ patch, status: held.status.value }));
    }
  } catch {
    // a browser that keeps nothing still holds the draft in memory
  }
}

function fetchAside(key: string): { patch: StationData; status?: OpenStatus } | null {
  try {
    const text = localStorage.getItem(storageKey(key));
    return text === null ? null : JSON.parse(text);
  } catch {
    return null;
  }
}

/** The server's state with what was changed here on top. */
function merged(server: StationData, held: Held): StationData {
  const mine = Object.fromEntries([...held.changed.keys()].map((name) => [name, held.data.value[name]]));
  return { ...server, ...mine };
}

function takeState(held: Held, state: StationState): void {
  if (state.revision < held.revision) return;
  held.revision = state.revision;
  held.data.value = merged(state.data, held);
  if (!held.statusChanged) held.status.value = state.status;
}

whenJobComes((fresh: Job) => {
  for (const name of stationNames) {
    const held = drafts.get(keyOf(fresh.id, name));
    if (held !== undefined) takeState(held, fresh.stations[name]);
  }
});

async function save(jobId: string, station: StationName, held: Held): Promise<void> {
  const key = keyOf(jobId, station);
  if (held.changed.size === 0 && !held.statusChanged) return;
  const edit = held.edits.value;
  const sending = new Map(held.changed);
  const status = held.status.value === 'stale' ? 'now' : held.status.value;
  const put = () => api.changeStation(jobId, station, { revision: held.revision, status, data: held.data.value });
  const agree = (fresh: Job): void => {
    for (const [name, at] of sending) if (held.changed.get(name) === at) held.changed.delete(name);
    if (held.edits.value === edit) held.statusChanged = false;
    held.sent.value = edit;
    takeJob(fresh);
    keepAside(key, held);
  };
  try {
    agree(await put());
  } catch (error) {
    const conflict = error instanceof ServerSaid ? stationConflictSchema.safeParse(error.body) : null;
    if (!conflict?.success) throw error;
    const theirs = conflict.data.current;
    const both = [...sending.keys()].filter(
      (name) => name in theirs.data && JSON.stringify(theirs.data[name]) !== JSON.stringify(held.data.value[name]),
    );
    takeState(held, theirs);
    agree(await put());
    if (both.length > 0) {
      refusal.value = `Another window changed this station too. What you typed here is kept for: ${both.join(', ')}.`;
    }
  }
}

export function draftOf(jobId: string, station: StationName): Draft {
  const key = keyOf(jobId, station);
  const there = drafts.get(key);
  if (there !== undefined) return there;
  const state = job.peek()?.id === jobId ? job.peek()?.stations[station] : undefined;
  const edits = signal(0);
  const sent = signal(0);
  const held: Held = {
    data: signal(state?.data ?? {}),
    status: signal(state?.status ?? 'untouched'),
    saved: computed(() => edits.value === sent.value),
    revision: state?.revision ?? 0,
    changed: new Map(),
    statusChanged: false,
    edits,
    sent,
    timer: undefined,
    change(patch, status) {
      edits.value += 1;
      held.data.value = { ...held.data.value, ...patch };
      for (const name of Object.keys(patch)) held.changed.set(name, edits.value);
      const next = status ?? (held.status.value === 'untouched' ? 'now' : held.status.value);
      if (next !== held.status.value) {
        held.status.value = next;
        held.statusChanged = true;
      }
      if (status !== undefined) held.statusChanged = true;
      keepAside(key, held);
      clearTimeout(held.timer);
      held.timer = setTimeout(() => send(() => save(jobId, station, held)), status === undefined ? PAUSE_MS : 0);
    },
  };
  drafts.set(key, held);
  const aside = fetchAside(key);
  if (aside !== null) held.change(aside.patch, aside.status);
  return held;
}

/** True while something typed has not reached the disk. */
export const anythingUnsaved = (): boolean => [...drafts.values()].some((held) => !held.saved.value);

/** On leaving the page: send at once what is still in its pause. */
addEventListener('pagehide', () => {
  for (const [key, held] of drafts) {
    if (held.changed.size === 0 && !held.statusChanged) continue;
    const [jobId, station] = key.split('/') as [string, StationName];
    clearTimeout(held.timer);
    void save(jobId, station, held).catch(() => undefined);
  }
});
