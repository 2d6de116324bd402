/** One job of the list: open it; and, folded, export it, set it aside, delete it. */

import { useState } from 'preact/hooks';
import { apiPaths, type JobSummary } from '../../core/job/api.ts';
import { asideWording } from '../../core/job/fields/wording.ts';
import { stationNames } from '../../core/job/station.ts';
import { say, statement } from '../../core/words/statement.ts';
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
          ? say(
              statement(stale === 0 ? 'stations-done' : 'stations-done-and-stale', {
                done,
                all: stationNames.length,
                stale,
              }),
            )
          : say(statement('set-aside-for', { why: job.setAside.why }))}{' '}
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
            {say(statement('sound-stays-out'))}{' '}
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
      () =>
        onSaid(
          reason === null ? say(statement('job-counts-again', { number })) : say(statement('job-is-aside', { number })),
        ),
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
        hint={say(statement('aside-leaves-out'))}
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
        onSaid(say(statement(deckKept ? 'job-deleted' : 'job-and-deck-deleted', { number, recordings })));
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
        <b>Delete job {number} for good?</b> {say(statement('deletion-takes', { recordings: captures }))}
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
