/** Keeps every advice beside what was measured after it. */
import type { SideDocument } from '../advise/document.ts';
import type { AdviceEntry, Job } from './api.ts';
import { captureAfter, checkAdvice, type HeardCapture, type Measured } from './checkAdvice.ts';
import { recordingsOf } from './recordings.ts';

export type HeardSide = HeardCapture & Measured;

type Linked = Pick<AdviceEntry, 'checkedBy' | 'checks'>;

/**
 * Where an advice stands now: the capture that checks it and what came of each prediction.
 *
 * A move that was not made is checked by nothing. What was compared once is kept as it was then, so long as the same
 * capture checks it.
 *
 * @param captures that count of the same epoch, in the order heard; without the entry's own nothing checks it
 */
export function linkAdvice(entry: AdviceEntry, captures: readonly HeardSide[]): Linked {
  const checkedBy = entry.outcome.did === 'not-done' ? null : captureAfter(captures, entry.captureId);
  if (checkedBy === entry.checkedBy) return { checkedBy, checks: entry.checks };
  const later = captures.find((capture) => capture.id === checkedBy);
  const earlier = captures.find((capture) => capture.id === entry.captureId);
  return { checkedBy, checks: later === undefined ? [] : checkAdvice(entry.advice, later, earlier) };
}

/** Advice of recordings that count: what was set aside advises nothing. */
export function countingAdvice(job: Job): readonly AdviceEntry[] {
  const counting = new Set(recordingsOf(job).flatMap(({ id, counts }) => (counts ? [id] : [])));
  return job.advice.filter(({ captureId }) => counting.has(captureId));
}

/**
 * The advice of a document as the history keeps it, nobody having acted on it yet.
 *
 * @param idAt id of the advice at this place in the document
 */
export function adviceEntries(
  document: SideDocument,
  captureId: string,
  givenAt: string,
  idAt: (place: number) => string,
): AdviceEntry[] {
  return document.advice.map((advice, place) => ({
    id: idAt(place),
    captureId,
    givenAt,
    advice,
    outcome: { did: 'open', note: '', at: null },
    checkedBy: null,
    checks: [],
  }));
}
