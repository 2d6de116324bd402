import {
  DummyDriver,
  Kysely,
  PostgresAdapter,
  PostgresIntrospector,
  PostgresQueryCompiler,
  SqliteAdapter,
  SqliteIntrospector,
  SqliteQueryCompiler,
} from 'kysely';
import { expect, it } from 'vitest';
import { bounded, isPostgres, postgresTypes } from './engine.ts';
import { Unkeepable } from './storeError.ts';

interface Table {
  readonly t: { readonly a: string | number | null };
}
const postgres = new Kysely<Table>({
  dialect: bounded({
    createAdapter: () => new PostgresAdapter(),
    createDriver: () => new DummyDriver(),
    createIntrospector: (db) => new PostgresIntrospector(db),
    createQueryCompiler: () => new PostgresQueryCompiler(),
  }),
  plugins: [postgresTypes],
});
const sqlite = new Kysely<Table>({
  dialect: bounded({
    createAdapter: () => new SqliteAdapter(),
    createDriver: () => new DummyDriver(),
    createIntrospector: (db) => new SqliteIntrospector(db),
    createQueryCompiler: () => new SqliteQueryCompiler(),
  }),
});

it('the database is known by its kind', () => {
  expect([isPostgres(postgres), isPostgres(sqlite)]).toEqual([true, false]);
});

it('texts are ordered by their bytes in PostgreSQL, and pixels have its type; the rest of a column is as it was', () => {
  const table = ({ schema }: Kysely<Table>) =>
    schema
      .createTable('t')
      .addColumn('a', 'text', (column) => column.primaryKey())
      .addColumn('b', 'text', (column) => column.notNull().defaultTo(''))
      .addColumn('c', 'blob' as never)
      .addColumn('d', 'integer', (column) => column.notNull().unique())
      .addColumn('e', 'double precision')
      .compile().sql;
  expect(table(postgres)).toBe(
    `create table "t" ("a" text collate "C" primary key, "b" text collate "C" default '' not null, "c" bytea, "d" integer not null unique, "e" double precision)`,
  );
  expect(table(sqlite)).toBe(
    `create table "t" ("a" text primary key, "b" text default '' not null, "c" blob, "d" integer not null unique, "e" double precision)`,
  );
});

it('the character NUL is refused on every connection, wherever in a text, and nothing else is', async () => {
  for (const db of [sqlite, postgres]) {
    const put = (a: string | number | null) => db.insertInto('t').values({ a }).execute();
    for (const text of ['\0', 'a\0b', 'ab\0']) await expect(put(text)).rejects.toThrow(Unkeepable);
    for (const value of ['', 'a\u0001b', '\\0', 0, null]) await expect(put(value)).resolves.toBeDefined();
    await expect(put('\0')).rejects.toThrow(Unkeepable);
  }
});
