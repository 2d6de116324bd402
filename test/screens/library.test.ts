// biome-ignore-all lint/performance/useDomNodeTextContent: what is tested is the text as it is seen
/** The parts library: written down, changed, copied, deleted; in and out as files, with faults told by row and column. */
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { demoParts } from '../../src/core/job/demoParts.ts';
import { partsFromCsv } from '../../src/core/job/partsCsv.ts';
import { partsFromJson } from '../../src/core/job/partsJson.ts';
import { typicalClasses } from '../../src/core/job/typicalClasses.ts';
import { axeFaults, overflowOf } from './axeFaults.ts';
import { type Bench, dropFiles, openBench } from './bench.ts';
import { holdBack, settled, soon } from './settled.ts';

let bench: Bench;
let page: Page;
beforeAll(async () => {
  bench = await openBench();
  page = await bench.page(bench.station('match'));
  await page.getByRole('link', { name: 'Parts library' }).click();
  await page.waitForURL('**/parts');
  await page.getByText('bench moving magnet').waitFor();
});
afterAll(() => bench?.close());

const shelf = () => page.getByRole('region', { name: 'The shelf' });
const field = (name: string) => page.getByRole('textbox', { name, exact: true });
const stored = async (kind: string) =>
  (await bench.ask('GET', `/api/parts?kind=${kind}`)).parts as {
    id: string;
    data: Record<string, unknown>;
  }[];
const take = (name: string, text: string) =>
  page.getByLabel('Import JSON or CSV').setInputFiles({ name, mimeType: 'text/plain', buffer: Buffer.from(text) });

test('every invented part and typical class stands there, marked as what it is', async () => {
  await settled(page);
  const text = (await shelf().innerText()).replace(/\s+/g, ' ');
  for (const part of demoParts) expect(text).toContain(part.name);
  expect((text.match(/invented, for practice/g) ?? []).length).toBe(demoParts.length);
  const classes = (await page.getByRole('region', { name: 'Typical classes' }).innerText()).replace(/\s+/g, ' ');
  expect(classes).toContain('common practice');
  for (const one of typicalClasses) expect(classes).toContain(`${one.name} ${one.from} to ${one.to} ${one.unit}`);
});

test('a new part is written down with its units, kept as typed, and found again', async () => {
  await shelf().getByRole('button', { name: 'cartridge', exact: true }).click();
  await field('Name').fill('mine');
  await field('Mass, g').fill('6,50');
  await field('Tracking force from, mN').fill('1.8 g');
  await field('Compliance, µm/mN').fill('1200');
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await page.getByText('Compliance: Found 1200 µm/mN; 0.5 to 120 µm/mN was expected.').waitFor();
  await field('Compliance, µm/mN').fill('12');
  await page.reload();
  await soon(() => field('Tracking force from, mN').inputValue()).toBe('1.8 g');
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await page.getByText('mine is kept.').waitFor();
  const [mine] = (await stored('cartridge')).filter((one) => one.data.name === 'mine');
  expect(mine.data).toMatchObject({ massG: 6.5, complianceUmPerMn: 12, asTyped: { massG: '6,50' } });
  expect(mine.data).not.toHaveProperty('marked');
});

test('it is changed, copied, and deleted after being asked once', async () => {
  await page.getByRole('button', { name: 'Change mine', exact: true }).click();
  await soon(() => field('Mass, g').inputValue()).toBe('6,50');
  await field('Mass, g').fill('7');
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await page.getByText('mine is kept.').waitFor();
  await page.getByRole('button', { name: 'Copy mine', exact: true }).click();
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await page.getByText('mine, copy is kept.').waitFor();
  await page.getByRole('button', { name: 'Delete mine, copy' }).click();
  await soon(() => page.evaluate(() => document.activeElement?.textContent)).toBe('Cancel');
  await page.getByRole('button', { name: 'Cancel' }).click();
  await page.getByRole('button', { name: 'Delete mine, copy' }).click();
  await page.getByRole('button', { name: 'Delete mine, copy for good' }).click();
  await page.getByText('mine, copy is deleted.').waitFor();
  expect((await stored('cartridge')).map((one) => one.data.name).sort()).toEqual([
    'bench moving coil',
    'bench moving magnet',
    'mine',
  ]);
});

