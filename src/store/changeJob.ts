/** Making a job, and every change to its head and its stations. */
import { answeredBy } from '../core/job/adviceAnswered.ts';
import { time } from '../core/job/api/primitives.ts';
import {
  type AdviceEntry,
  type HeadChange,
  headTypedOf,
  headTypedSchema,
  type Job,
  type JobAside,
  type JobHead,
  type Mark,
  type Move,
  type MoveMade,
  type NewJob,
  type Outcome,
  type StationChange,
  type StationState,
  type Undo,
} from '../core/job/api.ts';
import { checkSentence } from '../core/job/checkSentence.ts';
import { MOST_NUMBER, madeTitle } from '../core/job/jobName.ts';
import { applyLeaves } from '../core/job/leafPaths.ts';
import { stationsAfterMove, stationsWithoutStep } from '../core/job/marks.ts';
import { sameJson } from '../core/job/sameJson.ts';
import { plainName } from '../core/job/searchWords.ts';
import type { StationName } from '../core/job/station.ts';
import { type Changed, changeStation, freshStations, type Stations } from '../core/job/stationState.ts';
import { closingLacks } from '../core/job/stations/handOver.ts';
import { type Change, found, type Held, notFound } from './answers.ts';
import { keepNextCheck, keepNextCheckOfJob } from './nextChecks.ts';
import { jobRow, readAdvice, readDeck, readHeard, readJob, readLimits, readStations } from './readJob.ts';
import { stationRow } from './rows.ts';
import type { JobRow } from './tables.ts';
import type { Origin, Tx } from './transaction.ts';
import { findDeckBy, findJobBy } from './words.ts';

export const noJob = (id: string) => notFound(`There is no job ${id}.`);

/** The number that the next job gets: one more than the largest that a person can ask for. */
export async function nextNumber(tx: Tx): Promise<number> {
  const row = await tx
    .selectFrom('jobs')
    .select((column) => column.fn.max('number').as('last'))
    .where('number', '<', MOST_NUMBER)
    .executeTakeFirstOrThrow();
  // of no job at all it is null, which is 0
  return Number(row.last) + 1;
}

export async function insertJob(tx: Tx, job: JobRow, stations: Stations): Promise<void> {
  await tx.insertInto('jobs').values(job).execute();
  const rows = Object.entries(stations).map(([name, state]) => stationRow(job.id, name as StationName, state));
  await tx.insertInto('stations').values(rows).execute();
  await findJobBy(tx, job);
}

/** The job as it is now, after `id` was found. */
async function job(tx: Tx, id: string): Promise<Job> {
  return readJob(tx, (await jobRow(tx, id)) as JobRow);
}

export async function createJob(tx: Tx, wanted: NewJob, origin: Origin): Promise<Held<Job>> {
  const { id = origin.newId() } = wanted;
  const made = await jobRow(tx, id);
  if (made !== undefined) return found(await readJob(tx, made));
  const at = origin.now();
  let deck: { id: string; name: string } | undefined;
  if ('id' in wanted.deck) {
    deck = await tx.selectFrom('decks').select(['id', 'name']).where('id', '=', wanted.deck.id).executeTakeFirst();
    if (deck === undefined) return notFound(`There is no deck ${wanted.deck.id}.`);
  } else {
    const { name, description = '' } = wanted.deck;
    deck = { id: origin.newId(), name };
    await tx
      .insertInto('decks')
      .values({ ...deck, plain: plainName(name), description, created_at: at })
      .execute();
    await findDeckBy(tx, { ...deck, description });
  }
  const number = await nextNumber(tx);
  const row: JobRow = {
    id,
    number,
    title: wanted.title === undefined || wanted.title === '' ? madeTitle(number, deck.name) : wanted.title,
    deck_id: deck.id,
    customer: wanted.customer ?? '',
    notes: wanted.notes ?? '',
    created_at: at,
    updated_at: at,
    revision: 0,
    practice: 0,
    set_aside_at: null,
    set_aside_why: null,
    record_file: '',
  };
  await insertJob(tx, row, freshStations(at));
  await keepNextCheck(tx, deck.id);
  return found(await job(tx, row.id));
}

