/** The draft of the job's own fields: title, owner, deck and notes. */
import type { ReadonlySignal } from '@preact/signals';
import {
  type HeadTyped,
  headConflictSchema,
  headTypedOf,
  headTypedSchema,
  type Job,
  type JobHead,
} from '../core/job/api.ts';
import { headWordings, type Wording } from '../core/job/fields/wording.ts';
import { withPath } from '../core/job/leafPaths.ts';
import { api } from './api.ts';
import { type Draft, openDraft, type Told } from './draft.ts';
import { takeHead, whenJobComes } from './jobState.ts';

const PAUSE_MS = 400;
const drafts = new Map<string, Draft>();

export type HeadField = keyof typeof headWordings;

const told = (head: Omit<JobHead, 'updatedAt'>): Told => ({ document: headTypedOf(head), revision: head.revision });

function draftOf(open: Job): Draft {
  const there = drafts.get(open.id);
  if (there !== undefined) return there;
  const draft = openDraft(
    {
      key: `head/${open.id}`,
      pauseMs: PAUSE_MS,
      async send(changes) {
        const head = await api.changeJob(open.id, { changes });
        takeHead(open.id, head);
        return told(head);
      },
      current(body) {
        const conflict = headConflictSchema.safeParse(body);
        return conflict.success ? told(conflict.data.current) : null;
      },
      cannotKeep: (document) =>
        headTypedSchema.safeParse(document).error?.issues.map(({ path }) => path.map(String)) ?? [],
      label: (path) => headWordings[path.join('.') as HeadField]?.label ?? 'Record file',
    },
    told(open),
  );
  drafts.set(open.id, draft);
  return draft;
}

whenJobComes((fresh) => drafts.get(fresh.id)?.take(told(fresh)));

/** One field of the job: what is typed shows at once and is saved after a pause. */
export function useHeadField(
  open: Job,
  field: HeadField,
): {
  readonly of: Wording;
  readonly text: string;
  onText(text: string): void;
} {
  const draft = draftOf(open);
  const path = field.split('.');
  const document = draft.document as ReadonlySignal<HeadTyped>;
  const { deck, ...own } = document.value;
  const text =
    path[0] === 'deck' ? deck[path[1] as 'name' | 'description'] : own[field as 'title' | 'customer' | 'notes'];
  return {
    of: headWordings[field],
    text,
    onText: (typed) => draft.change(withPath(draft.document.peek(), path, typed)),
  };
}

/** Id of the record file that the job is played with, as it is shown here; '' none. */
export const recordFileOf = (open: Job): string => (draftOf(open).document.value as HeadTyped).recordFile;

export function sayRecordFile(open: Job, id: string): void {
  const draft = draftOf(open);
  draft.change(withPath(draft.document.peek(), ['recordFile'], id), true);
}
