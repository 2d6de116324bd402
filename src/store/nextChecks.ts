/**
 * Next checks, kept a row a deck and written anew in the transaction that changes what they rest on: the newest job of the deck,
 * its Hand over, and the styli of its jobs. The list is read by its index, however many jobs there are.
 */
import type { Kysely } from 'kysely';
import {
  type DueList,
  type DueQuery,
  type DueRow,
  dueCursor,
  dueState,
  expectedDay,
  soonUntil,
} from '../core/job/dueList.ts';
import { dueOf } from '../core/job/stations/handOver/due.ts';
import type { HandOverTyped } from '../core/job/stations/handOver.ts';
import { styliOf } from '../core/job/stylusHours.ts';
import { AT_ONCE, inParts, MOST_VISITS, realJobs, stylusFacts, typedAt } from './styli.ts';
import type { NextCheckRow, Tables } from './tables.ts';
import type { Tx } from './transaction.ts';

/** Where no day is known: before all days, and told apart from them in the index. */
const NO_DAY = '';

export async function makeNextChecks(db: Kysely<Tables>): Promise<void> {
  await db.schema
    .createTable('next_checks')
    .addColumn('deck_id', 'text', (column) => column.primaryKey().references('decks.id'))
    .addColumn('job_id', 'text', (column) => column.notNull().references('jobs.id'))
    .addColumn('number', 'integer', (column) => column.notNull())
    .addColumn('due_date', 'text')
    .addColumn('due_hours', 'double precision')
    .addColumn('stylus_hours', 'double precision')
    .addColumn('expected', 'text', (column) => column.notNull())
    .execute();
  await db.schema.createIndex('next_checks_by_day').on('next_checks').columns(['expected', 'number desc']).execute();
  await db.schema.createIndex('next_checks_by_job').on('next_checks').column('job_id').execute();
}

const checkKeys = ['dueHours', 'dueDate'] as const satisfies readonly (keyof HandOverTyped)[];

/** What the jobs of the deck say now; null where its newest one sets no check. */
async function nextCheckOf(tx: Tx, deck: string): Promise<NextCheckRow | null> {
  const jobs = await realJobs(tx)
    .select(['id', 'number', 'created_at'])
    .where('deck_id', '=', deck)
    .orderBy('number', 'desc')
    .limit(MOST_VISITS)
    .execute();
  const [newest] = jobs;
  if (newest === undefined) return null;
  const typed = await typedAt<HandOverTyped>(tx, 'hand-over', checkKeys, [newest.id]);
  const { date, hours } = dueOf(typed.get(newest.id) ?? {});
  if (date === null && hours === null) return null;
  const styli = styliOf(
    await stylusFacts(
      tx,
      jobs.map((row) => ({ row, deck: { id: deck, name: '' } })),
    ),
  );
  const stylus = styli.find(({ fitted }) => fitted);
  return {
    deck_id: deck,
    job_id: newest.id,
    number: newest.number,
    due_date: date,
    due_hours: hours,
    stylus_hours: stylus?.hours ?? null,
    expected: expectedDay({ date, hours }, stylus) ?? NO_DAY,
  };
}

/** Writes the next check of the deck anew: after every change of what it rests on. */
export async function keepNextCheck(tx: Tx, deck: string): Promise<void> {
  const row = await nextCheckOf(tx, deck);
  await tx.deleteFrom('next_checks').where('deck_id', '=', deck).execute();
  if (row !== null) await tx.insertInto('next_checks').values(row).execute();
}

export async function keepNextCheckOfJob(tx: Tx, job: string): Promise<void> {
  const row = await tx.selectFrom('jobs').select('deck_id').where('id', '=', job).executeTakeFirst();
  if (row !== undefined) await keepNextCheck(tx, row.deck_id);
}

