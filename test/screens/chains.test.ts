/** Chains as a person looks at them: what left its limits, the charts, the batches; and what another window changed is shown. */
import { createHash } from 'node:crypto';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { apiPaths } from '../../src/core/job/api.ts';
import { leafChanges } from '../../src/core/job/leafPaths.ts';
import { RECORD_KIND } from '../../src/core/job/recordFile.ts';
import { METHOD_VERSION } from '../../src/core/measure/methodVersion.ts';
import { openBatches } from '../../src/store/batch/batchStore.ts';
import { play, testRecord } from '../../src/store/chain/chains.fixture.ts';
import { countingOrigin } from '../../src/store/scratch.fixture.ts';
import { axeFaults } from './axeFaults.ts';
import { type Bench, openBench } from './bench.ts';
import { soon } from './settled.ts';

let bench: Bench;
beforeAll(async () => {
  bench = await openBench();
}, 300_000);
afterAll(() => bench?.close());

const toneBand = {
  signal: 'tone',
  motion: 'left',
  frequencyHz: 1000,
  peakVelocityCmS: 5,
  radiusMm: 138,
  durationS: 20,
};

const DAY_MS = 86_400_000;
const record = testRecord(138);

/** So many mornings up to today; the last of them reads `last`. */
async function mornings(count: number, last: number): Promise<void> {
  const origin = { ...countingOrigin(), now: () => new Date().toISOString() };
  const store = await openBatches(join(bench.folder, 'store.sqlite'), origin);
  for (let day = 1; day <= count; day++) {
    const at = new Date(Date.now() - (count - day) * DAY_MS).toISOString();
    const speed = day === count ? last : [0, 0.1, -0.1][day % 3];
    await play(store, { chain: 'studio 2', record, at, speed, method: METHOD_VERSION });
  }
  await store.close();
}

test('a page with no chain says how one is made; readings that come meanwhile are charted, and what left its limits is told', async () => {
  const page = await bench.page('/jobs');
  await page.getByRole('link', { name: 'Chains, drift and batches' }).click();
  await page.getByText('No chain yet').waitFor();
  await page.getByText('Nothing left its limits since then.').waitFor();
  await mornings(30, 2);
  await page
    .getByText(/Speed error of studio 2 read \+2\.000 ± 0\.020 % on .* above its limits/)
    .first()
    .waitFor();
  await soon(() => page.getByRole('row', { name: /Speed error/ }).textContent()).toContain('✕ outside');
  await page.getByRole('group', { name: /Moving range of Speed error|Speed error, reading by reading/ }).count();
  await page.getByText('Batches', { exact: true }).click();
  await soon(() => page.getByRole('row', { name: /Sides measured/ }).textContent()).toContain('30');
  expect(await axeFaults(page)).toEqual([]);
  expect(await page.getByRole('link', { name: 'Its charts' }).count()).toBe(1);
  await page.context().close();
});

test('what a chain is made of is changed on the page, its charts begin anew; the open job’s recordings become its readings', async () => {
  const { id, number } = await bench.ask('POST', apiPaths.jobs, { deck: { name: 'deck of the chain' } });
  const page = await bench.page(`/jobs/${id}/intake`);
  await page.locator('a[href="/jobs"]').first().click();
  await page.getByRole('link', { name: 'Chains, drift and batches' }).click();
  const charts = page.getByRole('region', { name: 'Control charts' });
  await page.getByRole('row', { name: /Speed error/ }).waitFor();
  const change = async (part: string, text: string, why: string): Promise<void> => {
    await charts.getByLabel(part, { exact: true }).fill(text);
    await charts.getByLabel('Why', { exact: true }).fill(why);
    await charts.getByRole('button', { name: 'Write it down' }).click();
    await charts.getByText('Written down.').waitFor();
    await charts.getByText(`${part.toLowerCase()} ${text}`).waitFor();
  };
  await charts.getByText('Change what it is made of', { exact: true }).click();
  await change('Deck', 'bench deck 3', '');
  await page.getByRole('row', { name: /Speed error/ }).waitFor();
  await change('Cartridge', 'bench moving magnet', 'worn tip');
  await page.getByRole('row', { name: /Speed error/ }).waitFor({ state: 'detached' });
  const box = charts.getByLabel(`The recordings of job ${number} are readings of it`);
  await box.check();
  const [chain] = (await bench.ask('GET', apiPaths.chains)).chains;
  const kept = async () => (await bench.ask('GET', apiPaths.chainCharts(chain.id))).chain;
  await soon(async () => (await kept()).jobs).toEqual([number]);
  expect(await kept()).toMatchObject({
    parts: { deck: 'bench deck 3', cartridge: 'bench moving magnet' },
    states: [{ why: 'worn tip' }, { why: '' }],
  });
  expect(await axeFaults(page)).toEqual([]);
  await page.getByText('A new chain', { exact: true }).click();
  await page.getByLabel('Name of the chain').fill('studio 3');
  await page.getByRole('button', { name: 'Write it down' }).last().click();
  await soon(async () => (await bench.ask('GET', apiPaths.chains)).chains.length).toBe(2);
  await page.context().close();
});

