// biome-ignore-all lint/performance/useDomNodeTextContent: what is tested is the text as it is seen
/** Two pages of a real browser: the bench turns the second screen on, a phone is let in by the code and follows the figure. */
import { mkdtempSync, rmSync } from 'node:fs';
import { networkInterfaces, tmpdir } from 'node:os';
import { join } from 'node:path';
import jsQR from 'jsqr';
import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { axeFaultsNow } from './axeFaults.ts';
import { type Bench, openBench } from './bench.ts';
import { fakeDevice, tiltPair } from './liveSides.ts';
import { PATIENCE_MS, soon } from './settled.ts';

/** Of this machine in its network, where it is in one: there the page is no secure context, as on a phone. */
const lan = Object.values(networkInterfaces())
  .flat()
  .find((one) => one?.family === 'IPv4' && !one.internal)?.address;

let folder: string;
let bench: Bench;
let page: Page;
let phones: BrowserContext;
let phone: Page;
const errors: string[] = [];

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'platterside-second-'));
  const path = join(folder, 'pair 44100.wav');
  bench = await openBench({ flags: fakeDevice(path), serving: ['--second-screen', lan ?? '127.0.0.1'] });
  await tiltPair(folder, 44_100, 0.9, 'float', 8);
  page = await bench.page(bench.station('tilt'));
  // axe is a script of ours
  phones = await bench.browser.newContext({ viewport: { width: 390, height: 844 }, bypassCSP: true });
  phones.setDefaultTimeout(PATIENCE_MS);
  phone = await phones.newPage();
  phone.on('pageerror', (error) => errors.push(error.message));
  phone.on('console', (message) => {
    if (message.type() === 'error' && !/the server responded with a status of 4(03|29)/.test(message.text()))
      errors.push(message.text());
  });
});
afterAll(async () => {
  await bench?.close();
  rmSync(folder, { recursive: true, force: true });
});

const card = () => page.locator('.second');
const url = (): Promise<string> => card().locator('.second-url').innerText();
const code = async (): Promise<string> => (await card().locator('.second-code').innerText()).replace(/\D/g, '');
const turnOn = () => card().getByRole('button', { name: 'Turn the second screen on' }).click();
const enter = async (text: string): Promise<void> => {
  await phone.getByLabel('Code').fill(text);
  await phone.getByRole('button', { name: 'Show the figure' }).click();
};
const isThere = (address: string): Promise<boolean> =>
  fetch(address, { headers: { connection: 'close' } }).then(
    () => true,
    () => false,
  );

/** What a phone's camera would make of the picture. */
async function scanned(): Promise<string | undefined> {
  const { data, side } = await card()
    .locator('.second-qr')
    .evaluate(async (svg) => {
      const side = 300;
      const image = new Image(side, side);
      const drawn = svg.cloneNode(true) as SVGElement;
      drawn.setAttribute('width', String(side));
      drawn.setAttribute('height', String(side));
      image.src = `data:image/svg+xml,${encodeURIComponent(new XMLSerializer().serializeToString(drawn))}`;
      await image.decode();
      const canvas = document.createElement('canvas');
      canvas.width = side;
      canvas.height = side;
      const context = canvas.getContext('2d');
      context?.drawImage(image, 0, 0);
      return { side, data: [...(context?.getImageData(0, 0, side, side).data ?? [])] };
    });
  return jsQR(Uint8ClampedArray.from(data), side, side)?.data;
}

