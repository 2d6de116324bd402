/** The record files of the library, and which one the open job is played with. */

import { effect, signal, untracked } from '@preact/signals';
import type { PartRecord, StationData } from '../../core/job/api.ts';
import type { JsonObject } from '../../core/job/json.ts';
import { leafChanges } from '../../core/job/leafPaths.ts';
import { checkRecord, RECORD_KIND } from '../../core/job/recordFile.ts';
import { sameJson } from '../../core/job/sameJson.ts';
import type { RecordSheet } from '../../core/record/sheet.ts';
import { api } from '../api.ts';
import { send } from '../connection.ts';
import { recordFileOf, sayRecordFile } from '../headDraft.ts';
import { job } from '../jobState.ts';
import { partsTurn } from '../storeTurn.ts';

export interface KeptRecord {
  readonly id: string;
  /** 0: not on the disk yet */
  readonly revision: number;
  readonly data: JsonObject;
  readonly sheet: RecordSheet;
}

/** by name; null until the server has told */
export const recordFiles = signal<readonly KeptRecord[] | null>(null);
/** the record file that the open job is played with */
export const pickedRecord = signal<KeptRecord | null>(null);

const byName = (files: readonly KeptRecord[]): readonly KeptRecord[] =>
  [...files].sort((a, b) => a.sheet.name.localeCompare(b.sheet.name) || a.id.localeCompare(b.id));

/** One that does not read any more is left out; it stays in the store. */
function keptRecord({ id, revision, data }: Omit<PartRecord, 'kind' | 'updatedAt'>): KeptRecord[] {
  const read = checkRecord(data);
  return 'data' in read ? [{ id, revision, data: read.data, sheet: read.sheet }] : [];
}

export function placeRecord(record: Omit<PartRecord, 'kind' | 'updatedAt'>): void {
  const others = (recordFiles.peek() ?? []).filter(({ id }) => id !== record.id);
  recordFiles.value = byName([...others, ...keptRecord(record)]);
}

export const takeRecordAway = (id: string): void => {
  recordFiles.value = recordFiles.peek()?.filter((one) => one.id !== id) ?? null;
};

/** Asks the server again; what was added here and is not on the disk yet stays. */
export function readRecordFiles(): void {
  send(async () => {
    const { parts } = await api.parts(RECORD_KIND);
    const told = parts.flatMap(keptRecord);
    const fresh = (recordFiles.peek() ?? []).filter(
      ({ revision, id }) => revision === 0 && !told.some((one) => one.id === id),
    );
    recordFiles.value = byName([...told, ...fresh]);
  });
}

/** The one that the open job is played with is known, unless the server does not answer. */
export async function whenPicked(): Promise<void> {
  const open = job.peek();
  if (open === null || recordFileOf(open) === '' || recordFiles.peek() !== null) return;
  await api.parts(RECORD_KIND).then(
    ({ parts }) => {
      recordFiles.value = byName(parts.flatMap(keptRecord));
    },
    () => undefined,
  );
}

/** Puts a record file into the library, unless the same one is there. @returns its id */
export function keepRecord(data: JsonObject): string {
  const there = recordFiles.peek()?.find((one) => sameJson(one.data, data));
  if (there !== undefined) return there.id;
  const id = crypto.randomUUID();
  placeRecord({ id, revision: 0, data: data as StationData });
  send(async () => placeRecord(await api.changePart(RECORD_KIND, id, { changes: leafChanges({}, data) })));
  return id;
}

/** From now on the open job is played with this one; '' with none. */
export function pickRecord(id: string): void {
  const open = job.peek();
  if (open !== null) sayRecordFile(open, id);
}

// the job's choice, as it is typed: the server may be away
effect(() => {
  const open = job.value;
  const wanted = open === null ? '' : recordFileOf(open);
  const files = recordFiles.value;
  if (open !== null && files === null) untracked(readRecordFiles);
  pickedRecord.value = wanted === '' ? null : (files?.find(({ id }) => id === wanted) ?? null);
});

// what another window or bench changed of them; that a list is shown is known by its having been read
effect(() => {
  if (partsTurn.value > 0 && recordFiles.peek() !== null) untracked(readRecordFiles);
});
