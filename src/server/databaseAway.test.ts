/** The database stopped and started while pages write: each refusal is a plain sentence, what was acknowledged is there, and what is sent again is kept once. */
import { afterAll, beforeAll, expect, it } from 'vitest';
import { apiPaths, type JobList } from '../core/job/api.ts';
import { type Cluster, startCluster } from '../store/cluster.fixture.ts';
import { openStore, type Store } from '../store/store.ts';
import { createApp } from './app.ts';
import { doorWith } from './door.ts';

const KEY = 'k'.repeat(43);
const PAGES = 10;
/** how long any of it may take on a machine that has much else to do, ms */
const PATIENCE_MS = 120_000;

let cluster: Cluster;
let stores: Store[] = [];
let servers: ReturnType<typeof createApp>[];
const failures: unknown[] = [];
beforeAll(async () => {
  cluster = await startCluster();
  const place = await cluster.empty();
  stores = [await openStore(place, undefined, 'one'), await openStore(place, undefined, 'two')];
  servers = stores.map((store) =>
    createApp({
      store,
      page: new Map(),
      version: '0',
      port: () => 4133,
      door: doorWith(KEY),
      reportOf: () => '',
      onFailure: (error) => failures.push(error),
    }),
  );
});
afterAll(async () => {
  for (const store of stores) await store.close();
  await cluster?.end();
});

const headers = { host: '127.0.0.1:4133', authorization: `Bearer ${KEY}`, 'content-type': 'application/json' };
const ask = async (server: number, method: string, path: string, body?: unknown) => {
  const answer = await servers[server].request(`http://127.0.0.1:4133${path}`, {
    method,
    headers,
    ...(body === undefined ? {} : { body: JSON.stringify(body) }),
  });
  return { status: answer.status, body: await answer.json() };
};

async function until(what: string, ready: () => boolean): Promise<void> {
  for (const end = Date.now() + PATIENCE_MS; !ready(); ) {
    if (Date.now() > end) throw new Error(`waited in vain until ${what}`);
    await new Promise((resolve) => setTimeout(resolve, 10));
  }
}

async function everyJob(): Promise<JobList['jobs']> {
  const jobs: JobList['jobs'][number][] = [];
  for (let before: number | undefined; ; ) {
    const { body } = await ask(
      1,
      'GET',
      `${apiPaths.jobs}?limit=200${before === undefined ? '' : `&before=${before}`}`,
    );
    jobs.push(...body.jobs);
    before = body.next;
    if (before === undefined) return jobs;
  }
}

it('ten pages at two servers go on writing through it', async () => {
  const acknowledged = new Set<string>();
  const refused = new Map<string, number>();
  let stop = false;
  const page = async (place: number): Promise<void> => {
    for (let count = 0; !stop; count++) {
      const wanted = { id: `page-${place}-${count}`, deck: { name: `deck ${place}` } };
      for (let sent = false; !sent; ) {
        const { status, body } = await ask(place % 2, 'POST', apiPaths.jobs, wanted);
        sent = status === 200 || status === 201;
        if (sent) acknowledged.add(body.id);
        else {
          refused.set(
            `${status} ${body.code}: ${body.error}`,
            (refused.get(`${status} ${body.code}: ${body.error}`) ?? 0) + 1,
          );
          await new Promise((resolve) => setTimeout(resolve, 20));
        }
      }
    }
  };
  const pages = Array.from({ length: PAGES }, (_, place) => page(place));
  await until('every page has written', () => acknowledged.size > 2 * PAGES);
  await cluster.stop();
  await until('a page was refused', () => refused.size > 0);
  const looked = await ask(0, 'GET', apiPaths.jobs);
  expect([looked.status, looked.body.code]).toEqual([503, 'away']);
  await cluster.start();
  const before = acknowledged.size;
  await until('the pages write again', () => acknowledged.size > before + 2 * PAGES);
  stop = true;
  await Promise.all(pages);
  for (const sentence of refused.keys())
    expect(sentence).toMatch(/^503 away: .*(nothing was saved by this|it is not known whether this was saved)/);
  const jobs = await everyJob();
  const ids = jobs.map(({ id }) => id);
  expect([...acknowledged].filter((id) => !ids.includes(id))).toEqual([]);
  expect([ids.length, new Set(jobs.map(({ number }) => number)).size]).toEqual([acknowledged.size, acknowledged.size]);
  expect(failures.filter((error) => !/does not answer|went away/.test(String(error)))).toEqual([]);
});
