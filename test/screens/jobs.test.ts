/** Jobs as a person goes about them: found by words, a page at a time, set aside, exported, deleted, imported; a deck's return. */
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { readBundle } from '../../src/core/job/bundle.ts';
import { straightSide, tiltedSide } from '../../src/core/job/side.fixture.ts';
import { platformBytes } from '../../src/store/fileBytes.ts';
import { axeFaults } from './axeFaults.ts';
import { type Bench, openBench } from './bench.ts';
import { settled, soon } from './settled.ts';

let bench: Bench;
beforeAll(async () => {
  bench = await openBench();
}, 300_000);
afterAll(() => bench?.close());

const newJob = (deck: object, customer = '') => bench.ask('POST', '/api/jobs', { deck, customer });

test('jobs are found by the beginnings of words, a page at a time', async () => {
  for (let i = 0; i < 33; i++) await newJob({ name: `row deck ${i}` }, i === 7 ? 'Ævar Björk' : '');
  const page = await bench.page('/jobs');
  const rows = page.locator('.jobs > li');
  await soon(() => rows.count()).toBe(30);
  await page.getByRole('button', { name: 'Older jobs' }).click();
  await soon(() => rows.count()).toBe(4);
  await page.getByRole('button', { name: 'Newer jobs' }).click();
  await soon(() => rows.count()).toBe(30);
  await page.getByLabel('Find').fill('bjor row');
  await soon(() => rows.count()).toBe(1);
  expect(await rows.textContent()).toContain('row deck 7');
  await page.getByLabel('Find').fill('nothing of the sort');
  await page.getByText('No job has these words.').waitFor();
  expect(await axeFaults(page)).toEqual([]);
  await page.context().close();
});

test('a job is set aside with a reason, exported without its owner, deleted after a question, and comes back from its file', async () => {
  const { id, number } = await newJob({ name: 'wanderer' }, 'Secret Owner');
  await bench.ask('POST', `/api/jobs/${id}/captures`, { document: tiltedSide, station: 'intake' });
  const page = await bench.page('/jobs', { acceptDownloads: true });
  await page.getByLabel('Find').fill('wanderer');
  const row = page.locator('.jobs > li');
  await soon(() => row.count()).toBe(1);
  await row.getByText(`Export, set aside or delete job ${number}`).click();
  expect(await axeFaults(page)).toEqual([]);

  const download = async (name: string) => {
    const [file] = await Promise.all([
      page.waitForEvent('download'),
      row.getByRole('link', { name, exact: true }).click(),
    ]);
    return readFileSync(await file.path());
  };
  const whole = await download('Export');
  const nameless = await download('Export without the owner’s name');
  expect(nameless.length).toBeLessThan(whole.length + 200);

  await row.getByLabel(`Why job ${number} is set aside`).fill('a trial');
  await row.getByRole('button', { name: `Set job ${number} aside` }).click();
  await page.getByText('No job has these words.').waitFor();
  await page.getByLabel('Also jobs that were set aside').check();
  await page.getByText('set aside: a trial').waitFor();
  await row.getByText(`Export, set aside or delete job ${number}`).click();
  await row.getByRole('button', { name: `Take job ${number} in again` }).click();
  await page.getByText(`Job ${number} counts again.`).waitFor();

  await row.getByRole('button', { name: `Delete job ${number}…` }).click();
  await page.getByText(`Delete job ${number} for good?`).waitFor();
  await row.getByRole('button', { name: 'Keep it' }).click();
  expect((await bench.ask('GET', `/api/jobs/${id}`)).number).toBe(number);
  await row.getByRole('button', { name: `Delete job ${number}…` }).click();
  await row.getByRole('button', { name: `Delete job ${number} for good` }).click();
  await page.getByText('Kept: parts, record files').waitFor();
  await page.getByText('No job has these words.').waitFor();

  await page.getByText('Import', { exact: true }).click();
  const pick = page.getByLabel('Import a bundle or a job file');
  const bytes = (buffer: Buffer) => ({ name: 'wanderer.platterside.zip', mimeType: 'application/zip', buffer });
  await pick.setInputFiles(bytes(nameless));
  await page.getByText(`Job ${number}: imported.`).waitFor();
  expect(await bench.ask('GET', `/api/jobs/${id}`)).toMatchObject({ id, number, customer: '' });
  await pick.setInputFiles(bytes(whole));
  await page.getByText(`Job ${number}: here already with the same content; nothing was changed.`).waitFor();
  await pick.setInputFiles(bytes(whole.subarray(0, 200)));
  await page.getByText('The file cannot be imported: not a zip file, or its end is missing.').waitFor();
  await page.context().close();
});

