// biome-ignore-all lint/performance/useDomNodeTextContent: what is tested is the text as it is seen
/** Match: the page says what the command says, live, and keeps what was typed. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { JudgedFinding } from '../../src/core/advise/document.ts';
import type { MatchDocument } from '../../src/core/advise/match.ts';
import { unitSign } from '../../src/core/words/figure.ts';
import { decimalsAtBench, showFigure } from '../../src/core/words/number.ts';
import { quantityTitle } from '../../src/core/words/quantities.ts';
import { axeFaults, overflowOf, unfold } from './axeFaults.ts';
import { type Bench, openBench, platterside } from './bench.ts';
import { holdBack, settled, soon } from './settled.ts';

let bench: Bench;
let page: Page;
beforeAll(async () => {
  bench = await openBench({ unfolded: true });
  page = await bench.page(bench.station('match'));
  await page.locator('.resonance .figure.big').waitFor();
});
afterAll(() => bench?.close());

const squeezed = (text: string): string => text.replace(/\s+/g, ' ').trim();
const figure = (name: string) => page.getByRole('textbox', { name, exact: true });
const chosen = () => page.getByLabel('Cartridge', { exact: true }).locator('option:checked').innerText();
const openFigures = () =>
  page.getByText('Every figure, and single ones typed over').evaluate((element) => {
    const details = element.closest('details');
    if (details !== null) details.open = true;
  });

const closeEvidence = async (): Promise<void> => {
  await page.keyboard.press('Escape');
  await page.locator('dialog header').waitFor({ state: 'detached' });
};

/** The value as a row of the page shows it. */
function shown({ value, uncertainty, unit }: JudgedFinding): string {
  if (typeof value !== 'number') throw new Error(`${value} is no number`);
  const scale = unit === 'Hz' && value >= 1000 ? 1000 : 1;
  const name = scale === 1 ? unit : 'kHz';
  const u = uncertainty === null ? null : uncertainty / scale;
  const text = showFigure(value / scale, u, false, decimalsAtBench(name));
  return squeezed(`${text.value} ${unitSign(name)} ± ${text.uncertainty ?? ''}`);
}

/** Rows of the page by their titles: the figure of each, as text. */
async function rows(): Promise<Map<string, string>> {
  const found = await page
    .locator('.finding')
    .evaluateAll((elements) =>
      elements.map((element) => [
        element.querySelector('.name')?.textContent ?? '',
        element.querySelector('.figure')?.textContent ?? '',
      ]),
    );
  return new Map(found.map(([title, text]) => [squeezed(title), squeezed(text.replaceAll('\u00a0', ' '))]));
}

/** What the command makes of the same parts, given as files. */
async function byCommand(...flags: string[]): Promise<MatchDocument> {
  const job = await bench.stored();
  const files = Object.entries(job.stations.match.data.parts as Record<string, { part: object }>).flatMap(
    ([kind, { part }]) => {
      const file = join(bench.folder, `${kind}.json`);
      writeFileSync(file, JSON.stringify(part));
      return [`--${kind}`, file];
    },
  );
  return JSON.parse(await platterside('match', ...files, ...flags, '--json'));
}

test('the practice job’s parts stand picked, and every figure equals the command’s', async () => {
  await soon(chosen).toBe('bench moving magnet');
  const { findings } = await byCommand();
  expect(findings.length).toBeGreaterThan(15);
  const big = async () =>
    squeezed((await page.locator('.resonance .figure.big').innerText()).replaceAll('\u00a0', ' '));
  for (const finding of findings) {
    if (finding.quantity === 'arm-resonance') {
      await soon(big).toBe(shown(finding));
    } else {
      await soon(async () => [finding.quantity, (await rows()).get(quantityTitle(finding.quantity))]).toEqual([
        finding.quantity,
        shown(finding),
      ]);
    }
  }
});

test('a part is not said to be off the shelf before the shelf is known', async () => {
  const list = await holdBack(page, /\/api\/parts$/);
  await page.reload();
  await page.locator('.resonance .figure.big').waitFor();
  await soon(chosen).toBe('bench moving magnet');
  await list.release();
  await page.getByRole('link', { name: 'all its figures in the library: bench moving magnet' }).waitFor();
  await soon(chosen).toBe('bench moving magnet');
});

test('figures typed over the parts change the answer at once, as flags do, and bring what would help', async () => {
  await openFigures();
  await figure('Arm’s effective mass, g').fill('4,5');
  await figure('Load capacitance, cable and input, pF').fill('600');
  await figure('Counterweight mass, g').fill('60');
  const flags = ['--effective-mass', '4.5', '--load-capacitance', '600', '--counterweight-mass', '60'];
  const { findings, advice } = await byCommand(...flags);
  for (const quantity of ['counterweight-position', 'load-deviation-20khz']) {
    const finding = findings.find((one) => one.quantity === quantity) as JudgedFinding;
    await soon(async () => (await rows()).get(quantityTitle(quantity))).toBe(shown(finding));
  }
  const whole = async () => squeezed(await page.locator('.whole').innerText());
  await soon(whole).toContain('These do not go together as they are.');
  expect(advice.length).toBeGreaterThan(1);
  for (const one of advice) await soon(whole).toContain(one.why);
  await soon(whole).toContain('A heavier counterweight');
});

