/** All jobs, newest first, and a new one. */
import { useEffect, useState } from 'preact/hooks';
import { type JobList, type JobSummary, newJobSchema } from '../core/job/api.ts';
import { stationNames } from '../core/job/station.ts';
import { api } from './api.ts';
import { newJob, openTold } from './jobState.ts';
import { TextField } from './parts/TextField.tsx';
import { go, stationPath } from './route.ts';

export function JobsPage() {
  const [list, setList] = useState<JobList | null>(null);
  const jobs = list?.jobs ?? null;
  const [problem, setProblem] = useState<string | null>(null);
  useEffect(() => {
    api.jobs().then(setList, (error: Error) => setProblem(error.message));
  }, []);
  return (
    <div class="stack">
      {problem !== null && (
        <div class="notice bad" role="alert">
          <p>{problem}</p>
        </div>
      )}
      {(list?.unreadable ?? []).map(({ id, number, why }) => (
        <div key={id} class="notice bad" role="alert">
          <p>
            Job {number ?? id} cannot be read: {why}. The other jobs are not touched by it.
          </p>
        </div>
      ))}
      <section class="card">
        <h3>Open a job</h3>
        {jobs === null ? (
          <p class="soft">{problem === null ? 'Looking…' : ''}</p>
        ) : jobs.length === 0 ? (
          <p>No job yet.</p>
        ) : (
          <ul class="jobs">
            {jobs.map((one) => {
              const done = stationNames.filter((name) => one.stations[name] === 'done').length;
              const stale = stationNames.filter((name) => one.stations[name] === 'stale').length;
              return (
                <li key={one.id}>
                  <a href={stationPath(one.id, 'intake')}>{one.title}</a>
                  <span class="soft">
                    {one.customer === '' ? '' : `${one.customer} · `}
                    {done} of {stationNames.length} stations done{stale === 0 ? '' : `, ${stale} to check again`} ·{' '}
                    {one.updatedAt.slice(0, 10)}
                  </span>
                </li>
              );
            })}
          </ul>
        )}
      </section>
      <NewJob onProblem={setProblem} known={jobs ?? []} looked={jobs !== null || problem !== null} />
    </div>
  );
}

interface NewJobProps {
  onProblem(problem: string): void;
  readonly known: readonly JobSummary[];
  /** false while it is not known yet whether a deck was here before: a second one of its name would part its history */
  readonly looked: boolean;
}

function NewJob({ onProblem, known, looked }: NewJobProps) {
  const [deck, setDeck] = useState('');
  const [customer, setCustomer] = useState('');
  const [busy, setBusy] = useState(false);
  const there = known.find((one) => one.deck.name.trim().toLowerCase() === deck.trim().toLowerCase())?.deck;
  const start = async (event: Event): Promise<void> => {
    event.preventDefault();
    const fresh = { deck: there === undefined ? { name: deck } : { id: there.id }, customer };
    const checked = newJobSchema.safeParse(fresh);
    if (!checked.success) {
      onProblem('A job needs the name of its deck, at most 200 letters.');
      return;
    }
    setBusy(true);
    try {
      const made = await newJob(fresh);
      openTold(made);
      go(stationPath(made.id, 'intake'));
    } catch (error) {
      onProblem(error instanceof Error ? error.message : String(error));
    } finally {
      setBusy(false);
    }
  };
  return (
    <form class="card" onSubmit={(event) => void start(event)}>
      <h3>Begin a new job</h3>
      <div class="fields">
        <TextField
          label="Deck"
          hint={
            there === undefined
              ? 'As you call it, so that you find it again when it comes back.'
              : 'This deck was here before; its history stays together.'
          }
          text={deck}
          onText={setDeck}
          maxLength={200}
        />
        <TextField label="Whose it is" hint="May stay empty." text={customer} onText={setCustomer} maxLength={200} />
      </div>
      <p>
        <button type="submit" class="button main" disabled={deck.trim() === '' || !looked || busy}>
          Begin
        </button>
      </p>
    </form>
  );
}
