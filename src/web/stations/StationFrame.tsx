/** Around every station: its heading, what became stale and why, its page, its cautions, notes, and closing it. */

import type { FunctionComponent } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import { isMoveAsked } from '../../core/job/adviceAsks.ts';
import type { Job } from '../../core/job/api.ts';
import { type StationName, stationTitles } from '../../core/job/station.ts';
import { closedOverWording, openStations } from '../../core/job/stations/handOver.ts';
import { earlierLines } from '../../core/job/stations/index.ts';
import { type EarlierTyped, notesWording } from '../../core/job/stations/stationModel.ts';
import { say, statement } from '../../core/words/statement.ts';
import { Caution } from '../parts/Caution.tsx';
import { Fold } from '../parts/Fold.tsx';
import { Guarded } from '../parts/Guarded.tsx';
import { TextField } from '../parts/TextField.tsx';
import { RecordingsList } from '../recordings/RecordingsList.tsx';
import { hasMoved, stationPath } from '../route.ts';
import { draftOf } from '../stationDraft.ts';
import { useStation } from '../useStation.ts';
import { stationPages } from './index.ts';
import { closeAndGoOn, nextAfter } from './leadOn.ts';
import { PlainStation } from './PlainStation.tsx';
import { purposeOf } from './purpose.ts';
import type { StationProps } from './station.ts';

/** where recordings are taken or shown */
const withRecordings: ReadonlySet<StationName> = new Set(['intake', 'tilt', 'run', 'hand-over']);

/** a recording made further on may ask for a move here */
const askedLater: ReadonlySet<StationName> = new Set(['fit', 'place', 'height', 'tilt']);

const ready = new Map<StationName, FunctionComponent<StationProps>>();

interface StationFrameProps {
  readonly job: Job;
  readonly station: StationName;
}

export function StationFrame({ job, station }: StationFrameProps) {
  const heading = useRef<HTMLHeadingElement>(null);
  const { title, about } = stationTitles[station];
  const { cautions } = purposeOf(station);
  useEffect(() => {
    if (!hasMoved()) return;
    heading.current?.focus({ preventScroll: true });
    scrollTo(0, 0);
  }, [station]);
  const { status, staleBecause, marks } = job.stations[station];
  const done = useStation(job.id, station).status === 'done';
  const noted = (marks ?? []).filter(({ counts }) => !counts);
  const asked = done && askedLater.has(station) && isMoveAsked(job, station);
  return (
    <>
      <div class="top">
        <h2 tabIndex={-1} ref={heading}>
          {title}
        </h2>
        {!done && status !== 'stale' && <p>{about}</p>}
      </div>
      <div class={done && !asked && station !== 'hand-over' ? 'stack station-done' : 'stack'}>
        {cautions.length > 0 && <Caution>{cautions.join(' ')}</Caution>}
        {done && <Done job={job} station={station} asked={asked} />}
        {status === 'stale' && <Again because={staleBecause ?? []} />}
        {noted.length > 0 && (
          <details class="small">
            <summary>Noted since, within tolerance: {noted.length}</summary>
            {noted.map(({ because }) => (
              <p key={because}>{because}</p>
            ))}
          </details>
        )}
        <Earlier job={job} station={station} />
        <Guarded key={station} what="This station">
          <StationPage job={job} station={station} />
        </Guarded>
        {withRecordings.has(station) && <RecordingsList job={job} />}
        <Closing key={`${job.id} ${station}`} job={job} station={station} />
      </div>
    </>
  );
}

const LONGEST_GIST = 40;

/** The beginning of what was noted, to the last whole word. */
function gist(notes: string): string {
  const [first] = notes.trim().split('\n');
  if (first.length <= LONGEST_GIST) return first || 'none';
  return `${first.slice(0, LONGEST_GIST + 1).replace(/\s+\S*$/, '')} …`;
}

/** The newest reason: it is what was done just now. The others are folded. */
function Again({ because }: { readonly because: readonly string[] }) {
  const [newest, ...more] = [...because].reverse();
  return (
    <div class="notice">
      <p>
        <b>Check this again.</b>
      </p>
      {newest !== undefined && <p>{newest}</p>}
      {more.length > 0 && (
        <details>
          <summary>{say(statement('more-reasons', { more: more.length }))}</summary>
          {more.map((one) => (
            <p key={one}>{one}</p>
          ))}
        </details>
      )}
    </div>
  );
}