test('a preamp keeps its response as measured; a file that is none is told and not kept', async () => {
  await shelf().getByRole('button', { name: 'preamp', exact: true }).click();
  await field('Name').fill('measured phono');
  const pick = (label: string, name: string, text: string) =>
    page.getByLabel(label).setInputFiles({ name, mimeType: 'text/csv', buffer: Buffer.from(text) });
  await pick('Choose its CSV', 'odd.csv', '20\n30\n');
  await page.getByText(/^odd\.csv: line 1 holds one column;/).waitFor();
  await pick('Choose its CSV', 'phono.csv', 'frequency_hz,db\n20,0.4\n1000,0\n20000,-0.3\n');
  await page.getByText('3 frequencies, 20 Hz to 20 kHz').waitFor();
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await page.getByText('measured phono is kept.').waitFor();
  await page.getByText('response measured').waitFor();
  const [mine] = (await stored('preamp')).filter((one) => one.data.name === 'measured phono');
  expect(mine.data.responseCsv).toBe('frequency_hz,db\n20,0.4\n1000,0\n20000,-0.3');
});

test('a file with a fault is refused whole, with row, column, what was found and what was expected', async () => {
  await take('list.csv', 'kind,name,effectiveMassG\narm,one,11\narm,two,heavy\n');
  await page.getByText('Nothing was imported from list.csv.').waitFor();
  await page.getByText("row 3, effectiveMassG: found 'heavy', expected a number from 0.5 to 300 g.").waitFor();
  await dropFiles(page, [{ name: 'dropped.csv', bytes: Buffer.from('kind,name\nlamp,one\n') }]);
  await page.getByText(/^row 2, kind: found 'lamp', expected one of deck, arm/).waitFor();
  await take('odd.json', '{"schema": 1, "parts": [{"schema": 1, "kind": "arm", "name": "three", "weight": 4}]}');
  await page.getByText(/^row 1, weight: found a field that no arm has/).waitFor();
  await take('empty.csv', '');
  await page.getByText(/found no text, expected a header with kind and name/).waitFor();
  expect((await stored('arm')).length).toBe(1);
});

test('a file that fits is shown first, then taken; doubles are asked about', async () => {
  await take('list.csv', 'kind;name;massG\nheadshell;bench headshell;9,5\nheadshell;light shell;6\n');
  await page.getByText('2 parts in list.csv:').waitFor();
  await page.getByText('replace mine').click();
  // while the server takes its time they are not taken a second time
  const written = await holdBack(page, /\/api\/parts\/headshell\//);
  const taking = page.getByRole('button', { name: 'Import them' });
  await taking.click();
  await soon(() => taking.isDisabled()).toBe(true);
  await written.release();
  await page.getByText('2 parts from list.csv imported.').waitFor();
  const shells = await stored('headshell');
  expect(shells.map((one) => [one.data.name, one.data.massG])).toEqual([
    ['bench headshell', 9.5],
    ['heavy bench headshell', 14],
    ['light shell', 6],
  ]);
});

test('two of one name in a file are both taken, and letters of another code are refused', async () => {
  await take('twins.csv', 'kind,name,lengthM\ncable,twin,1\ncable,twin,2\n');
  await page.getByText('2 parts in twins.csv:').waitFor();
  await page.getByRole('button', { name: 'Import them' }).click();
  await page.getByText('2 parts from twins.csv imported.').waitFor();
  const twins = (await stored('cable')).filter((one) => one.data.name === 'twin');
  expect(twins.map((one) => one.data.lengthM).sort()).toEqual([1, 2]);
  const latin = Buffer.from('kind,name\ncable,M\u00fcller\n', 'latin1');
  await page.getByLabel('Import JSON or CSV').setInputFiles({ name: 'latin.csv', mimeType: 'text/csv', buffer: latin });
  await page.getByText(/its letters are not UTF-8/).waitFor();
  expect((await stored('cable')).length).toBe(4);
});

test('what is exported as JSON or CSV reads back as the same parts', async () => {
  await page.getByRole('combobox', { name: 'Show' }).selectOption('cartridge');
  const saved = async (name: string) => {
    await settled(page);
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name, exact: true }).click(),
    ]);
    return { name: download.suggestedFilename(), text: readFileSync(await download.path(), 'utf8') };
  };
  const parts = (await stored('cartridge')).map((one) => one.data);
  const json = await saved('Export as JSON');
  expect(json.name).toBe('cartridges.json');
  expect(partsFromJson(json.text)).toEqual({ parts, faults: [] });
  const csv = await saved('Export as CSV');
  expect(csv.name).toBe('cartridges.csv');
  expect(partsFromCsv(csv.text)).toEqual({ parts, faults: [] });
  await page.getByRole('combobox', { name: 'Show' }).selectOption('all');
});

