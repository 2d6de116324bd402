// biome-ignore-all lint/performance/useDomNodeTextContent: what is tested is the text as it is seen
/** Place on the page: the figures of the command line, the sheets, a reading into a move, and the check of it. */

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Download, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { PlaceDocument } from '../../src/core/geometry/document.ts';
import { linesOf, typedOf } from '../../src/core/job/stations/index.ts';
import { axeFaults, overflowOf, unfold } from './axeFaults.ts';
import { type Bench, openBench, platterside } from './bench.ts';
import { settled, soon } from './settled.ts';

let bench: Bench;
let page: Page;
let told: PlaceDocument;

const PIVOT = '222.5';
const GEOMETRY = ['--spindle-to-pivot', PIVOT, '--groove', '12in-iec-1964', '--criterion', 'stevenson'] as const;

const field = (name: string) => page.getByRole('textbox', { name, exact: true });
const figure = (title: string) =>
  page.locator('.set-to .card', { has: page.getByRole('heading', { name: title, exact: true }) }).locator('.figure');
const plain = (text: string): string => text.replace(/\s+/g, ' ').replaceAll('\u2212', '-').trim();
const number = (text: string): number => Number.parseFloat(plain(text));

/** A row of the two-column table beside the drawing. */
const tableFigure = async (name: string): Promise<string> =>
  plain(
    await page
      .locator('table.figures tr', { has: page.getByRole('rowheader', { name, exact: true }) })
      .getByRole('cell')
      .innerText(),
  );

const point = (which: string) => page.getByRole('group', { name: `At the ${which} point` });
async function typeMiss(along: string, across: string, twist: string): Promise<void> {
  await point('inner').getByLabel('Tip off the cross, forward, mm').fill(along);
  await point('inner').getByLabel('Tip off the cross, outward, mm').fill(across);
  await point('inner').getByLabel('Cartridge turned clockwise, °').fill(twist);
}

async function save(name: string): Promise<{ file: string; bytes: Buffer }> {
  await settled(page);
  const [download]: [Download, unknown] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name, exact: true }).click(),
  ]);
  return { file: download.suggestedFilename(), bytes: readFileSync(await download.path()) };
}

beforeAll(async () => {
  bench = await openBench({ unfolded: true });
  told = JSON.parse(await platterside('place', ...GEOMETRY, '--json'));
  page = await bench.page(bench.station('place'));
});
afterAll(() => bench?.close());

test('the practice arm stands there; what Match knows is not asked again; what nobody knows is, and no figure is shown', async () => {
  await figure('Overhang').waitFor();
  await field('Spindle to pivot, mm').fill('');
  await page.getByText('From Match: 226.5 mm').waitFor();
  await soon(() => tableFigure('Effective length')).toBe('243.48 mm');
  const known = page.getByRole('group', { name: 'What do you know of the arm?' });
  await known.getByRole('radio', { name: 'overhang', exact: true }).check();
  await page.getByText('Still to be typed: overhang.').waitFor();
  await soon(() => page.locator('.figure').count()).toBe(0);
  await known.getByRole('radio', { name: 'spindle to pivot' }).check();
});

test('what is typed gives the figures of the command line, and they change as it changes', async () => {
  await field('Spindle to pivot, mm').fill('300');
  await figure('Overhang').waitFor();
  await soon(() => tableFigure('Effective length')).toMatch(/^\d.* mm$/);
  expect(await tableFigure('Effective length')).not.toContain(told.effectiveLengthMm?.toFixed(2));
  await field('Spindle to pivot, mm').fill(`${PIVOT} mm`);
  await page.getByLabel('Which grooves?').selectOption('12in-iec-1964');
  await page.getByRole('radio', { name: 'Stevenson: clean inner groove' }).check();
  await soon(() => tableFigure('Effective length')).toBe(`${told.effectiveLengthMm?.toFixed(2)} mm`);
  await soon(() => tableFigure('Overhang')).toBe(`${told.overhangMm.toFixed(2)} mm`);
  await soon(() => tableFigure('Offset')).toBe(`${told.offsetDeg.toFixed(2)}°`);
  await soon(() => tableFigure('Highest second harmonic')).toBe(
    `${told.peakDistortionPercent.toFixed(3)} %, at ${told.peakAtMm.toFixed(1)} mm`,
  );
  await soon(async () => number(await figure('Overhang').innerText())).toBe(Number(told.overhangMm.toFixed(1)));
  await soon(async () => plain(await figure('Overhang').innerText())).toContain('± 0.5');
  await soon(async () => number(await figure('Offset').innerText())).toBe(Number(told.offsetDeg.toFixed(1)));
  await soon(async () => number(await figure('Inner null point').innerText())).toBe(
    Number(told.nullPointsMm[0].toFixed(1)),
  );
  await soon(async () => number(await figure('Outer null point').innerText())).toBe(
    Number(told.nullPointsMm[1].toFixed(1)),
  );
  await page.getByRole('img', { name: /^Arm from above, to scale: pivot 222\.5 mm from the spindle/ }).waitFor();
});

