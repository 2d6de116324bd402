// biome-ignore-all lint/performance/useDomNodeTextContent: what is tested is the text as it is seen
/** Intake: inspected item by item from the keyboard; photographs are turned upright, made small, and lose their place. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { apiPaths } from '../../src/core/job/api.ts';
import { wave } from '../faults/buildWave.ts';
import { axeFaults, overflowOf } from './axeFaults.ts';
import { type Bench, openBench } from './bench.ts';
import { settled, soon } from './settled.ts';

let bench: Bench;
let page: Page;
let job: string;
beforeAll(async () => {
  bench = await openBench();
  ({ id: job } = await bench.ask('POST', apiPaths.jobs, { deck: { name: 'a deck that came in' } }));
  page = await bench.page(`/jobs/${job}/intake`);
});
afterAll(() => bench?.close());

const stored = () => bench.ask('GET', apiPaths.job(job));
const card = () => page.getByRole('region', { name: 'Next to inspect' });
const focused = () => page.evaluate(() => document.activeElement?.textContent);

test('each item passes, is at fault with a note, or is not checked; the focus stays at the work', async () => {
  await card().getByText('Inspect: 1 of 7').waitFor();
  await card().getByRole('button', { name: 'Pass' }).focus();
  await page.keyboard.press('Enter');
  await card().getByText('Cantilever straight').waitFor();
  await soon(focused).toBe('Pass');
  await page.keyboard.press('Tab');
  await page.keyboard.press('Enter');
  await card().getByRole('textbox', { name: 'What is wrong' }).waitFor();
  // a key that comes before the focus does is no part of what is wrong
  await soon(() => page.evaluate(() => document.activeElement?.matches('input, textarea'))).toBe(true);
  await page.keyboard.type('bent to the left');
  await page.keyboard.press('Tab');
  await page.keyboard.press('Enter');
  await card().getByText('Inspect: 3 of 7').waitFor();
  await card().getByRole('button', { name: 'Not checked' }).click();
  for (let i = 4; i <= 7; i++) await card().getByRole('button', { name: 'Pass' }).click();
  await card().waitFor({ state: 'detached' });
  await page.getByText('Inspection: 5 of 7 pass, 1 fault, 1 not checked.').waitFor();
  // nothing is left to look at: the recording is the next move
  await page.getByText('Pick a recording').waitFor();
  await settled(page);
  expect((await stored()).stations.intake.data.inspection).toMatchObject({
    cantilever: { grade: 'fault', note: 'bent to the left' },
    tip: { grade: 'not-checked' },
  });
});

test('a recording that says nothing of the deck is named, and why; it is not how the deck came', async () => {
  const [rate, seconds] = [48_000, 8];
  const tone = (i: number): number => Math.round(8000 * Math.sin((2 * Math.PI * 1000 * i) / rate));
  const path = join(bench.folder, 'one tone.wav');
  const both = Array.from({ length: 2 * rate * seconds }, (_, i) => tone(Math.floor(i / 2)));
  writeFileSync(path, wave(both, 16));
  await page.getByLabel('Pick a recording').setInputFiles(path);
  const told = page.getByRole('region', { name: 'As it came' }).getByRole('status');
  await soon(() => told.innerText()).toBe('one tone.wav does not count. It has one channel, or the same in both.');
  await page.getByText('Not measured yet as it came.').waitFor();
  await settled(page);
});

test('the list changes a grade; it has no serious fault for a screen reader and fits 390 px', async () => {
  await page.locator('summary', { hasText: /^Inspection/ }).click();
  const tip = page.getByRole('group', { name: /^Tip there/ });
  expect(await tip.getByRole('radio', { name: 'not checked' }).isChecked()).toBe(true);
  await tip.getByText('pass', { exact: true }).click();
  await page.getByText('Inspection: 6 of 7 pass, 1 fault.').waitFor();
  expect(await axeFaults(page)).toEqual([]);
  await page.setViewportSize({ width: 390, height: 844 });
  expect(await overflowOf(page)).toBe(0);
  await page.setViewportSize({ width: 1440, height: 900 });
});

/** A landscape picture with its top to the left, as a camera held upright writes it: orientation 6, and a place. */
async function cameraPicture(): Promise<Buffer> {
  const plain = await page.evaluate(async () => {
    const canvas = document.createElement('canvas');
    canvas.width = 2400;
    canvas.height = 1800;
    const context = canvas.getContext('2d') as CanvasRenderingContext2D;
    context.fillStyle = '#a33';
    context.fillRect(0, 0, 2400, 1800);
    return canvas.toDataURL('image/jpeg', 0.9).split(',')[1];
  });
  const jpeg = Buffer.from(plain, 'base64');
  // EXIF 2.3: little-endian TIFF, one directory with orientation 6 and a text
  const text = 'GPS 52.0 N 13.0 E\0';
  const tiff = Buffer.alloc(8 + 2 + 2 * 12 + 4 + text.length);
  tiff.write('II*\0', 0, 'latin1');
  tiff.writeUInt32LE(8, 4);
  tiff.writeUInt16LE(2, 8);
  tiff.writeUInt16LE(0x010e, 10);
  tiff.writeUInt16LE(2, 12);
  tiff.writeUInt32LE(text.length, 14);
  tiff.writeUInt32LE(38, 18);
  tiff.writeUInt16LE(0x0112, 22);
  tiff.writeUInt16LE(3, 24);
  tiff.writeUInt32LE(1, 26);
  tiff.writeUInt16LE(6, 30);
  tiff.write(text, 38, 'latin1');
  const body = Buffer.concat([Buffer.from('Exif\0\0', 'latin1'), tiff]);
  const head = Buffer.from([0xff, 0xe1, (body.length + 2) >> 8, (body.length + 2) & 255]);
  return Buffer.concat([jpeg.subarray(0, 2), head, body, jpeg.subarray(2)]);
}

