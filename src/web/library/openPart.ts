/** The part that is being written down: kept in this browser until it is on the shelf, sent when the person says so. */
import { computed, type ReadonlySignal } from '@preact/signals';
import type { StationData } from '../../core/job/api.ts';
import { withPath } from '../../core/job/leafPaths.ts';
import { fieldsOf, type PartKind, partKinds } from '../../core/job/partFields.ts';
import type { Part } from '../../core/job/parts.ts';
import type { Document } from '../draft.ts';
import { keysAside } from '../draftAside.ts';
import { openKept } from './openKept.ts';
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
  const open = openKept(
    {
      key: `part/${kind}/${id}`,
      kind,
      id,
      called: 'part',
      typedOf: (data) => documentOf(draftFrom(data as unknown as Part, null)),
      dataOf(typed) {
        const read = partFrom({ kind, ...typedIn(typed) });
        if (!('part' in read)) throw new Error(read.faults[0].why);
        return read.part;
      },
      place: placeOnShelf,
      label: ([field]) => fieldsOf(kind)[field]?.label ?? (field === 'note' ? 'Note' : 'Name'),
    },
    from === null ? null : { data: from.part as unknown as StationData, revision: from.revision },
    documentOf(draft),
  );
  const typed = computed(() => typedIn(open.document.value));
  return {
    kind,
    id,
    isNew: open.isNew,
    typed,
    read: computed(() => partFrom({ kind, ...typed.value })),
    set: (field, text) => open.change(withPath(open.document.peek(), [field], text === '' ? undefined : text)),
    keep: open.keep,
    leave: open.leave,
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
