/** The part that is being written down: kept in this browser until it is on the shelf, sent when the person says so. */
import { computed, type ReadonlySignal } from '@preact/signals';
import { partConflictSchema, type StationData } from '../../core/job/api.ts';
import { leafChanges, withPath } from '../../core/job/leafPaths.ts';
import { fieldsOf, type PartKind, partKinds } from '../../core/job/partFields.ts';
import type { Part } from '../../core/job/parts.ts';
import { api, ServerSaid } from '../api.ts';
import { type Document, openDraft, type Told } from '../draft.ts';
import { keysAside } from '../draftAside.ts';
import { type DraftRead, draftFrom, emptyDraft, type PartDraft, partFrom } from './partDraft.ts';
import { placeOnShelf, type ShelfPart } from './shelf.ts';

export interface OpenPart {
  readonly kind: PartKind;
  readonly id: string;
  readonly isNew: boolean;
  readonly typed: ReadonlySignal<Pick<PartDraft, 'marked' | 'texts'>>;
  readonly read: ReadonlySignal<DraftRead>;
  set(field: string, text: string): void;
  /** true once it is on the shelf; false where a field was changed in another window and is still to be chosen */
  keep(): Promise<boolean>;
  leave(): void;
}

/** The mark of a part travels with its texts; no field has this name. */
const MARK = 'marked';

const documentOf = ({ marked, texts }: Pick<PartDraft, 'marked' | 'texts'>): Document => ({
  ...texts,
  ...(marked === undefined ? {} : { [MARK]: marked }),
});

function typedIn(document: Document): Pick<PartDraft, 'marked' | 'texts'> {
  const { [MARK]: marked, ...texts } = document as Record<string, string>;
  return { ...(marked === undefined ? {} : { marked: marked as NonNullable<Part['marked']> }), texts };
}

/** @param id left out: that of the part it is drawn from, or a new one */
export function openPart(draft: PartDraft, id = draft.from?.id ?? crypto.randomUUID()): OpenPart {
  const { kind, from } = draft;
  let kept: unknown = from?.part;
  const told = (record: { readonly data: StationData; readonly revision: number }): Told => {
    kept = record.data;
    return { document: documentOf(draftFrom(record.data as unknown as Part, null)), revision: record.revision };
  };
  const start: Told =
    from === null
      ? { document: {}, revision: 0 }
      : { document: documentOf(draftFrom(from.part, null)), revision: from.revision };
  let base = start.document;
  const engine = openDraft(
    {
      key: `part/${kind}/${id}`,
      async send(changes) {
        const texts = changes.reduce((document, { path, is }) => withPath(document, path, is), base);
        const read = partFrom({ kind, ...typedIn(texts) });
        if (!('part' in read)) throw new Error(read.faults[0].why);
        const record = await api.changePart(kind, id, { changes: leafChanges(kept ?? {}, read.part) });
        placeOnShelf(record);
        const now = told(record);
        base = now.document;
        return now;
      },
      current(body) {
        const conflict = partConflictSchema.safeParse(body);
        if (!conflict.success) return null;
        const { current } = conflict.data;
        // deleted elsewhere: the next time all of it is sent, which makes it again
        if (current === null) {
          kept = undefined;
          return null;
        }
        const now = told(current);
        base = now.document;
        return now;
      },
      label: ([field]) => fieldsOf(kind)[field]?.label ?? (field === 'note' ? 'Note' : 'Name'),
    },
    start,
  );
  if (from === null && Object.keys(engine.document.peek()).length === 0) engine.change(documentOf(draft));
  const typed = computed(() => typedIn(engine.document.value));
  return {
    kind,
    id,
    isNew: from === null,
    typed,
    read: computed(() => partFrom({ kind, ...typed.value })),
    set: (field, text) => engine.change(withPath(engine.document.peek(), [field], text === '' ? undefined : text)),
    async keep() {
      try {
        return await engine.save();
      } catch (error) {
        if (!(error instanceof ServerSaid && error.status === 409)) throw error;
        throw new Error('This part was deleted in another window meanwhile. Save again to keep it as a new one.');
      }
    },
    leave: () => engine.forget(),
  };
}

/** A part that was begun before the page was loaded again; null where there is none. */
export function partAside(shelf: readonly ShelfPart[]): OpenPart | null {
  for (const key of keysAside('part/')) {
    const [, kind, id] = key.split('/');
    if (!(partKinds as readonly string[]).includes(kind) || id === undefined) continue;
    const from = shelf.find((one) => one.id === id) ?? null;
    return openPart(from === null ? emptyDraft(kind as PartKind) : draftFrom(from.part, from), id);
  }
  return null;
}
