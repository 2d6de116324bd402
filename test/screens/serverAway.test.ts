// biome-ignore-all lint/performance/useDomNodeTextContent: what is tested is the text as it is seen
/** The server goes while a page is open: what was not opened before is there all the same, and a side can be read and is kept afterwards. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Bench, openBench } from './bench.ts';
import { settled, soon } from './settled.ts';
import { shortSide } from './shortSide.ts';

let bench: Bench;
beforeAll(async () => {
  bench = await openBench();
});
afterAll(() => bench?.close());

test('with the server away every station opens, a side is read and advised on, and is kept when the server is back', async () => {
  const { path } = await shortSide(bench.folder, 1.5, 1);
  const page = await bench.page(bench.station('tilt'));
  const waiting = () =>
    page.evaluate(() => {
      const here = new Set(performance.getEntriesByType('resource').map(({ name }) => name));
      return [...document.querySelectorAll<HTMLLinkElement>('link[rel=prefetch]')].filter(({ href }) => !here.has(href))
        .length;
    });
  await soon(waiting).toBe(0);
  await bench.stopServer();
  for (const station of ['Match', 'Fit', 'Weigh', 'Place', 'Height', 'Run', 'Hand over', 'Tilt']) {
    await page
      .getByRole('navigation')
      .getByRole('link', { name: new RegExp(`^${station}`) })
      .click();
    await page.getByRole('heading', { level: 2, name: station }).waitFor();
    await page.getByText('Opening…', { exact: true }).waitFor({ state: 'detached' });
    expect(await page.locator('main').innerText()).not.toContain('did not load');
  }
  await page.getByLabel('Pick a recording').setInputFiles(path);
  await page.locator('.turn-card').waitFor({ timeout: 90_000 });
  await bench.startServer();
  await soon(async () => (await bench.stored()).captures.map(({ file }: { file: string }) => file)).toEqual([
    'pass 1.wav',
  ]);
  await settled(page);
});
