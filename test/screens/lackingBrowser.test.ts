// biome-ignore-all lint/performance/useDomNodeTextContent: what is tested is the text as it is seen
/** A browser that lacks background workers or sound: a sentence where they are needed, and everything else goes on. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { stationNames } from '../../src/core/job/station.ts';
import { type Bench, dropFiles, openBench } from './bench.ts';
import { settled, soon } from './settled.ts';

let bench: Bench;
beforeAll(async () => {
  bench = await openBench();
});
afterAll(() => bench?.close());

/** A page of a browser without these. */
async function without(names: readonly string[]): Promise<Page> {
  const context = await bench.context();
  await context.addInitScript((missing) => {
    for (const name of missing) Reflect.deleteProperty(globalThis, name);
  }, names);
  const page = await context.newPage();
  await page.goto(bench.address + bench.station('run'));
  await settled(page);
  return page;
}
const main = (page: Page) => () => page.locator('main').innerText();

test('without workers every station is drawn, and a recording is answered with a sentence', async () => {
  const page = await without(['Worker', 'SharedWorker']);
  for (const name of stationNames) {
    await page.goto(bench.address + bench.station(name));
    await settled(page);
    expect((await main(page)()).length, name).toBeGreaterThan(100);
  }
  await page.goto(bench.address + bench.station('tilt'));
  await settled(page);
  await dropFiles(page, [{ name: 'side.wav', bytes: Buffer.from('RIFF') }]);
  await soon(main(page)).toContain('This browser has no background workers');
  await page.context().close();
});

test('without sound the page says so where it would listen', async () => {
  const page = await without(['AudioContext', 'AudioWorkletNode', 'webkitAudioContext']);
  await page.getByText('Listen live figures while the record plays').click();
  await page.getByRole('button', { name: 'Listen', exact: true }).click();
  await soon(main(page)).toContain('This browser lets a page neither listen nor play');
  await page.context().close();
});

test('nothing broke', () => {
  expect(bench.errors).toEqual([]);
});