test('off by default; once on, the code lets one phone in, which follows the figure that the bench shows', async () => {
  await card().locator('summary').click();
  await card().getByText('It can only be read.').waitFor();
  await turnOn();
  const address = await url();
  expect(await scanned()).toBe(address);
  expect(new URL(address).hostname).toBe(lan ?? '127.0.0.1');
  expect(new URL(address).port).not.toBe(new URL(bench.address).port);

  await phone.goto(address);
  if (lan !== undefined) expect(await phone.evaluate(() => isSecureContext)).toBe(false);
  const right = await code();
  await enter(right === '000000' ? '111111' : '000000');
  await phone.getByText('That is not the code on the bench screen now.').waitFor();
  // one try a second
  await new Promise((resolve) => setTimeout(resolve, 1100));
  await enter(right);
  await phone.getByText('The bench is not listening now.').waitFor();
  await card().getByText('A screen shows the figure.').waitFor();
  expect(await card().locator('.second-code').count()).toBe(0);
  await page.getByText('Listen live figures while the record plays').click();
  await page.getByRole('button', { name: 'Listen', exact: true }).click();
  await soon(() => phone.locator('.band').innerText()).toBe('left only · 1 kHz');
  await soon(() => phone.locator('.band').innerText()).toBe('right only · 1 kHz');
  await soon(() => phone.locator('.value').innerText()).toMatch(/^[+−]\d\.\d+°$/);
  // the pass ends by itself: both show its tilt, the phone with its age
  await soon(() => phone.locator('.age').innerText()).toMatch(/^Tilt.*: read [1-9]\d* s ago$/);
  await soon(async () =>
    (await page.locator('.tilt-guide .figure').innerText()).includes(await phone.locator('.value').innerText()),
  ).toBe(true);
  await soon(
    async () => (await phone.locator('.says').innerText()) === (await page.locator('.guide-says').innerText()),
  ).toBe(true);
  expect(await phone.locator('.note').first().innerText()).toContain('With what the record may hide');
});

test('it is read from afar at 390 px and on its side, in the dark and in the light, without a fault', async () => {
  for (const [width, height] of [
    [390, 844],
    [844, 390],
    [1180, 820],
  ]) {
    await phone.setViewportSize({ width, height });
    for (const colorScheme of ['light', 'dark'] as const) {
      await phone.emulateMedia({ colorScheme });
      const sizes = await phone.evaluate(() => {
        const value = document.querySelector('.value');
        if (value === null) throw new Error('no figure');
        const box = value.getBoundingClientRect();
        return {
          letters: Number.parseFloat(getComputedStyle(value).fontSize),
          overflow: document.documentElement.scrollWidth - innerWidth,
          below: document.documentElement.scrollHeight - innerHeight,
          right: box.right - innerWidth,
          wide: innerWidth > innerHeight,
        };
      });
      expect(sizes.overflow).toBeLessThanOrEqual(0);
      expect(sizes.right).toBeLessThanOrEqual(0);
      expect(sizes.below).toBeLessThanOrEqual(0);
      // upright a phone's figure has digits of 11 mm, on its side of 18
      expect(sizes.letters).toBeGreaterThan(sizes.wide ? 130 : 90);
      expect(await axeFaultsNow(phone)).toEqual([]);
    }
  }
  await phone.setViewportSize({ width: 390, height: 844 });
});

test('a page loaded anew goes on, no cookie is involved, and nothing else of the program is there', async () => {
  await phone.reload();
  await soon(() => phone.locator('.value').count()).toBe(1);
  expect(await phones.cookies()).toEqual([]);
  const address = new URL(phone.url()).origin;
  for (const path of ['/api/jobs', '/api/last', '/api/second-screen', bench.station('tilt'), '/assets/'])
    expect((await fetch(address + path, { headers: { connection: 'close' } })).status, path).toBe(404);
});

test('one button ends it, and so does closing the bench page', async () => {
  const address = await phone.evaluate(() => location.href);
  await card().getByRole('button', { name: 'Turn the second screen off' }).click();
  await phone.getByText('The second screen was turned off at the bench.').waitFor();
  await soon(() => isThere(address)).toBe(false);
  await turnOn();
  const again = await url();
  expect(await isThere(again)).toBe(true);
  await page.close();
  await soon(() => isThere(again)).toBe(false);
  expect(errors).toEqual([]);
  expect(bench.errors).toEqual([]);
});
