/** Limits and the bench's own figures at Run: of the job, over the shop's. */
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Bench, openBench } from './bench.ts';
import { soon } from './settled.ts';

let bench: Bench;
let page: Page;
beforeAll(async () => {
  bench = await openBench();
  page = await bench.page(bench.station('run'));
  await page.getByText('Limits shop').click();
});
afterAll(() => bench?.close());

const run = async () => (await bench.stored()).stations.run.data as { limits?: object; bench?: object };
const speed = () => page.getByRole('group', { name: /^Speed error/ });

test('class and own limits are kept with the job; what cannot be is said', async () => {
  await page.getByLabel('archive', { exact: true }).check();
  await speed()
    .getByLabel(/good up to/)
    .fill('0.2');
  await page.getByText('Limits archive, 1 set otherwise').waitFor();
  await soon(run).toMatchObject({ limits: { class: 'archive', own: { 'speed-error': { good: '0.2' } } } });
  await speed()
    .getByLabel(/good up to/)
    .fill('0.5');
  await page.getByText('good 0.5 and bad 0.3 were found; good at or under bad was expected.').waitFor();
  await page.getByText('Limits archive', { exact: true }).waitFor();
  await speed()
    .getByLabel(/good up to/)
    .fill('0.2');
});

test('what a move may change elsewhere is typed beside them', async () => {
  const group = page.getByRole('group', { name: 'A change elsewhere is checked again beyond' });
  await group.getByLabel('Tracking force, mN').fill('0.4');
  await page.getByText('Limits archive, 2 set otherwise').waitFor();
  await soon(run).toMatchObject({ limits: { recheck: { 'tracking-force': '0.4' } } });
  await group.getByLabel('Tracking force, mN').fill('');
  await page.getByText('Limits archive, 1 set otherwise').waitFor();
});

test('they are exported and imported as a file, what may change elsewhere among them', async () => {
  const group = page.getByRole('group', { name: 'A change elsewhere is checked again beyond' });
  await group.getByLabel('Tilt, °').fill('0.1');
  await page.getByText('Limits archive, 2 set otherwise').waitFor();
  const download = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Export the limits' }).click();
  const file = readFileSync(await (await download).path(), 'utf8');
  expect(JSON.parse(file)).toMatchObject({ schema: 1, class: 'archive', recheck: { tilt: 0.1 } });
  await page.getByRole('button', { name: 'Back to the shop’s' }).click();
  await page.getByText('Limits shop', { exact: true }).waitFor();
  const give = (text: string) =>
    page
      .getByLabel('Import limits')
      .setInputFiles({ name: 'own.limits.json', mimeType: 'application/json', buffer: Buffer.from(text) });
  await give('{"schema": 1, "recheck": {"tilting": 1}}');
  await page.getByText(/own\.limits\.json: recheck\.tilting: no such tolerance/i).waitFor();
  await give(file);
  await page.getByText('Limits archive, 2 set otherwise').waitFor();
  await soon(run).toMatchObject({
    limits: { class: 'archive', own: { 'speed-error': { good: '0.2' } }, recheck: { tilt: '0.1' } },
  });
  await group.getByLabel('Tilt, °').fill('');
  await page.getByText('Limits archive, 1 set otherwise').waitFor();
});

test('they can be made the shop’s, which every job then has', async () => {
  await page.getByRole('button', { name: 'Make these the shop’s' }).click();
  await soon(async () => (await bench.stored()).shop).toMatchObject({
    limits: { class: 'archive', own: { 'speed-error': { good: '0.2' } } },
  });
  await soon(async () => (await run()).limits ?? {}).toEqual({});
  await page.getByText('Limits archive, 1 set otherwise').waitFor();
  await page.getByLabel('studio', { exact: true }).check();
  await page.getByText('Limits studio', { exact: true }).waitFor();
  await page.getByRole('button', { name: 'Back to the shop’s' }).click();
  await page.getByRole('button', { name: 'Clear the shop’s' }).click();
  await page.getByText('Limits shop', { exact: true }).waitFor();
});

test('a speed read by strobe is kept with the job', async () => {
  await page.getByText('Strobe, drive and chain as assumed').click();
  await page.getByLabel('Speed by strobe or crystal, %').fill('0.1 ± 0.05');
  await soon(run).toMatchObject({ bench: { strobe: '0.1 ± 0.05' } });
  await page.getByText('drive and chain read as 0.1 ± 0.05').waitFor();
  if (process.env.SHOTS !== undefined) await page.screenshot({ path: `${process.env.SHOTS}/run.png`, fullPage: true });
  expect(await page.locator('[aria-invalid=true]').count()).toBe(0);
});

test('the preamp’s measured response is kept with the job; what is no response is said and keeps nothing', async () => {
  const csv = (name: string, text: string) => ({ name, mimeType: 'text/csv', buffer: Buffer.from(text) });
  const responses = async () => ((await run()) as { responses?: object }).responses;
  await page.getByText('Measured responses none kept').click();
  const pick = page.getByLabel('Choose the preamp’s CSV');
  await pick.setInputFiles(csv('odd.csv', '20\n30\n'));
  await page.getByText('odd.csv: line 1 holds one column').waitFor();
  expect(await responses()).toBeUndefined();
  const text = 'frequency_hz,db\n20,0.4\n1000,0\n20000,-0.3\n';
  await pick.setInputFiles(csv('preamp.csv', text));
  await page.getByText('Measured responses preamp.csv').waitFor();
  await soon(responses).toEqual({ preamp: { file: 'preamp.csv', csv: text } });
  await page.getByRole('button', { name: 'Leave the preamp’s out' }).click();
  await page.getByText('Measured responses none kept').waitFor();
  await soon(responses).toBeUndefined();
  // with the preamp itself: then every job that picks it has it
  await pick.setInputFiles(csv('preamp.csv', text));
  await page
    .getByRole('button', { name: 'Keep it with bench preamp, moving-magnet input in the library', exact: true })
    .click();
  await page.getByText('kept with bench preamp, moving-magnet input, 3 frequencies, 20 Hz to 20 kHz').waitFor();
  await soon(responses).toBeUndefined();
  const { parts } = await bench.ask('GET', '/api/parts?kind=preamp');
  const named = (parts as { data: { name: string; responseCsv?: string } }[]).find(({ data }) =>
    /magnet/.test(data.name),
  );
  expect(named?.data.responseCsv).toBe(text);
  await soon(async () => (await bench.stored()).stations.match.data).toMatchObject({
    parts: { preamp: { part: { responseCsv: text } } },
  });
});
