// biome-ignore-all lint/performance/useDomNodeTextContent: what is tested is the text as it is seen
/** A recorded side dropped on the page: the bands, the tilt as the core finds it, its evidence, and the check after the turn. */
import { createHash } from 'node:crypto';
import { closeSync, ftruncateSync, openSync, readFileSync, writeFileSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { SideDocument } from '../../src/core/advise/document.ts';
import { glanceOf } from '../../src/core/job/stations/run/glance.ts';
import { figureLines } from '../../src/core/words/figureLines.ts';
import { type Bench, dropFiles, openBench, platterside } from './bench.ts';
import { holdBack, settled, soon } from './settled.ts';
import { noLeaks, type ShortSide, shortSide } from './shortSide.ts';

let bench: Bench;
let page: Page;
let first: ShortSide;
let measured: SideDocument;

beforeAll(async () => {
  bench = await openBench({ unfolded: true });
  first = await shortSide(bench.folder, 2.5, 1);
  measured = JSON.parse(await platterside('measure', first.path, '--json'));
  page = await bench.page(bench.station('tilt'));
});
afterAll(() => bench?.close());

const figure = (quantity: string): { value: number; uncertainty: number } => {
  const found = measured.findings.find((finding) => finding.quantity === quantity);
  if (typeof found?.value !== 'number' || found.uncertainty === null) throw new Error(`no ${quantity} was measured`);
  return { value: found.value, uncertainty: found.uncertainty };
};
/** As the reports say it: what the record may hide makes an interval of a separation. */
const linesOf = (quantity: string): readonly [string, string | null] => {
  const found = measured.findings.find((finding) => finding.quantity === quantity);
  if (found === undefined) throw new Error(`no ${quantity} was measured`);
  return figureLines(found);
};
/** Digits after the point of a shown figure. */
const decimals = (text: string): number => (/\.(\d+)/.exec(text)?.[1] ?? '').length;

test('a dropped recording shows the tilt that the command line finds, and which way to turn', async () => {
  await dropFiles(page, [{ name: 'pass 1.wav', bytes: first.bytes }]);
  const big = page.locator('.turn-card .figure.big');
  await big.waitFor({ timeout: 90_000 });
  const shown = (await big.innerText()).replace(/\s/g, ' ');
  const { value } = figure('azimuth-error');
  expect(value).toBeGreaterThan(0);
  const number = /^[\d.]+/.exec(shown)?.[0] ?? '';
  expect(number).toBe(Math.abs(value).toFixed(decimals(number)));
  expect(decimals(number)).toBeGreaterThanOrEqual(1);
  expect(shown).toMatch(/± \d\.\d+/);
  await soon(() => page.locator('.turn-card .turn').innerText()).toMatch(
    /^Turn the cartridge anticlockwise, seen from its face/,
  );
  await page.getByText('Before touching the headshell:').first().waitFor();
  await page.getByRole('img', { name: /seen from its face, tilted .* clockwise; turn it anticlockwise/ }).waitFor();
});

test('the separations stand now and after the turn, as the command line has them', async () => {
  const table = page.locator('table.rows').first();
  await settled(page);
  const row = (await table.getByRole('row', { name: /right into left/ }).innerText()).replace(/\s+/g, ' ');
  const [interval, reading] = linesOf('separation-right-to-left');
  expect(interval).toMatch(/^(at least )?[\d.]+( to [\d.]+)? dB$/);
  expect(row).toContain(`${interval} ${reading}`);
  const after = measured.advice
    .find((advice) => advice.action === 'tilt')
    ?.predicts.find((prediction) => prediction.quantity === 'separation-right-to-left');
  expect(row.endsWith(` ${after?.value.toFixed(1)}`)).toBe(true);
});

test('the side stands as a time line with its bands in words; picking one by keyboard picks out its figures', async () => {
  const bands = page.getByRole('list', { name: /Bands heard/ }).getByRole('button');
  await soon(() => bands.count()).toBe(measured.bands.length);
  await soon(() => bands.nth(0).innerText()).toMatch(/left only · 1 kHz/);
  await soon(() => bands.nth(1).innerText()).toMatch(/right only · 1 kHz/);
  await bands.nth(0).focus();
  await page.keyboard.press('ArrowRight');
  await soon(() => bands.nth(1).getAttribute('aria-pressed')).toBe('true');
  await page.getByRole('region', { name: 'Figures read from band 2' }).waitFor();
  await page.keyboard.press('Enter');
  await soon(() => bands.nth(1).getAttribute('aria-pressed')).toBe('false');
});

test('a figure opens its evidence: curve, bands, uncertainty; Escape closes it and gives the focus back', async () => {
  const name = page.getByRole('button', { name: 'left into right' });
  await name.focus();
  await page.keyboard.press('Enter');
  const dialog = page.getByRole('dialog');
  await dialog.waitFor();
  await soon(() => dialog.locator('.chart .line').count()).toBeGreaterThan(1);
  await soon(() => dialog.innerText()).toMatch(/Band 1: left only · 1 kHz/);
  await soon(() => dialog.innerText()).toMatch(/k = 2/);
  const chart = dialog.getByRole('slider').first();
  await chart.focus();
  await page.keyboard.press('ArrowRight');
  await soon(() => chart.getAttribute('aria-valuetext')).toMatch(/: left .* dB/);
  await page.keyboard.press('Escape');
  await dialog.waitFor({ state: 'hidden' });
  await soon(() => page.evaluate(() => document.activeElement?.textContent)).toBe('left into right');
});

test('the formula and its page come with the evidence', async () => {
  await page.getByRole('button', { name: 'What this angle rests on' }).click();
  const dialog = page.getByRole('dialog');
  await dialog.getByText('How it is found').waitFor();
  await soon(async () => (await dialog.locator('pre').first().innerText()).length).toBeGreaterThan(10);
  await dialog.getByRole('link', { name: /Formula, source and limits/ }).click();
  await page.waitForURL('**/docs/methods/**');
  await page.locator('.page-text h3').first().waitFor();
  await page.goBack();
  await page.locator('.turn-card').waitFor();
});

test('after a reload the side is there without its file', async () => {
  await settled(page);
  const before = await page.locator('.turn-card .figure.big').innerText();
  await page.reload();
  await soon(() => page.locator('.turn-card .figure.big').innerText()).toBe(before);
  await soon(() => page.locator('.timeline path.line').count()).toBe(2);
});

test('Run shows the side at a glance, each figure with its picture', async () => {
  await page.getByRole('navigation').getByRole('link', { name: /^Run/ }).click();
  const glance = page.getByRole('region', { name: 'Verdicts' });
  const row = glance.getByRole('listitem').filter({ hasText: 'Speed error' });
  await settled(page);
  const shown = (await row.locator('.figure').innerText()).replace(/\s+/g, ' ');
  const number = /^\+?([\d.]+)/.exec(shown)?.[1] ?? '';
  expect(number).toBe(figure('speed-error').value.toFixed(decimals(number)));
  const intervals = glanceOf(measured.findings)
    .flatMap(({ shown: few }) => few)
    .filter(({ low }) => low !== undefined);
  expect(await glance.locator('.interval').allInnerTexts()).toEqual(intervals.map((one) => figureLines(one)[0]));
  const separation = page.locator('.finding', { hasText: 'Separation, left into right' });
  expect(await separation.locator('.figure').innerText()).toBe(linesOf('separation-left-to-right')[0]);
});

test('a curve is saved as a picture and as values', async () => {
  await page.getByRole('button', { name: 'Speed error' }).first().click();
  const dialog = page.getByRole('dialog');
  const save = dialog.getByRole('group', { name: /^Save Speed over time/ }).first();
  const saved = async (kind: string): Promise<{ name: string; bytes: Buffer }> => {
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      save.getByRole('button', { name: kind }).click(),
    ]);
    return { name: download.suggestedFilename(), bytes: readFileSync(await download.path()) };
  };
  const csv = await saved('CSV');
  expect(csv.name).toBe('speed-over-time.csv');
  expect(csv.bytes.toString()).toMatch(/^time \(s\),.* \(%\)\r\n[\d.]+,-?[\d.e-]+\r\n/);
  const svg = (await saved('SVG')).bytes.toString();
  expect(svg).toMatch(/^<svg[^>]* xmlns="http:\/\/www.w3.org\/2000\/svg"/);
  // stands alone: its lines have their own strokes
  expect(svg).toMatch(/<path[^>]* stroke="rgb/);
  const png = (await saved('PNG')).bytes;
  expect([...png.subarray(0, 4)]).toEqual([0x89, 0x50, 0x4e, 0x47]);
  expect(png.length).toBeGreaterThan(2000);
  await page.keyboard.press('Escape');
});

