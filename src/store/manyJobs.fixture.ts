/** For tests and timings: a store with very many jobs and decks, made by its own database, and the questions of a page asked of it. */
import { sql } from 'kysely';
import { stationNames } from '../core/job/station.ts';
import { openDatabase } from './openDatabase.ts';
import { openPostgres } from './openPostgres.ts';
import { isPostgresUrl } from './postgresPlace.ts';
import type { Store } from './store.ts';

const AT = '2026-03-04T09:00:00.000Z';

/** `count` jobs on a tenth as many decks, 500 owners; the store holds nothing before. */
export async function fillStore(place: string, count: number): Promise<void> {
  const now = () => AT;
  const db = await (isPostgresUrl(place) ? openPostgres(place, now) : openDatabase(place, now));
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
    // a stylus with hours in each, and a next check in the newest job of every tenth deck
    await sql`update stations set data_json = '{"cartridge":"C","stylusHours":"120"}' where station = 'intake'`.execute(
      tx,
    );
    await sql`update stations set data_json = '{"dueDate":"2026-06-01","dueHours":"500"}' where station = 'hand-over'
      and job_id in (select id from jobs where number > ${sql.lit(count - decks)} and number % 10 = 0)`.execute(tx);
    for (const word of [sql`'job'`, sql`'' || number`, sql`'owner'`, sql`'o' || (number % 500)`])
      await sql`insert into words (word, job_id) select ${word}, id from jobs`.execute(tx);
    for (const word of [sql`'deck'`, sql`substr(id, 2)`])
      await sql`insert into words (word, deck_id) select ${word}, id from decks`.execute(tx);
  });
  // what PostgreSQL's own housekeeping does within minutes
  if (isPostgresUrl(place)) await sql`analyze`.execute(db);
  await db.destroy();
}

/** Milliseconds of each question of a page, the best of a few. */
export async function askedOf(store: Store, count: number): Promise<ReadonlyMap<string, number>> {
  const middle = Math.ceil(count / 2);
  const questions: Readonly<Record<string, () => Promise<readonly unknown[]>>> = {
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
  const times = new Map<string, number>();
  for (const [name, ask] of Object.entries(questions)) {
    let best = Number.POSITIVE_INFINITY;
    for (let turn = 0; turn < 7; turn++) {
      const from = performance.now();
      const { length } = await ask();
      if (length === 0) throw new Error(`${name}: nothing was found`);
      best = Math.min(best, performance.now() - from);
    }
    times.set(name, best);
  }
  return times;
}

/** Milliseconds of what goes over many jobs, the best of three. */
export async function overviewsOf(store: Store): Promise<ReadonlyMap<string, number>> {
  const questions: Readonly<Record<string, () => Promise<unknown>>> = {
    'history of one deck': () => store.deckHistory('d7'),
    'next checks': async () => {
      if ((await store.dueList('2026-05-20')).due.length === 0) throw new Error('no check is due');
    },
    'stylus hours, all of them': async () => {
      if ((await store.stylusLedger()).styli.length === 0) throw new Error('no stylus was found');
    },
  };
  const times = new Map<string, number>();
  for (const [name, ask] of Object.entries(questions)) {
    let best = Number.POSITIVE_INFINITY;
    for (let turn = 0; turn < 3; turn++) {
      const from = performance.now();
      await ask();
      best = Math.min(best, performance.now() - from);
    }
    times.set(name, best);
  }
  return times;
}
