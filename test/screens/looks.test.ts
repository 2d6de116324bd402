// biome-ignore-all lint/performance/useDomNodeTextContent: what is tested is the text as it is seen
/** Narrow, dark, by keyboard alone, and as a screen reader finds it. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { stationNames } from '../../src/core/job/station.ts';
import { axeFaults, overflowOf, unfold } from './axeFaults.ts';
import { type Bench, openBench } from './bench.ts';
import { settled, soon } from './settled.ts';
import { shortSide } from './shortSide.ts';

let bench: Bench;

beforeAll(async () => {
  bench = await openBench();
  const side = await shortSide(bench.folder, 2.5, 1);
  const page = await bench.page(bench.station('tilt'));
  await page.getByLabel('Pick a recording').setInputFiles(side.path);
  await page.locator('.turn-card').waitFor({ timeout: 90_000 });
  await page.getByRole('button', { name: 'I turned the headshell' }).waitFor();
  // every page from here on shows this side: it must have reached the disk
  await settled(page);
  await page.context().close();
});
afterAll(() => bench?.close());

test.each([
  ['light', 1440, 900],
  ['dark', 1440, 900],
  ['light', 390, 844],
  ['dark', 390, 844],
] as const)(
  'every station is without serious faults for a screen reader, %s at %i px',
  { timeout: 600_000 },
  async (colorScheme, width, height) => {
    const context = await bench.context({ colorScheme, viewport: { width, height }, bypassCSP: true });
    const page = await context.newPage();
    for (const station of stationNames) {
      await page.goto(bench.address + bench.station(station));
      await settled(page);
      await soon(() => page.getAttribute('html', 'data-theme')).toBe(colorScheme);
      expect({ station, faults: await axeFaults(page) }).toEqual({ station, faults: [] });
    }
    await page.goto(bench.address + bench.station('tilt'));
    await page.getByRole('button', { name: 'What this angle rests on' }).click();
    await page.getByRole('dialog').locator('.chart').first().waitFor();
    await page.getByRole('dialog').getByText('How it is found').waitFor();
    expect(await axeFaults(page)).toEqual([]);
    await context.close();
  },
);

test('at 390 px nothing runs out of the page, and the stations are a scroller on top', {
  timeout: 300_000,
}, async () => {
  const page = await bench.page(bench.station('intake'), { viewport: { width: 390, height: 844 } });
  for (const path of [...stationNames.map(bench.station), '/jobs', '/docs/index', '/docs/contract']) {
    await page.goto(bench.address + path);
    await settled(page);
    await unfold(page);
    expect({ path, over: await overflowOf(page) }).toEqual({ path, over: 0 });
  }
  await page.goto(bench.address + bench.station('hand-over'));
  await settled(page);
  const current = page.locator('nav a[aria-current]');
  await soon(async () => {
    const box = await current.boundingBox();
    return box !== null && box.x >= 0 && box.x + box.width <= 390 && box.y < 120;
  }).toBe(true);
  await page.context().close();
});

test('the figure is legible from two metres', async () => {
  const page = await bench.page(bench.station('tilt'));
  const size = () =>
    page.locator('.turn-card .figure.big').evaluate((element) => Number.parseFloat(getComputedStyle(element).fontSize));
  // 20 mm of type, about 14 mm of digit: a twentieth of a degree at 2 m is 1.7 mm
  await soon(size).toBeGreaterThanOrEqual(76);
  await page.context().close();
});

test('the dark theme can be chosen by hand and stays', async () => {
  const page = await bench.page(bench.station('tilt'), { colorScheme: 'light' });
  await page.getByLabel('Theme').first().selectOption('dark');
  await soon(() => page.getAttribute('html', 'data-theme')).toBe('dark');
  await page.reload();
  await settled(page);
  await soon(() => page.getAttribute('html', 'data-theme')).toBe('dark');
  await page.context().close();
});

test('by keyboard alone: skip to the station, open another, reach every control with a visible focus', async () => {
  const page = await bench.page(bench.station('tilt'));
  await settled(page);
  await page.keyboard.press('Tab');
  await soon(() => page.evaluate(() => document.activeElement?.textContent)).toBe('Skip to the station');
  await page.keyboard.press('Enter');
  await soon(() => page.evaluate(() => document.activeElement?.id)).toBe('main');
  const run = page.getByRole('link', { name: /^Run/ });
  await run.focus();
  await page.keyboard.press('Enter');
  await page.waitForURL(`**${bench.station('run')}`);
  await soon(() => page.evaluate(() => document.activeElement?.tagName)).toBe('H2');
  await page.getByText('Pick a recording').waitFor();
  await settled(page);
  const seen = new Set<string>();
  for (let i = 0; i < 60; i++) {
    await page.keyboard.press('Tab');
    const here = await page.evaluate(() => {
      const element = document.activeElement as HTMLElement | null;
      if (element === null || element === document.body) return null;
      const box = element.closest('.button') ?? element;
      const style = getComputedStyle(box);
      const label =
        element.getAttribute('aria-label') ?? (element as HTMLInputElement).labels?.[0]?.innerText ?? element.innerText;
      return {
        name: `${element.tagName} ${label}`,
        outline: Number.parseFloat(style.outlineWidth),
        style: style.outlineStyle,
      };
    });
    if (here === null) break;
    expect({ ...here, seen: here.outline >= 2 && here.style !== 'none' }).toMatchObject({ seen: true });
    seen.add(here.name);
  }
  expect([...seen].join('\n')).toMatch(/Pick a recording/);
  expect([...seen].join('\n')).toMatch(/Speed error/);
  expect([...seen].join('\n')).toMatch(/Run is done/);
  await page.context().close();
});

test('the page met no error of its own', () => {
  expect(bench.errors).toEqual([]);
});
