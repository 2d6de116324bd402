/** Ten thousand jobs listed and searched: how long it takes is printed; asked are the number of statements and the way of each. */
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { Kysely, SqliteDialect } from 'kysely';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { type JobsQuery, jobListSchema } from '../core/job/api.ts';
import { listJobs } from '../store/jobList.ts';
import { fillStore } from '../store/manyJobs.fixture.ts';
import { scratchFolder } from '../store/scratch.fixture.ts';
import { openStore, type Store } from '../store/store.ts';
import type { Tables } from '../store/tables.ts';
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

it.each(asked)('$name takes a few statements, and none goes through a table', async ({ query, jobs }) => {
  const database = new Database(file, { readonly: true });
  const said: { sql: string; parameters: readonly unknown[] }[] = [];
  const db = new Kysely<Tables>({
    dialect: new SqliteDialect({ database }),
    log: ({ query: { sql, parameters } }) => void said.push({ sql, parameters }),
  });
  const list = await db.transaction().execute((tx) => listJobs(tx, query));
  expect(list.jobs).toHaveLength(jobs);
  const statements = said.filter(({ sql }) => /^select/i.test(sql));
  const words = query.words?.split(' ').length ?? 0;
  // jobs, decks, stations, recordings; and whether each word is rare
  expect(statements).toHaveLength(4 + words);
  for (const { sql, parameters } of statements) {
    const plan = database.prepare(`explain query plan ${sql}`).all(...parameters) as { detail: string }[];
    const through = plan.map(({ detail }) => detail).filter((detail) => /^SCAN /.test(detail));
    // newest first, the jobs come by the index of their numbers and end with the page
    expect(through.filter((detail) => !/^SCAN jobs USING INDEX/.test(detail))).toEqual([]);
  }
  await db.destroy();
});
