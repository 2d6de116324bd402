/** Reading from one state of the store, and writing to it one at a time. */
import { type Kysely, sql, type Transaction } from 'kysely';
import { isPostgres } from './engine.ts';
import { WRITER } from './migrations.ts';
import { isAway, isCrossed } from './postgresPool.ts';
import { StoreAway } from './storeError.ts';
import type { Tables } from './tables.ts';
import { isBusy } from './unusable.ts';

/** How long a change waits for another process that is writing, ms. */
const PATIENCE_MS = 10_000;
const LONGEST_PAUSE_MS = 200;

export type Db = Kysely<Tables>;
export type Tx = Transaction<Tables>;

/** Where times and ids come from; tests give their own. */
export interface Origin {
  /** ISO 8601 in UTC */
  now(): string;
  newId(): string;
}

/** All reads inside see the same state of the store. */
export async function reading<T>(db: Db, work: (tx: Tx) => Promise<T>): Promise<T> {
  if (!isPostgres(db)) return db.transaction().execute(work);
  try {
    return await db.transaction().setIsolationLevel('repeatable read').setAccessMode('read only').execute(work);
  } catch (error) {
    throw isAway(error) ? new StoreAway(false) : error;
  }
}

/**
 * All or nothing, and only one writer at a time over all processes: the first statement takes the write lock, so that
 * what is read next cannot be changed by another process before it is written back.
 *
 * While another process writes, this one tries again after a pause in which it answers everybody else; after ten seconds
 * it gives up. When the promise resolves the change is on the disk.
 *
 * @throws StoreAway where PostgreSQL does not answer; it says whether that is known to have saved nothing
 */
export const writing = <T>(db: Db, work: (tx: Tx) => Promise<T>): Promise<T> => changing(db, work, true);

/**
 * All or nothing, beside other writers where the database has locks by the row: for claims, which take their rows one by one.
 *
 * @throws StoreAway as `writing` does
 */
export const claiming = <T>(db: Db, work: (tx: Tx) => Promise<T>): Promise<T> => changing(db, work, !isPostgres(db));

/** @param alone no other writer beside it, in all processes */
async function changing<T>(db: Db, work: (tx: Tx) => Promise<T>, alone: boolean): Promise<T> {
  const until = Date.now() + PATIENCE_MS;
  for (let pause = 10; ; pause = Math.min(LONGEST_PAUSE_MS, pause * 2)) {
    let toBeKept = false;
    try {
      return await db.transaction().execute(async (tx) => {
        if (alone) await takeTurn(tx);
        const answer = await work(tx);
        if (alone && isPostgres(db)) await tellListeners(tx);
        toBeKept = true;
        return answer;
      });
    } catch (error) {
      if (isAway(error)) throw new StoreAway(toBeKept ? null : false);
      if (!(isBusy(error) || isCrossed(error)) || Date.now() > until) throw error;
    }
    await new Promise((resolve) => setTimeout(resolve, pause));
  }
}

const takeTurn = (tx: Tx): Promise<unknown> =>
  tx
    .updateTable('settings')
    .set((column) => ({ value: column.ref('value') }))
    .where('name', '=', WRITER)
    .execute();

/** Everyone who listens hears of it when the change is kept, and not before. */
const tellListeners = (tx: Tx): Promise<unknown> =>
  sql`select pg_notify('platterside ' || current_schema(), '')`.execute(tx);
