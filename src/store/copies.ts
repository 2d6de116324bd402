/** Copies of a store while it is in use, a store looked through from end to end, and a copy put back in its place. */
import { randomBytes } from 'node:crypto';
import { chmodSync, closeSync, copyFileSync, existsSync, openSync, renameSync, rmSync } from 'node:fs';
import Database from 'better-sqlite3';
import { examine, openToLook } from './openDatabase.ts';
import { StoreError } from './storeError.ts';
import { isBusy, isDamaged, unusable } from './unusable.ts';

const beside = (file: string): readonly [log: string, index: string] => [`${file}-wal`, `${file}-shm`];

/**
 * Writes a whole copy of a store to `copy`, other programs going on with it meanwhile.
 *
 * @param copy a path at which nothing stands
 * @throws StoreError with one sentence; nothing is left at `copy` then
 */
export function copyStore(file: string, copy: string): void {
  openToLook(file).close();
  holdName(copy);
  const part = nameBeside(copy);
  try {
    wholeCopy(file, part);
    renameSync(part, copy);
  } catch (error) {
    rmSync(copy, { force: true });
    throw error instanceof StoreError ? error : unusable(copy, error, `${copy} cannot be written`);
  } finally {
    rmSync(part, { force: true });
  }
}

/** An empty file of ours, so that what comes there meanwhile is not replaced. */
function holdName(copy: string): void {
  try {
    closeSync(openSync(copy, 'wx', 0o600));
  } catch (error) {
    if ((error as { code?: string }).code !== 'EEXIST') throw unusable(copy, error, `${copy} cannot be written`);
    throw new StoreError(`${copy} is there already and is kept; give another name.`);
  }
}

/** A name in the same folder that nobody holds. */
const nameBeside = (file: string): string => `${file}.${randomBytes(9).toString('hex')}.part`;

/** All of a store, also what is still in its log, as one file of this account's. @param to a path at which nothing stands */
function wholeCopy(file: string, to: string): void {
  const database = openToLook(file);
  try {
    database.prepare('vacuum into ?').run(to);
  } finally {
    database.close();
  }
  chmodSync(to, 0o600);
  examine(to);
}

/**
 * Everything that is wrong with a store's file, one sentence each; empty where nothing is. Writes nothing.
 *
 * @throws StoreError when it is no store, or cannot be read at all
 */
export function faultsIn(file: string): readonly string[] {
  const database = openToLook(file);
  try {
    const pages = database.pragma('integrity_check(20)') as readonly { readonly integrity_check: string }[];
    const lost = database.pragma('foreign_key_check') as readonly { readonly table: string; readonly parent: string }[];
    return [
      ...pages.map((row) => row.integrity_check).filter((text) => text !== 'ok'),
      ...lost.map(({ table, parent }) => `a row of ${table} belongs to a row of ${parent} that is not there`),
    ];
  } catch (error) {
    throw unusable(file, error, `${file} cannot be read`);
  } finally {
    database.close();
  }
}

/**
 * Puts a copy in the place of a store. What stood there is kept beside it as `FILE.before-restore`, with its log where it is
 * damaged and the log cannot be taken in.
 *
 * @throws StoreError with one sentence when the copy is no store, or another program has the store open; all is as it was
 */
export function putBack(copy: string, file: string): void {
  openToLook(copy).close();
  const kept = `${file}.before-restore`;
  for (const there of [kept, ...beside(kept)])
    if (existsSync(there)) throw new StoreError(`${there} is there from an earlier restore; move it away first.`);
  const [log] = beside(file);
  const [fresh, heldLog] = [nameBeside(file), nameBeside(file)];
  const moved: (readonly [from: string, to: string])[] = [];
  const move = (from: string, to: string): void => {
    if (!existsSync(from)) return;
    renameSync(from, to);
    moved.push([from, to]);
  };
  try {
    // SQLite deletes a log of which it can make nothing
    if (existsSync(log)) copyFileSync(log, heldLog);
    const isWhole = !existsSync(file) || claim(file);
    if (!isWhole && !existsSync(log) && existsSync(heldLog)) renameSync(heldLog, log);
    wholeCopy(copy, fresh);
    // the log first: beside another file it would be taken for that one's
    for (const [place, end] of beside(file).entries()) move(end, beside(kept)[place]);
    move(file, kept);
    renameSync(fresh, file);
  } catch (error) {
    for (const [from, to] of moved.toReversed()) renameSync(to, from);
    throw error instanceof StoreError ? error : unusable(file, error, `${file} cannot be written`);
  } finally {
    for (const part of [fresh, heldLog]) rmSync(part, { force: true });
  }
}

/**
 * Takes the log of a store into its file, which only works while no other program has it open.
 *
 * @returns false for a damaged store, whose log cannot be taken in
 */
function claim(file: string): boolean {
  let database: Database.Database | null = null;
  try {
    database = new Database(file, { timeout: 0 });
    database.pragma('journal_mode = delete');
  } catch (error) {
    if (isDamaged(error)) return false;
    if (!isBusy(error)) throw unusable(file, error, `${file} cannot be opened`);
    throw new StoreError(`${file} is open in another program; stop it first. Nothing was changed.`);
  } finally {
    database?.close();
  }
  for (const other of beside(file)) {
    if (existsSync(other)) throw new StoreError(`${other} lies beside the store and belongs to another program.`);
  }
  return true;
}
