/** Opens the file: looks at it without touching it first, then brings its layout up to date. */
import { chmodSync, closeSync, existsSync, mkdirSync, openSync, readFileSync, readSync, statSync } from 'node:fs';
import { dirname } from 'node:path';
import Database from 'better-sqlite3';
import { Kysely, SqliteDialect, sql } from 'kysely';
import { bounded, isPostgres } from './engine.ts';
import { applyMissingSteps, makeLayoutSteps, refuseNewer } from './layout.ts';
import { newestLayout } from './migrations.ts';
import { StoreError } from './storeError.ts';
import type { Tables } from './tables.ts';
import type { Db } from './transaction.ts';
import { untouched, unusable } from './unusable.ts';

/** Marks the file as ours ("PLTR"), so that another program's database is not taken for a store. */
const APPLICATION_ID = 0x504c5452;
const HEADER = 'SQLite format 3\0';
/** Bytes of the header that say whether changes go to a `-wal` beside the file, and what stands there where they do not. */
const JOURNAL_KIND = [18, 20] as const;
const NO_WAL = 1;
/** bytes; a larger store is read where it lies, as one that is open elsewhere */
const MOST_IN_MEMORY = 2 ** 30;
/** How long to wait for another process that is writing, ms: while the store is opened, and once it is open. */
const PATIENCE_MS = 10_000;
const SHORT_WAIT_MS = 20;

function headerOf(file: string): string {
  const handle = openSync(file, 'r');
  try {
    const bytes = Buffer.alloc(HEADER.length);
    return bytes.toString('latin1', 0, readSync(handle, bytes, 0, bytes.length, 0));
  } finally {
    closeSync(handle);
  }
}

/** Throws a `StoreError` for a database that must not be used; asks and changes nothing. */
function examineDatabase(database: Database.Database, file: string): void {
  const mark = database.pragma('application_id', { simple: true });
  const tables = database.prepare('select count(*) as n from sqlite_master').get() as { n: number };
  if (mark === 0 && tables.n === 0) return;
  if (mark !== APPLICATION_ID) {
    throw new StoreError(`${file} is a database of another program, not a store of jobs. ${untouched}`);
  }
  const check = database.pragma('quick_check(1)', { simple: true });
  if (check !== 'ok') throw new StoreError(`${file} is damaged. ${untouched}`);
  refuseNewer(file, layoutOf(database));
}

const hasTable = (database: Database.Database, name: string): boolean =>
  database.prepare('select 1 from sqlite_master where name = ?').get(name) !== undefined;

/** Its newest step; 0 where it has none. */
function layoutOf(database: Database.Database): number {
  if (!hasTable(database, 'layout_steps')) return 0;
  const { layout } = database.prepare('select max(number) as layout from layout_steps').get() as {
    layout: number | null;
  };
  return layout ?? 0;
}

/** A connection that was looked at; a `StoreError` where there can be none. */
function examined(file: string, open: () => Database.Database): Database.Database {
  let database: Database.Database | undefined;
  try {
    database = open();
    examineDatabase(database, file);
    return database;
  } catch (error) {
    database?.close();
    throw error instanceof StoreError ? error : unusable(file, error, `${file} is damaged or cannot be read`);
  }
}

/** Throws a `StoreError` for a file that must not be opened. The connection is read-only, so nothing is changed. */
export function examine(file: string): void {
  if (headerOf(file) !== HEADER) throw notOurs(file);
  examined(file, () => new Database(file, { readonly: true, timeout: PATIENCE_MS })).close();
}

function prepareFolder(file: string): void {
  const folder = dirname(file);
  try {
    mkdirSync(folder, { recursive: true, mode: 0o700 });
  } catch (error) {
    throw unusable(folder, error, `The folder ${folder} for the store cannot be made`);
  }
}

function connect(file: string): Database.Database {
  const isNew = file !== ':memory:' && !existsSync(file);
  try {
    // customers' names are nobody else's, from the first byte; what lies beside the file gets its rights
    if (isNew) closeSync(openSync(file, 'a', 0o600));
    const database = new Database(file, { timeout: PATIENCE_MS });
    // a change is acknowledged only when it is on the disk; docs/store.md shows what was tried
    database.pragma('journal_mode = WAL');
    database.pragma('synchronous = FULL');
    database.pragma('foreign_keys = ON');
    // what is deleted is overwritten in the file
    database.pragma('secure_delete = ON');
    return database;
  } catch (error) {
    throw unusable(file, error, `The store ${file} cannot be opened for writing`);
  }
}

/**
 * A copy of a store of an earlier layout, before its layout is changed: what a step cannot read it leaves out. One that
 * lies there already is of the same store, from a step that did not come to its end, and stays.
 */
function copyAside(database: Database.Database, file: string): void {
  const layout = layoutOf(database);
  const copy = `${file}.before-layout-${newestLayout}`;
  if (layout === 0 || layout >= newestLayout || existsSync(copy)) return;
  database.prepare('vacuum into ?').run(copy);
  chmodSync(copy, 0o600);
}

