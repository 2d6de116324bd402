/** Jobs: found by words, a page at a time; opened, exported, set aside, deleted; and what goes over all of them. */

import './jobs.css';
import { useEffect, useRef, useState } from 'preact/hooks';
import { apiPaths, type JobList } from '../../core/job/api.ts';
import { MOST_LINE, type Wording } from '../../core/job/fields/wording.ts';
import { say, statement } from '../../core/words/statement.ts';
import { api } from '../api.ts';
import { Check } from '../parts/Choice.tsx';
import { Pages, usePages } from '../parts/Pages.tsx';
import { TextField } from '../parts/TextField.tsx';
import { storeTurn } from '../storeTurn.ts';
import { DueFold } from './DueFold.tsx';
import { ImportJobs } from './ImportJobs.tsx';
import { JobRow } from './JobRow.tsx';
import { NewJob } from './NewJob.tsx';
import { StyliFold } from './StyliFold.tsx';

const PAGE = 30;
/** after the last letter, before the server is asked */
const PAUSE_MS = 200;

const findWording: Wording = {
  label: 'Find',
  most: MOST_LINE,
  help: say(statement('beginnings-of-words')),
};

export function JobsPage() {
  const [list, setList] = useState<JobList | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const [said, setSaid] = useState('');
  const [words, setWords] = useState('');
  const [aside, setAside] = useState(false);
  const pages = usePages<number>();
  const [asked, setAsked] = useState(0);
  const newest = useRef(0);
  useEffect(() => {
    const mine = ++newest.current;
    const before = pages.at;
    const query = {
      limit: PAGE,
      ...(words.trim() === '' ? {} : { words }),
      ...(before === undefined ? {} : { before }),
      ...(aside ? {} : { aside: 'left-out' as const }),
    };
    const timer = setTimeout(
      () =>
        api.jobs(query).then(
          (fresh) => {
            // what was asked for before the last letter may come after it
            if (mine === newest.current) setList(fresh);
          },
          (error: Error) => setProblem(error.message),
        ),
      words === '' ? 0 : PAUSE_MS,
    );
    return () => clearTimeout(timer);
  }, [words, aside, pages.at, asked, storeTurn.value]);
  const again = (text: string): void => {
    setSaid(text);
    setAsked(asked + 1);
  };
  return (
    <div class="stack">
      {problem !== null && (
        <div class="notice bad" role="alert">
          <p>{problem}</p>
        </div>
      )}
      {(list?.unreadable ?? []).map(({ id, number, why }) => (
        <div key={id} class="notice bad" role="alert">
          <p>{say(statement('job-unreadable', { job: number ?? id, why }))}</p>
        </div>
      ))}
      <p role="status" class={said === '' ? 'unseen' : undefined}>
        {said}
      </p>
      <section class="card" aria-label="Open a job">
        <h3>Open a job</h3>
        <div class="fields">
          <TextField
            of={findWording}
            text={words}
            onText={(text) => {
              setWords(text);
              pages.setWay([]);
            }}
          />
          <Check
            label="Also jobs that were set aside"
            checked={aside}
            onChecked={(on) => {
              setAside(on);
              pages.setWay([]);
            }}
          />
        </div>
        <Found list={list} problem={problem} words={words} onSaid={again} onProblem={setProblem} />
        <div class="buttons">
          <Pages turning={pages} next={list?.next} back="Newer jobs" on="Older jobs" />
          <a class="button" href={`${apiPaths.jobs}.csv`} download="jobs.csv">
            All jobs as CSV
          </a>
        </div>
      </section>
      <NewJob onProblem={setProblem} />
      <div class="folds">
        <DueFold />
        <StyliFold />
        <p>
          <a href="/chains">Chains, drift and batches</a>
        </p>
        <ImportJobs onImported={again} />
      </div>
    </div>
  );
}

interface FoundProps {
  readonly list: JobList | null;
  readonly problem: string | null;
  readonly words: string;
  onSaid(text: string): void;
  onProblem(text: string): void;
}

function Found({ list, problem, words, onSaid, onProblem }: FoundProps) {
  if (list === null) return <p class="soft">{problem === null ? 'Looking…' : ''}</p>;
  if (list.jobs.length === 0) return <p>{words.trim() === '' ? 'No job yet.' : say(statement('no-job-has-words'))}</p>;
  return (
    <ul class="jobs">
      {list.jobs.map((one) => (
        <JobRow key={one.id} job={one} onSaid={onSaid} onProblem={onProblem} />
      ))}
    </ul>
  );
}
