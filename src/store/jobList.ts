/** Jobs by the page, newest number first, all of them or those of a deck or with certain words; and one deleted. */
import { type JobDeleted, type JobList, type JobsQuery, jobSummarySchema } from '../core/job/api.ts';
import { checkSentence } from '../core/job/checkSentence.ts';
import { searchWords } from '../core/job/searchWords.ts';
import { found, type Held } from './answers.ts';
import { noJob } from './changeJob.ts';
import { keepNextCheck } from './nextChecks.ts';
import { jobRow } from './readJob.ts';
import { asideOf, deckOf } from './rows.ts';
import { forgetLast } from './settings.ts';
import type { JobRow } from './tables.ts';
import type { Tx } from './transaction.ts';

/** Jobs whose statuses are fetched at once; a statement may bind a few thousand values. */
const ROWS_AT_ONCE = 500;
/** Up to so many places a word is rare. */
const MOST_RARE = 1000;
/** after every letter that a word may hold */
export const LAST = '\u{10ffff}';

/** Whether few words begin so: then their few jobs are gone through; of a common one's many, only as many as the page shows. */
export async function isRare(tx: Tx, word: string): Promise<boolean> {
  const found = tx
    .selectFrom('words')
    .select('word')
    .where('word', '>=', word)
    .where('word', '<', word + LAST);
  return (await found.limit(MOST_RARE).execute()).length < MOST_RARE;
}

async function rowsOf(tx: Tx, { deck, words = '', before, limit, aside }: JobsQuery): Promise<JobRow[]> {
  let query = tx.selectFrom('jobs').selectAll().orderBy('number', 'desc');
  if (deck !== undefined) query = query.where('deck_id', '=', deck);
  if (aside !== undefined) query = query.where('set_aside_at', 'is', null);
  if (before !== undefined) query = query.where('number', '<', before);
  if (limit !== undefined) query = query.limit(limit);
  for (const word of searchWords(words)) {
    const rare = await isRare(tx, word);
    // a limit keeps PostgreSQL from going through all of a common word first
    query = query.where((where) => {
      const beginning = where
        .selectFrom('words')
        .where('word', '>=', word)
        .where('word', '<', word + LAST);
      return rare
        ? where.or([
            where('jobs.id', 'in', beginning.select('words.job_id').$castTo<{ job_id: string }>()),
            where('jobs.deck_id', 'in', beginning.select('words.deck_id').$castTo<{ deck_id: string }>()),
          ])
        : where.or([
            where(beginning.select('word').whereRef('words.job_id', '=', 'jobs.id').limit(1), 'is not', null),
            where(beginning.select('word').whereRef('words.deck_id', '=', 'jobs.deck_id').limit(1), 'is not', null),
          ]);
    });
  }
  return query.execute();
}

async function summaries(tx: Tx, rows: readonly JobRow[]): Promise<JobList> {
  const ids = rows.map(({ id }) => id);
  const deckIds = [...new Set(rows.map(({ deck_id }) => deck_id))];
  const decks = new Map(
    (await tx.selectFrom('decks').selectAll().where('id', 'in', deckIds).execute()).map((row) => [row.id, deckOf(row)]),
  );
  const statuses = new Map<string, Record<string, string>>();
  const stations = await tx
    .selectFrom('stations')
    .select(['job_id', 'station', 'status'])
    .where('job_id', 'in', ids)
    .execute();
  for (const { job_id, station, status } of stations) {
    const known = statuses.get(job_id) ?? {};
    known[station] = status;
    statuses.set(job_id, known);
  }
  const counts = await tx
    .selectFrom('captures')
    .select(['job_id', (column) => column.fn.countAll().as('n')])
    .where('job_id', 'in', ids)
    .groupBy('job_id')
    .execute();
  // some databases give counts as text
  const captures = new Map(counts.map((row) => [row.job_id, Number(row.n)]));
  const list: JobList = { jobs: [], unreadable: [] };
  for (const row of rows) {
    const summary = jobSummarySchema.safeParse({
      id: row.id,
      number: row.number,
      title: row.title,
      deck: decks.get(row.deck_id),
      customer: row.customer,
      createdAt: row.created_at,
      updatedAt: row.updated_at,
      stations: statuses.get(row.id),
      captures: captures.get(row.id) ?? 0,
      setAside: asideOf(row),
    });
    if (summary.success) list.jobs.push(summary.data);
    else list.unreadable.push({ id: String(row.id), number: Number(row.number), why: checkSentence(summary.error) });
  }
  return list;
}

/** Newest number first. A row that cannot be read is listed with its reason and hides no other. */
export async function listJobs(tx: Tx, query: JobsQuery = {}): Promise<JobList> {
  const { limit } = query;
  // one more than asked for tells whether there is another page
  const rows = await rowsOf(tx, limit === undefined ? query : { ...query, limit: limit + 1 });
  const wanted = limit === undefined ? rows : rows.slice(0, limit);
  const list: JobList = { jobs: [], unreadable: [] };
  for (let from = 0; from < wanted.length; from += ROWS_AT_ONCE) {
    const { jobs, unreadable } = await summaries(tx, wanted.slice(from, from + ROWS_AT_ONCE));
    list.jobs.push(...jobs);
    list.unreadable.push(...unreadable);
  }
  return rows.length > wanted.length ? { ...list, next: wanted[wanted.length - 1].number } : list;
}

/** A job with everything that hangs on it; its deck too where it was the deck's only job. */
export async function deleteJob(tx: Tx, id: string): Promise<Held<JobDeleted>> {
  const row = await jobRow(tx, id);
  if (row === undefined) return noJob(id);
  const captures = tx.selectFrom('captures').select('id').where('job_id', '=', id);
  const advice = tx.selectFrom('advice').select('id').where('job_id', '=', id);
  await tx.deleteFrom('advice_checks').where('advice_id', 'in', advice).execute();
  await tx.deleteFrom('advice').where('job_id', '=', id).execute();
  await tx.deleteFrom('findings').where('capture_id', 'in', captures).execute();
  const [{ numDeletedRows }] = await tx.deleteFrom('captures').where('job_id', '=', id).execute();
  await tx.deleteFrom('photographs').where('job_id', '=', id).execute();
  await tx.deleteFrom('fittings').where('job_id', '=', id).execute();
  await tx.deleteFrom('words').where('job_id', '=', id).execute();
  await tx.deleteFrom('chain_jobs').where('job_id', '=', id).execute();
  await tx.deleteFrom('next_checks').where('job_id', '=', id).execute();
  await tx.deleteFrom('stations').where('job_id', '=', id).execute();
  await tx.deleteFrom('jobs').where('id', '=', id).execute();
  const other = await tx.selectFrom('jobs').select('id').where('deck_id', '=', row.deck_id).limit(1).executeTakeFirst();
  if (other === undefined) {
    await tx.deleteFrom('words').where('deck_id', '=', row.deck_id).execute();
    await tx.deleteFrom('decks').where('id', '=', row.deck_id).execute();
  } else await keepNextCheck(tx, row.deck_id);
  await forgetLast(tx, id);
  return found({ number: row.number, recordings: Number(numDeletedRows), deckKept: other !== undefined });
}
