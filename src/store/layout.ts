/** Brings a store's layout up to date, by the steps that are missing. Whoever calls holds off every other process. */
import { layoutSteps, newestLayout } from './migrations.ts';
import { StoreError } from './storeError.ts';
import type { Db, Tx } from './transaction.ts';

/** The steps that are missing, in order; `layout_steps` is there. */
export async function applyMissingSteps(db: Db | Tx, now: () => string): Promise<void> {
  const applied = await db.selectFrom('layout_steps').select('number').execute();
  const done = new Set(applied.map((row) => row.number));
  for (const step of layoutSteps) {
    if (done.has(step.number)) continue;
    await step.up(db);
    await db.insertInto('layout_steps').values({ number: step.number, name: step.name, applied_at: now() }).execute();
  }
}

export const makeLayoutSteps = (db: Db | Tx): Promise<void> =>
  db.schema
    .createTable('layout_steps')
    .addColumn('number', 'integer', (column) => column.primaryKey())
    .addColumn('name', 'text', (column) => column.notNull())
    .addColumn('applied_at', 'text', (column) => column.notNull())
    .execute();

/** @param place as a person names it @throws StoreError where a newer version wrote it */
export function refuseNewer(place: string, layout: number): void {
  if (layout <= newestLayout) return;
  throw new StoreError(
    `${place} was written by a newer version (its layout is ${layout}, this one knows up to ${newestLayout}). ` +
      'Bring this program up to date, or name another store with --store. Nothing was touched.',
  );
}
