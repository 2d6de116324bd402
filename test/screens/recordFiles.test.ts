// biome-ignore-all lint/performance/useDomNodeTextContent: what is tested is the text as it is seen
/** Record files: written down in the form, brought in and out as files, picked by a job and remembered by it. */
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { axeFaults, overflowOf } from './axeFaults.ts';
import { type Bench, openBench } from './bench.ts';
import { settled, soon } from './settled.ts';

let bench: Bench;
let page: Page;
beforeAll(async () => {
  bench = await openBench();
  page = await bench.page(bench.station('tilt'));
  await page.getByRole('link', { name: 'Record files' }).first().click();
  await page.waitForURL('**/records');
});
afterAll(() => bench?.close());

const field = (name: string) => page.getByRole('textbox', { name, exact: true });
const list = () => page.getByRole('region', { name: 'Record files' });
const stored = async () =>
  (await bench.ask('GET', '/api/parts?kind=record')).parts as { id: string; data: Record<string, unknown> }[];

test('written down in the form: faults are told by band, and what is right is kept', async () => {
  await page.getByRole('button', { name: 'New record file' }).click();
  await field('Name').fill('House record, side A');
  // the speed that a new one begins with
  expect(await field('Speed, rpm').inputValue()).toBe('33⅓');
  expect(await field('Speed, rpm').getAttribute('aria-invalid')).not.toBe('true');
  await field('Frequency, Hz').fill('1 kHz');
  await field('Velocity, cm/s').fill('7,07');
  await page.getByRole('heading', { name: 'Certificate' }).click();
  await field('Tilt of the cut, °').fill('-0.2');
  await page.getByRole('button', { name: 'Add a band' }).click();
  const second = page.locator('.record-bands li').nth(1);
  await second.getByLabel('Signal').selectOption('sweep');
  await second.getByRole('textbox', { name: 'From, Hz' }).fill('20');
  await page.getByRole('button', { name: 'Save' }).click();
  await page.getByRole('alert').getByText('Band 2, To: Not filled in.').waitFor();
  await second.getByRole('textbox', { name: 'To, Hz' }).fill('20 kHz');
  await second.getByLabel('Law').selectOption('log');
  expect(await axeFaults(page)).toEqual([]);
  await page.getByRole('button', { name: 'Save' }).click();
  await page.getByText('House record, side A is kept.').waitFor();
  await soon(async () => (await stored()).map(({ data }) => data)).toEqual([
    {
      schema: 1,
      name: 'House record, side A',
      rpm: 100 / 3,
      cut: { tiltDeg: -0.2 },
      bands: [
        { signal: 'tone', motion: 'left', frequencyHz: 1000, peakVelocityCmS: 7.07 },
        { signal: 'sweep', motion: 'right', fromHz: 20, toHz: 20_000, law: 'log' },
      ],
    },
  ]);
});

test('what is begun survives a reload', async () => {
  await page.getByRole('button', { name: 'Copy House record, side A' }).click();
  await field('Name').fill('House record, side B');
  await page.reload();
  await soon(() => field('Name').inputValue()).toBe('House record, side B');
  await page.getByRole('button', { name: 'Cancel' }).click();
  await soon(async () => (await stored()).length).toBe(1);
});

test('what another window changed is asked about, and not written over unasked', async () => {
  await page.getByRole('button', { name: 'Change House record, side A' }).click();
  const [{ id, data }] = await stored();
  const path = `/api/parts/record/${id}`;
  await bench.ask('PATCH', path, { changes: [{ path: ['name'], was: data.name, is: 'renamed elsewhere' }] });
  await field('Name').fill('renamed here');
  await field('Reference velocity, cm/s').fill('5');
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await page.getByText(/Changed in another window meanwhile/).waitFor();
  expect((await stored())[0].data).toMatchObject({ name: 'renamed elsewhere', referenceVelocityCmS: 5 });
  await page.getByRole('button', { name: 'Keep yours: “renamed here”' }).click();
  await field('Name').fill('House record, side A');
  await field('Reference velocity, cm/s').fill('');
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await page.getByText('House record, side A is kept.').waitFor();
  expect((await stored())[0].data).toEqual(data);
});

test('out as a file and in again, keys of its owner included; a file with a fault is told and not taken', async () => {
  const saved = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Export House record, side A' }).click();
  const download = await saved;
  expect(download.suggestedFilename()).toBe('House record, side A.record.json');
  const file = JSON.parse(readFileSync(await download.path(), 'utf8'));
  expect(file).toEqual((await stored())[0].data);
  const take = (value: unknown) =>
    page.getByLabel('Import a file').setInputFiles({
      name: 'other.record.json',
      mimeType: 'application/json',
      buffer: Buffer.from(JSON.stringify(value)),
    });
  await take({ ...file, rpm: 5 });
  await page
    .getByRole('alert')
    .getByText('other.record.json: rpm is 5; a number from 10 to 100 was expected.')
    .waitFor();
  await take({ ...file, name: 'other record', rpm: 45, shelf: 3 });
  await list().getByText('other record', { exact: true }).waitFor();
  await soon(async () => (await stored()).find(({ data }) => data.name === 'other record')?.data.shelf).toBe(3);
});

test('a job picks one and remembers it, over a reload and at its other stations', async () => {
  await page.goto(bench.address + bench.station('tilt'));
  const select = page.getByLabel('Record file', { exact: true });
  await select.selectOption({ label: 'other record · 2 bands, 45 rpm, with certificate' });
  await settled(page);
  const other = (await stored()).find(({ data }) => data.name === 'other record')?.id;
  expect((await bench.stored()).recordFile).toBe(other);
  await page.goto(bench.address + bench.station('run'));
  await soon(() => select.inputValue()).toBe(other);
  await page.getByRole('link', { name: 'Record files' }).first().click();
  await list().getByText('this job’s').waitFor();
  await page.getByRole('button', { name: 'Delete other record' }).click();
  await page.getByRole('button', { name: 'Delete other record for good' }).click();
  await page.getByText('Figures that were measured with it stay.').waitFor();
  await page.goto(bench.address + bench.station('tilt'));
  await page.getByText('This job’s record file is not in the library.').first().waitFor();
});

test('at 390 px nothing runs out of the page', async () => {
  const narrow = await bench.page('/records', { viewport: { width: 390, height: 844 } });
  await narrow.getByRole('button', { name: 'Change House record, side A' }).click();
  expect(await overflowOf(narrow)).toBe(0);
  await narrow.getByRole('button', { name: 'Cancel' }).click();
  await narrow.context().close();
});

test('the page met no error of its own', () => {
  // a browser logs the one answer that another window's change was asked about with
  expect(bench.errors.filter((text) => !/409 \(Conflict\)/.test(text))).toEqual([]);
});
