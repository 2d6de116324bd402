// biome-ignore-all lint/performance/useDomNodeTextContent: what is tested is the text as it is seen
/** The page leads: what a station shows before anything is opened, its order, and the way on after "done". */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type AdviceEntry, apiPaths } from '../../src/core/job/api.ts';
import { type StationName, stationNames, stationTitles } from '../../src/core/job/station.ts';
import { inspected } from '../../src/core/job/stations/intake.ts';
import { type Bench, openBench } from './bench.ts';
import { settled, soon } from './settled.ts';
import { noLeaks, shortSide } from './shortSide.ts';

/** Words before anything is opened: the caution, an answer, its move, the entry fields, the names of the folds. */
const MOST_WORDS = 250;
/** At 390 px the links beside the page are at its foot: "How it works, signs and methods", "Theme". */
const FOOT_WORDS = 7;

/** How far a job is: nothing done, heard as it came, half way through, all done, and moves made since. */
const states = ['empty', 'heard', 'demo', 'done', 'stale'] as const;

let bench: Bench;
let page: Page;
let empty: string;
let ids: Readonly<Record<(typeof states)[number], string>>;

/** A job as it is now, once more, with every station done. */
async function allDone(job: string): Promise<string> {
  const copy = await bench.ask('POST', '/api/import?as=new', await bench.ask('GET', `${apiPaths.job(job)}/export`));
  const { id } = copy.jobs[0];
  const { stations } = await bench.ask('GET', apiPaths.job(id));
  for (const station of stationNames)
    if (stations[station].status !== 'done')
      await bench.ask('PATCH', apiPaths.station(id, station), {
        status: { was: stations[station].status, is: 'done' },
      });
  return id;
}

/** Inspected, and measured as it came by a record that says little: its tilt is hidden by equal separations, and a turn is a trial. */
async function heardAsItCame(): Promise<string> {
  const { id } = await bench.ask('POST', apiPaths.jobs, { deck: { name: 'deck as it came' } });
  const names = Object.keys(inspected);
  await bench.ask('PATCH', apiPaths.station(id, 'intake'), {
    changes: names.map((name) => ({ path: ['inspection', name, 'grade'], is: 'pass' })),
  });
  await page.goto(`${bench.address}/jobs/${id}/intake`);
  await settled(page);
  const { path } = await shortSide(bench.folder, 2, 1, noLeaks);
  await page.getByLabel('Pick a recording').setInputFiles(path);
  await page.getByText('As it came: pass 1.wav').waitFor({ timeout: 90_000 });
  await settled(page);
  return id;
}

beforeAll(async () => {
  bench = await openBench();
  ({ id: empty } = await bench.ask('POST', apiPaths.jobs, { deck: { name: 'deck without parts' } }));
  page = await bench.page(bench.station('tilt'));
  await page.getByRole('button', { name: 'Play a practice side' }).click();
  await page.getByRole('button', { name: 'I turned the headshell' }).waitFor({ timeout: 400_000 });
  await settled(page);
  const [done, stale] = [await allDone(bench.demo), await allDone(bench.demo)];
  for (const [station, move, note] of [
    ['place', 'slide', '1.2 mm forward'],
    ['weigh', 'set-force', '17.5 mN'],
    ['tilt', 'shim', '0.2 mm'],
    ['match', 'change-arm', 'another arm'],
    ['fit', 'rewire', ''],
    ['run', 'set-speed', ''],
  ])
    await bench.ask('POST', apiPaths.moves(stale), { station, move, note });
  ids = { empty, heard: await heardAsItCame(), demo: bench.demo, done, stale };
}, 600_000);
afterAll(() => bench?.close());

/** The words of a station as seen: neither the choices inside a closed list nor what is for a screen reader alone. */
const seen = (): Promise<string> =>
  page.evaluate(() => {
    const main = document.querySelector('main') as HTMLElement;
    for (const option of main.querySelectorAll('option, .unseen')) option.textContent = '';
    return main.innerText;
  });
/** What stands out as the next move: buttons in the accent's colour, folds closed. */
const mains = (): Promise<string[]> =>
  page.evaluate(() => {
    const main = document.querySelector('main') as HTMLElement;
    const sample = main.appendChild(document.createElement('span'));
    sample.style.background = 'var(--accent)';
    const accent = getComputedStyle(sample).backgroundColor;
    sample.remove();
    return [...main.querySelectorAll<HTMLElement>('.button')]
      .filter((one) => one.checkVisibility() && getComputedStyle(one).backgroundColor === accent)
      .map((one) => one.innerText.trim());
  });
