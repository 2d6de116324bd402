/** The tables of chains: what plays, what was changed of it and when, whose recordings belong to it, and reference recordings. */
import { type Kysely, sql } from 'kysely';
import { isPostgres } from '../engine.ts';
import type { Tables } from '../tables.ts';
import { watchedQuantity } from './chainReadings.ts';

export async function makeChainTables(db: Kysely<Tables>): Promise<void> {
  const { schema } = db;
  await schema
    .createTable('chains')
    .addColumn('id', 'text', (column) => column.primaryKey())
    .addColumn('name', 'text', (column) => column.notNull().unique())
    .addColumn('made_at', 'text', (column) => column.notNull())
    .execute();
  await schema
    .createTable('chain_states')
    .addColumn('id', 'text', (column) => column.primaryKey())
    .addColumn('chain_id', 'text', (column) => column.notNull().references('chains.id'))
    .addColumn('since', 'text', (column) => column.notNull())
    .addColumn('parts_json', 'text', (column) => column.notNull())
    .addColumn('why', 'text', (column) => column.notNull())
    .execute();
  await schema.createIndex('chain_states_by_chain').on('chain_states').columns(['chain_id', 'since']).execute();
  await schema
    .createTable('chain_jobs')
    .addColumn('job_id', 'text', (column) => column.primaryKey().references('jobs.id'))
    .addColumn('chain_id', 'text', (column) => column.notNull().references('chains.id'))
    .execute();
  await schema.createIndex('chain_jobs_by_chain').on('chain_jobs').columns(['chain_id', 'job_id']).execute();
  await schema
    .createTable('reference_recordings')
    .addColumn('fingerprint', 'text', (column) => column.primaryKey())
    .addColumn('name', 'text', (column) => column.notNull())
    .addColumn('record_key', 'text', (column) => column.notNull())
    .addColumn('record', 'text', (column) => column.notNull())
    .addColumn('certificate', 'text', (column) => column.notNull())
    .addColumn('expires', 'text', (column) => column.notNull())
    .addColumn('added_at', 'text', (column) => column.notNull())
    .execute();
  await schema
    .createIndex('references_by_record')
    .on('reference_recordings')
    .columns(['record_key', 'expires'])
    .execute();
  await schema
    .alterTable('batch_files')
    .addColumn('recorded_at', 'text', (column) => column.notNull().defaultTo(''))
    .execute();
  const recorded = isPostgres(db)
    ? sql`to_char(to_timestamp(modified_ms / 1000) at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"')`
    : sql`strftime('%Y-%m-%dT%H:%M:%fZ', modified_ms / 1000.0, 'unixepoch')`;
  await sql`update batch_files set recorded_at = ${recorded}`.execute(db);
  await schema.createIndex('batch_files_by_chain').on('batch_files').columns(['chain', 'recorded_at', 'id']).execute();
  for (const name of ['method', 'record_key', 'record_name'])
    await schema.alterTable('captures').addColumn(name, 'text').execute();
  await tellOfCaptures(db);
  // chains that batches have named so far
  const names = await db.selectFrom('batch_files').select('chain').distinct().where('chain', '<>', '').execute();
  for (const [place, { chain }] of names.entries()) {
    const made = await db
      .selectFrom('batch_files')
      .select((row) => row.fn.min('added_at').as('at'))
      .where('chain', '=', chain)
      .executeTakeFirst();
    await db
      .insertInto('chains')
      .values({ id: `chain-${place + 1}`, name: chain, made_at: made?.at ?? '' })
      .execute();
  }
}

/**
 * A tenth of a side's figures are watched: without an index of them alone the charts read all. Where another quantity is
 * watched some day, a new index takes its place; until then the old one is passed over, which is slow and not wrong.
 */
export const indexWatchedFigures = ({ schema }: Kysely<Tables>): Promise<void> =>
  schema
    .createIndex('batch_figures_watched')
    .on('batch_figures')
    .columns(['side_id', 'place'])
    .where(watchedQuantity)
    .execute();

/** Version and record file of what was heard, out of its documents, by the database itself. */
async function tellOfCaptures(db: Kysely<Tables>): Promise<void> {
  const at = isPostgres(db)
    ? (first: string, second?: string) =>
        second === undefined
          ? sql<string>`(document_json::json ->> ${sql.lit(first)})`
          : sql<string>`(document_json::json -> ${sql.lit(first)} ->> ${sql.lit(second)})`
    : (...path: string[]) => sql<string>`json_extract(document_json, ${sql.lit(`$.${path.join('.')}`)})`;
  const readable = isPostgres(db) ? sql<boolean>`document_json like '{%'` : sql<boolean>`json_valid(document_json)`;
  await db
    .updateTable('captures')
    .set({
      method: sql<string>`coalesce(${at('method')}, '1')`,
      record_key: at('record', 'key'),
      record_name: at('record', 'name'),
    })
    .where(readable)
    .execute();
}
