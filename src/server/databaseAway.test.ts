/** The database stopped and started while pages write: each refusal is a plain sentence, what was acknowledged is there, and what is sent again is kept once. */
import { afterAll, beforeAll, expect, it } from 'vitest';
import { apiPaths, type JobList } from '../core/job/api.ts';
import { until } from '../store/until.fixture.ts';
import { openTwoServers, type TwoServers } from './twoServers.fixture.ts';

const PAGES = 10;

let bench: TwoServers;
const failures: unknown[] = [];
beforeAll(async () => {
  bench = await openTwoServers((error) => failures.push(error));
});
afterAll(() => bench?.close());

async function everyJob(): Promise<JobList['jobs']> {
  const jobs: JobList['jobs'][number][] = [];
  for (let before: number | undefined; ; ) {
    const { body } = await bench.ask(
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
        const { status, body } = await bench.ask(place % 2, 'POST', apiPaths.jobs, wanted);
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
  await bench.cluster.stop();
  await until('a page was refused', () => refused.size > 0);
  const looked = await bench.ask(0, 'GET', apiPaths.jobs);
  expect([looked.status, looked.body.code]).toEqual([503, 'away']);
  await bench.cluster.start();
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