test('a photograph is turned upright, made small, keeps no place, and stands in the technician’s report', async () => {
  await page.locator('summary', { hasText: /^Photographs/ }).click();
  const buffer = await cameraPicture();
  expect(buffer.includes('GPS 52.0')).toBe(true);
  await page.getByLabel('Add photographs').setInputFiles([
    { name: 'tip.jpg', mimeType: 'image/jpeg', buffer },
    { name: 'no picture.jpg', mimeType: 'image/jpeg', buffer: Buffer.from('nothing') },
  ]);
  await page
    .getByRole('alert')
    .getByText(/no picture\.jpg is no picture that this browser can read/)
    .waitFor();
  await page.getByRole('textbox', { name: 'What Intake 1 shows' }).fill('the tip under the glass');
  await soon(async () => (await stored()).photographs[0]?.note).toBe('the tip under the glass');
  const [photograph] = (await stored()).photographs;
  expect(photograph).toMatchObject({ station: 'intake', width: 1200, height: 1600 });
  const kept = Buffer.from(
    await (
      await fetch(bench.address + apiPaths.photograph(job, photograph.id), {
        headers: { authorization: `Bearer ${bench.key}` },
      })
    ).arrayBuffer(),
  );
  expect([...kept.subarray(0, 2)]).toEqual([0xff, 0xd8]);
  expect(kept.includes('GPS')).toBe(false);
  expect(kept.includes('Exif')).toBe(false);
  await soon(() => page.locator('.photographs img').evaluate((image: HTMLImageElement) => image.naturalWidth)).toBe(
    1200,
  );
  const report = await (await bench.context()).newPage();
  await report.goto(`${bench.address}/api/jobs/${job}/report?for=technician`);
  await soon(() => report.locator('figure img').evaluate((image: HTMLImageElement) => image.naturalHeight)).toBe(1600);
  expect(await report.locator('figure').innerText()).toContain('Intake: the tip under the glass');
  await report.context().close();
  await page.getByRole('button', { name: 'Delete Intake 1' }).click();
  await page.getByRole('button', { name: 'Delete Intake 1 for good' }).click();
  await soon(async () => (await stored()).photographs).toEqual([]);
});

test('the page met no error of its own', () => {
  expect(bench.errors).toEqual([]);
});
