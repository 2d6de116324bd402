/** Reading from one state of the store, and writing to it one at a time. */
import type { Kysely, Transaction } from 'kysely';
import { WRITER } from './migrations.ts';
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
export const reading = <T>(db: Db, work: (tx: Tx) => Promise<T>): Promise<T> => db.transaction().execute(work);

/**
 * All or nothing, and only one writer at a time over all processes: the first statement takes the write lock, so that
 * what is read next cannot be changed by another process before it is written back.
 *
 * While another process writes, this one tries again after a pause in which it answers everybody else; after ten seconds
 * it gives up. When the promise resolves the change is on the disk.
 */
export async function writing<T>(db: Db, work: (tx: Tx) => Promise<T>): Promise<T> {
  const until = Date.now() + PATIENCE_MS;
  for (let pause = 10; ; pause = Math.min(LONGEST_PAUSE_MS, pause * 2)) {
    try {
      return await db.transaction().execute(async (tx) => {
        await tx
          .updateTable('settings')
          .set((column) => ({ value: column.ref('value') }))
          .where('name', '=', WRITER)
          .execute();
        return work(tx);
      });
    } catch (error) {
      if (!isBusy(error) || Date.now() > until) throw error;
    }
    await new Promise((resolve) => setTimeout(resolve, pause));
  }
}
