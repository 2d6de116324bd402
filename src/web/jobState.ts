/** The open job as the server last told it, and everything that changes it. */
import { signal } from '@preact/signals';
import type { SideDocument } from '../core/advise/document.ts';
import { rejudged } from '../core/advise/rejudge.ts';
import type {
  AdviceEntry,
  CaptureAdded,
  CaptureChange,
  CaptureEntry,
  Fitted,
  Job,
  JobHead,
  Move,
  MoveMade,
  NewCapture,
  NewJob,
  OutcomeChange,
  StationState,
} from '../core/job/api.ts';
import { comparedOf } from '../core/job/beforeAfter.ts';
import type { NewFitting } from '../core/job/epochs.ts';
import type { NewPhotograph, PhotographChange, PhotographsKept } from '../core/job/photographs.ts';
import { limitsOf } from '../core/job/shop.ts';
import type { StationName } from '../core/job/station.ts';
import { readableOf } from '../core/job/stations/index.ts';
import type { RunTyped } from '../core/job/stations/run.ts';
import { api, ServerAway, ServerSaid } from './api.ts';
import { away, send } from './connection.ts';

export const job = signal<Job | null>(null);
/** why there is no job to show, in a sentence; null while loading or when there is one */
export const jobProblem = signal<string | null>(null);

type Listener = (job: Job) => void;
const listeners = new Set<Listener>();
/** Called with every job that the server sends; the drafts take from it what the server has. */
export function whenJobComes(listener: Listener): void {
  listeners.add(listener);
}

/** the job that the address names, loaded or not */
let wanted = '';
let loading = false;
/** answers taken; a mere look that was begun before one of them may be older than it */
let taken = 0;

/** Takes what the server says about a job; another job than the one wanted is only passed on to its drafts. */
function takeJob(fresh: Job): void {
  taken += 1;
  for (const listener of listeners) listener(fresh);
  if (fresh.id !== wanted) return;
  job.value = fresh;
  jobProblem.value = null;
}

/** Opens a job as the server has just told it, before the address names it. */
export function openTold(fresh: Job): void {
  wanted = fresh.id;
  takeJob(fresh);
}

async function load(id: string): Promise<void> {
  const fetchJob = async (): Promise<void> => {
    try {
      takeJob(await api.job(id));
    } catch (error) {
      if (error instanceof ServerAway) throw error;
      if (wanted === id) jobProblem.value = error instanceof Error ? error.message : String(error);
    }
  };
  try {
    await fetchJob();
    away.value = false;
  } catch {
    // the server is away: the read is tried again in its turn among the writes that wait
    send(async () => {
      if (wanted === id) await fetchJob();
    });
  }
}

export function openJob(id: string): void {
  if (wanted === id && (loading || job.value !== null)) return;
  wanted = id;
  job.value = null;
  jobProblem.value = null;
  loading = true;
  void load(id).finally(() => {
    if (wanted === id) loading = false;
  });
}

/** The job was deleted: nothing of it is shown any more. */
export function forgetJob(id: string): void {
  if (job.value?.id !== id) return;
  wanted = '';
  job.value = null;
}

/** Job and station open when the page was left; null where there is none. */
export async function lastPlace(): Promise<{ job: Job; station: StationName } | null> {
  const last = await api.last();
  return last.job === null ? null : { job: last.job, station: last.station ?? 'tilt' };
}

/** Looks whether the job was changed elsewhere: another window, the command line. */
export function refreshJob(): void {
  const id = job.value?.id;
  if (id === undefined) return;
  const before = taken;
  void api.job(id).then(
    (fresh) => {
      // what was written meanwhile was answered by a newer state
      if (taken === before) takeJob(fresh);
    },
    () => undefined,
  );
}
document.addEventListener('visibilitychange', () => {
  if (!document.hidden) refreshJob();
});

export function rememberPlace(jobId: string, station: StationName): void {
  send(async () => {
    try {
      await api.setLast({ jobId, station });
    } catch (error) {
      // where the page was left is no work of anybody's: a job that is not there says so on its own page
      if (!(error instanceof ServerSaid)) throw error;
    }
  });
}

export const newJob = (fresh: NewJob): Promise<Job> => api.newJob(fresh);

/** The open job with something of it as the server has just told it. */
function update(jobId: string, part: (open: Job) => Partial<Job>): void {
  taken += 1;
  const open = job.value;
  if (open?.id === jobId) job.value = { ...open, ...part(open) };
}

export const takeHead = (jobId: string, head: JobHead): void => update(jobId, () => head);

export const takeStation = (jobId: string, name: StationName, state: StationState): void =>
  update(jobId, ({ stations }) => ({ stations: { ...stations, [name]: state }, updatedAt: state.updatedAt }));

export const takeShop = (shop: Job['shop']): void => update(job.peek()?.id ?? '', () => ({ shop }));