test('every criterion stands beside the exact law, as the command line has them', async () => {
  const table = page.getByRole('region', { name: 'Criteria, table' });
  for (const { title, closedForm, exact } of told.criteria) {
    const row = async () => plain(await table.getByRole('row', { name: title.split(':')[0] }).innerText());
    await soon(row).toContain(closedForm.nullPointsMm.map((radius) => radius.toFixed(2)).join(' and '));
    await soon(row).toContain(exact?.figures.nullPointsMm.map((radius) => radius.toFixed(2)).join(' and '));
    await soon(row).toContain(closedForm.peakDistortionPercent.toFixed(3));
  }
});

test('the tolerance band names what matters most, with the figures of the command line', async () => {
  const { low, high } = told.tolerance.peakDistortionPercent;
  const card = page.getByRole('region', { name: 'How closely it has to be set' });
  const said = async () => plain(await card.innerText());
  await soon(async () => (await said()).toLowerCase()).toContain(
    `${told.tolerance.mattersMost.replaceAll('-', ' ')} matters most`,
  );
  await soon(said).toContain(`${low.toFixed(2)} and ${high.toFixed(2)} %`);
});

test('arrow keys read a curve, and the curves are saved as the command line writes them', async () => {
  const chart = page.getByRole('slider', { name: /^Tracking error over groove radius/ });
  await chart.focus();
  await page.keyboard.press('Home');
  const first = told.curve[0];
  await soon(async () => plain((await chart.getAttribute('aria-valuetext')) ?? '')).toContain(
    `${first.radiusMm.toFixed(1)} mm: Stevenson, chosen ${first.trackingErrorDeg.toFixed(2)}°`,
  );
  const csv = await save('Save the curves as CSV');
  expect(csv.bytes.toString()).toBe(await platterside('place', ...GEOMETRY, '--csv'));
});

test.each([
  ['arc template', 'arc', 'arc-sheet-a4'],
  ['two-point template', 'two-point', 'two-point-sheet-a4'],
] as const)('the %s is the very file that the command line writes', async (name, style, file) => {
  await page.getByRole('radio', { name, exact: true }).check();
  await page
    .getByRole('img', { name: /template.*as it prints$/ })
    .first()
    .waitFor();
  const pdf = await save(`Save the ${name} as PDF`);
  expect(pdf.file).toBe(`${file}.pdf`);
  const out = join(bench.folder, `${style}.pdf`);
  await platterside('template', ...GEOMETRY, '--style', style, '-o', out);
  expect(pdf.bytes.equals(readFileSync(out))).toBe(true);
});

test('what the printer made of 100 mm is taken out of SVG and print, and refused outside its bounds', async () => {
  await field('100 mm across came out as, mm').fill('50');
  await page.getByText('100 mm across came out as: Found 50 mm; 95 to 105 mm was expected.').waitFor();
  await soon(() => page.getByRole('button', { name: /^Save the two-point template/ }).count()).toBe(0);
  await field('100 mm across came out as, mm').fill('99,2');
  await field('100 mm down came out as, mm').fill('98.8');
  const svg = await save('Save the two-point template as SVG');
  const out = join(bench.folder, 'two-point.svg');
  await platterside('template', ...GEOMETRY, '--style', 'two-point', '--measured-100mm', '99.2,98.8', '-o', out);
  expect(svg.bytes.toString()).toBe(readFileSync(out, 'utf8'));
  await page.getByText('Measure both 100 mm bars before you trust a template.').waitFor();

  await page.getByRole('button', { name: 'Print the two-point template' }).click();
  const frame = page.frameLocator('iframe[title="Template to print"]');
  await frame.locator('svg').waitFor({ state: 'attached' });
  await soon(() => frame.locator('svg').getAttribute('width')).toBe('210mm');
  // said again until the frame, which may still be loading its sheet, has heard it
  await soon(async () => {
    await page.evaluate(() => document.querySelector('iframe')?.contentWindow?.dispatchEvent(new Event('afterprint')));
    return page.locator('iframe').count();
  }).toBe(0);
});