test('small recordings are put into the bundle that Hand over exports, those of this job alone', async () => {
  const { id } = await newJob({ name: 'deck with sound' });
  const sound = Buffer.from('RIFF and so on');
  const sha256 = createHash('sha256').update(sound).digest('hex');
  const document = { ...tiltedSide, capture: { ...tiltedSide.capture, sha256 } };
  await bench.ask('POST', `/api/jobs/${id}/captures`, { document, station: 'run' });
  const page = await bench.page(`/jobs/${id}/hand-over`);
  await page.getByText('Export with recordings').click();
  await page.getByLabel('With the owner’s name').uncheck();
  const file = (name: string, buffer: Buffer) => ({ name, mimeType: 'audio/wav', buffer });
  const pick = page.getByLabel('Pick recordings and export');
  await pick.setInputFiles([file('other.wav', Buffer.from('RIFF'))]);
  await page.getByText('other.wav is no recording of this job. Nothing was exported.').waitFor();
  const download = page.waitForEvent('download');
  await pick.setInputFiles([file('side.wav', sound), file('other.wav', Buffer.from('RIFF'))]);
  const exported = readFileSync(await (await download).path());
  const read = readBundle(new Uint8Array(exported), platformBytes);
  await page.getByText('1 of 1 recordings are in it. other.wav is no recording of this job.').waitFor();
  expect(read).toMatchObject({ found: true, bundle: { withoutOwners: true, jobs: [{ job: { id } }] } });
  expect(read.found && read.bundle.recordings).toEqual([{ sha256, ending: 'wav', bytes: new Uint8Array(sound) }]);
  // imported elsewhere, the job comes in and its sound is saved under the name that it had
  await bench.ask('DELETE', `/api/jobs/${id}`);
  await page.goto(`${bench.address}/jobs`);
  await settled(page);
  await page.getByText('Import', { exact: true }).click();
  await page
    .getByLabel('Import a bundle or a job file')
    .setInputFiles({ name: 'with sound.platterside.zip', mimeType: 'application/zip', buffer: exported });
  await page
    .getByText('imported. Jobs keep figures, not sound. The bundle holds 1 recording: save it as a file below.')
    .waitFor();
  const saved = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save its recording' }).click();
  expect((await saved).suggestedFilename()).toBe(document.capture.file);
  expect(readFileSync(await (await saved).path())).toEqual(sound);
  await page.context().close();
  expect(await bench.ask('GET', `/api/jobs/${id}`)).toMatchObject({ id });
});

test('a deck that comes back shows at Intake what drifted, and what is due and worn at Jobs', async () => {
  const first = await newJob({ name: 'returning deck' });
  const at = (job: string, station: string, key: string, is: string) =>
    bench.ask('PATCH', `/api/jobs/${job}/stations/${station}`, { changes: [{ path: [key], is }] });
  await at(first.id, 'intake', 'cartridge', 'cartridge A');
  await at(first.id, 'intake', 'stylusHours', '120');
  await bench.ask('POST', `/api/jobs/${first.id}/captures`, { document: tiltedSide, station: 'intake' });
  await bench.ask('POST', `/api/jobs/${first.id}/captures`, { document: straightSide, station: 'run' });
  const second = await newJob({ id: first.deck.id });
  await at(second.id, 'hand-over', 'dueDate', '2020-01-01');
  const came = { ...tiltedSide, capture: { ...tiltedSide.capture, sha256: 'f'.repeat(64) } };
  await bench.ask('POST', `/api/jobs/${second.id}/captures`, { document: came, station: 'intake' });
  const page = await bench.page(`/jobs/${second.id}/intake`);
  await page.getByText('This deck was here before').click();
  await page.getByText(/1 other job, the last begun .*; \d of \d figures drifted beyond their uncertainty/).waitFor();
  await page
    .locator('summary')
    .filter({ hasText: /Separation, left into right drift \+2\.35 ± 0\.15 dB, beyond the uncertainty/ })
    .click();
  await page.getByText('as it left').first().waitFor();
  expect(await axeFaults(page)).toEqual([]);
  await page.goto(`${bench.address}/jobs`);
  await settled(page);
  await page.getByText('1 due, 0 within 30 days, 1 in all').click();
  await page.getByRole('link', { name: 'returning deck', exact: true }).waitFor();
  await page.getByText('Stylus hours', { exact: true }).click();
  await page.getByText('120 h', { exact: true }).waitFor();
  expect(await axeFaults(page)).toEqual([]);
  await page.setViewportSize({ width: 390, height: 844 });
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
  await page.context().close();
  // the damaged bundle is in the browser's log by its own words
  expect(bench.errors.filter((text) => !text.includes('400 (Bad Request)'))).toEqual([]);
});
