// biome-ignore-all lint/performance/useDomNodeTextContent: what is tested is the text as it is seen
/**
 * A deck comes in with one cartridge and leaves with another. Every sentence is of the cartridge on the arm: the old one's
 * recording stays "as received", and neither advises nor is held against what the new one does.
 */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { unfold } from './axeFaults.ts';
import { type Bench, dropFiles, openBench } from './bench.ts';
import { settled, soon } from './settled.ts';
import { noLeaks, shortSide } from './shortSide.ts';

let bench: Bench;
let page: Page;
let job: string;
beforeAll(async () => {
  bench = await openBench();
  job = (await bench.ask('POST', '/api/jobs', { deck: { name: 'a deck that came in' } })).id;
  page = await bench.page(`/jobs/${job}/intake`);
});
afterAll(() => bench?.close());

const spaced = (text: string): string => text.replace(/\s+/g, ' ');
const main = async (): Promise<string> => spaced(await page.locator('main').innerText());
const stored = () => bench.ask('GET', `/api/jobs/${job}`);
const go = async (station: RegExp): Promise<void> => {
  await page.getByRole('link', { name: station }).first().click();
  await settled(page);
};

/** Drops a side and waits until the server keeps it. */
async function drop(tiltDeg: number, seed: number): Promise<void> {
  const before = (await stored()).captures.length;
  const { bytes } = await shortSide(bench.folder, tiltDeg, seed, noLeaks);
  await dropFiles(page, [{ name: `pass ${seed}.wav`, bytes }]);
  await soon(async () => (await stored()).captures.length).toBe(before + 1);
  await settled(page);
}

const card = () => page.locator('.turn-card');
const angle = async (): Promise<string> => spaced(await card().innerText()).slice(0, 4);

test('as it came: the old cartridge is measured at Intake', async () => {
  await page.getByRole('textbox', { name: 'Cartridge', exact: true }).fill('the old one');
  await settled(page);
  await drop(2, 1);
  await soon(main).toContain('As it came: pass 1.wav');
  await go(/^Tilt/);
  await soon(angle).toMatch(/^(2\.0|1\.9)/);
  // before so large a turn, and without opening anything
  expect(spaced(await card().innerText())).toContain('Look in a mirror first');
});

test('another cartridge picked at Match is asked after; only looked at, it is nobody else’s', async () => {
  await go(/^Match/);
  const cartridge = page.getByLabel('Cartridge', { exact: true });
  await cartridge.selectOption({ label: 'bench moving magnet' });
  const question = page.getByRole('region', { name: 'bench moving magnet: fitted, or only looked at?' });
  await question.waitFor();
  expect(await question.innerText()).toContain('The other stations go by the old one.');
  await settled(page);
  const { parts = {}, looked } = (await stored()).stations.match.data;
  expect(parts.cartridge ?? null).toBeNull();
  expect(looked.cartridge.part.name).toBe('bench moving magnet');
  await go(/^Tilt/);
  await soon(angle).toMatch(/^(2\.0|1\.9)/);
  await go(/^Match/);
});

test('several parts are asked after in one question, what replaces nothing there all along', async () => {
  await page.getByLabel('Arm', { exact: true }).selectOption({ index: 1 });
  await page.getByLabel('Preamp', { exact: true }).selectOption({ index: 1 });
  const question = page.getByRole('region', { name: /fitted, or only looked at\?$/ });
  await question.getByRole('button', { name: 'Keep these answers' }).waitFor();
  expect(await question.count()).toBe(1);
  const said = () =>
    question.getByRole('combobox').evaluateAll((all) => all.map((one) => (one as HTMLSelectElement).value));
  expect((await said()).sort()).toEqual(['all-along', 'all-along', 'fitted']);
  await question.getByLabel('bench moving magnet').selectOption('put-away');
  await question.getByRole('button', { name: 'Keep these answers' }).click();
  await question.waitFor({ state: 'detached' });
  await settled(page);
  const { fittings, stations } = await stored();
  expect(fittings).toEqual([]);
  expect(Object.keys(stations.match.data.parts).sort()).toEqual(['arm', 'preamp']);
  expect(stations.match.data.looked ?? {}).toEqual({});
  await page.getByLabel('Cartridge', { exact: true }).selectOption({ label: 'bench moving magnet' });
  await page.getByRole('region', { name: 'bench moving magnet: fitted, or only looked at?' }).waitFor();
});

