/** Ten thousand jobs listed and searched: how long it takes is printed; asked are the number of statements and the way of each. */
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { Kysely, SqliteDialect } from 'kysely';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { type JobsQuery, jobListSchema } from '../core/job/api.ts';
import { listJobs } from '../store/jobList.ts';
import { fillStore } from '../store/manyJobs.fixture.ts';
import { readDueList } from '../store/nextChecks.ts';
import { scratchFolder } from '../store/scratch.fixture.ts';
import { openStore, type Store } from '../store/store.ts';
import type { Tables } from '../store/tables.ts';
import type { Tx } from '../store/transaction.ts';
import { createApp } from './app.ts';
import { doorWith } from './door.ts';
import { type Listening, listen } from './listen.ts';

const JOBS = 10_000;
const LOOKS = 7;
const KEY = '0'.repeat(32);
const folder = scratchFolder();
const file = join(folder.path, 'many.sqlite');
let store: Store;
let listening: Listening;
beforeAll(async () => {
  await fillStore(file, JOBS);
  store = await openStore(file);
  const app = createApp({
    store,
    page: new Map(),
    version: '0',
    port: () => listening.port,
    reportOf: () => '',
    door: doorWith(KEY),
  });
  listening = await listen(app, 0);
}, 60_000);
afterAll(async () => {
  await listening?.close();
  await store?.close();
  folder.remove();
});

const asked: readonly { name: string; query: JobsQuery; jobs: number }[] = [
  { name: 'first page', query: { limit: 30 }, jobs: 30 },
  { name: 'page in the middle', query: { limit: 100, before: 5000 }, jobs: 100 },
  { name: 'a rare word', query: { limit: 100, words: 'o77' }, jobs: 20 },
  { name: 'two common words', query: { limit: 100, words: 'own job' }, jobs: 100 },
];

it('are listed and searched over HTTP; the times are printed, the aim is 100 ms', async () => {
  for (const { name, query, jobs } of asked) {
    const words = new URLSearchParams(Object.entries(query).map(([key, value]) => [key, String(value)]));
    const times: number[] = [];
    const look = async (): Promise<void> => {
      const from = performance.now();
      const answer = await fetch(`${listening.address}api/jobs?${words}`, {
        headers: { authorization: `Bearer ${KEY}` },
      });
      const list = jobListSchema.parse(await answer.json());
      times.push(performance.now() - from);
      expect(list.jobs).toHaveLength(jobs);
    };
    await look();
    times.length = 0;
    const before = process.cpuUsage();
    for (let i = 0; i < LOOKS; i++) await look();
    const { user, system } = process.cpuUsage(before);
    times.sort((a, b) => a - b);
    console.log(
      `${JOBS} jobs over HTTP, ${name}: ${times[LOOKS >> 1].toFixed(1)} ms, at best ${times[0].toFixed(1)}, of the processor ${((user + system) / 1000 / LOOKS).toFixed(1)} (aim: 100)`,
    );
  }
});

it.each(['due', 'styli'])('a page of %s comes over HTTP; the times are printed', async (path) => {
  const before = process.cpuUsage();
  const times: number[] = [];
  for (let i = 0; i < LOOKS; i++) {
    const from = performance.now();
    const answer = await fetch(`${listening.address}api/${path}?limit=100`, {
      headers: { authorization: `Bearer ${KEY}` },
    });
    const list = await answer.json();
    times.push(performance.now() - from);
    expect(list[path]).toHaveLength(100);
    expect(list.next).toBeDefined();
  }
  const { user, system } = process.cpuUsage(before);
  console.log(
    `${JOBS} jobs over HTTP, a page of ${path}: at best ${Math.min(...times).toFixed(1)} ms, of the processor ${((user + system) / 1000 / LOOKS).toFixed(1)} (aim: 100)`,
  );
});

/** The number of statements that a question takes; none of them goes through a table. */
async function statementsOf(ask: (tx: Tx) => Promise<unknown>): Promise<number> {
  const database = new Database(file, { readonly: true });
  const said: { sql: string; parameters: readonly unknown[] }[] = [];
  const db = new Kysely<Tables>({
    dialect: new SqliteDialect({ database }),
    log: ({ query: { sql, parameters } }) => void said.push({ sql, parameters }),
  });
  await db.transaction().execute(ask);
  const statements = said.filter(({ sql }) => /^select/i.test(sql));
  for (const { sql, parameters } of statements) {
    const plan = database.prepare(`explain query plan ${sql}`).all(...parameters) as { detail: string }[];
    const through = plan.map(({ detail }) => detail).filter((detail) => /^SCAN /.test(detail));
    // newest first, the jobs come by the index of their numbers and end with the page
    expect(through.filter((detail) => !/^SCAN jobs USING INDEX/.test(detail))).toEqual([]);
    // nor are all rows put in order before the first few are told
    expect(plan.filter(({ detail }) => /^USE TEMP B-TREE/.test(detail) && !/\bIN\b|in \(/i.test(sql))).toEqual([]);
  }
  await db.destroy();
  return statements.length;
}

it.each(asked)('$name takes a few statements, and none goes through a table', async ({ query, jobs }) => {
  const words = query.words?.split(' ').length ?? 0;
  // jobs, decks, stations, recordings; and whether each word is rare
  expect(await statementsOf(async (tx) => expect((await listJobs(tx, query)).jobs).toHaveLength(jobs))).toBe(4 + words);
});

it.each([
  { name: 'first', after: undefined },
  { name: 'second', after: '2026-03-01_9500' },
])('the $name page of next checks takes a few statements, and none goes through a table', async ({ after }) => {
  const page = { limit: 100, ...(after === undefined ? {} : { after }) };
  // what is due and soon, by hours where that is not enough, and later; jobs and decks of the page; four counts
  expect(
    await statementsOf(async (tx) => expect((await readDueList(tx, '2026-05-20', page)).due).toHaveLength(100)),
  ).toBeLessThanOrEqual(8);
});
