/** The record file that is being written down: kept in this browser until it is in the library, sent when the person says so. */

import { computed, type ReadonlySignal } from '@preact/signals';
import { partConflictSchema, type StationData } from '../../core/job/api.ts';
import { leafChanges } from '../../core/job/leafPaths.ts';
import {
  type JsonObject,
  RECORD_KIND,
  type RecordRead,
  type RecordTyped,
  recordFrom,
  recordTyped,
} from '../../core/job/recordFile.ts';
import { say } from '../../core/words/statement.ts';
import { api } from '../api.ts';
import { openDraft, type Told } from '../draft.ts';
import { keysAside } from '../draftAside.ts';
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
  let kept: JsonObject = from?.data ?? {};
  const told = ({ data, revision }: { readonly data: StationData; readonly revision: number }): Told => {
    kept = data;
    return { document: recordTyped(data), revision };
  };
  const engine = openDraft(
    {
      key: `record/${id}`,
      async send() {
        const read = recordFrom(engine.document.peek() as RecordTyped);
        if (!('data' in read)) throw new Error(say(read.faults[0].why));
        const record = await api.changePart(RECORD_KIND, id, { changes: leafChanges(kept, read.data) });
        placeRecord(record);
        return told(record);
      },
      current(body) {
        const conflict = partConflictSchema.safeParse(body);
        if (!conflict.success) return null;
        const { current } = conflict.data;
        if (current !== null) return told(current);
        // deleted elsewhere: the next time all of it is sent, which makes it again
        kept = {};
        return null;
      },
      label: (path) => path.join(' '),
    },
    from === null ? { document: {}, revision: 0 } : { document: recordTyped(from.data), revision: from.revision },
  );
  if (from === null && Object.keys(engine.document.peek()).length === 0) engine.change(start);
  const typed = computed(() => engine.document.value as RecordTyped);
  return {
    id,
    isNew: from === null,
    typed,
    read: computed(() => recordFrom(typed.value)),
    set: (patch) => engine.change({ ...engine.document.peek(), ...patch }),
    keep: () => engine.save(),
    leave: () => engine.forget(),
  };
}

/** One that was begun before the page was loaded again; null where there is none. */
export function recordAside(files: readonly KeptRecord[]): OpenRecord | null {
  const [key] = keysAside('record/');
  if (key === undefined) return null;
  const id = key.slice('record/'.length);
  return openRecord(files.find((one) => one.id === id) ?? null, begun, id);
}
