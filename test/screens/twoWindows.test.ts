/** Two windows on one job, and a window whose server is gone: nothing typed is lost, nothing is overwritten unasked. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { apiPaths, type Job, jobSchema } from '../../src/core/job/api.ts';
import { type Bench, openBench } from './bench.ts';
import { settled, soon } from './settled.ts';

let bench: Bench;
let id: string;
const stored = async (): Promise<Job> => jobSchema.parse(await bench.ask('GET', apiPaths.job(id)));
const weigh = async () => (await stored()).stations.weigh.data;
const field = (page: Page, label: string) => page.getByLabel(label, { exact: true });

/** A page that is told of nothing meanwhile, as when two people type at one moment. */
const unheard = async (path: string): Promise<Page> => {
  const context = await bench.context();
  await context.route('**/api/changes*', (route) => route.fulfill({ status: 204 }));
  const page = await context.newPage();
  await page.goto(bench.address + path);
  await settled(page);
  return page;
};
const windows = async (station: string): Promise<[Page, Page]> => [
  await unheard(`/jobs/${id}/${station}`),
  await unheard(`/jobs/${id}/${station}`),
];
const close = async (...pages: Page[]) => {
  for (const page of pages) await page.context().close();
};

beforeAll(async () => {
  bench = await openBench({ unfolded: true });
  ({ id } = await bench.ask('POST', apiPaths.jobs, { deck: { name: 'deck of two windows' } }));
});
afterAll(() => bench?.close());

test('a gauge reading typed in one window does not drop the height stored by the other', async () => {
  const [one, two] = await windows('weigh');
  await field(one, 'Gauge shows, g').fill('1.82');
  await soon(async () => (await weigh()).gauge).toEqual({ reading: '1.82' });
  await field(two, 'Tip on the gauge, over its place on a record, mm').fill('5');
  await soon(async () => (await weigh()).gauge).toEqual({ reading: '1.82', height: '5' });
  expect(await one.getByRole('alert').filter({ hasText: 'Changed in another window' }).count()).toBe(0);
  await soon(() => field(two, 'Gauge shows, g').inputValue()).toBe('1.82');
  await close(one, two);
});

test('the same field typed in both: both values are shown, and a person chooses', async () => {
  const [one, two] = await windows('weigh');
  await field(one, 'Gauge shows, g').fill('1.85');
  await soon(async () => (await weigh()).gauge).toMatchObject({ reading: '1.85' });
  await field(two, 'Gauge shows, g').fill('1.91');
  await field(two, 'Notes at Weigh').fill('typed beside it');
  // what is not at odds is saved meanwhile
  await soon(async () => (await weigh()).notes).toBe('typed beside it');
  expect((await weigh()).gauge).toMatchObject({ reading: '1.85' });
  await two.getByRole('button', { name: 'Take the other: “1.85”' }).waitFor();
  await two.getByRole('button', { name: 'Keep yours: “1.91”' }).click();
  await soon(async () => (await weigh()).gauge).toMatchObject({ reading: '1.91' });
  await field(one, 'Gauge shows, g').fill('1.99');
  await one.getByRole('button', { name: 'Take the other: “1.91”' }).click();
  await soon(() => field(one, 'Gauge shows, g').inputValue()).toBe('1.91');
  await settled(one);
  expect((await weigh()).gauge).toMatchObject({ reading: '1.91' });
  await close(one, two);
});

test('a change made elsewhere is shown by itself, and what is being typed beside it stays', async () => {
  const page = await bench.page(`/jobs/${id}/weigh`);
  await bench.ask('PATCH', apiPaths.station(id, 'weigh'), {
    changes: [{ path: ['notes'], was: 'typed beside it', is: 'from afar' }],
  });
  await soon(() => field(page, 'Notes at Weigh').inputValue()).toBe('from afar');
  expect(await page.getByRole('alert').filter({ hasText: 'Changed in another window' }).count()).toBe(0);
  await close(page);
});

test('the job’s own fields: title in one window, owner in the other, both stay', async () => {
  const [one, two] = await windows('intake');
  await one.getByLabel('Job', { exact: true }).fill('a title from one window');
  await soon(async () => (await stored()).title).toBe('a title from one window');
  await two.getByRole('textbox', { name: 'Owner' }).fill('C-8');
  await soon(async () => (await stored()).customer).toBe('C-8');
  expect((await stored()).title).toBe('a title from one window');
  // a job must have a name: an emptied one is shown, and not sent
  await one.getByLabel('Job', { exact: true }).fill('');
  await settled(one);
  expect((await stored()).title).toBe('a title from one window');
  await close(one, two);
});

test('what is typed while the server is away outlives a closed page', async () => {
  const page = await bench.page(`/jobs/${id}/weigh`);
  await bench.stopServer();
  await field(page, 'Gauge shows, g').fill('1.77');
  await page.getByText('The bench server does not answer.', { exact: true }).waitFor();
  await page.goto('about:blank');
  expect(await page.evaluate(() => location.href)).toBe('about:blank');
  await bench.startServer();
  expect((await weigh()).gauge).toMatchObject({ reading: '1.91' });
  await page.goto(`${bench.address}/jobs/${id}/weigh`);
  await soon(() => field(page, 'Gauge shows, g').inputValue()).toBe('1.77');
  await soon(async () => (await weigh()).gauge).toMatchObject({ reading: '1.77' });
  await close(page);
});