test('the next pass, with its record sheet beside it, is held against what was predicted', async () => {
  await page.getByRole('navigation').getByRole('link', { name: /^Tilt/ }).click();
  await page.getByRole('button', { name: 'I turned the headshell' }).click();
  await page.getByText(/Done: headshell turned/).waitFor();
  const kept = async () => (await bench.stored()).stations.tilt.data.moves;
  await soon(kept).toMatchObject([{ move: 'turn-shell', station: 'tilt', came: null }]);
  await page.getByRole('button', { name: 'Undo' }).click();
  await soon(kept).toEqual([]);
  await page.getByRole('button', { name: 'I turned the headshell' }).click();
  const second = await shortSide(bench.folder, 0.8, 2);
  await page.getByLabel('Pick a recording').setInputFiles([second.path, second.sheetPath]);
  const check = page.getByRole('region', { name: 'Predicted and measured' });
  await check.waitFor({ timeout: 90_000 });
  const text = async () => (await check.innerText()).replace(/\s+/g, ' ');
  await soon(text).toMatch(/Pass 1 said, pass 2 measured/);
  await soon(text).toMatch(/as predicted/);
  const left = page.getByRole('region', { name: 'What to turn' });
  await left.getByText('Leave the tilt as it is', { exact: true }).waitFor();
  expect((await left.innerText()).match(/leave the tilt/gi)).toHaveLength(1);
  await soon(async () => (await bench.stored()).recordFile).not.toBe('');
});

