// biome-ignore-all lint/performance/useDomNodeTextContent: what is tested is the text as it is seen
/** Two recordings of a job held against one another at Run: half a turn of the record, a capacitance added. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { JudgedFinding, SideDocument } from '../../src/core/advise/document.ts';
import { loadResponseDb } from '../../src/core/electrics/loading.ts';
import { apiPaths } from '../../src/core/job/api.ts';
import { tiltedSide } from '../../src/core/job/side.fixture.ts';
import { type Bench, openBench } from './bench.ts';
import { settled, soon } from './settled.ts';

/** a platter of 0.04 %, which stays as the record is turned */
const PLATTER = 0.0004;
/** 500 mH, 1 kΩ into 47 kΩ and so many pF */
const coil = (pf: number) => ({
  ...{ coilResistance: 1000, coilInductance: 0.5, loadResistance: 47_000 },
  loadCapacitance: pf * 1e-12,
});
/** dB, of a tip that is a mass on a spring at 17 kHz */
const tip = (hz: number): number => -10 * Math.log10((1 - (hz / 17e3) ** 2) ** 2 + (hz / 17e3 / 1.7) ** 2);
const frequencies = Array.from({ length: 240 }, (_, i) => 20 * 2 ** (i / 24)).filter((hz) => hz <= 20_000);

function turn(sheetBand: number, record: readonly [number, number], sign: 1 | -1): JudgedFinding {
  return {
    ...{ quantity: 'once-per-turn', value: 0.1, unit: '%', uncertainty: 0.001, bands: [sheetBand] },
    ...{ notes: [], note: '', verdict: 'info' as const },
    atStart: {
      ...{ re: record[0] + sign * PLATTER, im: record[1] },
      ...{ variance: 1e-12, degreesOfFreedom: 40, rotationHz: 0.5556 },
      ...{ frequencyHz: 3150, radiusMm: 100, sheetBand },
    },
  };
}

const played = (letter: string, sign: 1 | -1, pf: number): SideDocument => ({
  ...tiltedSide,
  capture: { ...tiltedSide.capture, file: `side-${letter}.wav`, sha256: letter.repeat(64) },
  findings: [...tiltedSide.findings, turn(0, [0.001, 0.0005], sign), turn(1, [-0.0003, 0.0012], sign)],
  curves: (['left', 'right'] as const).map((channel) => ({
    ...{ quantity: 'frequency-response', channel, xUnit: 'Hz', yUnit: 'dB', x: frequencies },
    y: frequencies.map((hz) => loadResponseDb(coil(pf), hz) + tip(hz)),
  })),
});

let bench: Bench;
let page: Page;
let job: string;
beforeAll(async () => {
  bench = await openBench({ unfolded: true });
  job = (await bench.ask('POST', '/api/jobs', { deck: { name: 'a deck played twice' } })).id;
  const keep = (document: SideDocument) => bench.ask('POST', apiPaths.captures(job), { document, station: 'run' });
  await keep(played('a', -1, 250));
  await keep(played('b', 1, 150));
  page = await bench.page(`/jobs/${job}/run`);
  await page.getByRole('region', { name: 'Verdicts' }).waitFor();
  await settled(page);
});
afterAll(() => bench?.close());

const row = (name: string) => page.getByRole('listitem').filter({ hasText: name });
async function choose(label: string, file: string): Promise<string> {
  const select = page.getByRole('combobox', { name: label });
  const value = (await select.locator('option', { hasText: file }).first().getAttribute('value')) ?? '';
  await select.selectOption(value);
  return value;
}

test('half a turn of the record between two recordings tells the platter’s own part, and the report has it', async () => {
  await page.getByText(/turn it by half a turn on the platter/).waitFor();
  const first = await choose('Half a turn before the recording shown', 'side-a.wav');
  await soon(() => row('Once-per-turn').last().innerText()).toMatch(/0\.04\d?\s%\s*±\s0\.0\d+/);
  const kept = async () => (await bench.ask('GET', `/api/jobs/${job}`)).stations.run.data.halfTurn;
  await soon(kept).toMatchObject({ first });
  const report = await (
    await fetch(bench.address + apiPaths.report(job, 'technician'), {
      headers: { authorization: `Bearer ${bench.key}` },
    })
  ).text();
  expect(report.replace(/<[^>]*>/g, ' ')).toMatch(/half a turn/);
  await choose('Half a turn before the recording shown', 'none of them');
  await soon(kept).toEqual({});
});

test('the keys read a curve over decades, low frequencies as finely as high ones, and the table does too', async () => {
  const plot = page.getByRole('slider', { name: /^Response/ }).first();
  await plot.focus();
  await page.keyboard.press('Home');
  await soon(() => plot.getAttribute('aria-valuetext')).toMatch(/^20\.0 Hz: left [−\d.]+ dB, right [−\d.]+ dB$/);
  await page.keyboard.press('ArrowRight');
  await soon(() => plot.getAttribute('aria-valuetext')).toMatch(/^20\.6 Hz: /);
  await page.keyboard.press('End');
  await soon(() => plot.getAttribute('aria-valuetext')).toMatch(/^19\d\d\d Hz: /);
  const heads = await page.locator('details.table th[scope="row"]').allTextContents();
  expect(heads.filter((text) => /^2\d\.\d$/.test(text)).length).toBeGreaterThan(1);
});

test('a capacitance added between two recordings parts coil and load from the tip, with its caution and its pictures', async () => {
  await page.getByText('Switch the amplifier off before you put the capacitors across the inputs').waitFor();
  await choose('Recording with the capacitance', 'side-a.wav');
  const added = page.getByLabel('Capacitance added (pF)');
  await added.fill('100');
  await page.getByLabel('Coil resistance (Ω)').fill('1000');
  await page.getByText('told apart').waitFor();
  const first = (name: string) => row(name).first().innerText();
  await soon(() => first('Inductance of the coil')).toMatch(/left[\s\S]*(499|500|501)\smH\s*±\s\d+/);
  await soon(() => first('Load capacitance')).toMatch(/(149|150|151)\spF\s*±\s\d+/);
  await soon(() => first('Resonance of the tip')).toMatch(/(16\s?9\d\d|17\s?0\d\d|17(\.0)?\sk)/);
  for (const name of ['coil', 'tip'])
    await page.getByRole('group', { name: new RegExp(`^Save .*${name}.* as a file$`) }).waitFor();
  // out of its range: a sentence instead of figures
  await added.fill('2');
  await page.getByText(/10 to 5000 pF/).waitFor();
  await soon(() => row('Inductance of the coil').count()).toBe(0);
  expect(bench.errors).toEqual([]);
});
