/** The tables of batches: recordings where they lie, what is to be measured of them, and what was read. */
import type { CreateTableBuilder, Kysely } from 'kysely';
import type { Tables } from '../tables.ts';

const claimed = <T extends string>(table: CreateTableBuilder<T>) =>
  table
    .addColumn('id', 'text', (column) => column.primaryKey())
    .addColumn('state', 'text', (column) => column.notNull())
    .addColumn('tries', 'integer', (column) => column.notNull().defaultTo(0))
    .addColumn('token', 'text')
    .addColumn('worker', 'text', (column) => column.notNull().defaultTo(''))
    .addColumn('lease_until', 'double precision')
    .addColumn('not_before', 'double precision', (column) => column.notNull().defaultTo(0))
    .addColumn('why', 'text', (column) => column.notNull().defaultTo(''))
    .addColumn('added_at', 'text', (column) => column.notNull());

export async function makeBatchTables({ schema }: Kysely<Tables>): Promise<void> {
  await schema
    .createTable('batch_records')
    .addColumn('id', 'text', (column) => column.primaryKey())
    .addColumn('name', 'text', (column) => column.notNull())
    .addColumn('text', 'text', (column) => column.notNull())
    .addColumn('added_at', 'text', (column) => column.notNull())
    .execute();
  await claimed(schema.createTable('batch_files'))
    .addColumn('root', 'text', (column) => column.notNull())
    .addColumn('path', 'text', (column) => column.notNull())
    .addColumn('record', 'text', (column) => column.notNull().references('batch_records.id'))
    .addColumn('chain', 'text', (column) => column.notNull())
    .addColumn('bytes', 'double precision', (column) => column.notNull())
    .addColumn('modified_ms', 'double precision', (column) => column.notNull())
    .addColumn('fingerprint', 'text')
    .addUniqueConstraint('batch_files_once', ['root', 'path', 'record'])
    .execute();
  await claimed(schema.createTable('batch_sides'))
    .addColumn('fingerprint', 'text', (column) => column.notNull())
    .addColumn('method', 'text', (column) => column.notNull())
    .addColumn('record', 'text', (column) => column.notNull().references('batch_records.id'))
    .addUniqueConstraint('batch_sides_once', ['fingerprint', 'method', 'record'])
    .execute();
  for (const table of ['batch_files', 'batch_sides'])
    await schema.createIndex(`${table}_by_state`).on(table).columns(['state', 'added_at', 'id']).execute();
  await schema.createIndex('batch_files_by_fingerprint').on('batch_files').columns(['fingerprint', 'record']).execute();
  await schema
    .createTable('batch_results')
    .addColumn('side_id', 'text', (column) => column.primaryKey().references('batch_sides.id'))
    .addColumn('measured_at', 'text', (column) => column.notNull())
    .addColumn('took_ms', 'double precision', (column) => column.notNull())
    .addColumn('document_json', 'text', (column) => column.notNull())
    .execute();
  await schema.createIndex('batch_results_by_time').on('batch_results').column('measured_at').execute();
  await schema
    .createTable('batch_figures')
    .addColumn('side_id', 'text', (column) => column.notNull().references('batch_sides.id'))
    .addColumn('place', 'integer', (column) => column.notNull())
    .addColumn('quantity', 'text', (column) => column.notNull())
    .addColumn('channel', 'text')
    .addColumn('value', 'double precision')
    .addColumn('words', 'text')
    .addColumn('uncertainty', 'double precision')
    .addColumn('unit', 'text', (column) => column.notNull())
    .addColumn('verdict', 'text', (column) => column.notNull())
    .addPrimaryKeyConstraint('batch_figures_key', ['side_id', 'place'])
    .execute();
}
