// biome-ignore-all lint/performance/useDomNodeTextContent: what is tested is the text as it is seen
/** The practice deck plays live into the very path of a sound input: knobs take effect, an exercise is found by the tool's own advice. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { axeFaults, overflowOf } from './axeFaults.ts';
import { type Bench, openBench } from './bench.ts';
import { soon } from './settled.ts';

let bench: Bench;
let page: Page;
beforeAll(async () => {
  bench = await openBench();
  // what a screen reader needs is looked at by a script of our own
  page = await bench.page(bench.station('tilt'), { bypassCSP: true });
});
afterAll(async () => {
  await bench?.close();
});

const open = async (): Promise<void> => {
  const play = page.getByRole('button', { name: 'Play it live' });
  if (!(await play.isVisible())) await page.getByText('Practice deck, live').click();
  await play.waitFor();
};
const faster = () => page.getByLabel('Eight times as fast as a real deck').check();
const guide = () => page.locator('.tilt-guide');
const pass = () => page.locator('[data-practice-pass]').getAttribute('data-practice-pass');
const advised = (action: string) => page.locator(`[data-action="${action}"]`).innerText();
/** by keys, as without a mouse */
async function click(label: string, clicks: number): Promise<void> {
  await page.getByRole('slider', { name: label }).focus();
  for (let i = 0; i < Math.abs(clicks); i++) await page.keyboard.press(clicks > 0 ? 'ArrowRight' : 'ArrowLeft');
}

test('live practice: the tilt appears and settles; turned as advised it is inside; nothing enters the job', async () => {
  const before = (await bench.stored()).captures.length;
  await open();
  await page.getByRole('button', { name: 'Play it live' }).click();
  await page.getByText('practice deck · 48000 Hz').waitFor();
  await faster();
  await click('Tilt', 10);
  expect(await page.getByRole('slider', { name: 'Tilt' }).getAttribute('aria-valuetext')).toBe('+2.5°');
  // a band in which it was turned step by step may have told a part of it
  await soon(() => guide().innerText()).toMatch(/\+2\.[45]\d? ?°[\s\S]*Turn anticlockwise, about 2\.[45]/);
  await soon(async () => Number(await pass())).toBeGreaterThan(0);
  await soon(() => advised('tilt')).toContain('anticlockwise');
  await click('Tilt', -25);
  await soon(() => guide().getAttribute('data-guide')).toMatch(/good-(once|enough)/);
  await soon(() => guide().getAttribute('data-guide')).toBe('good-enough');
  expect(await page.locator('.live-verdicts').innerText()).not.toMatch(/lost|zeros were/);
  expect(await axeFaults(page)).toEqual([]);
  expect(await overflowOf(page)).toBeLessThanOrEqual(0);
  // the arm goes up for it by itself
  await page.getByLabel('Left and right leads swapped').check();
  await soon(() => page.locator('[data-action="swap-channels"]').count()).toBe(1);
  await page.getByRole('button', { name: 'Stop listening' }).click();
  expect((await bench.stored()).captures.length).toBe(before);
  expect(await page.getByText('Recordings in this browser').count()).toBe(0);
  expect(bench.errors).toEqual([]);
});

test('an exercise hides the tilt; the advice of two passes turns it out, and the end says how near it came', async () => {
  await open();
  await page.getByRole('button', { name: 'Exercise: find the tilt' }).click();
  await page.getByText('practice deck · 48000 Hz').waitFor();
  await soon(() => guide().getAttribute('data-guide')).toBe('turn');
  const says = await guide().innerText();
  const [, way, by] = /Turn (clockwise|anticlockwise), about ([\d.]+)/.exec(says) ?? [];
  expect(await page.getByRole('slider', { name: 'Tilt' }).getAttribute('aria-valuetext')).toBe('as it was');
  await click('Tilt', Math.round(Number(by) * 10) * (way === 'clockwise' ? 1 : -1));
  expect(await page.getByRole('slider', { name: 'Tilt' }).getAttribute('aria-valuetext')).toMatch(
    /^\d+ clicks (anti)?clockwise$/,
  );
  await soon(() => guide().getAttribute('data-guide')).toMatch(/good-(once|enough)/);
  await soon(async () => Number(await pass())).toBeGreaterThan(0);
  await page.getByRole('button', { name: 'Done: show what was hidden' }).click();
  const row = page.locator('[data-fault="tiltDeg"]');
  await row.waitFor();
  expect(await row.getAttribute('data-near')).toBe('true');
  const cells = await row.locator('td').allInnerTexts();
  expect(cells[0]).toMatch(/^[+−][123]\.\d°$/);
  // hidden one way, turned the other
  expect(cells[0].startsWith('+')).toBe(way === 'anticlockwise');
  expect(Math.abs(Number(await row.getAttribute('data-left')))).toBeLessThanOrEqual(0.2);
  expect(cells[1]).toMatch(/± 0\.05°$/);
  await page.getByRole('button', { name: 'Close the exercise' }).click();
  await page.getByText('Practice deck, live').waitFor();
  expect(bench.errors).toEqual([]);
});