/** What a move or a recording makes stale, and what it answers; a station that was changed elsewhere too is fetched. */
function takeMarks(jobId: string, { stations: marks, advice: answered, updatedAt }: MoveMade): void {
  let behind = false;
  update(jobId, ({ stations, advice }) => {
    const marked = Object.entries(marks).map(([name, mark]) => {
      const { data, revision } = stations[name as StationName];
      behind ||= mark.revision !== revision + 1;
      return [name, { ...mark, data }];
    });
    return {
      stations: { ...stations, ...Object.fromEntries(marked) },
      advice: replaced(advice, answered),
      updatedAt,
    };
  });
  if (behind) refreshJob();
  else if (job.value?.id === jobId) for (const listener of listeners) listener(job.value);
}

export function makeMove(jobId: string, move: Move): void {
  send(async () => takeMarks(jobId, await api.move(jobId, move)));
}

/** The moves of this step were not made after all. */
export function undoMove(jobId: string, step: string): void {
  send(async () => takeMarks(jobId, await api.undoMove(jobId, { step })));
}

const replaced = (advice: readonly AdviceEntry[], fresh: readonly AdviceEntry[]): AdviceEntry[] => {
  const known = new Set(advice.map((entry) => entry.id));
  return [
    ...advice.map((entry) => fresh.find((one) => one.id === entry.id) ?? entry),
    ...fresh.filter((entry) => !known.has(entry.id)),
  ];
};

export function sayOutcome(jobId: string, adviceId: string, change: OutcomeChange): void {
  send(async () => {
    const { advice, updatedAt } = await api.outcome(jobId, adviceId, change);
    update(jobId, (open) => ({ advice: replaced(open.advice, [advice]), updatedAt }));
  });
}

const inOrderHeard = (a: CaptureEntry, b: CaptureEntry): number =>
  a.heardAt === b.heardAt ? a.storedAt.localeCompare(b.storedAt) : a.heardAt.localeCompare(b.heardAt);

/** Figures of a document by the limits of the job that it is kept in. */
function figuresIn({ stations, shop }: Job, document: SideDocument): CaptureEntry['findings'] {
  const run = readableOf('run', stations.run.data) as RunTyped;
  return [...rejudged(document, limitsOf({ run, shop })).findings];
}

/** @param sent the document that was sent with it; null: the recording was there already */
function takeCapture(jobId: string, added: CaptureAdded, sent: SideDocument | null): void {
  const { capture, advice, updatedAt } = added;
  let known = true;
  update(jobId, (open) => {
    const there = open.captures.find((one) => one.id === capture.id);
    const findings = there?.findings ?? (sent === null ? null : figuresIn(open, sent));
    known = findings !== null;
    if (findings === null) return {};
    const others = open.captures.filter((one) => one !== there);
    const captures = [...others, { ...capture, findings }].sort(inOrderHeard);
    const heard = { captures, advice: replaced(open.advice, advice), updatedAt };
    return { ...heard, ...comparedOf({ ...open, captures }) };
  });
  if (known) takeMarks(jobId, added);
  else refreshJob();
}

/** @param stored called once it is on disk */
export function keepCapture(jobId: string, capture: NewCapture, stored: (captureId: string) => void): void {
  const id = crypto.randomUUID();
  send(async () => {
    const added = await api.addCapture(jobId, { id, ...capture });
    takeCapture(jobId, added, capture.document);
    stored(added.capture.id);
  });
}

/** What a person says of a recording: its kind, its epoch, set aside or taken back. */
export function sayOfRecording(jobId: string, captureId: string, change: CaptureChange): void {
  send(async () => takeCapture(jobId, await api.changeCapture(jobId, captureId, change), null));
}

function takeFitted(jobId: string, { fittings, advice, moves }: Fitted): void {
  update(jobId, (open) => ({
    fittings,
    advice: replaced(open.advice, advice),
    ...comparedOf({ ...open, fittings }),
  }));
  takeMarks(jobId, moves);
}

const takePhotographs = (jobId: string, kept: PhotographsKept): void => update(jobId, () => kept);

export function addPhotograph(jobId: string, photograph: NewPhotograph): void {
  send(async () => takePhotographs(jobId, await api.addPhotograph(jobId, photograph)));
}

export function notePhotograph(jobId: string, id: string, change: PhotographChange): void {
  send(async () => takePhotographs(jobId, await api.notePhotograph(jobId, id, change)));
}

export function deletePhotograph(jobId: string, id: string): void {
  send(async () => takePhotographs(jobId, await api.deletePhotograph(jobId, id)));
}

/** Another part is on the deck from now on: an epoch begins. */
export function fitPart(jobId: string, fitting: NewFitting): void {
  const at = new Date().toISOString();
  send(async () => takeFitted(jobId, await api.fit(jobId, { at, ...fitting })));
}

/** It was not fitted after all. */
export function takeFittingBack(jobId: string, fitting: string): void {
  send(async () => takeFitted(jobId, await api.takeFittingBack(jobId, fitting)));
}
