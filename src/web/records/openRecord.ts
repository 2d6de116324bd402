/** The record file that is being written down: kept in this browser until it is in the library, sent when the person says so. */

import { computed, type ReadonlySignal } from '@preact/signals';
import { RECORD_KIND, type RecordRead, type RecordTyped, recordFrom, recordTyped } from '../../core/job/recordFile.ts';
import { say } from '../../core/words/statement.ts';
import { keysAside } from '../draftAside.ts';
import { openKept } from '../library/openKept.ts';
import { type KeptRecord, placeRecord } from './recordLibrary.ts';

export interface OpenRecord {
  readonly id: string;
  readonly isNew: boolean;
  readonly typed: ReadonlySignal<RecordTyped>;
  readonly read: ReadonlySignal<RecordRead>;
  set(patch: RecordTyped): void;
  /** true once it is in the library; false where a field was changed in another window and is still to be chosen */
  keep(): Promise<boolean>;
  leave(): void;
}

/** What a new one begins with. */
const begun: RecordTyped = { rpm: '33⅓', bands: [{ signal: 'tone', motion: 'left', frequencyHz: '1000' }] };

/**
 * @param from the one that is changed; null for a new one
 * @param start what a new one begins with, such as a copy
 */
export function openRecord(
  from: KeptRecord | null,
  start: RecordTyped = begun,
  id = from?.id ?? crypto.randomUUID(),
): OpenRecord {
  const open = openKept(
    {
      key: `record/${id}`,
      kind: RECORD_KIND,
      id,
      called: 'record file',
      typedOf: recordTyped,
      dataOf(typed) {
        const read = recordFrom(typed as RecordTyped);
        if (!('data' in read)) throw new Error(say(read.faults[0].why));
        return read.data;
      },
      place: placeRecord,
      label: (path) => path.join(' '),
    },
    from,
    start,
  );
  const typed = computed(() => open.document.value as RecordTyped);
  return {
    id,
    isNew: open.isNew,
    typed,
    read: computed(() => recordFrom(typed.value)),
    set: (patch) => open.change({ ...open.document.peek(), ...patch }),
    keep: open.keep,
    leave: open.leave,
  };
}

/** One that was begun before the page was loaded again; null where there is none. */
export function recordAside(files: readonly KeptRecord[]): OpenRecord | null {
  const [key] = keysAside('record/');
  if (key === undefined) return null;
  const id = key.slice('record/'.length);
  return openRecord(files.find((one) => one.id === id) ?? null, begun, id);
}
