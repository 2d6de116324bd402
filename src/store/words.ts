/**
 * Words by which jobs are found, kept beside them: portable, and the same on every database. A deck's words stand once,
 * whatever the number of its jobs.
 */
import type { Kysely } from 'kysely';
import { searchWords } from '../core/job/searchWords.ts';
import type { DeckRow, JobRow, Tables } from './tables.ts';

type Db = Kysely<Tables>;
type WordOf = { readonly job_id: string; readonly deck_id: null } | { readonly job_id: null; readonly deck_id: string };

const ROWS_AT_ONCE = 200;

async function put(db: Db, text: string, of: WordOf): Promise<void> {
  const rows = searchWords(text).map((word) => ({ word, ...of }));
  for (let from = 0; from < rows.length; from += ROWS_AT_ONCE) {
    await db
      .insertInto('words')
      .values(rows.slice(from, from + ROWS_AT_ONCE))
      .execute();
  }
}

export async function findJobBy(db: Db, job: Pick<JobRow, 'id' | 'number' | 'title' | 'customer' | 'notes'>) {
  await db.deleteFrom('words').where('job_id', '=', job.id).execute();
  await put(db, [job.number, job.title, job.customer, job.notes].join(' '), { job_id: job.id, deck_id: null });
}

export async function findDeckBy(db: Db, deck: Pick<DeckRow, 'id' | 'name' | 'description'>) {
  await db.deleteFrom('words').where('deck_id', '=', deck.id).execute();
  await put(db, `${deck.name} ${deck.description}`, { job_id: null, deck_id: deck.id });
}