test('the strobe disc too', async () => {
  await page.getByRole('radio', { name: '60 Hz' }).check();
  const pdf = await save('Save the strobe disc as PDF');
  expect(pdf.file).toBe('strobe-60hz-a4.pdf');
  const out = join(bench.folder, 'strobe.pdf');
  await platterside('strobe', '--mains', '60', '--measured-100mm', '99.2,98.8', '-o', out);
  expect(pdf.bytes.equals(readFileSync(out))).toBe(true);
});

test('a reading becomes the move of the command line: how far, which way, how sure', async () => {
  const arm: PlaceDocument = JSON.parse(
    await platterside(
      ...['place', ...GEOMETRY, '--json', '--read-point', `${told.nullPointsMm[0].toFixed(2)},-1.2,0.3,-1.4`],
    ),
  );
  await typeMiss('-1,2', '0.3', '-1.4');
  const card = page.getByRole('region', { name: 'What to move' });
  await card.locator('.figure.big').first().waitFor();
  await soon(async () => plain(await card.innerText())).toContain('Twist it clockwise, seen from above');
  await settled(page);
  const said = plain(await card.innerText());
  const [slide, twist] = arm.moves;
  const [mm, deg] = await Promise.all([0, 1].map((i) => card.locator('.figure.big').nth(i).innerText()));
  expect(number(mm)).toBe(Number(slide.amount.toFixed(1)));
  expect(plain(mm)).toMatch(/^1\.\d mm ± 0\.\d$/);
  expect(number(deg)).toBe(Number(twist.amount.toFixed(1)));
  expect([slide.direction, twist.direction]).toEqual(['forward', 'clockwise-from-above']);
  expect(said).toContain('Slide the cartridge forward, away from the pivot');
  expect(said).toContain('Before touching the headshell:');
  const row = plain(await card.getByRole('row', { name: 'highest second harmonic' }).innerText());
  const [before, after] = [arm.asItStands?.figures, arm.asItStands?.after];
  expect(row).toContain(`${before?.figures.peakDistortionPercent.toFixed(2)} %`);
  expect(row).toContain(`${after?.figures.peakDistortionPercent.toFixed(2)} %`);
  await page
    .getByRole('img', {
      name: /^Headshell from above.*slide the cartridge 1\.\d mm forward, twist it 1\.\d° clockwise/,
    })
    .waitFor();
});

test('all of it passes for a screen reader, light and dark, and nothing runs out of a narrow page', async () => {
  await settled(page);
  for (const colorScheme of ['light', 'dark'] as const) {
    const narrow = await bench.page(bench.station('place'), {
      colorScheme,
      bypassCSP: true,
      viewport: { width: 390, height: 844 },
    });
    await narrow.locator('.move-card .figure.big').first().waitFor();
    await unfold(narrow);
    expect(await axeFaults(narrow)).toEqual([]);
    expect(await overflowOf(narrow)).toBe(0);
    await narrow.context().close();
  }
});

test('moved: the force is to be checked again, the height is only noted, before and prediction are kept with the job', async () => {
  await page.getByRole('button', { name: 'I slid and twisted it' }).click();
  const kept = page.getByRole('region', { name: 'Moved, predicted and read' });
  await kept.getByText(/^Slid 1\.\d mm forward; twisted 1\.\d° clockwise, seen from above\./).waitFor();
  await soon(() => point('inner').getByLabel('Tip off the cross, forward, mm').inputValue()).toBe('');
  await soon(async () => (await bench.stored()).stations.height.marks?.length).toBe(1);
  await settled(page);
  const job = await bench.stored();
  const { weigh: force, height } = job.stations;
  expect(force.staleBecause.join()).toMatch(/slid in its slots \(1\.\d mm forward\) at Place.* About 0\.2\d mN here/);
  expect(force.marks.at(-1).because).toMatch(/twisted in its slots \(1\.\d° clockwise, seen from above\)/);
  expect(height.status).toBe('done');
  expect(height.marks).toMatchObject([{ move: 'slide', counts: false, effect: { quantity: 'vertical-angle' } }]);
  expect(job.stations.place.status).not.toBe('stale');
});

