// biome-ignore-all lint/performance/useDomNodeTextContent: what is tested is the text as it is seen
/** Fit: miswirings are caught, screws follow the parts, the hardware's mass is kept for Weigh. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { fitSteps } from '../../src/core/advise/orderOfWork.ts';
import { type Lead, leads, type Pin } from '../../src/core/advise/wiring/leads.ts';
import { checkWiring, usualMiswirings } from '../../src/core/advise/wiring.ts';
import { linesOf, typedOf } from '../../src/core/job/stations/index.ts';
import { say } from '../../src/core/words/statement.ts';
import { axeFaults, overflowOf, unfold } from './axeFaults.ts';
import { type Bench, openBench } from './bench.ts';
import { settled, soon } from './settled.ts';

let bench: Bench;
let page: Page;
beforeAll(async () => {
  bench = await openBench({ unfolded: true });
  page = await bench.page(bench.station('fit'));
  await page.getByRole('region', { name: 'Leads' }).waitFor();
});
afterAll(() => bench?.close());

const lead = (name: Lead) => page.getByRole('combobox', { name: new RegExp(`^${name} \\(`) });
const answer = async (): Promise<string> =>
  (await page.locator('.wiring-answer').innerText()).replace(/\s+/g, ' ').toLowerCase();
const put = async (wiring: Readonly<Record<Lead, Pin>>): Promise<void> => {
  for (const name of leads) await lead(name).selectOption(wiring[name]);
};
const kept = async () => (await bench.stored()).stations.fit.data;

test('the practice job’s leads sit right, and the drawing says so in words', async () => {
  await soon(answer).toContain('each lead on its own pin');
  const picture = page.getByRole('img', { name: /^Cartridge seen from behind/ });
  await soon(() => picture.getAttribute('aria-label')).toBe(
    'Cartridge seen from behind: white on L+, blue on L−, red on R+, green on R−.',
  );
  for (const mark of ['L+', 'L−', 'R+', 'R−', 'white', 'blue', 'red', 'green'])
    await soon(() => picture.innerHTML()).toContain(mark);
});

test.each(usualMiswirings)('$name is caught, with how it would sound and measure', async ({ wiring }) => {
  await put(wiring);
  const [fault] = checkWiring(wiring).faults;
  await soon(answer).toContain(say(fault.title).toLowerCase());
  const text = await answer();
  expect(text).toContain(say(fault.sounds).toLowerCase());
  expect(text).toContain(say(fault.measures).toLowerCase());
  const links = page.locator('.wiring-answer .shows a');
  await soon(() => links.count()).toBe(fault.shows.length);
  for (let i = 0; i < fault.shows.length; i++) {
    await soon(() => links.nth(i).getAttribute('href')).toMatch(
      new RegExp(`^${bench.station(/hum|harmonic|tracking/.test(fault.shows[i].quantity) ? 'run' : 'tilt')}$`),
    );
  }
  const { moves } = checkWiring(wiring);
  await soon(() => page.locator('.moves li').count()).toBe(moves.length);
});

test('by keyboard alone a lead is put on a pin; one that is off is told', async () => {
  await page.getByRole('button', { name: 'They are moved' }).click();
  await soon(answer).toContain('each lead on its own pin');
  await lead('green').focus();
  await page.keyboard.press('End');
  await soon(answer).toContain('green is on no pin');
  await page.keyboard.press('ArrowUp');
  await soon(answer).toContain('each lead on its own pin');
});

test('leads nobody looked at are asked for, not judged', async () => {
  await page.getByRole('button', { name: 'Begin again' }).click();
  await soon(answer).toContain('nothing is checked yet');
  await lead('white').selectOption('left+');
  await soon(answer).toContain('still to say: where blue and red and green sit');
  await page.getByRole('button', { name: 'Each on its own pin' }).click();
});

test('screw length follows what is measured, and nonsense is refused beside the field', async () => {
  const screws = page.getByRole('region', { name: 'Screws' });
  await soon(async () => (await screws.locator('.figure.big').innerText()).replace(/\s/g, ' ')).toBe('8 mm');
  await screws.getByRole('textbox', { name: 'Headshell at its slots, mm' }).fill('4,5');
  await soon(async () => (await screws.locator('.figure.big').innerText()).replace(/\s/g, ' ')).toBe('10 mm');
  await screws.getByText('too short').waitFor();
  await screws.getByRole('textbox', { name: 'Nut, mm' }).fill('0.5');
  await screws.getByText(/a nut 0.5 mm thick holds 1.11 threads/).waitFor();
  await screws.getByRole('textbox', { name: 'Nut, mm' }).fill('thick');
  await screws.getByRole('textbox', { name: 'Headshell at its slots, mm' }).focus();
  await screws.getByText('Found “thick”; a number, 0 to 20 mm was expected.').waitFor();
  await screws.getByRole('textbox', { name: 'Nut, mm' }).fill('');
  await screws.getByRole('combobox', { name: 'The cartridge has' }).selectOption('tapped');
  await screws.getByRole('textbox', { name: 'Depth of thread in the body, mm' }).fill('3.5');
  await screws.getByRole('img', { name: /thread in the body 3.5 mm/ }).waitFor();
});

test('the hardware’s mass is kept for Weigh, and goes into Match when asked', async () => {
  const mass = page.getByRole('region', { name: 'Mass of the hardware' });
  await mass.getByText('weighed', { exact: true }).click();
  await mass.getByRole('textbox', { name: 'The scale shows, g' }).fill('1,4');
  await mass.getByText('Match uses 0.6 g.').waitFor();
  await soon(async () => (await kept()).weighed).toBe('1,4');
  await mass.getByText(/Weigh has it from here/).waitFor();
  await mass.getByRole('button', { name: /Take 1.40 g into Match too/ }).click();
  await mass.getByText('Match uses').waitFor({ state: 'hidden' });
  const match = async () => (await bench.stored()).stations.match.data;
  await soon(async () => (await match()).typed.hardwareMassG).toBe('1.40');
});

test('leads on the wrong pins untick the check of them, and on the right ones tick it', async () => {
  const checked = async () => (await kept()).steps?.includes('check-leads');
  await page.getByRole('button', { name: 'Each on its own pin' }).click();
  await soon(checked).toBe(true);
  await lead('blue').selectOption('right-');
  await soon(checked).toBe(false);
  await page.getByRole('button', { name: 'Each on its own pin' }).click();
  await soon(checked).toBe(true);
});

test('the next step is told in words, with its caution, and led through to the last', async () => {
  const card = page.getByRole('region', { name: 'Next step' });
  // each lead on its own pin, told above, has ticked the check of them
  await card.getByText(`All ${fitSteps.length} steps are done.`).waitFor();
  await page.getByRole('button', { name: 'Open it again' }).click();
  await page.getByRole('button', { name: 'Begin the list again' }).click();
  for (const [index, step] of fitSteps.entries()) {
    await card.getByText(`Step ${index + 1} of ${fitSteps.length}`).waitFor();
    const text = (await card.innerText()).replace(/\s+/g, ' ');
    expect(text).toContain(say(step.does));
    if (step.caution !== undefined) expect(text).toContain(say(step.caution));
    await card.getByRole('button', { name: 'Done: next step' }).click();
  }
  await card.getByText(`All ${fitSteps.length} steps are done.`).waitFor();
  await card.getByRole('button', { name: /^Go on to / }).waitFor();
  await page.getByRole('button', { name: 'Begin the list again' }).click();
  await card.getByText(`Step 1 of ${fitSteps.length}`).waitFor();
});

test('every step of the work is there with its caution, and stays ticked after a reload', async () => {
  const work = page.getByRole('region', { name: 'Order of work' });
  await work.getByText(say(fitSteps[fitSteps.length - 1].does), { exact: true }).waitFor();
  const text = (await work.innerText()).replace(/\s+/g, ' ');
  for (const step of fitSteps) {
    expect(text).toContain(say(step.does));
    if (step.caution !== undefined) expect(text).toContain(say(step.caution));
  }
  for (const step of fitSteps.slice(0, 3)) await work.getByText(say(step.does), { exact: true }).click();
  await work.getByText('3 of 12 done; next is number 4').waitFor();
  await soon(async () => (await kept()).steps).toEqual(fitSteps.slice(0, 3).map((step) => step.id));
  await page.reload();
  await settled(page);
  await work.getByText('3 of 12 done; next is number 4').waitFor();
  await soon(answer).toContain('each lead on its own pin');
  await soon(() => page.getByRole('textbox', { name: 'The scale shows, g' }).inputValue()).toBe('1,4');
  const lines = linesOf('fit', typedOf(await bench.stored()));
  expect(lines.map((line) => line.label)).toEqual(['Leads', 'Screws', 'Hardware', 'Order of work']);
});

test('moved leads make stale what rests on them', async () => {
  const job = await bench.stored();
  const { status, data } = job.stations.tilt;
  await bench.ask('PATCH', `/api/jobs/${bench.demo}/stations/tilt`, {
    changes: [{ path: ['notes'], was: data.notes, is: 'turned and checked' }],
    status: { was: status, is: 'done' },
  });
  await page.getByRole('button', { name: 'I moved leads on the deck' }).click();
  await soon(() => page.locator('nav a').filter({ hasText: 'Tilt' }).innerText()).toMatch(/check again/);
});

test('leads that were not moved after all are taken back, after a reload too', async () => {
  await settled(page);
  await page.reload();
  await page.getByRole('button', { name: 'Undo moving leads' }).click();
  await soon(async () => (await bench.stored()).stations.tilt.status).toBe('done');
  await soon(() => page.getByRole('button', { name: 'Undo moving leads' }).count()).toBe(0);
});

test('narrow, nothing runs out of the page; no serious fault for a screen reader', async () => {
  const context = await bench.context({ viewport: { width: 390, height: 844 }, bypassCSP: true });
  const narrow = await context.newPage();
  await narrow.goto(bench.address + bench.station('fit'));
  await narrow.getByRole('region', { name: 'Leads' }).waitFor();
  await unfold(narrow);
  expect(await overflowOf(narrow)).toBe(0);
  expect(await axeFaults(narrow)).toEqual([]);
  await context.close();
});

test('the page met no error of its own', () => {
  expect(bench.errors).toEqual([]);
});