const headOf = async (
  tx: Tx,
  { title, customer, notes, record_file, revision, updated_at, deck_id }: JobRow,
): Promise<JobHead> => ({
  recordFile: record_file,
  title,
  customer,
  notes,
  revision,
  updatedAt: updated_at,
  deck: await readDeck(tx, deck_id),
});

export async function changeJobHead(
  tx: Tx,
  id: string,
  { changes }: HeadChange,
  origin: Origin,
): Promise<Change<JobHead, JobHead>> {
  const row = await jobRow(tx, id);
  if (row === undefined) return noJob(id);
  const head = await headOf(tx, row);
  const before = headTypedOf(head);
  const applied = applyLeaves(before, changes);
  if (applied.outcome === 'conflict') return { outcome: 'conflict', current: head, conflicts: applied.conflicts };
  if (sameJson(applied.document, before)) return { outcome: 'changed', value: head };
  const checked = headTypedSchema.safeParse(applied.document);
  if (!checked.success) return { outcome: 'refused', why: checkSentence(checked.error) };
  const { deck, recordFile, ...named } = checked.data;
  const typed = { ...named, record_file: recordFile };
  if (!sameJson(deck, before.deck)) {
    await tx
      .updateTable('decks')
      .set({ ...deck, plain: plainName(deck.name) })
      .where('id', '=', row.deck_id)
      .execute();
    await findDeckBy(tx, { id: row.deck_id, ...deck });
  }
  await tx
    .updateTable('jobs')
    .set({ ...typed, revision: row.revision + 1, updated_at: origin.now() })
    .where('id', '=', id)
    .execute();
  await findJobBy(tx, { ...row, ...typed });
  return { outcome: 'changed', value: await headOf(tx, (await jobRow(tx, id)) as JobRow) };
}

export async function writeStation(tx: Tx, id: string, name: StationName, state: StationState): Promise<void> {
  await tx
    .updateTable('stations')
    .set(stationRow(id, name, state))
    .where('job_id', '=', id)
    .where('station', '=', name)
    .execute();
}

/** Sets a job aside with a reason, or takes it in again. Nothing of it is deleted. */
export async function setJobAside(tx: Tx, id: string, why: string | null, origin: Origin): Promise<Held<JobAside>> {
  const at = origin.now();
  const [{ numUpdatedRows }] = await tx
    .updateTable('jobs')
    .set({ set_aside_at: why === null ? null : at, set_aside_why: why, updated_at: at })
    .where('id', '=', id)
    .execute();
  if (Number(numUpdatedRows) === 0) return noJob(id);
  await keepNextCheckOfJob(tx, id);
  return found({ setAside: why === null ? null : { at, why }, updatedAt: at });
}

/** Marks the job as changed, so that lists show it. */
export const touch = (tx: Tx, id: string, at: string) =>
  tx.updateTable('jobs').set({ updated_at: at }).where('id', '=', id).execute();

/** Hand over is closed over open stations only with a reason. */
function closable(name: StationName, stations: Stations, changed: Changed): Changed {
  const closes = name === 'hand-over' && changed.outcome === 'changed' && changed.state.status === 'done';
  if (!closes || stations[name].status === 'done') return changed;
  const why = closingLacks((one) => stations[one].status === 'done', changed.state.data);
  return why === null ? changed : { outcome: 'refused', why };
}

/** What is typed there tells of styli and of next checks. */
const restsOn: ReadonlySet<StationName> = new Set(['intake', 'hand-over']);

export async function changeJobStation(
  tx: Tx,
  id: string,
  name: StationName,
  change: StationChange,
  origin: Origin,
): Promise<Change<StationState, StationState>> {
  if ((await jobRow(tx, id)) === undefined) return noJob(id);
  const at = origin.now();
  const stations = await readStations(tx, id);
  const result = closable(name, stations, changeStation(name, stations[name], change, at));
  if (result.outcome === 'refused') return result;
  if (result.outcome === 'conflict') {
    return { outcome: 'conflict', current: result.state, conflicts: result.conflicts };
  }
  if (result.outcome === 'changed') {
    await writeStation(tx, id, name, result.state);
    if (restsOn.has(name)) await keepNextCheckOfJob(tx, id);
    await touch(tx, id, at);
  }
  return { outcome: 'changed', value: result.state };
}