test('Hand over sets before against after and opens the report', async () => {
  await page
    .getByRole('navigation')
    .getByRole('link', { name: /^Hand over/ })
    .click();
  // both passes were made at Tilt: nothing tells how it came in, which is said, not guessed
  await page.getByText(/^\d+ figures, not measured before$/).waitFor();
  await page.getByText(/^Not measured before: \d+ figures$/).waitFor();
  const [sheet] = await Promise.all([
    page.waitForEvent('popup'),
    page.getByRole('link', { name: 'Open the customer’s report' }).click(),
  ]);
  await sheet.waitForLoadState();
  await soon(() => sheet.locator('body').innerText()).toMatch(/bench deck 3/);
  await sheet.close();
});

test('before and after are intervals where the record may hide something', async () => {
  const { captures } = await bench.stored();
  const change = (kind: string) => bench.ask('PATCH', `/api/jobs/${bench.demo}/captures/${captures[0].id}`, { kind });
  await change('as-received');
  await page.reload();
  const row = page.getByRole('row', { name: /^Separation, left into right/ });
  await soon(() => row.locator('.interval').allInnerTexts()).toContain(linesOf('separation-left-to-right')[0]);
  await soon(() => row.locator('.interval').count()).toBe(2);
  await change('pass');
});

test('equal separations that hide a tilt are told as such', async () => {
  await page.getByRole('navigation').getByRole('link', { name: /^Tilt/ }).click();
  const pure = await shortSide(bench.folder, -1.2, 3, noLeaks);
  // the last pass, asked for as the page opens, comes only after the new one is read: it must not take its place
  const earlier = await holdBack(page, /\/api\/jobs\/[^/]+\/captures\//);
  await page.reload();
  await page.getByText(/^Drop a recorded side/).waitFor();
  await page.getByLabel('Pick a recording').setInputFiles(pure.path);
  await page.getByText('Equal separations hide this tilt.').waitFor({ timeout: 90_000 });
  await earlier.release();
  await settled(page);
  await page.getByText('Equal separations hide this tilt.').waitFor();
  await soon(() => page.locator('.turn-card .turn').innerText()).toMatch(
    /[Tt]urn the cartridge clockwise, seen from its face/,
  );
});

test('a long recording tells how far it is, leaves the page usable, and stops when told to', async () => {
  const path = join(bench.folder, 'long side.wav');
  // so long that no machine has read it before it is told to stop; the file itself takes no room
  const bytes = 3_600_000_000;
  const header = Buffer.from(first.bytes.subarray(0, 44));
  header.write('RIFF', 0);
  header.writeUInt32LE(bytes + 36, 4);
  header.write('WAVEfmt ', 8);
  header.writeUInt32LE(16, 16);
  header.writeUInt16LE(1, 20);
  header.writeUInt16LE(2, 22);
  header.writeUInt32LE(96_000, 24);
  header.writeUInt32LE(96_000 * 6, 28);
  header.writeUInt16LE(6, 32);
  header.writeUInt16LE(24, 34);
  header.write('data', 36);
  header.writeUInt32LE(bytes, 40);
  const file = openSync(path, 'w');
  writeSync(file, header);
  ftruncateSync(file, bytes + 44);
  closeSync(file);
  await page.getByRole('navigation').getByRole('link', { name: /^Tilt/ }).click();
  await page.getByLabel('Pick a recording').setInputFiles(path);
  const bar = page.getByRole('progressbar', { name: 'Reading long side.wav' });
  await bar.waitFor();
  const at = async (): Promise<number> => Number(await bar.getAttribute('aria-valuenow'));
  await soon(at).toBeGreaterThan(0);
  await page.getByText(/ of 3\.6\d* GB/).waitFor();
  const before = await at();
  await page
    .getByRole('navigation')
    .getByRole('link', { name: /^Weigh/ })
    .click();
  await page.getByLabel('Notes at Weigh').fill('written meanwhile');
  await page.getByRole('navigation').getByRole('link', { name: /^Tilt/ }).click();
  await soon(at).toBeGreaterThanOrEqual(before);
  await soon(() => page.workers().length).toBe(3);
  await page.getByRole('button', { name: 'Stop' }).click();
  await page.getByText('Stopped. Nothing of long side.wav was kept.').waitFor();
  await soon(() => page.workers().length).toBe(0);
  const job = await bench.stored();
  expect(job.captures.map((capture: { file: string }) => capture.file)).toEqual([
    'pass 1.wav',
    'pass 2.wav',
    'pass 3.wav',
  ]);
});

test('a recording that gives no tilt says why', async () => {
  const tone = { signal: 'tone', peakVelocityCmS: 5, durationS: 5 };
  const cuts = [
    { ...tone, motion: 'lateral', frequencyHz: 400 },
    { ...tone, motion: 'left', frequencyHz: 1000 },
    { ...tone, motion: 'right', frequencyHz: 1000 },
    { ...tone, motion: 'vertical', frequencyHz: 1000 },
  ];
  const [sheet, path] = [join(bench.folder, 'mixed.record.json'), join(bench.folder, 'mixed.wav')];
  writeFileSync(sheet, JSON.stringify({ schema: 1, name: 'Mixed side', bands: cuts }));
  await platterside('simulate', '--record', sheet, '-o', path);
  // the job remembers the record of its last pass
  await page.getByText('About this record and recording').click();
  await page.getByLabel('Record file', { exact: true }).selectOption('');
  await page.getByLabel('Pick a recording').setInputFiles(path);
  const card = page.locator('section', { hasText: 'This recording does not give the tilt.' });
  await card.waitFor({ timeout: 90_000 });
  await soon(() => card.innerText()).toMatch(/Tilt \(azimuth error\) is withheld: only a record file tells/);
  await soon(() => card.innerText()).not.toContain('left channel only');
});

test('a long recording, read by several threads, gives the fingerprint and the figures of the command line', async () => {
  const header = first.bytes.subarray(0, 44);
  const samples = first.bytes.subarray(44);
  const times = Math.ceil((4.5e6 * Buffer.from(header).readUInt16LE(32)) / samples.length);
  const whole = Buffer.concat([header, ...new Array<Uint8Array>(times).fill(samples)]);
  whole.writeUInt32LE(whole.length - 8, 4);
  whole.writeUInt32LE(whole.length - 44, 40);
  const path = join(bench.folder, 'again and again.wav');
  writeFileSync(path, whole);
  const asked = page.waitForRequest((request) => /\/captures$/.test(request.url()) && request.method() === 'POST', {
    timeout: 90_000,
  });
  await page.getByLabel('Pick a recording').setInputFiles(path);
  const { document }: { document: SideDocument } = (await asked).postDataJSON();
  const line: SideDocument = JSON.parse(await platterside('measure', path, '--json'));
  const sha256 = createHash('sha256').update(whole).digest('hex');
  expect([document.capture.sha256, line.capture.sha256]).toEqual([sha256, sha256]);
  expect(document.bands).toHaveLength(4 * times);
  for (const quantity of ['azimuth-error', 'channel-balance', 'speed-error']) {
    const [there, here] = [document, line].map((side) => side.findings.find((one) => one.quantity === quantity)?.value);
    expect(there).toBeCloseTo(here as number, 9);
  }
}, 240_000);

test('no request left this machine, and the recording was not sent', () => {
  expect(bench.asked.filter((url) => !url.startsWith(`${bench.address}/`) && !/^(blob|data):/.test(url))).toEqual([]);
  expect(bench.errors).toEqual([]);
});
