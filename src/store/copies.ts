/** Copies of a store while it is in use, a store looked through from end to end, and a copy put back in its place. */
import { chmodSync, copyFileSync, existsSync, renameSync, rmSync } from 'node:fs';
import Database from 'better-sqlite3';
import { examine } from './openDatabase.ts';
import { StoreError } from './storeError.ts';
import { isBusy, unusable } from './unusable.ts';

const beside = (file: string): readonly string[] => [`${file}-wal`, `${file}-shm`];

/**
 * Writes a whole copy of a store to `copy`, other programs going on with it meanwhile.
 *
 * @param copy a path at which nothing stands
 * @throws StoreError with one sentence; nothing is left at `copy` then
 */
export function copyStore(file: string, copy: string): void {
  examine(file);
  if (existsSync(copy)) throw new StoreError(`${copy} is there already and is kept; give another name.`);
  const part = `${copy}.part`;
  const database = new Database(file, { readonly: true });
  try {
    rmSync(part, { force: true });
    database.prepare('vacuum into ?').run(part);
    chmodSync(part, 0o600);
    examine(part);
    renameSync(part, copy);
  } catch (error) {
    rmSync(part, { force: true });
    throw error instanceof StoreError ? error : unusable(copy, error, `${copy} cannot be written`);
  } finally {
    database.close();
  }
}

/**
 * Everything that is wrong with a store's file, one sentence each; empty where nothing is. Writes nothing.
 *
 * @throws StoreError when it is no store, or cannot be read at all
 */
export function faultsIn(file: string): readonly string[] {
  examine(file);
  const database = new Database(file, { readonly: true });
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
 * Puts a copy in the place of a store. What stood there is kept beside it as `FILE.before-restore`.
 *
 * @throws StoreError with one sentence when the copy is no store, or another program has the store open; all is as it was
 */
export function putBack(copy: string, file: string): void {
  examine(copy);
  const fresh = `${file}.restoring`;
  const kept = `${file}.before-restore`;
  if (existsSync(kept)) throw new StoreError(`${kept} is there from an earlier restore; move it away first.`);
  if (existsSync(file)) claim(file);
  try {
    copyFileSync(copy, fresh);
    chmodSync(fresh, 0o600);
    examine(fresh);
    if (existsSync(file)) renameSync(file, kept);
    renameSync(fresh, file);
  } catch (error) {
    rmSync(fresh, { force: true });
    if (!existsSync(file) && existsSync(kept)) renameSync(kept, file);
    throw error instanceof StoreError ? error : unusable(file, error, `${file} cannot be written`);
  }
}

/** Takes the log of a store into its file, which only works while no other program has it open. */
function claim(file: string): void {
  const database = new Database(file, { timeout: 0 });
  try {
    database.pragma('journal_mode = delete');
  } catch (error) {
    if (!isBusy(error)) throw unusable(file, error, `${file} cannot be opened`);
    throw new StoreError(`${file} is open in another program; stop it first. Nothing was changed.`);
  } finally {
    database.close();
  }
  for (const other of beside(file)) {
    if (existsSync(other)) throw new StoreError(`${other} lies beside the store and belongs to another program.`);
  }
}
