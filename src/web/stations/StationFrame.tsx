/** Around every station: its heading, what became stale and why, its page, its cautions, notes, and closing it. */
import type { FunctionComponent } from 'preact';
import { useEffect, useErrorBoundary, useRef, useState } from 'preact/hooks';
import type { Job } from '../../core/job/api.ts';
import { type StationName, stationTitles } from '../../core/job/station.ts';
import { Caution } from '../parts/Caution.tsx';
import { TextField } from '../parts/TextField.tsx';
import { RecordingsList } from '../recordings/RecordingsList.tsx';
import { hasMoved } from '../route.ts';
import { useStation } from '../useStation.ts';
import { stationPages } from './index.ts';
import { PlainStation } from './PlainStation.tsx';
import { purposes } from './purpose.ts';
import type { StationProps } from './station.ts';

/** where recordings are taken or shown */
const withRecordings: ReadonlySet<StationName> = new Set(['intake', 'tilt', 'run', 'hand-over']);

const ready = new Map<StationName, FunctionComponent<StationProps>>();

export function StationFrame({ job, station }: { job: Job; station: StationName }) {
  const heading = useRef<HTMLHeadingElement>(null);
  const { title, about } = stationTitles[station];
  useEffect(() => {
    if (!hasMoved()) return;
    heading.current?.focus({ preventScroll: true });
    scrollTo(0, 0);
  }, [station]);
  const { status, staleBecause, marks } = job.stations[station];
  const noted = (marks ?? []).filter(({ counts }) => !counts);
  return (
    <>
      <div class="top">
        <h2 tabIndex={-1} ref={heading}>
          {title}
        </h2>
        <p>{about}</p>
      </div>
      <div class="stack">
        {status === 'stale' && (
          <div class="notice">
            <p>
              <b>Check this again.</b>
            </p>
            {(staleBecause ?? []).map((because) => (
              <p key={because}>{because}</p>
            ))}
          </div>
        )}
        {noted.length > 0 && (
          <details class="small">
            <summary>Noted since, within tolerance: {noted.length}</summary>
            {noted.map(({ because }) => (
              <p key={because}>{because}</p>
            ))}
          </details>
        )}
        <StationPage key={station} job={job} station={station} />
        {withRecordings.has(station) && <RecordingsList job={job} />}
        {purposes[station].cautions.map((caution) => (
          <Caution key={caution}>{caution}</Caution>
        ))}
        <Closing key={`${job.id} ${station}`} job={job} station={station} />
      </div>
    </>
  );
}

function StationPage({ job, station }: { job: Job; station: StationName }) {
  const [, setLoaded] = useState(0);
  const [failed, setFailed] = useState(false);
  const [error, resetError] = useErrorBoundary();
  const load = stationPages[station];
  useEffect(() => {
    if (load === undefined || ready.has(station)) return;
    load().then(
      (module) => {
        ready.set(station, module.default);
        setLoaded((n) => n + 1);
      },
      () => setFailed(true),
    );
  }, [load, station]);
  if (error !== undefined) {
    return (
      <div class="notice bad" role="alert">
        <p>
          <b>This station could not be drawn.</b> Nothing that was typed or measured is lost.
        </p>
        <p>
          <button type="button" class="button" onClick={resetError}>
            Draw it again
          </button>
        </p>
      </div>
    );
  }
  if (load === undefined) return <PlainStation station={station} />;
  const Page = ready.get(station);
  if (Page !== undefined) return <Page job={job} />;
  if (failed) {
    return (
      <div class="notice bad" role="alert">
        <p>This station’s page did not load: the bench server does not answer. Load the page again when it runs.</p>
      </div>
    );
  }
  return <p class="soft">Opening…</p>;
}

function Closing({ job, station }: { job: Job; station: StationName }) {
  const { data, status, saved, set, setStatus } = useStation<{ notes: string }>(job.id, station);
  const { title } = stationTitles[station];
  return (
    <section class="card closing" aria-label={`Notes and closing of ${title}`}>
      <div class="fields">
        <TextField
          lines
          label={`Notes at ${title}`}
          hint="They are printed on the job’s report."
          text={data.notes}
          onText={(notes) => set({ notes })}
          maxLength={10_000}
        />
      </div>
      <div class="buttons">
        {status === 'done' ? (
          <>
            <span class="mark done">✓ {title} is done</span>
            <button type="button" class="button" onClick={() => setStatus('now')}>
              Open it again
            </button>
          </>
        ) : (
          <button type="button" class="button" onClick={() => setStatus('done')}>
            {status === 'stale' ? `Checked: ${title} is done` : `${title} is done`}
          </button>
        )}
        <span class="soft small">{saved ? '' : 'Not saved yet…'}</span>
      </div>
    </section>
  );
}
