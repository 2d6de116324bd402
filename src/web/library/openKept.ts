/**
 * One thing of a library that is being written down: kept in this browser until it is in the library, sent when the person
 * says so. Only leaves that nobody else changed meanwhile are sent.
 */
import { partConflictSchema, type StationData } from '../../core/job/api.ts';
import { type LeafPath, leafChanges, withPath } from '../../core/job/leafPaths.ts';
import { say, statement } from '../../core/words/statement.ts';
import { api, ServerSaid } from '../api.ts';
import { type Document, type Draft, openDraft, type Told } from '../draft.ts';

export interface KeptKind {
  /** place in the browser's store */
  readonly key: string;
  /** as it is stored */
  readonly kind: Parameters<typeof api.changePart>[0];
  readonly id: string;
  /** as a person calls it */
  readonly called: string;
  /** texts of what is stored */
  typedOf(data: StationData): Document;
  /** what the texts say. @throws Error with a sentence where they cannot be read */
  dataOf(typed: Document): unknown;
  /** it is in the library */
  place(record: Awaited<ReturnType<typeof api.changePart>>): void;
  label(path: LeafPath): string;
}

export interface OpenKept extends Pick<Draft, 'document'> {
  readonly isNew: boolean;
  change(typed: Document): void;
  /** true once it is in the library; false where a field was changed in another window and is still to be chosen */
  keep(): Promise<boolean>;
  leave(): void;
}

/**
 * @param from the one that is changed; null for a new one
 * @param begun what a new one begins with
 */
export function openKept(
  { key, kind, id, called, typedOf, dataOf, place, label }: KeptKind,
  from: { readonly data: StationData; readonly revision: number } | null,
  begun: Document,
): OpenKept {
  let kept: StationData = from?.data ?? {};
  let base: Document = from === null ? {} : typedOf(from.data);
  const told = ({ data, revision }: { readonly data: StationData; readonly revision: number }): Told => {
    kept = data;
    base = typedOf(data);
    return { document: base, revision };
  };
  const engine = openDraft(
    {
      key,
      async send(changes) {
        const typed = changes.reduce((document, { path, is }) => withPath(document, path, is), base);
        const record = await api.changePart(kind, id, { changes: leafChanges(kept, dataOf(typed)) });
        place(record);
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
      label,
    },
    { document: base, revision: from?.revision ?? 0 },
  );
  if (from === null && Object.keys(engine.document.peek()).length === 0) engine.change(begun);
  return {
    document: engine.document,
    isNew: from === null,
    change: (typed) => engine.change(typed),
    async keep() {
      try {
        return await engine.save();
      } catch (error) {
        if (!(error instanceof ServerSaid && error.status === 409)) throw error;
        throw new Error(say(statement('deleted-meanwhile', { called })));
      }
    },
    leave: () => engine.forget(),
  };
}