/** Applies the steps that are missing, all or none, no other process beside it. */
async function bringUpToDate(database: Database.Database, db: Db, now: () => string): Promise<void> {
  database.exec('begin immediate');
  try {
    if (layoutOf(database) === 0 && !hasTable(database, 'layout_steps')) await makeLayoutSteps(db);
    await applyMissingSteps(db, now);
    if (database.pragma('application_id', { simple: true }) !== APPLICATION_ID) {
      database.pragma(`application_id = ${APPLICATION_ID}`);
    }
    database.exec('commit');
  } catch (error) {
    if (database.inTransaction) database.exec('rollback');
    throw error;
  }
}

/**
 * What was deleted is overwritten in the file; the log beside it holds it until the log is emptied. A program that reads may
 * put that off. PostgreSQL keeps house by itself (docs/workshop.md says what stays how long).
 */
export async function emptyLog(db: Db): Promise<void> {
  if (isPostgres(db)) return;
  await sql`pragma wal_checkpoint(truncate)`.execute(db).catch(() => undefined);
}

/**
 * Opens a store, making it where there is none.
 *
 * @param file path, or `:memory:` for one that is forgotten
 * @throws StoreError with one sentence; the file is as it was
 */
export async function openDatabase(file: string, now: () => string): Promise<Db> {
  if (file !== ':memory:') {
    if (existsSync(file)) {
      if (sizeOf(file) > 0) readable(file, () => examine(file));
    } else prepareFolder(file);
  }
  return ready(connect(file), file, now, file !== ':memory:');
}

/**
 * Opens a store to read from. Nothing is written, not even beside the file, which may lie where nothing can be written.
 *
 * While another process has the store open, what it last wrote lies beside the file in `-wal`, and is read through it.
 * Else the file is whole by itself and is taken into memory, where one of an earlier layout can be read by today's.
 *
 * @throws StoreError with one sentence
 */
export async function openDatabaseToRead(file: string, now: () => string): Promise<Db> {
  const bytes = wholeBytes(file);
  if (bytes === null) {
    const database = toLookAt(file, null);
    if (layoutOf(database) === newestLayout) return kysely(database);
    database.close();
    return openDatabase(file, now);
  }
  const database = bytes.length === 0 ? new Database(':memory:') : toLookAt(file, bytes);
  return ready(database, file, now, false);
}

/** A store to look at, also one of another layout: where it is whole by itself nothing is written, not even beside it. Throws a `StoreError`. */
export function openToLook(file: string): Database.Database {
  const bytes = wholeBytes(file);
  if (bytes?.length === 0) throw notOurs(file);
  return toLookAt(file, bytes);
}

const notOurs = (file: string): StoreError => new StoreError(`${file} is not a store of jobs. ${untouched}`);

const toLookAt = (file: string, bytes: Buffer | null): Database.Database =>
  examined(file, () =>
    bytes === null ? new Database(file, { readonly: true, timeout: PATIENCE_MS }) : new Database(bytes),
  );

/** A store that is whole by itself, as it is in memory; null for one that is open elsewhere, or too large for that. */
function wholeBytes(file: string): Buffer | null {
  const beside = `${file}-wal`;
  const isOpenElsewhere = () => existsSync(beside) && statSync(beside).size > 0;
  for (;;) {
    const size = sizeOf(file);
    if (size > 0 && readable(file, () => headerOf(file)) !== HEADER) throw notOurs(file);
    if (size > MOST_IN_MEMORY || isOpenElsewhere()) return null;
    const before = statSync(file);
    const bytes = readable(file, () => readFileSync(file));
    const after = statSync(file);
    // a process that opened it meanwhile may have written into it
    if (isOpenElsewhere() || before.mtimeMs !== after.mtimeMs || bytes.length !== after.size) continue;
    // what lies in memory has no journal beside it
    if (bytes.length > 0) bytes.fill(NO_WAL, ...JOURNAL_KIND);
    return bytes;
  }
}

function sizeOf(file: string): number {
  const stat = readable(file, () => statSync(file));
  if (stat.isDirectory()) throw new StoreError(`${file} is a folder; a store is one file.`);
  return stat.size;
}

function readable<T>(file: string, read: () => T): T {
  try {
    return read();
  } catch (error) {
    throw error instanceof StoreError ? error : unusable(file, error, `${file} cannot be read`);
  }
}

const kysely = (database: Database.Database): Db =>
  new Kysely<Tables>({ dialect: bounded(new SqliteDialect({ database })) });

/** @param onDisk whether a step of its layout is to be kept, with a copy of the file from before it */
async function ready(database: Database.Database, file: string, now: () => string, onDisk: boolean): Promise<Db> {
  const db = kysely(database);
  try {
    if (onDisk) copyAside(database, file);
    await bringUpToDate(database, db, now);
  } catch (error) {
    database.close();
    throw error instanceof StoreError ? error : unusable(file, error, `The store ${file} cannot be used`);
  }
  // from here on a wait stops everything else that this process does; longer ones are made of pauses (transaction.ts)
  database.pragma(`busy_timeout = ${SHORT_WAIT_MS}`);
  return db;
}
