/** The side whose figures are on the page: the one just read, or the job's last. */

import { computed, effect, signal } from '@preact/signals';
import type { Advice, JudgedFinding, SideDocument } from '../../core/advise/document.ts';
import { rejudged } from '../../core/advise/rejudge.ts';
import type { AdviceEntry, Job } from '../../core/job/api.ts';
import { ofWhatIsFitted, recordingsOf, unfitOf } from '../../core/job/recordings.ts';
import { unfitTold, whyNot } from '../../core/job/recordingWords.ts';
import { limitsOf } from '../../core/job/shop.ts';
import { type Statement, statement } from '../../core/words/statement.ts';
import { api, ServerAway } from '../api.ts';
import { away } from '../connection.ts';
import { job } from '../jobState.ts';
import { jobAndShop } from '../shop.ts';

export interface ShownSide {
  readonly jobId: string;
  /** null until the server has it */
  readonly captureId: string | null;
  readonly document: SideDocument;
  /** played by the practice deck; known before the server has it */
  readonly practice: boolean;
}

export const shownSide = signal<ShownSide | null>(null);
/** index of the band picked on the time line */
export const pickedBand = signal<number | null>(null);
export const sideProblem = signal<string | null>(null);

/** @param instead only where this document is the one shown */
export function showSide(side: ShownSide, instead?: SideDocument): void {
  if (instead !== undefined && shownSide.value?.document !== instead) return;
  if (shownSide.value?.document !== side.document) pickedBand.value = null;
  shownSide.value = side;
}

let fetching = '';

/** Shows a capture of the job that was kept earlier. */
export async function showCapture(jobId: string, captureId: string): Promise<void> {
  const key = `${jobId}/${captureId}`;
  if (fetching === key) return;
  fetching = key;
  const before = shownSide.peek();
  try {
    const record = await api.capture(jobId, captureId);
    // a side read meanwhile is newer than the one that was asked for
    if (job.value?.id === jobId && shownSide.peek() === before) {
      showSide({ jobId, captureId, document: record.document, practice: record.practice });
      sideProblem.value = null;
    }
  } catch (error) {
    if (error instanceof ServerAway) away.value = true;
    sideProblem.value = error instanceof Error ? error.message : String(error);
  } finally {
    if (fetching === key) fetching = '';
  }
}

/**
 * A job opened shows its last recording of what is fitted. One that was shown and no longer counts, because something was
 * fitted or it was set aside, gives way to it.
 */
let counted: ReadonlySet<string> = new Set();
effect(() => {
  const open = job.value;
  if (open === null) return;
  const fitted = ofWhatIsFitted(open);
  const before = counted;
  counted = new Set(fitted.map(({ id }) => id));
  const shown = shownSide.peek();
  if (shown?.jobId === open.id) {
    const lost = shown.captureId !== null && before.has(shown.captureId) && !counted.has(shown.captureId);
    if (!lost) return;
  }
  const last = fitted.at(-1);
  if (last === undefined) {
    shownSide.value = null;
    return;
  }
  void showCapture(open.id, last.id);
});

export const sideDocument = computed(() => {
  const side = shownSide.value;
  if (side === null || side.jobId !== job.value?.id) return null;
  // as judged when it was read, or by the limits that are typed now
  return rejudged(side.document, limitsOf(jobAndShop(side.jobId)));
});

export function findingOf(document: SideDocument | null, quantity: string): JudgedFinding | null {
  return document?.findings.find((finding) => finding.quantity === quantity) ?? null;
}

export function adviceOf(document: SideDocument | null, action: string): Advice | null {
  return document?.advice.find((advice) => advice.action === action) ?? null;
}

/** Advice of the side that is shown, as the job keeps it; undefined where the server does not have it. */
export const entryOf = ({ advice }: Pick<Job, 'advice'>, { action }: Advice): AdviceEntry | undefined =>
  advice.find((one) => one.captureId === shownSide.value?.captureId && one.advice.action === action);

/** Why the side that is shown says nothing of what is fitted, null where it does. */
export const shownButNot = computed((): Statement | null => {
  const [open, side] = [job.value, shownSide.value];
  if (open === null || side === null || side.jobId !== open.id) return null;
  const place = open.captures.findIndex(({ id }) => id === side.captureId);
  if (place !== -1) return whyNot(open.captures[place], recordingsOf(open)[place]);
  // the server does not have it yet
  const unfit = unfitOf(side.document);
  if (unfit !== null) return unfitTold(unfit);
  return side.practice && !open.practice ? statement('recording-practice') : null;
});
