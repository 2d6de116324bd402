/**
 * The store's layout, step by step, forward only. A step that has been released is never changed: add another.
 * Portable SQL through the schema builder, so that the same steps run on another database.
 */
import { type Kysely, sql } from 'kysely';
import type { StationStatus } from '../core/job/api.ts';
import { MOST_NUMBER, renumbered } from '../core/job/jobName.ts';
import { plainName } from '../core/job/searchWords.ts';
import { EARLIER, reasonKeys, toldReasons } from '../core/job/staleReasons.ts';
import { isStationName } from '../core/job/station.ts';
import { readableOf } from '../core/job/stations/index.ts';
import { makeBatchTables } from './batch/batchLayout.ts';
import { indexWatchedFigures, makeChainTables } from './chain/chainLayout.ts';
import { keepAllNextChecks, makeNextChecks } from './nextChecks.ts';
import type { StationRow, Tables } from './tables.ts';
import type { Tx } from './transaction.ts';
import { findDeckBy, findJobBy } from './words.ts';

/** The row that every writing transaction touches first; see `transaction.ts`. */
export const WRITER = 'writer';

export interface LayoutStep {
  readonly number: number;
  readonly name: string;
  up(db: Kysely<Tables>): Promise<void>;
}

export const layoutSteps: readonly LayoutStep[] = [
  {
    number: 1,
    name: 'jobs, decks, captures, findings, advice and parts',
    async up(db) {
      const { schema } = db;
      await schema
        .createTable('settings')
        .addColumn('name', 'text', (column) => column.primaryKey())
        .addColumn('value', 'text', (column) => column.notNull())
        .execute();
      await db.insertInto('settings').values({ name: WRITER, value: 'one at a time' }).execute();

      await schema
        .createTable('decks')
        .addColumn('id', 'text', (column) => column.primaryKey())
        .addColumn('name', 'text', (column) => column.notNull())
        .addColumn('description', 'text', (column) => column.notNull())
        .addColumn('created_at', 'text', (column) => column.notNull())
        .execute();

      await schema
        .createTable('jobs')
        .addColumn('id', 'text', (column) => column.primaryKey())
        .addColumn('number', 'integer', (column) => column.notNull().unique())
        .addColumn('title', 'text', (column) => column.notNull())
        .addColumn('deck_id', 'text', (column) => column.notNull().references('decks.id'))
        .addColumn('customer', 'text', (column) => column.notNull())
        .addColumn('notes', 'text', (column) => column.notNull())
        .addColumn('created_at', 'text', (column) => column.notNull())
        .addColumn('updated_at', 'text', (column) => column.notNull())
        .addColumn('revision', 'integer', (column) => column.notNull())
        .execute();
      await schema.createIndex('jobs_by_deck').on('jobs').column('deck_id').execute();

      await schema
        .createTable('stations')
        .addColumn('job_id', 'text', (column) => column.notNull().references('jobs.id'))
        .addColumn('station', 'text', (column) => column.notNull())
        .addColumn('status', 'text', (column) => column.notNull())
        .addColumn('stale_because_json', 'text')
        .addColumn('data_json', 'text', (column) => column.notNull())
        .addColumn('revision', 'integer', (column) => column.notNull())
        .addColumn('updated_at', 'text', (column) => column.notNull())
        .addPrimaryKeyConstraint('stations_key', ['job_id', 'station'])
        .execute();

      await schema
        .createTable('captures')
        .addColumn('id', 'text', (column) => column.primaryKey())
        .addColumn('job_id', 'text', (column) => column.notNull().references('jobs.id'))
        .addColumn('station', 'text', (column) => column.notNull())
        .addColumn('heard_at', 'text', (column) => column.notNull())
        .addColumn('stored_at', 'text', (column) => column.notNull())
        .addColumn('sha256', 'text')
        .addColumn('file', 'text', (column) => column.notNull())
        .addColumn('duration_s', 'double precision', (column) => column.notNull())
        .addColumn('document_json', 'text', (column) => column.notNull())
        .addColumn('curves_json', 'text', (column) => column.notNull())
        .execute();
      await schema.createIndex('captures_by_job').on('captures').columns(['job_id', 'heard_at']).execute();
      await schema.createIndex('captures_by_fingerprint').on('captures').column('sha256').execute();

      await schema
        .createTable('findings')
        .addColumn('capture_id', 'text', (column) => column.notNull().references('captures.id'))
        .addColumn('place', 'integer', (column) => column.notNull())
        .addColumn('quantity', 'text', (column) => column.notNull())
        .addColumn('channel', 'text')
        .addColumn('value_number', 'double precision')
        .addColumn('value_text', 'text')
        .addColumn('unit', 'text', (column) => column.notNull())
        .addColumn('uncertainty', 'double precision')
        .addColumn('verdict', 'text', (column) => column.notNull())
        .addPrimaryKeyConstraint('findings_key', ['capture_id', 'place'])
        .execute();
      await schema.createIndex('findings_by_quantity').on('findings').columns(['quantity', 'verdict']).execute();

      await schema
        .createTable('advice')
        .addColumn('id', 'text', (column) => column.primaryKey())
        .addColumn('job_id', 'text', (column) => column.notNull().references('jobs.id'))
        .addColumn('capture_id', 'text', (column) => column.notNull().references('captures.id'))
        .addColumn('place', 'integer', (column) => column.notNull())
        .addColumn('given_at', 'text', (column) => column.notNull())
        .addColumn('action', 'text', (column) => column.notNull())
        .addColumn('amount', 'double precision')
        .addColumn('unit', 'text', (column) => column.notNull())
        .addColumn('direction', 'text')
        .addColumn('advice_json', 'text', (column) => column.notNull())
        .addColumn('did', 'text', (column) => column.notNull())
        .addColumn('outcome_note', 'text', (column) => column.notNull())
        .addColumn('outcome_at', 'text')
        .addColumn('checked_by', 'text', (column) => column.references('captures.id'))
        .execute();
      await schema.createIndex('advice_by_job').on('advice').column('job_id').execute();

      await schema
        .createTable('advice_checks')
        .addColumn('advice_id', 'text', (column) => column.notNull().references('advice.id'))
        .addColumn('place', 'integer', (column) => column.notNull())
        .addColumn('quantity', 'text', (column) => column.notNull())
        .addColumn('unit', 'text', (column) => column.notNull())
        .addColumn('before_value', 'double precision')
        .addColumn('predicted', 'double precision', (column) => column.notNull())
        .addColumn('measured', 'double precision')
        .addColumn('uncertainty', 'double precision')
        .addColumn('came', 'text', (column) => column.notNull())
        .addColumn('why', 'text', (column) => column.notNull())
        .addPrimaryKeyConstraint('advice_checks_key', ['advice_id', 'place'])
        .execute();

      await schema
        .createTable('parts')
        .addColumn('kind', 'text', (column) => column.notNull())
        .addColumn('id', 'text', (column) => column.notNull())
        .addColumn('name', 'text', (column) => column.notNull())
        .addColumn('data_json', 'text', (column) => column.notNull())
        .addColumn('revision', 'integer', (column) => column.notNull())
        .addColumn('updated_at', 'text', (column) => column.notNull())
        .addPrimaryKeyConstraint('parts_key', ['kind', 'id'])
        .execute();
    },
  },
  {
    number: 2,
    name: 'stations keep what was typed, titles and numbers stay within their bounds',
    async up(db) {
      const stations = await db.selectFrom('stations').select(['job_id', 'station', 'data_json']).execute();
      for (const { job_id, station, data_json } of stations) {
        const read = readable(station, data_json);
        if (read === null || read === data_json) continue;
        await db
          .updateTable('stations')
          .set({ data_json: read })
          .where('job_id', '=', job_id)
          .where('station', '=', station)
          .execute();
      }
      const jobs = await db.selectFrom('jobs').select(['id', 'number', 'title']).orderBy('number').execute();
      let last = Math.max(0, ...jobs.map((job) => job.number).filter((number) => number < MOST_NUMBER));
      for (const { id, number, title } of jobs) {
        const next = number < MOST_NUMBER ? number : ++last;
        const kept = renumbered(title, number, next);
        if (next === number && kept === title) continue;
        await db.updateTable('jobs').set({ number: next, title: kept }).where('id', '=', id).execute();
      }
    },
  },
  {
    number: 3,
    name: 'what is fitted and when, what a recording is, words to search by',
    async up(db) {
      const { schema } = db;
      const flag = 'integer';
      await schema
        .alterTable('jobs')
        .addColumn('practice', flag, (column) => column.notNull().defaultTo(0))
        .execute();
      await schema
        .alterTable('captures')
        .addColumn('practice', flag, (column) => column.notNull().defaultTo(0))
        .execute();
      for (const name of ['said_kind', 'said_epoch', 'set_aside_at', 'set_aside_why']) {
        await schema.alterTable('captures').addColumn(name, 'text').execute();
      }
      await schema
        .createTable('fittings')
        .addColumn('id', 'text', (column) => column.primaryKey())
        .addColumn('job_id', 'text', (column) => column.notNull().references('jobs.id'))
        .addColumn('at', 'text', (column) => column.notNull())
        .addColumn('station', 'text', (column) => column.notNull())
        .addColumn('kind', 'text', (column) => column.notNull())
        .addColumn('name', 'text', (column) => column.notNull())
        .addColumn('was', 'text', (column) => column.notNull())
        .addColumn('hours', 'double precision')
        .execute();
      await schema.createIndex('fittings_by_job').on('fittings').columns(['job_id', 'at']).execute();
      await schema
        .createTable('words')
        .addColumn('word', 'text', (column) => column.notNull())
        .addColumn('job_id', 'text', (column) => column.references('jobs.id'))
        .addColumn('deck_id', 'text', (column) => column.references('decks.id'))
        .execute();
      await schema.createIndex('words_by_word').on('words').columns(['word', 'job_id', 'deck_id']).execute();
      await schema.createIndex('words_by_job').on('words').columns(['job_id', 'word']).execute();
      await schema.createIndex('words_by_deck').on('words').columns(['deck_id', 'word']).execute();

      // the practice job of earlier versions, and the sides that its deck played in other jobs
      await db.updateTable('jobs').set({ practice: 1 }).where('deck_id', '=', 'bench-deck-3').execute();
      await db.updateTable('captures').set({ practice: 1 }).where('file', 'like', 'practice side %.wav').execute();
      for (const deck of await db.selectFrom('decks').selectAll().execute()) await findDeckBy(db, deck);
      for (const job of await db.selectFrom('jobs').selectAll().execute()) await findJobBy(db, job);
    },
  },
  {
    number: 4,
    name: 'photographs, and the record file that a job is played with',
    async up(db) {
      const { schema } = db;
      await schema
        .alterTable('jobs')
        .addColumn('record_file', 'text', (column) => column.notNull().defaultTo(''))
        .execute();
      await schema
        .createTable('photographs')
        .addColumn('id', 'text', (column) => column.primaryKey())
        .addColumn('job_id', 'text', (column) => column.notNull().references('jobs.id'))
        .addColumn('station', 'text', (column) => column.notNull())
        .addColumn('at', 'text', (column) => column.notNull())
        .addColumn('note', 'text', (column) => column.notNull())
        .addColumn('width', 'integer', (column) => column.notNull())
        .addColumn('height', 'integer', (column) => column.notNull())
        .addColumn('jpeg', 'blob', (column) => column.notNull())
        .execute();
      await schema.createIndex('photographs_by_job').on('photographs').columns(['job_id', 'at']).execute();
    },
  },
  {
    number: 5,
    name: 'jobs set aside',
    async up({ schema }) {
      for (const name of ['set_aside_at', 'set_aside_why'])
        await schema.alterTable('jobs').addColumn(name, 'text').execute();
    },
  },
  {
    number: 6,
    name: 'why a station is to be looked at again, as codes',
    async up(db) {
      const rows = await db.selectFrom('stations').selectAll().where('station', '=', 'weigh').execute();
      for (const row of rows) {
        const read = weighReadAsCodes(row);
        if (read === null || read === row.data_json) continue;
        await db
          .updateTable('stations')
          .set({ data_json: read })
          .where('job_id', '=', row.job_id)
          .where('station', '=', 'weigh')
          .execute();
      }
    },
  },
  {
    number: 7,
    name: 'decks and their jobs in pages',
    async up(db) {
      const { schema } = db;
      await schema
        .alterTable('decks')
        .addColumn('plain', 'text', (column) => column.notNull().defaultTo(''))
        .execute();
      for (const { id, name } of await db.selectFrom('decks').select(['id', 'name']).execute())
        await db
          .updateTable('decks')
          .set({ plain: plainName(name) })
          .where('id', '=', id)
          .execute();
      await schema.createIndex('decks_by_name').on('decks').columns(['name', 'id']).execute();
      await schema.createIndex('decks_by_plain').on('decks').columns(['plain', 'name', 'id']).execute();
      await schema.createIndex('jobs_by_deck_number').on('jobs').columns(['deck_id', 'number']).execute();
    },
  },
  { number: 8, name: 'batches of recordings', up: makeBatchTables },
  { number: 9, name: 'chains and reference recordings', up: makeChainTables },
  {
    number: 10,
    name: 'stations where something is typed, by station',
    async up({ schema }) {
      await schema
        .createIndex('stations_typed')
        .on('stations')
        .columns(['station', 'job_id'])
        .where(sql.ref('data_json'), '<>', sql.lit('{}'))
        .execute();
    },
  },
  { number: 11, name: 'figures by which chains are watched', up: indexWatchedFigures },
  {
    number: 12,
    name: 'next checks by day, jobs by their beginning, recordings by their record',
    async up(db) {
      await makeNextChecks(db);
      await keepAllNextChecks(db as Tx);
      await db.schema.createIndex('jobs_by_beginning').on('jobs').column('created_at').execute();
      await db.schema
        .createIndex('captures_by_record')
        .on('captures')
        .columns(['record_key', 'heard_at', 'id'])
        .execute();
    },
  },
];