const wordsIn = (text: string): number => text.split(/\s+/).filter((word) => /[\p{L}\p{N}]/u.test(word)).length;

describe.each(states)('the %s job', (which) => {
  test.each(stationNames)(
    '%s: one next move, few words before anything is opened, two screens at most',
    async (station) => {
      await page.setViewportSize({ width: 1440, height: 900 });
      await page.goto(`${bench.address}/jobs/${ids[which]}/${station}`);
      await settled(page);
      const moves = await mains();
      const words = wordsIn(await seen());
      const screens = await page.evaluate(() => document.documentElement.scrollHeight / innerHeight);
      await page.setViewportSize({ width: 390, height: 844 });
      await settled(page);
      const narrow = await page.evaluate(() => document.documentElement.scrollHeight / innerHeight);
      const narrowWords = wordsIn(await seen());
      expect({ station, moves, words, narrowWords, screens, narrow }).toEqual({
        station,
        moves: [expect.any(String)],
        words: expect.toSatisfy((many: number) => many <= MOST_WORDS),
        narrowWords: expect.toSatisfy((many: number) => many <= MOST_WORDS + FOOT_WORDS),
        screens: expect.toSatisfy((many: number) => many <= 2),
        narrow: expect.toSatisfy((many: number) => many <= 4),
      });
    },
  );
});

test('a station that is done leads back to its move while the last recording advises one, and on again once that is answered', async () => {
  await page.setViewportSize({ width: 1440, height: 900 });
  const { advice } = await bench.ask('GET', apiPaths.job(ids.done));
  expect(advice.some((entry: AdviceEntry) => entry.advice.action === 'slide')).toBe(true);
  await page.goto(`${bench.address}/jobs/${ids.done}/place`);
  await settled(page);
  await soon(mains).toEqual(['I slid it']);
  expect(await seen()).toContain('The last recording advises a move here.');
  for (const left of ['Left as it is', 'Left as it is']) {
    const button = page.getByRole('button', { name: left });
    if ((await button.count()) > 0) await button.first().click();
    await settled(page);
  }
  await soon(mains).toEqual(['To the reports']);
  expect(await seen()).not.toContain('The last recording advises a move here.');
});

test('Run sends to Tilt first while the side that it shows advises a turn', async () => {
  await page.setViewportSize({ width: 1440, height: 900 });
  await page.goto(`${bench.address}/jobs/${ids.heard}/run`);
  await settled(page);
  await soon(mains).toEqual(['Tilt first']);
  await page.getByRole('link', { name: 'Tilt first' }).click();
  await page.waitForURL(/\/tilt/);
});

test('Match at 390 px stays within them with much against it', async () => {
  const { typed } = (await bench.stored()).stations.match.data;
  const wrong = { effectiveMassG: '4.5', loadCapacitancePf: '600', counterweightMassG: '60' };
  const change = (is: Readonly<Record<string, string>>, was: Readonly<Record<string, string>> = {}) =>
    bench.ask('PATCH', apiPaths.station(bench.demo, 'match'), {
      changes: Object.keys(wrong).map((name) => ({ path: ['typed', name], was: was[name], is: is[name] ?? '' })),
    });
  await change(wrong, typed);
  await page.setViewportSize({ width: 390, height: 844 });
  await page.goto(bench.address + bench.station('match'));
  await settled(page);
  await page.getByText('These do not go together as they are.').waitFor();
  expect(wordsIn(await seen())).toBeLessThanOrEqual(MOST_WORDS);
  await change(typed ?? {}, wrong);
});

test('the caution of a station comes before its first control', async () => {
  await page.setViewportSize({ width: 1440, height: 900 });
  for (const station of ['intake', 'fit', 'weigh', 'place', 'height', 'tilt', 'run'] as const) {
    await page.goto(bench.address + bench.station(station));
    await settled(page);
    const first = await page.evaluate(() => {
      const found = document.querySelector(
        'main .caution, main .stack .button, main .stack input, main .stack summary',
      );
      return found?.className;
    });
    expect({ station, first }).toEqual({ station, first: 'caution' });
  }
});

