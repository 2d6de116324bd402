/** A whole job as the sheet that goes with the deck. */
import type { CaptureRecord, Job, StationState } from '../core/job/api.ts';
import { epochsOf } from '../core/job/epochs.ts';
import { movesMade } from '../core/job/movesMade.ts';
import { type Recording, recordingsOf } from '../core/job/recordings.ts';
import { epochWords } from '../core/job/recordingWords.ts';
import { type StationName, stationNames, stationTitles } from '../core/job/station.ts';
import { linesOf, typedOf } from '../core/job/stations/index.ts';
import type { JobTyped } from '../core/job/stations/stationModel.ts';
import { AdviceHistory } from './adviceParts.tsx';
import { BeforeAfterTable } from './figures.tsx';
import { FindingsTable } from './findingsTable.tsx';
import { MovesTable } from './movesTable.tsx';
import { RecordingsTable } from './recordingsTable.tsx';
import { documentText, type Made, Sheet, timeText } from './sheet.tsx';
import { SideBody } from './sideReport.tsx';

const statusWords: Readonly<Record<StationState['status'], string>> = {
  untouched: 'not done',
  now: 'begun, not closed',
  done: '✓ done',
  stale: '△ check again',
};

/** Stations before Hand over that are not closed: while there are any, the sheet is no final one. */
const openStations = (job: Job): StationName[] =>
  stationNames.filter((name) => name !== 'hand-over' && job.stations[name].status !== 'done');

function StillOpen({ job }: { job: Job }) {
  const open = openStations(job);
  if (open.length === 0) return null;
  return (
    <div class="caution">
      <p>
        <strong>Not a final report.</strong> Still open: {open.map((name) => stationTitles[name].title).join(', ')}.
      </p>
      {open.flatMap((name) =>
        (job.stations[name].staleBecause ?? []).map((because) => (
          <p>
            {stationTitles[name].title}: {because}
          </p>
        )),
      )}
    </div>
  );
}

function Paragraphs({ text }: { text: string }) {
  return (
    <>
      {text
        .split(/\n+/)
        .filter((line) => line.trim() !== '')
        .map((line) => (
          <p>{line}</p>
        ))}
    </>
  );
}

function Station({ name, state, typed }: { name: StationName; state: StationState; typed: JobTyped }) {
  const lines = linesOf(name, typed);
  return (
    <section class="keep">
      <h3>
        {stationTitles[name].title} <span class="soft">· {statusWords[state.status]}</span>
      </h3>
      {lines.length === 0 ? null : (
        <dl>
          {lines.map((line) => (
            <>
              <dt>{line.label}</dt>
              <dd>{line.text}</dd>
            </>
          ))}
        </dl>
      )}
      <Paragraphs text={typed.stations[name].notes ?? ''} />
    </section>
  );
}

/** The advice of recordings that count, epoch by epoch. */
function Advised({ job, recordings }: { job: Job; recordings: readonly Recording[] }) {
  const epochs = epochsOf(job.fittings);
  const given = epochs.flatMap((epoch) => {
    const ids = new Set(recordings.filter((one) => one.counts && one.epoch.id === epoch.id).map(({ id }) => id));
    const entries = job.advice.filter(({ captureId }) => ids.has(captureId));
    return entries.length === 0 ? [] : [{ epoch, entries }];
  });
  if (given.length === 0) return null;
  return (
    <>
      <h2>What was advised, and what came of it</h2>
      {given.map(({ epoch, entries }) => (
        <>
          {epochs.length > 1 && <h3>Advised {epochWords(epoch)}</h3>}
          <AdviceHistory entries={entries} />
        </>
      ))}
    </>
  );
}

/**
 * A self-contained HTML document of a job: before and after, findings with uncertainty and verdict, each advice beside
 * what came of it, what was done at each station, and the evidence of the last capture.
 *
 * @param captures of the job in the order heard; the last one of what is fitted now is shown in full
 */
export function renderJobReport(job: Job, captures: readonly CaptureRecord[], made: Made): string {
  const recordings = recordingsOf(job);
  const standing = new Set(recordings.filter(({ now, counts }) => now && counts).map(({ id }) => id));
  const last = captures.filter(({ id }) => standing.has(id)).at(-1);
  const typed = typedOf(job);
  const moves = movesMade(typed, job.advice);
  return documentText(
    <Sheet title={`${job.title}: report for the deck`} made={made}>
      <header>
        <p class="soft">Platterside · job {job.number}</p>
        <h1>{job.title}</h1>
        <dl>
          <dt>Deck</dt>
          <dd>
            {job.deck.name}
            {job.deck.description === '' ? '' : `: ${job.deck.description}`}
          </dd>
          {job.customer === '' ? null : (
            <>
              <dt>Customer’s reference</dt>
              <dd>{job.customer}</dd>
            </>
          )}
          <dt>Taken in</dt>
          <dd>{timeText(job.createdAt)}</dd>
          <dt>Last changed</dt>
          <dd>{timeText(job.updatedAt)}</dd>
        </dl>
        <Paragraphs text={job.notes} />
      </header>
      <StillOpen job={job} />
      {job.beforeAfter.length + job.notBefore.length === 0 ? null : (
        <>
          <h2>Before and after</h2>
          {job.beforeAfter.length === 0 ? <p>Not measured before.</p> : <BeforeAfterTable pairs={job.beforeAfter} />}
        </>
      )}
      <RecordingsTable job={job} recordings={recordings} />
      <h2>As it is now</h2>
      {last === undefined ? (
        <p>{captures.length === 0 ? 'Nothing has been measured yet.' : 'What is fitted now was not measured.'}</p>
      ) : (
        <FindingsTable
          findings={last.document.findings}
          caption={`From ${last.document.capture.file}, heard ${timeText(last.heardAt)}. Value ± expanded uncertainty, k = 2.`}
        />
      )}
      <Advised job={job} recordings={recordings} />
      {moves.length === 0 ? null : (
        <>
          <h2>Moves: what was foretold, and what came</h2>
          <MovesTable moves={moves} />
        </>
      )}
      <h2>What was done</h2>
      {stationNames.map((name) => (
        <Station name={name} state={job.stations[name]} typed={typed} />
      ))}
      <div class="sign keep">
        <span>checked by</span>
        <span>date</span>
        <span>next check due</span>
      </div>
      {last === undefined ? null : <SideBody document={last.document} heard={timeText(last.heardAt)} />}
    </Sheet>,
  );
}