test('fitted, the old one’s advice is gone, and stays where it was heard', async () => {
  await go(/^Match/);
  const question = page.getByRole('region', { name: /fitted, or only looked at\?$/ });
  await question.getByRole('textbox', { name: /^Hours on its stylus/ }).fill('0');
  await question.getByRole('button', { name: 'Fitted now' }).click();
  await question.waitFor({ state: 'detached' });
  await settled(page);
  await soon(async () => (await stored()).fittings).toMatchObject([
    { kind: 'cartridge', name: 'bench moving magnet', was: 'the old one', hours: 0 },
  ]);
  await go(/^Tilt/);
  await soon(main).toContain('What to do');
  expect(await card().count()).toBe(0);
  expect(await main()).not.toMatch(/Turn the cartridge/);
  await go(/^Intake/);
  expect(await main()).toContain('As it came with the old one: pass 1.wav');
});

test('the new one has its own advice and its own passes; nothing is held against the old one’s', async () => {
  await go(/^Tilt/);
  await drop(-0.9, 2);
  await soon(angle).toMatch(/^0\.(9|8)/);
  expect(await main()).not.toContain('Did it come as predicted?');
  const { advice, captures } = await stored();
  const old = advice.filter((one: { captureId: string }) => one.captureId === captures[0].id);
  expect(old.length).toBeGreaterThan(0);
  for (const one of old) expect(one).toMatchObject({ checkedBy: null, checks: [] });
});

test('a wrong recording is set aside with its reason and advises no more', async () => {
  await drop(3, 3);
  await soon(angle).toMatch(/^(3\.0|2\.9)/);
  await page.getByText(/^Recordings of this job 3/).click();
  await page.getByRole('button', { name: 'Set aside or say what it is: pass 3.wav' }).click();
  const aside = page.getByRole('button', { name: 'Set it aside' });
  expect(await aside.isDisabled()).toBe(true);
  await page.getByRole('textbox', { name: 'Why pass 3.wav is set aside' }).fill('another deck');
  await aside.click();
  await page.getByRole('button', { name: 'Take it in again: pass 3.wav' }).waitFor();
  await soon(angle).toMatch(/^0\.(9|8)/);
  expect(await main()).toContain('Does not count. Set aside: another deck');
  // shown, it says so and advises nothing
  await page.getByRole('button', { name: 'Show pass 3.wav' }).click();
  await soon(main).toContain('These figures do not count for what is fitted. Set aside: another deck');
  expect(await card().count()).toBe(0);
  await page.getByRole('button', { name: 'Back to pass 2.wav, the last that counts' }).click();
  await card().waitFor();
  await soon(main).not.toContain('These figures do not count');
});

test('the turn is checked by the next pass of the same cartridge', async () => {
  await page.getByRole('button', { name: /^I turned the (head)?shell/ }).click();
  await settled(page);
  await drop(0.02, 4);
  await soon(main).toContain('Pass 1 said, pass 2 measured');
});

test('hand over and report speak of the cartridge on the arm', async () => {
  await go(/^Hand over/);
  await unfold(page);
  const text = await main();
  expect(text).toContain('Before: as received with the old one, pass 1.wav');
  expect(text).toContain('After: since the cartridge bench moving magnet was fitted, pass 4.wav');
  const { beforeAfter, captures } = await stored();
  expect(beforeAfter.length).toBeGreaterThan(0);
  for (const pair of beforeAfter) {
    expect([pair.beforeCapture, pair.afterCapture]).toEqual([captures[0].id, captures[3].id]);
  }
  await page.goto(`${bench.address}/api/jobs/${job}/report?for=customer`);
  const report = spaced(await page.locator('body').innerText());
  expect(report).toMatch(/Before: pass 1\.wav, [-0-9 :]+, as received/);
  expect(report).toMatch(/After: pass 4\.wav, [-0-9 :]+, since the cartridge bench moving magnet was fitted/);
  expect(report).not.toContain('pass 3.wav');
  await page.goto(`${bench.address}/api/jobs/${job}/report?for=technician`);
  const whole = spaced(await page.locator('body').innerText());
  expect(whole).toContain('File pass 4.wav');
  expect(whole).toContain('Set aside: another deck');
});

test('the page met no error of its own', () => {
  expect(bench.errors).toEqual([]);
});
