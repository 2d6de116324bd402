// biome-ignore-all lint/performance/useDomNodeTextContent: what is tested is the text as it is seen
/** Run while it is listened to: the speed strip, and the check of earths with a hand on each part; the practice deck plays. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { axeFaults } from './axeFaults.ts';
import { type Bench, openBench } from './bench.ts';
import { soon } from './settled.ts';

let bench: Bench;
let page: Page;
beforeAll(async () => {
  bench = await openBench();
  page = await bench.page(bench.station('run'), { bypassCSP: true });
  await page.getByText('Practice deck, live').click();
  await page.getByRole('button', { name: 'Play it live' }).click();
  await page.getByLabel('Eight times as fast as a real deck').check();
});
afterAll(async () => {
  await bench?.close();
});

test('the strip draws the speed over time and around the platter, and moves with the knob', async () => {
  const says = page.locator('[data-strip]');
  await page.getByRole('slider', { name: 'Speed' }).fill('1');
  await soon(async () =>
    Number(await page.locator('.strips canvas').first().getAttribute('data-points')),
  ).toBeGreaterThan(200);
  // in % against the speed that the record is cut for, once the band has told it: all of it within 0.3 % of what was set
  const within = async (percent: number): Promise<boolean> => {
    const told = /^From ([+−][\d.]+) to ([+−][\d.]+) % against the speed that the record is cut for/.exec(
      await says.innerText(),
    );
    const [low, high] = (told ?? []).slice(1).map((text) => Number(text.replace('−', '-')));
    return told !== null && low > percent - 0.3 && high < percent + 0.3;
  };
  await soon(() => within(1)).toBe(true);
  await soon(() => says.innerText()).toMatch(/each ± 0\.\d+ %/);
  await page.getByRole('slider', { name: 'Speed' }).fill('-1');
  await soon(() => within(-1)).toBe(true);
});

test('touch this, look here: the joint that is open is named in one sentence', async () => {
  await page.getByRole('heading', { name: 'Hum and earths' }).click();
  // 1 kHz is a multiple of 50 Hz: what plays is not told as hum
  await soon(() => page.locator('[data-hum]').innerText()).toContain('hidden by the band that plays');
  await page.getByLabel('Earth joint that is open').selectOption('arm');
  await page.getByRole('button', { name: 'Lift the arm' }).click();
  await page.locator('[data-arm="up"]').waitFor();
  const level = page.locator('[data-hum]');
  const decibels = async (): Promise<number> =>
    Number((/[−-]?[\d.]+/.exec(await level.innerText()) ?? ['0'])[0].replace('−', '-'));
  await soon(() => level.getAttribute('data-hum')).toBe('rises');
  await soon(async () => decibels()).toBeGreaterThan(-68);
  const loud = await decibels();
  // the electronics alone, hum A-weighted: 50 Hz counts 30 dB less, a wide hiss hardly
  const noise = page.locator('[data-noise]');
  expect(await noise.innerText()).toMatch(/^−[\d.]+ ± [\d.]+ dB Noise, A-weighted/);
  expect(Number(await noise.getAttribute('data-noise'))).toBeLessThan(loud);
  expect(await level.innerText()).toMatch(/± [\d.]+ dB · 50 Hz/);
  const earth = page.locator('[data-earth]');
  await page.getByRole('button', { name: 'Measure with nothing touched' }).click();
  await soon(() => earth.innerText()).toContain('Touch the arm’s earth terminal');
  const measure = page.getByRole('button', { name: 'My hand is on it' });
  await page.getByLabel('Your hand is on').selectOption('arm-earth');
  await measure.click();
  await soon(() => earth.innerText()).toContain('Touch the arm tube');
  // a terminal that is earthed takes no notice
  expect(await page.locator('[data-touched="arm-earth"]').innerText()).toMatch(/[+−]?0\.\d/);
  await page.getByLabel('Your hand is on').selectOption('arm');
  await soon(async () => decibels()).toBeLessThan(loud - 8);
  await measure.click();
  await soon(() => earth.getAttribute('data-earth')).toBe('earth-joint-arm');
  expect(await earth.innerText()).toContain('between arm tube and its earth terminal');
  expect(await page.locator('[data-touched="arm"]').innerText()).toMatch(/−1[34]\.?\d* ± [\d.]+ dB/);
  expect(await axeFaults(page)).toEqual([]);
  await page.setViewportSize({ width: 390, height: 844 });
  expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(0);
  await page.getByRole('button', { name: 'Stop listening' }).click();
  expect(bench.errors).toEqual([]);
});