/** A gauge reading that was typed under the reasons that stand stays so: their sentences had been kept with it. */
function weighReadAsCodes({ status, stale_because_json, data_json }: StationRow): string | null {
  try {
    const data = JSON.parse(data_json) as { readonly readUnder?: unknown; readonly movedHere?: unknown };
    const told = toldReasons('weigh', JSON.parse(stale_because_json ?? '[]'));
    const here = status !== 'done' && typeof data.movedHere === 'string' ? [data.movedHere] : [];
    const said = [...(status === 'stale' ? (told.staleBecause ?? []) : []), ...here].join('\n');
    const keys = reasonKeys({ status: status as StationStatus, ...told });
    const readUnder = [...new Set([...keys, ...(here.length === 0 ? [] : [EARLIER])])];
    return readable('weigh', JSON.stringify(data.readUnder === said ? { ...data, readUnder } : data));
  } catch {
    return null;
  }
}

/** Station data as today's model keeps it; null for a text that cannot be read, which stays as it is. */
function readable(station: string, json: string): string | null {
  if (!isStationName(station)) return null;
  try {
    return JSON.stringify(readableOf(station, JSON.parse(json)));
  } catch {
    return null;
  }
}

/** The newest layout that this version knows. */
export const newestLayout = layoutSteps[layoutSteps.length - 1].number;