test('by keyboard alone, done leads to the next station that is open, and the focus is on its heading', async () => {
  await page.goto(`${bench.address}/jobs/${empty}/intake`);
  await settled(page);
  const ways: readonly (readonly [StationName, StationName])[] = [
    ['intake', 'match'],
    ['match', 'fit'],
  ];
  for (const [here, next] of ways) {
    await page
      .getByRole('button', { name: `${stationTitles[here].title} is done → ${stationTitles[next].title}` })
      .focus();
    await page.keyboard.press('Enter');
    await page.waitForURL(`**/jobs/${empty}/${next}`);
    await settled(page);
    await soon(() => page.evaluate(() => document.activeElement?.textContent)).toBe(stationTitles[next].title);
  }
  // what is done already is passed over
  await page.goto(`${bench.address}/jobs/${empty}/run`);
  await settled(page);
  await page.getByRole('button', { name: 'Run is done → Fit' }).waitFor();
  // opened again, the focus stays on the very button
  await page.goto(`${bench.address}/jobs/${empty}/intake`);
  await settled(page);
  await page.getByRole('button', { name: 'Open it again' }).focus();
  await page.keyboard.press('Enter');
  await soon(() => page.evaluate(() => document.activeElement?.textContent)).toBe('Intake is done → Fit');
});

test('Hand over closed over open stations leads to the report, not to them, and takes the focus there', async () => {
  const { id } = await bench.ask('POST', apiPaths.jobs, { deck: { name: 'deck wanted back today' } });
  await page.goto(`${bench.address}/jobs/${id}/hand-over`);
  await settled(page);
  await soon(mains).toEqual(['On to Intake']);
  const close = page.getByRole('button', { name: 'Hand over is done', exact: true });
  expect(await close.isDisabled()).toBe(true);
  await page.getByLabel('Why it is closed with stations open').fill('wanted back today');
  await close.focus();
  await page.keyboard.press('Enter');
  await soon(mains).toEqual(['Open the customer’s report']);
  await soon(() => page.evaluate(() => document.activeElement?.textContent)).toBe('Open the customer’s report');
  await soon(async () => (await bench.ask('GET', apiPaths.job(id))).stations['hand-over'].status).toBe('done');
  const main = await seen();
  expect(main).toContain('Not done yet: Intake, Match');
  expect(main).not.toContain('Every station is done');
});

test('at Intake a second recording of the deck as it came can be picked by keyboard', async () => {
  await page.goto(`${bench.address}/jobs/${ids.heard}/intake`);
  await settled(page);
  await page.locator('summary', { hasText: 'Another recording' }).focus();
  await page.keyboard.press('Enter');
  const { path } = await shortSide(bench.folder, 1.9, 2, noLeaks);
  await page.getByLabel('Pick a recording').setInputFiles(path);
  const kinds = async () => (await bench.ask('GET', apiPaths.job(ids.heard))).captures.length;
  await soon(kinds).toBe(2);
  await page.locator('summary', { hasText: 'Recordings of this job' }).click();
  await page.getByText(/^pass 2\.wav · as received/).waitFor();
});

test('at Fit one step after the other is shown with its caution, and its own button goes on', async () => {
  await page.goto(`${bench.address}/jobs/${empty}/fit`);
  await settled(page);
  const step = page.getByRole('region', { name: 'Next step' });
  await step.getByText('Step 1 of 12').waitFor();
  await step.getByRole('button', { name: 'Done: next step' }).click();
  await step.getByText('Step 2 of 12').waitFor();
  await soon(() => page.evaluate(() => document.activeElement?.textContent)).toBe('Done: next step');
});

