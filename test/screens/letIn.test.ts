/** A browser that was not let in, one that was, a second window, and a server that is started again. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { axeFaults } from './axeFaults.ts';
import { type Bench, openBench } from './bench.ts';
import { settled, soon } from './settled.ts';

let bench: Bench;
beforeAll(async () => {
  bench = await openBench();
}, 300_000);
afterAll(() => bench?.close());

test('a browser without the key is told how it is let in, and is let in by typing it', async () => {
  const context = await bench.context({ viewport: { width: 390, height: 844 } });
  await context.clearCookies();
  const page = await context.newPage();
  // the page as another account gets it: without the cookie that comes along
  await page.route('**/*', async (route) => {
    if (route.request().resourceType() !== 'document') return route.continue();
    const answer = await fetch(route.request().url());
    const headers = Object.fromEntries([...answer.headers].filter(([name]) => name !== 'set-cookie'));
    return route.fulfill({ status: answer.status, headers, body: await answer.text() });
  });
  await page.goto(`${bench.address}${bench.station('intake')}`);
  await page.getByRole('heading', { name: 'This browser has not been let in' }).waitFor();
  expect(await axeFaults(page)).toEqual([]);
  await page.getByLabel('Key').fill('wrong');
  await page.getByRole('button', { name: 'Enter' }).click();
  await page.getByText('That is not the key of this store.').waitFor();
  await page.getByLabel('Key').fill(bench.key);
  await page.getByRole('button', { name: 'Enter' }).click();
  await page.getByRole('heading', { level: 2, name: 'Intake' }).waitFor();
  await context.close();
});

test('this account’s own browser is let in with the page', async () => {
  const context = await bench.context();
  await context.clearCookies();
  const page = await context.newPage();
  await page.goto(`${bench.address}${bench.station('intake')}`);
  await page.getByRole('heading', { level: 2, name: 'Intake' }).waitFor();
  await context.close();
});

test('the printed address lets a browser in and does not stay in its bar; a second window and a restarted server go on', async () => {
  const context = await bench.context();
  await context.clearCookies();
  const page = await context.newPage();
  await page.goto(`${bench.address}/?key=${bench.key}`);
  await page.waitForURL('**/jobs/*/*');
  expect(page.url()).not.toContain('key');
  const second = await context.newPage();
  await second.goto(`${bench.address}${bench.station('intake')}`);
  await second.getByRole('heading', { level: 2, name: 'Intake' }).waitFor();
  await settled(page);
  await bench.stopServer();
  await bench.startServer();
  await second.getByLabel('Cartridge', { exact: true }).fill('after the restart');
  await soon(async () => (await bench.stored()).stations.intake.data.cartridge).toBe('after the restart');
  const report = await second.goto(`${bench.address}/api/jobs/${bench.demo}/report`);
  expect(report?.status()).toBe(200);
  await context.close();
});
