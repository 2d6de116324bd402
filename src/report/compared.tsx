/** Which recordings before and after rest on, each by name, time and what was fitted. */
import type { Job } from '../core/job/api.ts';
import { recordingsOf } from '../core/job/recordings.ts';
import { epochWords } from '../core/job/recordingWords.ts';
import { reportTitles as titles } from '../core/words/report.ts';
import { clipped } from './onePage.ts';
import { Time } from './sheet.tsx';

/** Letters of a file's name */
const MOST_LETTERS = 40;

export function Compared({ job }: { job: Job }) {
  const recordings = recordingsOf(job);
  const told = (ids: readonly string[], name: string) =>
    job.captures.flatMap((capture, at) =>
      ids.includes(capture.id) ? [{ name, capture, epoch: recordings[at].epoch }] : [],
    );
  const lines = [
    ...told(
      job.beforeAfter.map(({ beforeCapture }) => beforeCapture),
      titles.before,
    ).slice(0, 1),
    ...told(
      [...job.beforeAfter, ...job.notBefore].map(({ afterCapture }) => afterCapture),
      titles.after,
    ).slice(-1),
  ];
  return (
    <>
      {lines.map(({ name, capture, epoch }) => (
        <p class="note">
          {name}: {clipped(capture.file, MOST_LETTERS)}, <Time at={capture.heardAt} />,{' '}
          {clipped(epochWords(epoch), 2 * MOST_LETTERS)}.
        </p>
      ))}
    </>
  );
}
