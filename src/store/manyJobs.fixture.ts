/** For tests and timings: a store with very many jobs and decks, made by its own database, and the questions of a page asked of it. */
import { sql } from 'kysely';
import { stationNames } from '../core/job/station.ts';
import { keepAllNextChecks } from './nextChecks.ts';
import { openDatabase } from './openDatabase.ts';
import { openPostgres } from './openPostgres.ts';
import { isPostgresUrl } from './postgresPlace.ts';
import type { Store } from './store.ts';

/** hundreds of thousands of rows in one statement */
const FILLING_MS = 3_600_000;
const AT = '2026-03-04T09:00:00.000Z';

/** `count` jobs on a tenth as many decks, 500 owners; the store holds nothing before. */
export async function fillStore(place: string, count: number): Promise<void> {
  const now = () => AT;
  const db = await (isPostgresUrl(place)
    ? openPostgres(`${place}&query_timeout=${FILLING_MS}`, now)
    : openDatabase(place, now));
  const numbers = (to: number) =>
    sql`with recursive n(i) as (select 1 union all select i + 1 from n where i < ${sql.lit(to)})`;
  const decks = Math.ceil(count / 10);
  await db.transaction().execute(async (tx) => {
    await sql`insert into decks (id, name, plain, description, created_at)
      ${numbers(decks)} select 'd' || i, 'Deck ' || i, 'deck ' || i, '', ${AT} from n`.execute(tx);
    await sql`insert into jobs (id, number, title, deck_id, customer, notes, created_at, updated_at, revision)
      ${numbers(count)} select 'j' || i, i, 'Job ' || i, 'd' || (1 + i % ${sql.lit(decks)}), 'owner ' || (i % 500), '', ${AT}, ${AT}, 0 from n`.execute(
      tx,
    );
    for (const station of stationNames) {
      await sql`insert into stations (job_id, station, status, data_json, revision, updated_at)
        select id, ${sql.lit(station)}, 'untouched', '{}', 0, created_at from jobs`.execute(tx);
    }
    // a stylus with hours in each, and a next check in the newest job of every deck
    await sql`update stations set data_json = '{"cartridge":"C","stylusHours":"120"}' where station = 'intake'`.execute(
      tx,
    );
    await sql`update stations set data_json = '{"dueDate":"2026-0' || (1 + cast(substr(job_id, 2) as integer) % 9) || '-01","dueHours":"500"}' where station = 'hand-over'
      and job_id in (select id from jobs where number > ${sql.lit(count - decks)})`.execute(tx);
    for (const word of [sql`'job'`, sql`'' || number`, sql`'owner'`, sql`'o' || (number % 500)`])
      await sql`insert into words (word, job_id) select ${word}, id from jobs`.execute(tx);
    for (const word of [sql`'deck'`, sql`substr(id, 2)`])
      await sql`insert into words (word, deck_id) select ${word}, id from decks`.execute(tx);
    await keepAllNextChecks(tx);
  });
  // what PostgreSQL's own housekeeping does within minutes
  if (isPostgresUrl(place)) await sql`analyze`.execute(db);
  await db.destroy();
}

type Questions = Readonly<Record<string, () => Promise<readonly unknown[]>>>;

/** ms by the clock, and of this process's processor time, which tells more where the machine has much else to do */
export interface Took {
  readonly ms: number;
  readonly processor: number;
}

/** The best of so many turns. */
async function timesOf(questions: Questions, turns: number): Promise<ReadonlyMap<string, Took>> {
  const times = new Map<string, Took>();
  for (const [name, ask] of Object.entries(questions)) {
    const best = { ms: Number.POSITIVE_INFINITY, processor: Number.POSITIVE_INFINITY };
    for (let turn = 0; turn < turns; turn++) {
      const [from, before] = [performance.now(), process.cpuUsage()];
      const { length } = await ask();
      if (length === 0) throw new Error(`${name}: nothing was found`);
      const { user, system } = process.cpuUsage(before);
      best.ms = Math.min(best.ms, performance.now() - from);
      best.processor = Math.min(best.processor, (user + system) / 1000);
    }
    times.set(name, best);
  }
  return times;
}

/** How long each question of a page takes. */
export async function askedOf(store: Store, count: number): Promise<ReadonlyMap<string, Took>> {
  const middle = Math.ceil(count / 2);
  const questions: Questions = {
    'first page of jobs': async () => (await store.jobs({ limit: 100 })).jobs,
    'page of jobs in the middle': async () => (await store.jobs({ limit: 100, before: middle })).jobs,
    'search, a rare word': async () => (await store.jobs({ limit: 100, words: 'o77' })).jobs,
    'search, two common ones': async () => (await store.jobs({ limit: 100, words: 'own job' })).jobs,
    'search, a number': async () => (await store.jobs({ limit: 100, words: String(middle) })).jobs,
    'jobs of one deck': async () => (await store.jobs({ limit: 100, deck: 'd7' })).jobs,
    'first page of decks': async () => (await store.decks({ limit: 100 })).decks,
    'page of decks in the middle': async () => (await store.decks({ limit: 100, after: 'd5' })).decks,
    'the deck of a name': async () => (await store.decks({ named: 'deck 9' })).decks,
    'decks, a common word': async () => (await store.decks({ limit: 100, words: 'de' })).decks,
  };
  return timesOf(questions, 7);
}

/** How long what goes over many jobs takes. */
export async function overviewsOf(store: Store, count: number): Promise<ReadonlyMap<string, Took>> {
  // the newest job of each deck is among the last tenth
  const newer = count - Math.ceil(count / 20);
  const questions: Questions = {
    'history of one deck': async () => [await store.deckHistory('d7')],
    'next checks, first page': async () => (await store.dueList('2026-05-20', { limit: 100 })).due,
    'next checks, a page further on': async () =>
      (await store.dueList('2026-05-20', { limit: 100, after: `2026-06-01_${newer}` })).due,
    'stylus hours, first page': async () => (await store.stylusLedger({ limit: 100 })).styli,
    'stylus hours, a page in the middle': async () => (await store.stylusLedger({ limit: 100, before: newer })).styli,
  };
  return timesOf(questions, 3);
}
