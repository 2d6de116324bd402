/** A part half written down survives a reload of the page in this window. */

import { partKinds } from '../../core/job/partFields.ts';
import type { PartDraft } from './partDraft.ts';

const KEY = 'platterside-part-draft';

export function keepDraft(draft: PartDraft | null): void {
  try {
    if (draft === null) sessionStorage.removeItem(KEY);
    else sessionStorage.setItem(KEY, JSON.stringify(draft));
  } catch {
    // a browser that keeps nothing still holds the draft while the page is open
  }
}

export function keptDraft(): PartDraft | null {
  try {
    const draft = JSON.parse(sessionStorage.getItem(KEY) ?? 'null') as PartDraft | null;
    return draft !== null && partKinds.includes(draft.kind) && typeof draft.texts === 'object' ? draft : null;
  } catch {
    return null;
  }
}