test('a part changed in two windows is not overwritten unasked', async () => {
  await page.getByRole('button', { name: 'Change mine', exact: true }).click();
  const [mine] = (await stored('cartridge')).filter((one) => one.data.name === 'mine');
  const path = `/api/parts/cartridge/${mine.id}`;
  const was = mine.data.massG;
  await bench.ask('PATCH', path, {
    changes: [
      { path: ['note'], was: mine.data.note, is: 'from elsewhere' },
      { path: ['massG'], was, is: 6 },
      { path: ['asTyped', 'massG'], was: (mine.data.asTyped as Record<string, string> | undefined)?.massG },
    ],
  });
  await field('Mass, g').fill('8');
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await page.getByText(/Changed in another window meanwhile/).waitFor();
  await page.getByRole('button', { name: 'Take the other: “6”' }).waitFor();
  await page.getByRole('button', { name: 'Keep yours: “8”' }).click();
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await page.getByText('mine is kept.').waitFor();
  expect((await bench.ask('GET', path)).data).toMatchObject({ massG: 8, note: 'from elsewhere' });
});

test('with the server away what is typed stays', async () => {
  await page.getByRole('button', { name: 'Change mine', exact: true }).click();
  await bench.stopServer();
  await field('Mass, g').fill('9');
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await page.getByText(/Not saved: The bench server does not answer. What is typed stays here./).waitFor();
  await bench.startServer();
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await page.getByText('mine is kept.').waitFor();
});

test('a part written down before the shelf was read stands on it with the others', async () => {
  const other = await bench.page('/docs/index');
  const list = await holdBack(other, /\/api\/parts$/);
  await other.goto(`${bench.address}/parts`);
  await other.getByRole('button', { name: 'cable', exact: true }).click();
  await other.getByRole('textbox', { name: 'Name', exact: true }).fill('early cable');
  await other.getByRole('button', { name: 'Save', exact: true }).click();
  await other.getByText('early cable is kept.').waitFor();
  await list.release();
  await other.getByRole('button', { name: 'Change early cable' }).waitFor();
  await other.getByRole('button', { name: 'Change bench moving magnet' }).waitFor();
  await other.context().close();
});

test('an address that names a part opens it, and leaves alone what is typed', async () => {
  const [mine] = (await stored('cartridge')).filter((one) => one.data.name === 'mine');
  const other = await bench.page(`/parts#${mine.id}`);
  const mass = other.getByRole('textbox', { name: 'Mass, g', exact: true });
  await soon(() => mass.inputValue()).toBe('9');
  await mass.fill('9,25');
  await other.reload();
  await settled(other);
  await soon(() => mass.inputValue()).toBe('9,25');
  await other.getByRole('button', { name: 'Cancel' }).click();
  const list = await holdBack(other, /\/api\/parts$/);
  await other.goto('about:blank');
  await other.goto(`${bench.address}/parts#${mine.id}`);
  await other.getByRole('button', { name: 'cable', exact: true }).click();
  await other.getByRole('textbox', { name: 'Name', exact: true }).fill('half written');
  await list.release();
  await other.getByRole('button', { name: 'Change mine', exact: true }).waitFor();
  await settled(other);
  await soon(() => other.getByRole('textbox', { name: 'Name', exact: true }).inputValue()).toBe('half written');
  await other.context().close();
});

test.each(['light', 'dark'] as const)(
  'narrow and %s: nothing runs out of the page, no serious fault',
  async (colorScheme) => {
    const context = await bench.context({ viewport: { width: 390, height: 844 }, colorScheme, bypassCSP: true });
    const narrow = await context.newPage();
    await narrow.goto(`${bench.address}/parts`);
    await narrow.getByRole('button', { name: 'Change bench moving magnet' }).click();
    await narrow.getByRole('heading', { name: 'Change this cartridge' }).waitFor();
    expect(await overflowOf(narrow)).toBe(0);
    expect(await axeFaults(narrow)).toEqual([]);
    await context.close();
  },
);

test('the page met no error of its own', () => {
  // an absent server and a refused change are in the browser's log by its own words
  expect(
    bench.errors.filter(
      (text) =>
        !/ERR_CONNECTION_(REFUSED|RESET|CLOSED)|ERR_EMPTY_RESPONSE|ERR_INCOMPLETE_CHUNKED_ENCODING|409 \(Conflict\)/.test(
          text,
        ),
    ),
  ).toEqual([]);
});

test('an address that names no part, or cannot be read, opens the list', async () => {
  for (const hash of ['#%E0', '#no-such-part', '#<img src=x>']) {
    const page = await bench.page(`/parts${hash}`);
    await page.getByRole('heading', { level: 2, name: 'Parts' }).waitFor();
    expect(await page.getByRole('alert').count()).toBe(0);
    expect(await page.locator('main li').count()).toBeGreaterThan(0);
    await page.context().close();
  }
});
