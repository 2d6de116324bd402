/** Empties the log beside a store's file when nobody has written for a while, so that whoever copies the file has nearly all in it. */
import { stat } from 'node:fs/promises';
import { emptyLog } from './openDatabase.ts';
import { isPostgresUrl } from './postgresPlace.ts';
import type { Db } from './transaction.ts';

const REST_MS = 30_000;

/** @param restMs how long nothing is written before it @returns what ends it */
export function emptyLogAtRest(db: Db, place: string, restMs: number = REST_MS): () => void {
  if (place === ':memory:' || isPostgresUrl(place)) return () => undefined;
  let emptying = false;
  const look = async (): Promise<void> => {
    if (emptying) return;
    emptying = true;
    try {
      const log = await stat(`${place}-wal`).catch(() => null);
      if (log !== null && log.size > 0 && Date.now() - log.mtimeMs >= restMs) await emptyLog(db);
    } finally {
      emptying = false;
    }
  };
  const timer = setInterval(look, restMs / 2);
  timer.unref();
  return () => clearInterval(timer);
}
