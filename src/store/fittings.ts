/** What is exchanged on the deck: begins an epoch, marks what rests on it, and can be taken back. */
import type { Fitted, MoveMade, StationData } from '../core/job/api.ts';
import { withEarlier, withoutEarlier } from '../core/job/earlierFigures.ts';
import { type Fitting, moveOfFitting, type NewFitting } from '../core/job/epochs.ts';
import { sameJson } from '../core/job/sameJson.ts';
import type { StationName } from '../core/job/station.ts';
import { found, type Held, notFound } from './answers.ts';
import { relink } from './captures.ts';
import { makeMove, noJob, undoMove, writeStation } from './changeJob.ts';
import { keepNextCheck } from './nextChecks.ts';
import { jobRow, readAdvice, readFittings, readHeard, readStations } from './readJob.ts';
import type { JobRow } from './tables.ts';
import type { Origin, Tx } from './transaction.ts';

async function told(tx: Tx, row: JobRow, fitting: string | null, moves: Held<MoveMade>): Promise<Held<Fitted>> {
  if (moves.outcome === 'not-found') return moves;
  const heard = await readHeard(tx, row);
  const touched = await relink(tx, row.id, heard);
  return found({
    fittings: [...heard.fittings],
    fitting,
    moves: moves.value,
    advice: (await readAdvice(tx, row.id)).filter(({ id }) => touched.includes(id)),
  });
}

/** What the stations keep, changed; a page sees by the revision that there is more than the marks to fetch. */
async function writeData(
  tx: Tx,
  job: string,
  origin: Origin,
  change: (name: StationName, data: StationData) => StationData,
): Promise<void> {
  const updatedAt = origin.now();
  for (const [key, state] of Object.entries(await readStations(tx, job))) {
    const name = key as StationName;
    const data = change(name, state.data);
    if (sameJson(data, state.data)) continue;
    await writeStation(tx, job, name, { ...state, data, revision: state.revision + 1, updatedAt });
  }
}

/** A request sent twice, of the same part at the same time, is taken once. */
export async function addFitting(tx: Tx, id: string, wanted: NewFitting, origin: Origin): Promise<Held<Fitted>> {
  const row = await jobRow(tx, id);
  if (row === undefined) return noJob(id);
  const { kind, name, was = '', station = 'match', hours = null, at = origin.now() } = wanted;
  const there = (await readFittings(tx, id)).find((one) => one.kind === kind && one.name === name && one.at === at);
  if (there !== undefined)
    return told(tx, row, there.id, found({ stations: {}, advice: [], updatedAt: row.updated_at }));
  const fitting: Fitting = { id: origin.newId(), at, station, kind, name, was, hours };
  await tx
    .insertInto('fittings')
    .values({ ...fitting, job_id: id })
    .execute();
  await writeData(tx, id, origin, (name, data) => withEarlier(name, data, fitting));
  await keepNextCheck(tx, row.deck_id);
  const move = { move: moveOfFitting[kind], station, note: name, step: fitting.id };
  return told(tx, row, fitting.id, await makeMove(tx, id, move, origin));
}

export async function takeFittingBack(tx: Tx, id: string, fitting: string, origin: Origin): Promise<Held<Fitted>> {
  const row = await jobRow(tx, id);
  if (row === undefined) return noJob(id);
  const [result] = await tx.deleteFrom('fittings').where('id', '=', fitting).where('job_id', '=', id).execute();
  if (Number(result.numDeletedRows) === 0) return notFound(`Job ${id} has no fitting ${fitting}.`);
  await writeData(tx, id, origin, (_, data) => withoutEarlier(data, fitting));
  await keepNextCheck(tx, row.deck_id);
  return told(tx, row, null, await undoMove(tx, id, { step: fitting }, origin));
}
