/** Making a job, and every change to its head and its stations. */
import type { Job, JobChange, Move, NewJob, StationChange, StationState, Undo } from '../core/job/api.ts';
import { stationsAfterMove, stationsWithoutStep } from '../core/job/marks.ts';
import type { StationName } from '../core/job/station.ts';
import { changeStation, freshStations, type Stations } from '../core/job/stationState.ts';
import { type Change, type Found, found, notFound } from './answers.ts';
import { jobRow, readJob, readStations } from './readJob.ts';
import { stationRow } from './rows.ts';
import type { JobRow } from './tables.ts';
import type { Origin, Tx } from './transaction.ts';

export const noJob = (id: string) => notFound(`There is no job ${id}.`);

/** The number that the next job gets. */
export async function nextNumber(tx: Tx): Promise<number> {
  const row = await tx
    .selectFrom('jobs')
    .select((column) => column.fn.max('number').as('last'))
    .executeTakeFirst();
  return Number(row?.last ?? 0) + 1;
}

export async function insertJob(tx: Tx, job: JobRow, stations: Stations): Promise<void> {
  await tx.insertInto('jobs').values(job).execute();
  const rows = Object.entries(stations).map(([name, state]) => stationRow(job.id, name as StationName, state));
  await tx.insertInto('stations').values(rows).execute();
}

/** The job as it is now, after `id` was found. */
async function job(tx: Tx, id: string): Promise<Job> {
  return readJob(tx, (await jobRow(tx, id)) as JobRow);
}

export async function createJob(tx: Tx, wanted: NewJob, origin: Origin): Promise<Found<Job>> {
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
      .values({ ...deck, description, created_at: at })
      .execute();
  }
  const number = await nextNumber(tx);
  const row: JobRow = {
    id: origin.newId(),
    number,
    title: wanted.title === undefined || wanted.title === '' ? `Job ${number} · ${deck.name}` : wanted.title,
    deck_id: deck.id,
    customer: wanted.customer ?? '',
    notes: wanted.notes ?? '',
    created_at: at,
    updated_at: at,
    revision: 0,
  };
  await insertJob(tx, row, freshStations(at));
  return found(await job(tx, row.id));
}

export async function changeJobHead(tx: Tx, id: string, change: JobChange, origin: Origin): Promise<Change<Job, Job>> {
  const row = await jobRow(tx, id);
  if (row === undefined) return noJob(id);
  if (change.revision !== row.revision) return { outcome: 'conflict', current: await job(tx, id) };
  if (change.deck !== undefined && Object.keys(change.deck).length > 0) {
    await tx.updateTable('decks').set(change.deck).where('id', '=', row.deck_id).execute();
  }
  await tx
    .updateTable('jobs')
    .set({
      title: change.title ?? row.title,
      customer: change.customer ?? row.customer,
      notes: change.notes ?? row.notes,
      revision: row.revision + 1,
      updated_at: origin.now(),
    })
    .where('id', '=', id)
    .execute();
  return { outcome: 'changed', value: await job(tx, id) };
}

async function writeStation(tx: Tx, id: string, name: StationName, state: StationState): Promise<void> {
  await tx
    .updateTable('stations')
    .set(stationRow(id, name, state))
    .where('job_id', '=', id)
    .where('station', '=', name)
    .execute();
}

/** Marks the job as changed, so that lists show it. */
export const touch = (tx: Tx, id: string, at: string) =>
  tx.updateTable('jobs').set({ updated_at: at }).where('id', '=', id).execute();

export async function changeJobStation(
  tx: Tx,
  id: string,
  name: StationName,
  change: StationChange,
  origin: Origin,
): Promise<Change<Job, StationState>> {
  if ((await jobRow(tx, id)) === undefined) return noJob(id);
  const at = origin.now();
  const result = changeStation((await readStations(tx, id))[name], change, at);
  if (result.outcome === 'conflict') return { outcome: 'conflict', current: result.state };
  if (result.outcome === 'changed') {
    await writeStation(tx, id, name, result.state);
    await touch(tx, id, at);
  }
  return { outcome: 'changed', value: await job(tx, id) };
}

/** Writes what a move, or taking one back, changed at the stations. */
async function marking(
  tx: Tx,
  id: string,
  origin: Origin,
  mark: (stations: Stations, at: string) => Partial<Stations>,
): Promise<Found<Job>> {
  if ((await jobRow(tx, id)) === undefined) return noJob(id);
  const at = origin.now();
  const changed = mark(await readStations(tx, id), at);
  for (const [name, state] of Object.entries(changed)) await writeStation(tx, id, name as StationName, state);
  await touch(tx, id, at);
  return found(await job(tx, id));
}

export const makeMove = (tx: Tx, id: string, move: Move, origin: Origin): Promise<Found<Job>> =>
  marking(tx, id, origin, (stations, at) => stationsAfterMove(stations, move, at));

export const undoMove = (tx: Tx, id: string, { step }: Undo, origin: Origin): Promise<Found<Job>> =>
  marking(tx, id, origin, (stations, at) => stationsWithoutStep(stations, step, at));
