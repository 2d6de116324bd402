/** One job of the list: open it; and, folded, export it, set it aside, delete it. */

import { useState } from 'preact/hooks';
import { apiPaths, type JobSummary } from '../../core/job/api.ts';
import { asideWording } from '../../core/job/fields/wording.ts';
import { stationNames } from '../../core/job/station.ts';
import { api } from '../api.ts';
import { forgetAside } from '../draft.ts';
import { forgetJob } from '../jobState.ts';
import { dayHere } from '../localTime.ts';
import { TextField } from '../parts/TextField.tsx';
import { stationPath } from '../route.ts';

interface RowProps {
  readonly job: JobSummary;
  /** something was changed: what, in a sentence */
  onSaid(text: string): void;
  onProblem(text: string): void;
}

export function JobRow({ job, onSaid, onProblem }: RowProps) {
  const done = stationNames.filter((name) => job.stations[name] === 'done').length;
  const stale = stationNames.filter((name) => job.stations[name] === 'stale').length;
  return (
    <li>
      <a href={stationPath(job.id, 'intake')}>{job.title}</a>
      <span class="soft">
        {job.customer === '' ? '' : `${job.customer} · `}
        {job.setAside === null
          ? `${done} of ${stationNames.length} stations done${stale === 0 ? '' : `, ${stale} to check again`}`
          : `set aside: ${job.setAside.why}`}{' '}
        · {dayHere(job.updatedAt)}
      </span>
      <details class="whole">
        <summary>{`Export, set aside or delete job ${job.number}`}</summary>
        <div class="stack">
          <div class="buttons">
            <a class="button" href={apiPaths.bundle(job.id, true)} download={`job-${job.number}.platterside.zip`}>
              Export
            </a>
            <a class="button" href={apiPaths.bundle(job.id, false)} download={`job-${job.number}.platterside.zip`}>
              Export without the owner’s name
            </a>
          </div>
          <p class="soft">
            The recordings’ sound stays out. To put it in, <i>Export with recordings</i> at Hand over, or{' '}
            <code>{`platterside job export ${job.number} -o FILE.platterside.zip --recordings FOLDER`}</code>
          </p>
          <Aside job={job} onSaid={onSaid} onProblem={onProblem} />
          <Deletion job={job} onSaid={onSaid} onProblem={onProblem} />
        </div>
      </details>
    </li>
  );
}

function Aside({ job: { id, number, setAside }, onSaid, onProblem }: RowProps) {
  const [why, setWhy] = useState('');
  const change = (reason: string | null): void => {
    api.setJobAside(id, reason).then(
      () => onSaid(reason === null ? `Job ${number} counts again.` : `Job ${number} is set aside; nothing is deleted.`),
      (error: Error) => onProblem(error.message),
    );
  };
  if (setAside !== null) {
    return (
      <div class="buttons">
        <button type="button" class="button" onClick={() => change(null)}>
          Take job {number} in again
        </button>
      </div>
    );
  }
  return (
    <div class="fields">
      <TextField
        of={{ ...asideWording, label: `Why job ${number} is set aside` }}
        hint="It stays; history, hours and checks leave it out."
        text={why}
        onText={setWhy}
      />
      <div class="buttons">
        <button type="button" class="button" disabled={why.trim() === ''} onClick={() => change(why.trim())}>
          Set job {number} aside
        </button>
      </div>
    </div>
  );
}

function Deletion({ job: { id, number, captures }, onSaid, onProblem }: RowProps) {
  const [asking, setAsking] = useState(false);
  const remove = (): void => {
    api.deleteJob(id).then(
      ({ recordings, deckKept }) => {
        forgetJob(id);
        forgetAside((key) => key.split('/').includes(id));
        onSaid(
          `Job ${number} is deleted, with the figures of ${recordings} recordings${deckKept ? '' : ' and its deck'}. Kept: ${
            deckKept ? 'the deck, which has other jobs; ' : ''
          }parts, record files, the recordings’ own files, exports and copies of the store.`,
        );
      },
      (error: Error) => onProblem(error.message),
    );
  };
  if (!asking) {
    return (
      <div class="buttons">
        <button type="button" class="button" onClick={() => setAsking(true)}>
          Delete job {number}…
        </button>
      </div>
    );
  }
  return (
    <section class="notice bad" aria-label={`Delete job ${number}`}>
      <p>
        <b>Delete job {number} for good?</b> Everything typed in it goes, with its photographs, the figures of{' '}
        {captures} recordings, and its deck where it has no other job. An export keeps it. Kept are parts, record files,
        the recordings’ own files, exports and copies of the store.
      </p>
      <div class="buttons">
        <button type="button" class="button" onClick={() => setAsking(false)}>
          Keep it
        </button>
        <button type="button" class="button" onClick={remove}>
          Delete job {number} for good
        </button>
      </div>
    </section>
  );
}