test('what a control did may take it away: the focus goes to the next move, in a list to its row', async () => {
  const { id } = await bench.ask('POST', apiPaths.jobs, { deck: { name: 'deck by keyboard' } });
  const focused = () =>
    page.evaluate(() => {
      const here = document.activeElement as HTMLInputElement;
      return here.labels?.[0]?.innerText ?? here.innerText;
    });
  await page.goto(`${bench.address}/jobs/${id}/intake`);
  await settled(page);
  const grade = page.getByRole('button', { name: 'Not checked', exact: true }).first();
  for (let i = Object.keys(inspected).length; i > 0; i--) {
    await grade.focus();
    await page.keyboard.press('Enter');
    await settled(page);
  }
  await soon(focused).toBe('Pick a recording');
  await page.goto(`${bench.address}/jobs/${ids.heard}/intake`);
  await settled(page);
  await page.locator('summary', { hasText: 'Recordings of this job' }).click();
  await page.getByRole('button', { name: /^Set aside or say what it is: pass 1/ }).click();
  await page.getByRole('textbox', { name: /^Why pass 1.wav is set aside/ }).fill('a trial');
  await page.getByRole('button', { name: 'Set it aside' }).focus();
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: /^Take it in again/ }).waitFor();
  await soon(focused).toBe('Show');
});

test('what is against it names the part to exchange', async () => {
  const { id } = await bench.ask('POST', apiPaths.jobs, { deck: { name: 'deck with too much gain' } });
  const path = `${bench.address}/jobs/${id}/match`;
  await page.goto(path);
  await settled(page);
  for (const [part, label] of [
    ['arm', 'bench arm, nine inch, removable headshell'],
    ['cartridge', 'bench moving magnet'],
    ['preamp', 'bench preamp, moving-coil input'],
  ]) {
    await page.locator(`#pick-${part}`).selectOption({ label });
    await settled(page);
  }
  await page.getByText('These do not go together as they are.').waitFor();
  await soon(mains).toEqual(['Pick another preamp']);
});

test('a link to what is folded away opens it', async () => {
  await page.goto(bench.address + bench.station('place'));
  await settled(page);
  // the overhang from sound leads here, the template is one of two ways
  await page.getByRole('heading', { name: 'Read off the template' }).click();
  const print = page.getByRole('button', { name: /^Print the arc/ });
  await soon(() => print.isVisible()).toBe(false);
  await page.getByRole('link', { name: 'Print the template' }).click();
  await soon(() => print.isVisible()).toBe(true);
});

test('after the turn the headline says so and asks for the next pass; undo brings the advice back', async () => {
  await page.goto(bench.address + bench.station('tilt'));
  await settled(page);
  await page.getByRole('button', { name: 'I turned the headshell' }).click();
  const card = page.getByRole('region', { name: 'What to turn' });
  await soon(() => card.locator('.turn').innerText()).toBe('Turned. Record the next pass and drop it here.');
  await soon(() => page.evaluate(() => document.activeElement?.textContent)).toBe('Tilt');
  await card.getByRole('button', { name: 'Undo' }).click();
  await page.getByRole('button', { name: 'I turned the headshell' }).waitFor();
});

test('where the headshell is fixed a shim comes first; a new stylus begins an epoch and asks for the stations again', async () => {
  const match = (await bench.stored()).stations.match;
  const arm = match.data.parts.arm;
  const fixed = { ...arm, part: { ...arm.part, headshell: 'fixed' } };
  await bench.ask('PATCH', apiPaths.station(bench.demo, 'match'), {
    changes: [{ path: ['parts', 'arm'], was: arm, is: fixed }],
  });
  await page.goto(bench.address + bench.station('tilt'));
  await settled(page);
  const card = page.getByRole('region', { name: 'What to turn' });
  await soon(() => card.locator('.turn').first().innerText()).toMatch(
    /ut \d\.\d\d mm .* of shim under the screw on the (spindle|rim) side$/,
  );
  await soon(() => card.locator('.button.main').innerText()).toBe('I put a shim in');
  await page.goto(bench.address + bench.station('match'));
  await settled(page);
  await page.getByRole('heading', { name: 'New stylus on the same cartridge' }).click();
  await page.getByRole('textbox', { name: 'Stylus', exact: true }).fill('fresh tip');
  await page.getByRole('textbox', { name: /^Hours on the new stylus/ }).fill('0');
  await page.getByRole('button', { name: 'The stylus is fitted' }).click();
  await soon(async () => (await bench.stored()).fittings).toMatchObject([
    { kind: 'stylus', name: 'fresh tip', hours: 0 },
  ]);
  expect((await bench.stored()).stations.place.status).toBe('stale');
  await page.getByRole('button', { name: 'Not fitted after all: take the last one back' }).click();
  await soon(async () => (await bench.stored()).fittings).toEqual([]);
});

test('the page met no error of its own', () => {
  expect(bench.errors).toEqual([]);
});