test('a reference recording is taken in, changed, renewed by its own file, and removed after being asked', async () => {
  const sheet = { schema: 1, name: 'house transfer', rpm: 33.333, bands: [toneBand] };
  await bench.ask('PATCH', apiPaths.part(RECORD_KIND, 'house-transfer'), {
    changes: leafChanges({}, sheet as never),
  });
  const page = await bench.page('/chains');
  await page.getByText('Reference recordings', { exact: true }).click();
  const fold = page.locator('details').filter({ hasText: 'Reference recordings as CSV' });
  await fold.getByRole('button', { name: 'Add a reference recording' }).click();
  const form = page.locator('form').filter({ hasText: 'Choose the recording' });
  const keep = form.getByRole('button', { name: 'Keep the reference' });
  const faults = form.getByRole('alert').getByRole('listitem');
  await keep.click();
  await soon(() => faults.allTextContents()).toEqual([
    'Which recording it is: choose its file.',
    'Which record file is its certificate.',
    'A name.',
    'The last day on which its certificate holds.',
  ]);
  const recording = { name: 'transfer.wav', mimeType: 'audio/wav', buffer: Buffer.from('every byte of a recording') };
  const sha256 = createHash('sha256').update(recording.buffer).digest('hex');
  await form.locator('input[type=file]').setInputFiles(recording);
  await form.getByText(`transfer.wav: its fingerprint begins with ${sha256.slice(0, 12)}.`).waitFor();
  await form.getByLabel('Record file of the certificate').selectOption({ label: 'house transfer' });
  expect(await form.getByLabel('Name of the reference').inputValue()).toBe('house transfer');
  await form.getByLabel('Certificate', { exact: true }).fill('C 12');
  await form.getByLabel('Holds until').fill('2020-01-31');
  await form.getByText('That day is over').waitFor();
  expect(await axeFaults(page)).toEqual([]);
  await keep.click();
  await page.getByText('house transfer is kept; its certificate holds until 2020-01-31.').waitFor();
  const row = page.getByRole('row', { name: /house transfer.*C 12/ });
  await row.getByText('✕ has run out').waitFor();
  const kept = async () => (await bench.ask('GET', apiPaths.references)).references;
  expect(await kept()).toMatchObject([{ fingerprint: sha256, name: 'house transfer', expires: '2020-01-31' }]);

  // its own file, chosen again, is known: its certificate is renewed
  await fold.getByRole('button', { name: 'Add a reference recording' }).click();
  await form.locator('input[type=file]').setInputFiles({ ...recording, name: 'copy.wav' });
  await form.getByText('copy.wav is house transfer already').waitFor();
  expect(await form.getByLabel('Certificate', { exact: true }).inputValue()).toBe('C 12');
  await form.getByLabel('Holds until').fill('2999-12-31');
  await keep.click();
  await row.getByText('✓ holds').waitFor();

  await row.getByRole('button', { name: 'Change house transfer' }).click();
  await page.getByLabel('Certificate', { exact: true }).fill('C 13');
  await page.getByRole('button', { name: 'Keep the reference' }).click();
  await soon(async () => (await kept())[0].certificate).toBe('C 13');

  const changed = page.getByRole('row', { name: /house transfer.*C 13/ });
  await changed.getByRole('button', { name: 'Remove house transfer' }).click();
  await changed.getByRole('button', { name: 'Keep it' }).click();
  await changed.getByRole('button', { name: 'Remove house transfer' }).click();
  await changed.getByRole('button', { name: 'Remove house transfer for good' }).click();
  await page.getByText('house transfer is no reference recording any more; what was measured stays.').waitFor();
  expect(await kept()).toEqual([]);
  await page.context().close();
});

test('a job that another window begins is listed by itself, and nothing is asked in circles', async () => {
  const page = await bench.page('/jobs');
  const rows = page.locator('.jobs > li');
  const before = await rows.count();
  const from = performance.now();
  await bench.ask('POST', apiPaths.jobs, { deck: { name: 'from elsewhere' } });
  await soon(() => rows.count()).toBe(before + 1);
  console.log(`a job elsewhere was shown after ${Math.round(performance.now() - from)} ms`);
  const asked = bench.asked.length;
  await new Promise((resolve) => setTimeout(resolve, 3000));
  // what changed is asked once, whichever list came last
  const since = bench.asked.slice(asked);
  expect(since).toEqual([...new Set(since)]);
  await page.context().close();
});

test('limits that the shop sets in another window judge the open job', async () => {
  const page = await bench.page(bench.station('run'));
  const shop = await bench.ask('GET', apiPaths.shop);
  const answer = page.waitForResponse((response) => response.url().endsWith(`/api/jobs/${bench.demo}`));
  await bench.ask('PUT', apiPaths.shop, { ...shop, limits: { class: 'archive' } });
  const job = await (await answer).json();
  expect(job.shop.limits).toEqual({ class: 'archive' });
  await page.context().close();
});