test('the second reading is held against what was predicted', async () => {
  await typeMiss('0', '0', '0.2');
  const table = page.getByRole('region', { name: 'Predicted and read, table' });
  await table.getByRole('row', { name: /^overhang.*as predicted$/ }).waitFor();
  await table.getByRole('row', { name: /^offset.*as predicted$/ }).waitFor();
  await page.getByText('Leave it.').waitFor();
  await typeMiss('-1.2', '0.3', '-1.4');
  await table.getByRole('row', { name: /^overhang.*otherwise$/ }).waitFor();
  await typeMiss('0', '0', '0.2');
});

test('after a reload everything typed is there, and the sheet of the job tells before and after', async () => {
  const saved = async () => (await bench.stored()).stations.place.data;
  await soon(async () => (await saved()).read?.inner?.twist).toBe('0.2');
  await settled(page);
  await page.reload();
  await figure('Overhang').waitFor();
  await soon(() => field('Spindle to pivot, mm').inputValue()).toBe(`${PIVOT} mm`);
  await soon(() => field('100 mm across came out as, mm').inputValue()).toBe('99,2');
  await soon(() => page.getByRole('radio', { name: 'Stevenson: clean inner groove' }).isChecked()).toBe(true);
  await soon(() => point('inner').getByLabel('Cartridge turned clockwise, °').inputValue()).toBe('0.2');
  await page.getByRole('region', { name: 'Predicted and read, table' }).waitFor();
  const lines = async () => linesOf('place', typedOf(await bench.stored())).map((line) => line.label);
  await soon(lines).toEqual(['Worked out for', 'To be set to', 'Read before', 'Moved', 'Read after']);
});

test('a move can be taken back, and its reading is there again', async () => {
  await page.getByRole('button', { name: 'Take the last move back' }).click();
  await page.getByRole('region', { name: 'Moved, predicted and read' }).waitFor({ state: 'detached' });
  await soon(async () => (await bench.stored()).stations.height.marks).toBeUndefined();
  await soon(() => point('inner').getByLabel('Tip off the cross, forward, mm').inputValue()).toBe('-1,2');
});

test('the arm’s base that was moved marks what rests on it, stands among the moves, and is taken back', async () => {
  const { status, data } = (await bench.stored()).stations.height;
  await bench.ask('PATCH', `/api/jobs/${bench.demo}/stations/height`, {
    changes: [{ path: ['notes'], was: data.notes, is: 'set' }],
    status: { was: status, is: 'done' },
  });
  await page.getByRole('button', { name: 'I moved the arm’s base' }).click();
  const made = page.getByRole('region', { name: 'Moved, predicted and read' });
  await soon(() => made.innerText()).toContain(`Pivot distance ${PIVOT} mm.`);
  await settled(page);
  expect((await bench.stored()).stations.height).toMatchObject({
    status: 'stale',
    marks: [{ move: 'set-pivot-distance', station: 'place' }],
  });
  await page.getByRole('button', { name: 'Take the last move back' }).click();
  await made.waitFor({ state: 'detached' });
  await soon(async () => (await bench.stored()).stations.height.status).toBe('done');
  await soon(() => point('inner').getByLabel('Tip off the cross, forward, mm').inputValue()).toBe('-1,2');
});

test('only a ruler: the slide is given, the twist is withheld with its reason', async () => {
  await page.getByRole('radio', { name: 'the overhang, by ruler' }).check();
  await field('Overhang by ruler, mm').fill('13.5');
  const card = page.getByRole('region', { name: 'What to move' });
  await card.getByText('The twist is not given:').waitFor();
  await soon(async () => plain(await card.innerText())).toMatch(
    /^What to move [12]\.\d mm ± 0\.\d Slide the cartridge forward/,
  );
});

test('what cannot be is refused beside its field, with what was typed and the bound', async () => {
  await field('Spindle to pivot, mm').fill('12');
  await page.getByText('Spindle to pivot: Found 12 mm; 100 to 1000 mm was expected.').waitFor();
  await field('Spindle to pivot, mm').blur();
  await page.getByRole('alert').getByText('Found 12 mm; 100 to 1000 mm was expected.').waitFor();
  await soon(() => page.locator('.set-to').count()).toBe(0);
  expect(await page.getByRole('main').innerText()).not.toMatch(/NaN|Infinity|undefined/);
  await field('Spindle to pivot, mm').fill(PIVOT);
  await page.getByRole('radio', { name: 'twist only' }).check();
  await field('Fixed effective length, mm').fill('400');
  await page.getByText(/No arm can be given: .*effective length must lie between/).waitFor();
});

test('the page met no error of its own', () => {
  expect(bench.errors).toEqual([]);
});
