// biome-ignore-all lint/performance/useDomNodeTextContent: what is tested is the text as it is seen
/** A newcomer with nothing but the page: the practice side, its tilt, its harmonics. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Bench, openBench } from './bench.ts';
import { settled, soon } from './settled.ts';

let bench: Bench;
let page: Page;
beforeAll(async () => {
  bench = await openBench({ unfolded: true });
  page = await bench.page('/');
});
afterAll(() => bench?.close());

const spaced = (text: string): string => text.replace(/\s+/g, ' ');

test('one button on the first page plays a side and leads to the angle and its direction', async () => {
  await page.getByRole('button', { name: 'Play a practice side' }).click();
  await page.getByRole('progressbar', { name: 'The practice deck plays' }).waitFor();
  // the offer is not made twice
  await soon(() => page.getByRole('button', { name: 'Play a practice side' }).count()).toBe(0);
  await page.locator('.turn-card').waitFor({ timeout: 90_000 });
  await settled(page);
  const card = spaced(await page.locator('.turn-card').innerText());
  expect(card).toMatch(/^1\.\d\d° ± 0\.\d\d°/);
  expect(card).toContain('Turn the cartridge anticlockwise, seen from its face');
  // how far, and what that will bring
  expect(card).toMatch(/by 1\.\d\d°/);
  expect(card).toMatch(/Expected gain of the worse separation: \d+\.\d dB/);
  const balance = spaced(await page.getByRole('row', { name: /left against right level/ }).innerText());
  expect(balance).toMatch(/\+1\.\d ± 0\.\d dB \+\d\.\d$/);
});

test('Run holds the harmonics of every tone in one table, each opening what it rests on', async () => {
  await page.getByRole('link', { name: /^Run/ }).click();
  await page.getByRole('region', { name: 'Verdicts' }).waitFor();
  // this page draws its folds open; what was kept of the side comes after the station itself
  await settled(page);
  const table = page.getByRole('table', { name: /^Harmonics of each tone/ });
  await table.waitFor();
  // six tones; four of them in both channels
  await soon(() => table.locator('tbody tr').count()).toBeGreaterThanOrEqual(10);
  const figure = table.getByRole('button', { name: /^\d\.\d+ ± 0\.\d+ %, second harmonic, band 2, left$/ });
  await figure.click();
  const dialog = page.getByRole('dialog');
  await dialog.waitFor();
  await soon(() => dialog.innerText()).toContain('Second harmonic');
  await page.keyboard.press('Escape');
  await soon(() => dialog.count()).toBe(0);
  await soon(() => page.evaluate(() => document.activeElement?.getAttribute('aria-label'))).toMatch(/band 2, left$/);
});

test('the practice side brings its own record file, whatever this job is played with', async () => {
  // levels, noise and the record's hole need what the record file states
  const verdicts = page.getByRole('region', { name: 'Verdicts' });
  await soon(() => verdicts.innerText()).toMatch(/^Hum, (left|right)$/m);
  await soon(() => verdicts.innerText()).toMatch(/^Rumble, (left|right)$/m);
});

test('the page met no error of its own', () => {
  expect(bench.errors).toEqual([]);
});
