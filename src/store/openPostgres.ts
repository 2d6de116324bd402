/** Opens a store in PostgreSQL: looks first, then makes or changes its layout, one program at a time. */
import { Kysely, PostgresDialect, sql } from 'kysely';
import { bounded, postgresTypes } from './engine.ts';
import { applyMissingSteps, makeLayoutSteps, refuseNewer } from './layout.ts';
import { newestLayout } from './migrations.ts';
import { checkPostgresUrl } from './postgresPlace.ts';
import { isAway, openPool } from './postgresPool.ts';
import { StoreError } from './storeError.ts';
import type { Tables } from './tables.ts';
import type { Db } from './transaction.ts';

/** Why it cannot be used, by PostgreSQL's code, in words instead of the server's own. */
const reasons: readonly (readonly [code: RegExp, sentence: string])[] = [
  [/^28/, 'The database let this program not in: the role or its password is not the right one (PGPASSFILE, PGUSER).'],
  [/^3D000/, 'There is no database of that name.'],
  [/^42501/, 'The role may not do this: it was expected to own the schema that the store lies in (docs/workshop.md).'],
  [/^55P03/, 'Another program holds the store; try again when it is done.'],
  [
    /^(SELF_SIGNED|UNABLE_TO|DEPTH_ZERO|ERR_TLS|CERT_)/,
    'The certificate of the database is not one that sslrootcert vouches for.',
  ],
];

function unusablePostgres(error: unknown): StoreError {
  if (error instanceof StoreError) return error;
  const { code = '', message = String(error) } = error as { code?: string; message?: string };
  const known = reasons.find(([pattern]) => pattern.test(code));
  if (known !== undefined) return new StoreError(known[1]);
  if (isAway(error))
    return new StoreError('The database of the store does not answer: is it running, and is its address right?');
  // a file that the address names, such as sslrootcert
  if (/SSL connections/.test(message))
    return new StoreError('The database does not offer TLS, which the address asks for.');
  return new StoreError(`The store in PostgreSQL cannot be used (${message}).`);
}

interface Look {
  readonly schema: string | null;
  readonly encoding: string;
  readonly tables: ReadonlySet<string>;
}

async function look(db: Db): Promise<Look> {
  const { rows } = await sql<{ schema: string | null; encoding: string }>`
    select current_schema() as schema, current_setting('server_encoding') as encoding`.execute(db);
  const tables = await sql<{ name: string }>`
    select tablename as name from pg_tables where schemaname = current_schema()`.execute(db);
  return { ...rows[0], tables: new Set(tables.rows.map(({ name }) => name)) };
}

/** @returns its newest step; 0 for an empty schema @throws StoreError where it must not be used */
async function layoutAt(db: Db): Promise<number> {
  const { schema, encoding, tables } = await look(db);
  if (schema === null) {
    throw new StoreError(
      'The role has no schema in this database to keep a store in; docs/workshop.md says how one is made.',
    );
  }
  if (encoding !== 'UTF8') throw new StoreError(`The database keeps text as ${encoding}; UTF8 was expected.`);
  if (tables.size === 0) return 0;
  if (!tables.has('layout_steps')) {
    throw new StoreError(
      `The schema ${schema} holds tables of another program, not a store of jobs. Nothing was touched.`,
    );
  }
  const row = await db
    .selectFrom('layout_steps')
    .select((column) => column.fn.max('number').as('layout'))
    .executeTakeFirstOrThrow();
  const layout = Number(row.layout);
  refuseNewer(`The store in schema ${schema}`, layout);
  return layout;
}

/** Several programs may start at once on a new schema: one makes the tables, the others wait and then find them. */
const bringUpToDate = (db: Db, now: () => string): Promise<void> =>
  db.transaction().execute(async (tx) => {
    await sql`select pg_advisory_xact_lock(hashtext('platterside layout ' || current_schema()))`.execute(tx);
    const layout = await layoutAt(tx);
    if (layout === newestLayout) return;
    if (layout === 0) await makeLayoutSteps(tx);
    await applyMissingSteps(tx, now);
  });

async function connected(url: string): Promise<Db> {
  checkPostgresUrl(url);
  try {
    const pool = await openPool(url);
    return new Kysely<Tables>({ dialect: bounded(new PostgresDialect({ pool })), plugins: [postgresTypes] });
  } catch (error) {
    throw unusablePostgres(error);
  }
}

async function checked(url: string, check: (db: Db) => Promise<void>): Promise<Db> {
  const db = await connected(url);
  try {
    await check(db);
    return db;
  } catch (error) {
    await db.destroy().catch(() => undefined);
    throw unusablePostgres(error);
  }
}

/**
 * Opens a store, making its tables where the schema holds none.
 *
 * @param url `postgresql://…` without a password
 * @throws StoreError with one sentence that does not repeat the address
 */
export const openPostgres = (url: string, now: () => string): Promise<Db> =>
  checked(url, async (db) => {
    if ((await layoutAt(db)) !== newestLayout) await bringUpToDate(db, now);
  });

/** Opens a store to read from: nothing is made or changed. @throws StoreError with one sentence */
export const openPostgresToRead = (url: string): Promise<Db> =>
  checked(url, async (db) => {
    const layout = await layoutAt(db);
    if (layout === 0)
      throw new StoreError('There are no jobs yet: the schema is empty; serve or job import makes a store.');
    if (layout !== newestLayout) {
      throw new StoreError('The store is of an earlier version: start serve once, which brings it up to date.');
    }
  });