type Answered = Pick<AdviceEntry, 'id' | 'outcome'>;

/** Writes what a move, or taking one back, changed at the stations, and what of the advice it answers. */
async function marking(
  tx: Tx,
  id: string,
  origin: Origin,
  mark: (stations: Stations, at: string) => Partial<Stations> | Promise<Partial<Stations>>,
  answer: (row: JobRow) => Promise<readonly Answered[]>,
): Promise<Held<MoveMade>> {
  const row = await jobRow(tx, id);
  if (row === undefined) return noJob(id);
  const updatedAt = origin.now();
  const changed = await mark(await readStations(tx, id), updatedAt);
  for (const [name, state] of Object.entries(changed)) await writeStation(tx, id, name as StationName, state);
  const answered = await answer(row);
  for (const { id: advice, outcome } of answered) await writeOutcome(tx, id, advice, outcome);
  await touch(tx, id, updatedAt);
  const stations = Object.fromEntries(
    Object.entries(changed).map(([name, { data: _, ...mark }]) => [name, mark]),
  ) as MoveMade['stations'];
  const spokenOf = new Set(answered.map((one) => one.id));
  const advice = spokenOf.size === 0 ? [] : (await readAdvice(tx, id)).filter((one) => spokenOf.has(one.id));
  return found({ stations, advice, updatedAt });
}

/** @returns how many rows there were: none where the job has no such advice */
export async function writeOutcome(tx: Tx, job: string, advice: string, outcome: Outcome): Promise<number> {
  const [{ numUpdatedRows }] = await tx
    .updateTable('advice')
    .set({ did: outcome.did, outcome_note: outcome.note, outcome_at: outcome.at })
    .where('id', '=', advice)
    .where('job_id', '=', job)
    .execute();
  return Number(numUpdatedRows);
}

/** A step that is a time was made at the station's own card; an advice that is followed says so itself. */
const timeOf = (name: string | undefined): string | null => (time.safeParse(name).success ? (name as string) : null);

async function answerOf(tx: Tx, row: JobRow, move: Move): Promise<readonly Answered[]> {
  const at = timeOf(move.step);
  if (at === null) return [];
  const given = await readAdvice(tx, row.id);
  // sent twice: what it answered is answered
  const answeredThen = given.filter(({ outcome }) => outcome.did === 'done' && outcome.at === at);
  const asOpen = (entry: AdviceEntry): AdviceEntry => ({ ...entry, outcome: { ...entry.outcome, did: 'open' } });
  if (answeredThen.some((entry) => answeredBy(move, [asOpen(entry)], at) !== null)) return [];
  const { recordings } = await readHeard(tx, row);
  const counting = new Set(recordings.flatMap(({ id, now, counts }) => (now && counts ? [id] : [])));
  const answered = answeredBy(
    move,
    given.filter(({ captureId }) => counting.has(captureId)),
    at,
  );
  return answered === null ? [] : [answered];
}

async function openAgain(tx: Tx, row: JobRow, step: string): Promise<readonly Answered[]> {
  if (timeOf(step) === null) return [];
  return (await readAdvice(tx, row.id))
    .filter(({ outcome: { did, at } }) => did === 'done' && at === step)
    .map(({ id }) => ({ id, outcome: { did: 'open', note: '', at: null } }));
}

/** Sent twice, a move of a step marks once. */
export const makeMove = (tx: Tx, id: string, move: Move, origin: Origin): Promise<Held<MoveMade>> =>
  marking(
    tx,
    id,
    origin,
    async (stations, at) => {
      const told = ({ step, move: name }: Mark): boolean => step === move.step && name === move.move;
      const before = Object.entries(stations).filter(([, { marks = [] }]) => marks.some(told));
      return move.step === undefined || before.length === 0
        ? stationsAfterMove(stations, move, at, (await readLimits(tx, id)).recheck)
        : Object.fromEntries(before);
    },
    (row) => answerOf(tx, row, move),
  );

export const undoMove = (tx: Tx, id: string, { step }: Undo, origin: Origin): Promise<Held<MoveMade>> =>
  marking(
    tx,
    id,
    origin,
    (stations, at) => stationsWithoutStep(stations, step, at),
    (row) => openAgain(tx, row, step),
  );
