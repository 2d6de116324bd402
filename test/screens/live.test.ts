// biome-ignore-all lint/performance/useDomNodeTextContent: what is tested is the text as it is seen
/** A real browser hears a real audio path: the browser's file-fed device, true stereo at 44.1 kHz, into the page at Tilt. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { axeFaults } from './axeFaults.ts';
import { type Bench, openBench } from './bench.ts';
import { fakeDevice, tiltPair } from './liveSides.ts';
import { soon } from './settled.ts';

let folder: string;
let bench: Bench;
let page: Page;
let fileTilt: number;
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'platterside-live-'));
  const path = join(folder, 'pair 44100.wav');
  bench = await openBench({ flags: fakeDevice(path) });
  fileTilt = (await tiltPair(folder, 44_100, 0.9, 'float', 8)).tiltDeg;
  page = await bench.page(bench.station('tilt'));
});
afterAll(async () => {
  await bench?.close();
  rmSync(folder, { recursive: true, force: true });
});

const listenNow = async (): Promise<void> => {
  await page.getByText('Listen live figures while the record plays').click();
  await page.getByRole('button', { name: 'Listen', exact: true }).click();
};

test('bands are named, the tilt settles, the pass ends by itself, is kept and measures again as a file', async () => {
  const before = (await bench.stored()).captures.length;
  await listenNow();
  await page.getByText('44100 Hz').waitFor();
  const band = page.locator('[data-live-band]');
  await soon(() => band.getAttribute('data-live-band')).toBe('left only · 1 kHz');
  await soon(() => page.locator('.live-verdicts').innerText()).toContain('Stereo: left and right differ');
  await page.getByText('Left against right').click();
  const alike = page.locator('.scope b:not(.scope-phase)');
  // a left-only band leaks: neither alike nor opposed, and never without sound
  await soon(() => alike.innerText()).toMatch(/^[+−]0\.\d\d$|^[+−]1\.00$/);
  // the page stands still for two seconds; the worker goes on
  await page.evaluate(() => {
    const until = performance.now() + 2000;
    while (performance.now() < until);
  });
  await soon(() => band.getAttribute('data-live-band')).toBe('right only · 1 kHz');
  await soon(() => page.locator('.tilt-guide').innerText()).toMatch(/ended \d+ s ago/);
  await soon(async () => (await bench.stored()).captures.length).toBe(before + 1);
  const { captures } = await bench.stored();
  const live = captures.at(-1);
  const of = (quantity: string): number =>
    live.findings.find((finding: { quantity: string }) => finding.quantity === quantity)?.value;
  expect(Math.abs(of('azimuth-error') - fileTilt)).toBeLessThan(0.1);
  expect(await page.locator('.live-verdicts').innerText()).not.toMatch(/lost|zeros were/);
  await page.getByRole('button', { name: 'Stop listening' }).click();
  await page.getByRole('button', { name: 'Measure it again as a file' }).click();
  await soon(async () => (await bench.stored()).captures.length).toBe(before + 2);
  const again = (await bench.stored()).captures.at(-1);
  const tilt = again.findings.find(({ quantity }: { quantity: string }) => quantity === 'azimuth-error').value;
  expect(Math.abs(tilt - of('azimuth-error'))).toBeLessThan(0.02);
  const isKept = await page.evaluate(() => navigator.storage.persisted());
  expect(await page.locator('[data-may-be-cleared]').count()).toBe(isKept ? 0 : 1);
  // how it was heard is inside the file
  const head = await page.evaluate(async () => {
    const folder = await (await navigator.storage.getDirectory()).getDirectoryHandle('recordings');
    for await (const handle of (folder as unknown as { values(): AsyncIterable<FileSystemFileHandle> }).values()) {
      const text = await (await handle.getFile()).slice(0, 2200).text();
      if (text.includes('"endedAt"')) return text;
    }
    return '';
  });
  const conditions = JSON.parse(/ICMT....({.*?})/s.exec(head)?.[1] ?? '{}');
  expect(conditions).toMatchObject({
    station: 'tilt',
    sampleRateHz: 44_100,
    pass: 1,
    lostFrames: 0,
    record: null,
    flat: false,
  });
  expect(conditions.input).not.toBe('');
  // another day the recording is still listed, until it is deleted
  await page.reload();
  await page.getByText(/Recordings in this browser: 1,/).click();
  await page.getByRole('button', { name: 'Delete' }).click();
  await soon(() => page.getByText(/Recordings in this browser/).count()).toBe(0);
  expect(bench.errors).toEqual([]);
});

test('while it listens, nothing serious stands in a screen reader’s way, light and dark', async () => {
  for (const colorScheme of ['light', 'dark'] as const) {
    page = await bench.page(bench.station('tilt'), { colorScheme, bypassCSP: true });
    await listenNow();
    await page.getByText('44100 Hz').waitFor();
    expect(await axeFaults(page)).toEqual([]);
    // what was looked at is the page that listens
    expect(await page.getByRole('button', { name: 'Stop listening' }).count()).toBe(1);
    await page.context().close();
  }
});