test('a figure opens its evidence: uncertainty, formula, the page about it', async () => {
  await page.getByRole('button', { name: 'What this resonance rests on' }).click();
  const dialog = page.getByRole('dialog');
  await dialog.getByText('159.155').waitFor();
  await soon(() => dialog.getByRole('link', { name: /Formula, source/ }).getAttribute('href')).toBe(
    '/docs/methods/arm-resonance',
  );
  await closeEvidence();
  await page
    .getByRole('button', { name: quantityTitle('load-deviation-20khz') })
    .first()
    .click();
  await dialog.locator('.chart').first().waitFor();
  await closeEvidence();
});

test('nonsense is refused beside its field, with what was found and the bounds; what needs it is withheld', async () => {
  await figure('Compliance, µm/mN').fill('9000');
  await figure('Cartridge’s mass, g').focus();
  await page.getByText('Found 9000 µm/mN; 0.5 to 120 µm/mN was expected.').waitFor();
  await page.getByText('Left out: the compliance is not known').first().waitFor();
  await soon(() => page.locator('.resonance .figure.big').count()).toBe(0);
  await figure('Compliance, µm/mN').fill('');
  await figure('Counterweight nearest, mm').fill('99');
  await page.getByText(/These figures contradict one another/).waitFor();
  await figure('Counterweight nearest, mm').fill('');
  await page.locator('.resonance .figure.big').waitFor();
});

test('a typical class is marked as common practice and gives the resonance for all of it', async () => {
  await page.getByLabel('Arm’s effective mass: a typical class').selectOption('medium arm');
  await page.getByText('medium arm, 10 to 18 g: common practice').waitFor();
  await page.getByText(/Hz for anything within “medium arm”/).waitFor();
});

test('what was typed and picked is there after a reload, as it was typed', async () => {
  await figure('Tracking force, mN').fill('1.9 g');
  await settled(page);
  await page.reload();
  await page.locator('.resonance .figure.big').waitFor();
  await soon(() => figure('Tracking force, mN').inputValue()).toBe('1.9 g');
  await soon(() => figure('Arm’s effective mass, g').inputValue()).toBe('13');
  await soon(async () => (await rows()).get('Tracking force')).toMatch(/^18\.6 mN/);
});

test('curves can be had over capacitance and over resistance, and read by the arrow keys', async () => {
  await page.getByRole('radio', { name: 'resistance', exact: true }).check();
  const plot = page.getByRole('slider', { name: /Response for several resistances/ });
  await plot.focus();
  await soon(() => plot.getAttribute('aria-valuetext')).toMatch(/47 kΩ/);
  const before = await plot.getAttribute('aria-valuetext');
  await page.keyboard.press('ArrowRight');
  await soon(() => plot.getAttribute('aria-valuetext')).not.toBe(before);
  await soon(() => plot.getAttribute('aria-valuetext')).toMatch(/47 kΩ/);
});

test('a moving coil is told which step-up suits, and a part taken off the shelf stays with the job', async () => {
  await page.getByLabel('Cartridge', { exact: true }).selectOption({ label: 'bench moving coil' });
  await page.getByRole('region', { name: 'Step-up transformer' }).getByText('✓ suits').first().waitFor();
  await settled(page);
  const { parts } = await bench.ask('GET', `/api/parts?kind=cartridge`);
  const coil = parts.find((one: { data: { name: string } }) => one.data.name === 'bench moving coil');
  await bench.ask('DELETE', `/api/parts/cartridge/${coil.id}`);
  await page.reload();
  await page.locator('.resonance .figure.big').waitFor();
  await expect
    .poll(() => page.getByLabel('Cartridge', { exact: true }).locator('option:checked').innerText())
    .toBe('bench moving coil (kept with this job)');
});

test('narrow, nothing runs out of the page; no serious fault for a screen reader', async () => {
  const context = await bench.context({ viewport: { width: 390, height: 844 }, colorScheme: 'dark', bypassCSP: true });
  const narrow = await context.newPage();
  await narrow.goto(bench.address + bench.station('match'));
  await narrow.locator('.resonance .figure.big').waitFor();
  await unfold(narrow);
  await narrow.getByRole('textbox', { name: 'Gain, dB' }).waitFor();
  expect(await overflowOf(narrow)).toBe(0);
  expect(await axeFaults(narrow)).toEqual([]);
  await context.close();
});

test('the page met no error of its own', () => {
  expect(bench.errors).toEqual([]);
});