/** Stations before Hand over that are not done. */
const openOf = (jobId: string): readonly StationName[] =>
  openStations((name) => draftOf(jobId, name).status.value === 'done');

/** A station that is done says so first, with the way on as its one main button; not where a recording made since asks for a move. */
function Done({ job, station, asked }: StationFrameProps & { readonly asked: boolean }) {
  const next = nextAfter(job, station);
  return (
    <div class="strip done-strip">
      <span class="mark done">✓ {stationTitles[station].title} is done</span>
      {asked && <span>{say(statement('done-but-asked'))}</span>}
      {!asked && next === null && openOf(job.id).length === 0 && <span>{say(statement('all-stations-done'))}</span>}
      {(next !== null || station !== 'hand-over') && (
        <a class={asked ? 'button' : 'button main'} href={stationPath(job.id, next ?? 'hand-over')}>
          {next === null ? 'To the reports' : `On to ${stationTitles[next].title}`}
        </a>
      )}
    </div>
  );
}

/** Figures that were typed for what is no longer on the deck: told, and asked for again. */
function Earlier({ job, station }: StationFrameProps) {
  const lines = earlierLines(station, useStation<{ earlier: readonly EarlierTyped[] }>(job.id, station).data);
  if (lines.length === 0) return null;
  return (
    <details class="small">
      <summary>Typed for an earlier part: type again what holds</summary>
      {lines.map(({ label, text }) => (
        <p key={`${label} ${text}`}>
          {label}: {text}
        </p>
      ))}
    </details>
  );
}

function StationPage({ job, station }: { job: Job; station: StationName }) {
  const [, setLoaded] = useState(0);
  const [failed, setFailed] = useState<StationName | null>(null);
  const load = stationPages[station];
  const Page = ready.get(station);
  useEffect(() => {
    if (load === undefined || Page !== undefined) return;
    // it may have come between the drawing and now: importing it once more answers at once and draws again
    load().then(
      (module) => {
        ready.set(station, module.default);
        setLoaded((n) => n + 1);
      },
      () => setFailed(station),
    );
  }, [load, station, Page]);
  if (load === undefined) return <PlainStation station={station} />;
  if (Page !== undefined) return <Page job={job} />;
  if (failed === station) {
    return (
      <div class="notice bad" role="alert">
        <p>{say(statement('station-not-loaded'))}</p>
      </div>
    );
  }
  return <p class="soft">Opening…</p>;
}

function Closing({ job, station }: { job: Job; station: StationName }) {
  const { data, status, saved, set, setStatus } = useStation<{ notes: string; closedOver: string }>(job.id, station);
  const open = station === 'hand-over' && status !== 'done' ? openOf(job.id) : [];
  const asks = open.length > 0;
  const { title } = stationTitles[station];
  const next = nextAfter(job, station);
  const done = status === 'done';
  const on = next === null ? '' : ` → ${stationTitles[next].title}`;
  return (
    <section class="closing" aria-label={`Notes and closing of ${title}`}>
      <Fold title="Notes" answer={gist(data.notes ?? '')}>
        <TextField
          of={{ ...notesWording, label: `Notes at ${title}` }}
          text={data.notes}
          onText={(notes) => set({ notes })}
        />
      </Fold>
      {asks && (
        <TextField
          of={closedOverWording}
          hint={say(
            statement('not-done-printed', { stations: open.map((name) => stationTitles[name].title).join(', ') }),
          )}
          text={data.closedOver}
          onText={(closedOver) => set({ closedOver })}
        />
      )}
      <div class="buttons">
        {/* one button whatever it says: the focus stays on it */}
        <button
          type="button"
          class="button"
          disabled={asks && (data.closedOver ?? '').trim() === ''}
          onClick={() => (done ? setStatus('now') : closeAndGoOn(job, station))}
        >
          {done ? 'Open it again' : `${status === 'stale' ? 'Checked: ' : ''}${title} is done${on}`}
        </button>
        <span class="soft small">{saved ? '' : 'Not saved yet…'}</span>
      </div>
    </section>
  );
}
