/** A whole job as the API gives it: head, stations, captures without their curves, advice, before and after. */
import { rejudged } from '../core/advise/rejudge.ts';
import type { CaptureEntry, Deck, Job } from '../core/job/api.ts';
import { comparedOf } from '../core/job/beforeAfter.ts';
import type { Fitting } from '../core/job/epochs.ts';
import { type Recording, recordingsOf } from '../core/job/recordings.ts';
import { limitsOf } from '../core/job/shop.ts';
import { stationNames } from '../core/job/station.ts';
import type { Stations } from '../core/job/stationState.ts';
import { readableOf } from '../core/job/stations/index.ts';
import type { ChosenLimits } from '../core/job/stations/run/limits.ts';
import type { RunTyped } from '../core/job/stations/run.ts';
import { readPhotographs } from './photographs.ts';
import { adviceEntry, asideOf, captureEntry, type DocumentHead, deckOf, fittingOf, stationState } from './rows.ts';
import { readShop } from './settings.ts';
import type { AdviceRow, CaptureRow, JobRow } from './tables.ts';
import type { Tx } from './transaction.ts';

export type CaptureHead = Omit<CaptureRow, 'curves_json'>;

/** In the order heard; two heard at the same time in the order stored. */
export const captureHeads = (tx: Tx, job: string): Promise<CaptureHead[]> =>
  tx
    .selectFrom('captures')
    .select(['id', 'job_id', 'station', 'heard_at', 'stored_at', 'sha256', 'file', 'duration_s', 'document_json'])
    .select(['practice', 'said_kind', 'said_epoch', 'set_aside_at', 'set_aside_why'])
    .select(['method', 'record_key', 'record_name'])
    .where('job_id', '=', job)
    .orderBy('heard_at')
    .orderBy('stored_at')
    .orderBy('id')
    .execute();

/** Oldest first. */
export const readFittings = async (tx: Tx, job: string): Promise<Fitting[]> =>
  (await tx.selectFrom('fittings').selectAll().where('job_id', '=', job).orderBy('at').orderBy('id').execute()).map(
    fittingOf,
  );

/** A job's recordings: what was heard, and what each of them is. */
export interface Heard {
  readonly practice: boolean;
  readonly fittings: readonly Fitting[];
  /** in the order heard */
  readonly captures: readonly CaptureEntry[];
  /** of each capture */
  readonly recordings: readonly Recording[];
}

/** The limits that every reading of the job is judged by. */
export async function readLimits(tx: Tx, job: string): Promise<ChosenLimits> {
  const run = await tx
    .selectFrom('stations')
    .select('data_json')
    .where('job_id', '=', job)
    .where('station', '=', 'run')
    .executeTakeFirst();
  const typed = readableOf('run', run === undefined ? {} : JSON.parse(run.data_json)) as RunTyped;
  return limitsOf({ run: typed, shop: await readShop(tx) });
}

export async function readHeard(tx: Tx, { id, practice }: Pick<JobRow, 'id' | 'practice'>): Promise<Heard> {
  const limits = await readLimits(tx, id);
  const captures = (await captureHeads(tx, id)).map((row) =>
    captureEntry(row, rejudged(JSON.parse(row.document_json) as DocumentHead, limits)),
  );
  const job = { practice: practice === 1, fittings: await readFittings(tx, id), captures };
  return { ...job, recordings: recordingsOf(job) };
}

export async function readStations(tx: Tx, job: string): Promise<Stations> {
  const rows = await tx.selectFrom('stations').selectAll().where('job_id', '=', job).execute();
  const states = new Map(rows.map((row) => [row.station, stationState(row)]));
  return Object.fromEntries(stationNames.map((name) => [name, states.get(name)])) as Stations;
}

export const readDeck = async (tx: Tx, id: string): Promise<Deck> =>
  deckOf(await tx.selectFrom('decks').selectAll().where('id', '=', id).executeTakeFirstOrThrow());

/** Advice rows in the order given. */
export const adviceRows = (tx: Tx, job: string): Promise<AdviceRow[]> =>
  tx.selectFrom('advice').selectAll().where('job_id', '=', job).orderBy('place').execute();

export async function readAdvice(tx: Tx, job: string) {
  const rows = await adviceRows(tx, job);
  const checks = await tx
    .selectFrom('advice_checks')
    .innerJoin('advice', 'advice.id', 'advice_checks.advice_id')
    .selectAll('advice_checks')
    .where('advice.job_id', '=', job)
    .orderBy('advice_checks.place')
    .execute();
  return rows.map((row) =>
    adviceEntry(
      row,
      checks.filter((check) => check.advice_id === row.id),
    ),
  );
}

export async function readJob(tx: Tx, row: JobRow): Promise<Job> {
  const heard = await readHeard(tx, row);
  return {
    id: row.id,
    number: row.number,
    title: row.title,
    deck: await readDeck(tx, row.deck_id),
    customer: row.customer,
    notes: row.notes,
    createdAt: row.created_at,
    updatedAt: row.updated_at,
    revision: row.revision,
    recordFile: row.record_file,
    practice: row.practice === 1,
    setAside: asideOf(row),
    fittings: [...heard.fittings],
    stations: await readStations(tx, row.id),
    captures: [...heard.captures],
    advice: await readAdvice(tx, row.id),
    photographs: await readPhotographs(tx, row.id),
    ...comparedOf(heard),
    shop: await readShop(tx),
  };
}

export const jobRow = (tx: Tx, id: string): Promise<JobRow | undefined> =>
  tx.selectFrom('jobs').selectAll().where('id', '=', id).executeTakeFirst();