/** Of every deck, in a store that kept none yet. */
export async function keepAllNextChecks(tx: Tx): Promise<void> {
  const set = [...(await typedAt<HandOverTyped>(tx, 'hand-over', checkKeys, null)).keys()];
  const decks = new Set<string>();
  for (let from = 0; from < set.length; from += AT_ONCE) {
    const some = set.slice(from, from + AT_ONCE);
    for (const { deck_id } of await tx.selectFrom('jobs').select('deck_id').where('id', 'in', some).execute())
      decks.add(deck_id);
  }
  for (const deck of decks) await keepNextCheck(tx, deck);
}

/** The list has three parts, each in the order of its index: due and soon, by hours, later. */
function partsOf(tx: Tx, today: string) {
  const rows = tx.selectFrom('next_checks').selectAll().orderBy('expected').orderBy('number', 'desc');
  const soon = soonUntil(today);
  return [
    rows.where('expected', '>', NO_DAY).where('expected', '<=', soon),
    rows.where('expected', '=', NO_DAY),
    rows.where('expected', '>', soon),
  ];
}

const placeOf = (expected: string, today: string): number =>
  expected === NO_DAY ? 1 : expected <= soonUntil(today) ? 0 : 2;

async function rowsOf(tx: Tx, today: string, { limit, after }: DueQuery): Promise<readonly NextCheckRow[]> {
  const parts = partsOf(tx, today);
  const found: NextCheckRow[] = [];
  let from = 0;
  if (after !== undefined) {
    const [, expected = NO_DAY, number] = dueCursor.exec(after) ?? [];
    from = placeOf(expected, today);
    parts[from] = parts[from]
      // said once alone, so that the index is entered at its place
      .where('expected', '>=', expected)
      .where((row) => row.or([row('expected', '>', expected), row('number', '<', Number(number))]));
  }
  for (const part of parts.slice(from)) {
    if (found.length >= limit) break;
    found.push(...(await part.limit(limit - found.length).execute()));
  }
  return found;
}

async function countsOf(tx: Tx, today: string): Promise<DueList['counts']> {
  const count = async (low: string | null, high: string | null): Promise<number> => {
    let query = tx.selectFrom('next_checks').select((row) => row.fn.countAll().as('n'));
    if (low !== null) query = query.where('expected', '>', low);
    if (high !== null) query = query.where('expected', '<=', high);
    return Number((await query.executeTakeFirstOrThrow()).n);
  };
  const soon = soonUntil(today);
  return {
    due: await count(NO_DAY, today),
    soon: await count(today, soon),
    byHours: await count(null, NO_DAY),
    later: await count(soon, null),
  };
}

/**
 * What the newest job of each deck says of its next check, due ones first.
 *
 * @param today in the bench's own zone, 2027-03-01
 */
export async function readDueList(tx: Tx, today: string, query: DueQuery = { limit: 100 }): Promise<DueList> {
  const { limit } = query;
  // one more than asked for tells whether there is another page
  const rows = await rowsOf(tx, today, { ...query, limit: limit + 1 });
  const wanted = rows.slice(0, limit);
  const told = await inParts(
    wanted.map(({ job_id }) => job_id),
    (ids) =>
      tx
        .selectFrom('jobs')
        .innerJoin('decks', 'decks.id', 'jobs.deck_id')
        .select(['jobs.id', 'jobs.customer', 'decks.name'])
        .where('jobs.id', 'in', ids)
        .execute(),
  );
  const of = new Map(told.map((row) => [row.id, row]));
  const due = wanted.map((row): DueRow => {
    const expected = row.expected === NO_DAY ? null : row.expected;
    return {
      deck: { id: row.deck_id, name: of.get(row.job_id)?.name ?? '' },
      job: { id: row.job_id, number: row.number },
      owner: of.get(row.job_id)?.customer ?? '',
      date: row.due_date,
      hours: row.due_hours,
      stylusHours: row.stylus_hours,
      expected,
      state: dueState(expected, today),
    };
  });
  const list = { today, due, counts: await countsOf(tx, today) };
  const last = wanted.at(-1);
  return rows.length > limit && last !== undefined ? { ...list, next: `${last.expected}_${last.number}` } : list;
}
