// biome-ignore-all lint/performance/useDomNodeTextContent: what is tested is the text as it is seen
/**
 * Run while it is listened to, with a fed device: hum and noise with the arm up, then the speed tone, and both on a second screen
 * beside the deck; that one at an address of IPv6 where this machine has one.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { networkInterfaces, tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { lanAddresses } from '../../src/server/secondScreen/lanAddresses.ts';
import { type Bench, openBench } from './bench.ts';
import { fakeDevice, soundFile } from './liveSides.ts';
import { PATIENCE_MS, soon } from './settled.ts';

const ARM_UP_S = 40;
const TONE_S = 20;
const HUM_PEAK = 1e-3;
const NOISE_PEAK = 1e-4;
const offered = lanAddresses(networkInterfaces());
const six = offered.find(({ address }) => address.includes(':'));

let folder: string;
let bench: Bench;
let page: Page;
let phone: Page;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'platterside-run-'));
  let state = 1;
  const roll = (): number => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 31 - 1;
  };
  const path = soundFile(join(folder, 'run.wav'), ARM_UP_S + TONE_S + 6, (t) => {
    const hum = HUM_PEAK * Math.sin(2 * Math.PI * 50 * t);
    const isDown = t > ARM_UP_S;
    const groove = isDown ? 3e-3 : NOISE_PEAK;
    const tone = t > ARM_UP_S + 2 && t < ARM_UP_S + 2 + TONE_S ? 0.2 * Math.sin(2 * Math.PI * 3150 * t) : 0;
    return [tone + hum + groove * roll(), tone + hum + groove * roll()];
  });
  const address = (six ?? offered[0])?.address ?? '127.0.0.1';
  bench = await openBench({ flags: fakeDevice(path), serving: ['--second-screen', address] });
  page = await bench.page(bench.station('run'));
  const phones = await bench.browser.newContext({ viewport: { width: 390, height: 844 } });
  phones.setDefaultTimeout(PATIENCE_MS);
  phone = await phones.newPage();
});
afterAll(async () => {
  await bench?.close();
  rmSync(folder, { recursive: true, force: true });
});

const numberOf = (text: string): number => Number((/[−-]?[\d.]+/.exec(text) ?? [''])[0].replace('−', '-'));

test('a phone is let in at Run, before anything plays', async () => {
  const card = page.locator('.second');
  await card.locator('summary').click();
  await card.getByRole('button', { name: 'Turn the second screen on' }).click();
  const url = await card.locator('.second-url').innerText();
  if (six !== undefined) expect(url).toMatch(/^http:\/\/\[f[cd].*\]:\d+\/$/);
  await phone.goto(url);
  await phone.getByLabel('Code').fill((await card.locator('.second-code').innerText()).replace(/\D/g, ''));
  await phone.getByRole('button', { name: 'Show the figure' }).click();
  await phone.getByText('The bench is not listening now.').waitFor();
});

test('with the arm up hum and noise are those of the electronics, and begin no pass', async () => {
  await page.getByText('Listen live figures while the record plays').click();
  await page.getByRole('button', { name: 'Listen', exact: true }).click();
  await page.getByRole('heading', { name: 'Hum and earths' }).click();
  const hum = page.locator('[data-hum]');
  await soon(() => hum.getAttribute('data-hum')).toBe('rises');
  // both channels together: 3 dB over the −60 dBFS of each
  await soon(async () => Math.abs(numberOf(await hum.innerText()) + 57)).toBeLessThan(0.3);
  // A-weighted the hiss, a third of its peak squared in each channel, is −81.2 dB and 50 Hz counts 30.2 dB less (IEC 61672-1): −87.2 dB
  const noise = numberOf(await page.locator('[data-noise]').innerText());
  expect(Math.abs(noise + 80.3)).toBeLessThan(0.5);
  await page.getByRole('button', { name: 'Measure with nothing touched' }).click();
  await soon(() => page.locator('[data-earth]').innerText()).toContain('Touch the arm’s earth terminal');
  const free = page.getByRole('row', { name: /^nothing touched/ });
  expect(Math.abs(numberOf((await free.innerText()).replace('nothing touched', '')) + 57)).toBeLessThan(0.3);
  // a block that the fed device loses knocks as a tip does: that is over in a second or two, and no pass
  await soon(() => page.locator('[data-live-band]').innerText()).toBe('Set the tip down on a test band');
  expect(
    await page
      .locator('.live')
      .getByText(/^Pass \d/)
      .count(),
  ).toBe(0);
});

test('the band that plays then has its first figure on the phone, as the bench has it', async () => {
  await soon(() => phone.locator('.band').innerText()).toContain('3.15 kHz');
  expect(await page.locator('[data-live-band]').getAttribute('data-live-band')).toContain('3.15 kHz');
  await soon(() => phone.locator('.age').innerText()).toMatch(/: now, as it settles$/);
  const value = phone.locator('.value');
  await soon(async () => {
    const shown = /[+−]?[\d.]+/.exec(await value.innerText())?.[0] ?? 'none';
    return (await page.locator('.live').innerText()).includes(shown);
  }).toBe(true);
  // the tone over, its figure is an earlier one
  await soon(() => phone.locator('.age').innerText()).toMatch(/: read [1-9]\d* s ago$/);
  await page.locator('.second').getByRole('button', { name: 'Turn the second screen off' }).click();
  await phone.getByText('The second screen was turned off at the bench.').waitFor();
  await page.getByRole('button', { name: 'Stop listening' }).click();
  expect(bench.errors).toEqual([]);
});
