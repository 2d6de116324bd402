/** Which recordings before and after rest on, each by name, time and what was fitted. */
import type { Job } from '../core/job/api.ts';
import { AS_RECEIVED, type Epoch } from '../core/job/epochs.ts';
import { recordingsOf } from '../core/job/recordings.ts';
import { epochWords } from '../core/job/recordingWords.ts';
import { receivedAlone } from '../core/job/stations/handOver/figureRows.ts';
import { reportTitles as titles } from '../core/words/report.ts';
import { clipped } from './onePage.ts';
import { Time } from './sheet.tsx';

/** Letters of a file's name */
const MOST_LETTERS = 40;

export function Compared({ job }: { job: Job }) {
  const recordings = recordingsOf(job);
  const received = receivedAlone(job);
  const exchanged = job.fittings.length > 0;
  const fitted = (epoch: Epoch): string =>
    // with what, once something else is on the deck
    exchanged && epoch.id === AS_RECEIVED && epoch.fitted.cartridge !== undefined
      ? `${epochWords(epoch)} with ${epoch.fitted.cartridge}`
      : epochWords(epoch);
  const told = (ids: readonly string[], name: string) =>
    job.captures.flatMap((capture, at) =>
      ids.includes(capture.id) ? [{ name, capture, epoch: recordings[at].epoch }] : [],
    );
  const lines = [
    ...told(
      received === undefined ? job.beforeAfter.map(({ beforeCapture }) => beforeCapture) : [received.id],
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
          {clipped(fitted(epoch), 2 * MOST_LETTERS)}.
        </p>
      ))}
    </>
  );
}
