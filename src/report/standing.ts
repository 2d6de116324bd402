/** The recording that a report rests on. */
import type { CaptureRecord, Job } from '../core/job/api.ts';
import { recordingsOf } from '../core/job/recordings.ts';

/** The newest that counts of what is fitted now, else the newest as received; its own record, curves and all. */
export function standingRecord(job: Job, captures: readonly CaptureRecord[]): CaptureRecord | undefined {
  const recordings = recordingsOf(job).filter(({ counts }) => counts);
  const chosen =
    recordings.find(({ now, kind }) => now && kind === 'after') ??
    recordings.filter(({ now }) => now).at(-1) ??
    recordings.filter(({ kind }) => kind === 'as-received').at(-1);
  return captures.find(({ id }) => id === chosen?.id);
}
