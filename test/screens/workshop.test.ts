/** Two benches with a page each on one store in PostgreSQL: what one changes the other shows, and nothing typed is lost while the database is away. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { apiPaths, jobSchema } from '../../src/core/job/api.ts';
import { demoArm } from '../../src/core/job/demoParts.ts';
import { leafChanges } from '../../src/core/job/leafPaths.ts';
import { RECORD_KIND } from '../../src/core/job/recordFile.ts';
import { type Cluster, startCluster } from '../../src/store/cluster.fixture.ts';
import { type Bench, openBench } from './bench.ts';
import { soon } from './settled.ts';

let cluster: Cluster;
let one: Bench;
let two: Bench;
beforeAll(async () => {
  cluster = await startCluster();
  const store = await cluster.empty();
  one = await openBench({ store, unfolded: true, serving: ['--bench', 'one'] });
  two = await openBench({ store, unfolded: true, serving: ['--bench', 'two'] });
}, 300_000);
afterAll(async () => {
  await one?.close();
  await two?.close();
  await cluster?.end();
});

const times: string[] = [];
/** Says how long it took until the page shows what was changed at the other bench. */
async function shown(what: string, change: () => Promise<unknown>, is: () => Promise<void>): Promise<void> {
  await change();
  const from = performance.now();
  await is();
  times.push(`${what} after ${Math.round(performance.now() - from)} ms`);
}
const rowOf = (page: Page, name: string) => page.locator('.part-list > li').filter({ hasText: name });

test('a job, a part and a record file that one bench writes down, changes and deletes are shown at the other by themselves', async () => {
  const jobs = await two.page('/jobs');
  await shown(
    'a job',
    () => one.ask('POST', apiPaths.jobs, { title: 'Job of bench one', deck: { name: 'deck of bench one' } }),
    () => jobs.locator('.jobs > li').filter({ hasText: 'Job of bench one' }).waitFor(),
  );
  const { id } = await one.ask('POST', apiPaths.jobs, { deck: { name: 'deck with a check' }, customer: 'owner C-9' });
  const typed = (station: 'intake' | 'hand-over', key: string, is: string) =>
    one.ask('PATCH', apiPaths.station(id, station), { changes: [{ path: [key], is }] });
  const checks = jobs.getByRole('row', { name: /deck with a check.*owner C-9/ });
  await shown(
    'a next check',
    () => typed('hand-over', 'dueDate', '2020-01-31'),
    () => checks.filter({ hasText: '2020-01-31' }).waitFor(),
  );
  await shown(
    'stylus hours',
    () => typed('intake', 'stylusHours', '321'),
    () =>
      jobs
        .getByRole('row', { name: /deck with a check.*321 h/ })
        .first()
        .waitFor(),
  );
  await shown(
    'a check that went with its job',
    () => one.ask('DELETE', apiPaths.job(id)),
    () => checks.waitFor({ state: 'detached' }),
  );
  await jobs.context().close();

  const chains = await two.page('/chains');
  const reference = {
    name: 'house transfer',
    record: { key: '0'.repeat(16), name: 'record of bench one' },
    certificate: 'C 12',
    expires: '2999-12-31',
  };
  await shown(
    'a reference recording',
    () => one.ask('PATCH', apiPaths.reference('a'.repeat(64)), { changes: leafChanges({}, reference) }),
    () => chains.getByRole('row', { name: /house transfer.*C 12/ }).waitFor(),
  );
  await chains.context().close();

  const parts = await two.page('/parts');
  const arm = { ...demoArm, name: 'arm of bench one' };
  const address = apiPaths.part('arm', 'arm-of-one');
  await shown(
    'a part',
    () => one.ask('PATCH', address, { changes: leafChanges({}, arm as never) }),
    () => rowOf(parts, 'arm of bench one').waitFor(),
  );
  await shown(
    'its new name',
    () => one.ask('PATCH', address, { changes: [{ path: ['name'], was: arm.name, is: 'arm, renamed' }] }),
    () => rowOf(parts, 'arm, renamed').waitFor(),
  );
  await shown(
    'its end',
    () => one.ask('DELETE', address),
    () => rowOf(parts, 'arm, renamed').waitFor({ state: 'detached' }),
  );
  await parts.context().close();

  const records = await two.page('/records');
  const record = {
    schema: 1,
    name: 'record of bench one',
    rpm: 33.333,
    bands: [{ signal: 'tone', motion: 'left', frequencyHz: 1000, peakVelocityCmS: 5, radiusMm: 138, durationS: 20 }],
  };
  await shown(
    'a record file',
    () => one.ask('PATCH', apiPaths.part(RECORD_KIND, 'record-of-one'), { changes: leafChanges({}, record as never) }),
    () => rowOf(records, 'record of bench one').waitFor(),
  );
  await records.context().close();
  console.log(times.join(', '));
});

test('the database stopped and started under two pages that type: a sentence, and then both see what both typed', async () => {
  const { id } = await one.ask('POST', apiPaths.jobs, { deck: { name: 'deck of both' } });
  const [here, there] = [await one.page(`/jobs/${id}/weigh`), await two.page(`/jobs/${id}/weigh`)];
  const gauge = (page: Page) => page.getByLabel('Gauge shows, g', { exact: true });
  const notes = (page: Page) => page.getByLabel('Notes at Weigh', { exact: true });
  await gauge(here).fill('1.82');
  await soon(() => gauge(there).inputValue()).toBe('1.82');
  await cluster.stop();
  await gauge(here).fill('1.84');
  await notes(there).fill('typed meanwhile');
  for (const page of [here, there]) {
    await page.getByText('The database of the store does not answer.', { exact: true }).waitFor();
    await page.getByText('Go on working:').waitFor();
  }
  expect(await gauge(here).inputValue()).toBe('1.84');
  await cluster.start();
  for (const page of [here, there]) {
    await soon(() => gauge(page).inputValue()).toBe('1.84');
    await soon(() => notes(page).inputValue()).toBe('typed meanwhile');
    await page.getByText('The database of the store does not answer.').waitFor({ state: 'detached' });
  }
  const job = jobSchema.parse(await two.ask('GET', apiPaths.job(id)));
  expect(job.stations.weigh.data).toMatchObject({ gauge: { reading: '1.84' }, notes: 'typed meanwhile' });
  for (const page of [here, there]) await page.context().close();
});
