// biome-ignore-all lint/performance/useDomNodeTextContent: what is tested is the text as it is seen
/** First start, what stays after a reload, and a server that is away for a while. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Bench, openBench } from './bench.ts';
import { holdBack, settled, soon } from './settled.ts';

let bench: Bench;
beforeAll(async () => {
  bench = await openBench({ unfolded: true });
});
afterAll(() => bench?.close());

test('the demo job is open at Tilt, with every station and what to do', async () => {
  const page = await bench.page('/');
  await page.waitForURL(`**${bench.station('tilt')}`);
  await soon(() => page.title()).toBe('Tilt · Job 41 · bench deck 3 · Platterside');
  expect(await page.getAttribute('html', 'lang')).toBe('en');
  const stations = page.locator('nav ol a');
  await soon(() => stations.count()).toBe(9);
  await soon(() => stations.allInnerTexts()).toEqual(
    expect.arrayContaining([expect.stringContaining('Hand over'), expect.stringMatching(/Weigh[\s\S]*check again/)]),
  );
  await page.getByText('What to do', { exact: true }).waitFor();
  await page.getByText('Pick a recording').waitFor();
  await page.context().close();
});

test('a station made stale says why', async () => {
  const page = await bench.page(bench.station('weigh'));
  await page.getByText('Check this again.').waitFor();
  await page.getByText(/slid in its slots/).waitFor();
  await page.context().close();
});

test('address, title, heading and focus follow the station; back goes back', async () => {
  const page = await bench.page(bench.station('tilt'));
  await page.getByRole('link', { name: /^Run/ }).click();
  await page.waitForURL(`**${bench.station('run')}`);
  await soon(() => page.title()).toMatch(/^Run · /);
  await soon(() => page.evaluate(() => document.activeElement?.textContent)).toBe('Run');
  await page.goBack();
  await page.waitForURL(`**${bench.station('tilt')}`);
  await page.getByRole('heading', { level: 2, name: 'Tilt' }).waitFor();
  await page.context().close();
});

test('what is typed is there after a reload, as it was typed, and so is the place', async () => {
  const page = await bench.page(bench.station('intake'));
  await page.getByRole('textbox', { name: 'Stylus hours, h' }).fill('612,5');
  await page.getByLabel('Cartridge', { exact: true }).fill('moving magnet, middle compliance');
  const list = page.locator('details', { has: page.locator('ul.inspection') });
  const opened = async (): Promise<void> => {
    await list.waitFor();
    if (!(await list.evaluate((fold) => (fold as HTMLDetailsElement).open)))
      await list.locator('summary').first().click();
  };
  const fault = list.locator('li', { hasText: 'Arm bearings' }).getByRole('radio', { name: 'fault', exact: true });
  await opened();
  expect(await fault.isChecked()).toBe(false);
  await fault.check();
  // nothing is waited for: what is still in its pause is sent as the page is left
  await page.goto(bench.address);
  await page.waitForURL(`**${bench.station('intake')}`);
  await soon(() => page.getByRole('textbox', { name: 'Stylus hours, h' }).inputValue()).toBe('612,5');
  await soon(() => page.getByLabel('Cartridge', { exact: true }).inputValue()).toBe('moving magnet, middle compliance');
  await opened();
  await soon(() => fault.isChecked()).toBe(true);
  await page.context().close();
});

test('a change made in another window is not overwritten, nor lost', async () => {
  const [one, two] = [await bench.page(bench.station('match')), await bench.page(bench.station('match'))];
  const match = async () => (await bench.stored()).stations.match;
  const { status: before } = await match();
  await one.getByLabel('Notes at Match').fill('from the first window');
  await soon(async () => (await match()).data.notes).toBe('from the first window');
  await two.getByRole('button', { name: /is done|Open it again/ }).click();
  await soon(async () => (await match()).status).not.toBe(before);
  expect((await match()).data.notes).toBe('from the first window');
  await one.context().close();
  await two.context().close();
});

test('with the server away the page says so, keeps what is typed, and saves it when the server is back', async () => {
  const page = await bench.page(bench.station('height'));
  await bench.stopServer();
  await page.getByLabel('Notes at Height').fill('typed while the server was away');
  await page.getByText('The bench server does not answer.', { exact: true }).waitFor();
  await soon(() => page.getByLabel('Notes at Height').inputValue()).toBe('typed while the server was away');
  const now = page.getByRole('button', { name: 'Try now' });
  const asked = bench.asked.length;
  await now.click();
  await soon(() => bench.asked.length).toBeGreaterThan(asked);
  await bench.startServer();
  // it may have tried again by itself by now
  await now.evaluateAll((buttons) => {
    for (const button of buttons) (button as HTMLButtonElement).click();
  });
  await page.getByText('The bench server does not answer.', { exact: true }).waitFor({ state: 'hidden' });
  const kept = async () => (await bench.stored()).stations.height.data.notes;
  await soon(kept).toBe('typed while the server was away');
  await page.context().close();
});

test('what is typed in a field of the job itself is sent as the page is left', async () => {
  const page = await bench.page(bench.station('intake'));
  const customer = async () => (await bench.stored()).customer;
  const whose = page.getByLabel('Owner');
  // a pause between two words takes no space away
  await whose.fill('');
  await whose.pressSequentially('listening ');
  await soon(customer).toBe('listening ');
  await settled(page);
  await whose.press('End');
  await whose.pressSequentially('room');
  await page.goto('about:blank');
  await soon(customer).toBe('listening room');
  await page.context().close();
});

test('a job opened while the server is away is the one that stands there afterwards', async () => {
  const { id, title } = await bench.ask('POST', '/api/jobs', { deck: { name: 'other deck' } });
  const page = await bench.page(`/jobs/${id}/height`);
  await page.getByRole('link', { name: title }).click();
  await page.getByRole('link', { name: 'Job 41 · bench deck 3' }).first().click();
  await page.waitForURL(`**${bench.station('intake')}`);
  await settled(page);
  await bench.stopServer();
  await page.getByLabel('Notes at Intake').fill('typed in the first job');
  await page.getByText('The bench server does not answer.', { exact: true }).waitFor();
  await page.goBack();
  await page.goBack();
  await page.waitForURL(`**/jobs/${id}/height`);
  await bench.startServer();
  await page.getByText('The bench server does not answer.', { exact: true }).waitFor({ state: 'hidden' });
  await settled(page);
  await soon(() => page.title()).toBe(`Height · ${title} · Platterside`);
  await soon(() => page.getByLabel('Notes at Height').inputValue()).toBe('');
  const kept = async () => (await bench.stored()).stations.intake.data.notes;
  await soon(kept).toBe('typed in the first job');
  await page.context().close();
});

test('no job is begun before the page knows which decks were here', async () => {
  const page = await bench.page('/docs/index');
  const jobs = await holdBack(page, /\/api\/decks\?/);
  await page.goto(`${bench.address}/jobs`);
  await page.getByLabel('Deck').fill('bench deck 3');
  await soon(() => page.getByRole('button', { name: 'Begin' }).isDisabled()).toBe(true);
  await jobs.release();
  await page.getByText('This deck was here before; its history stays together.').waitFor();
  await soon(() => page.getByRole('button', { name: 'Begin' }).isEnabled()).toBe(true);
  await page.context().close();
});

test('a late answer about the first letters does not lock a job that may begin', async () => {
  const page = await bench.page('/jobs');
  const early = await holdBack(page, /\/api\/decks\?named=bench$/);
  const asked = page.waitForRequest(/named=bench$/);
  await page.getByLabel('Deck').fill('bench');
  await asked;
  await page.getByLabel('Deck').fill('bench deck 3');
  const begin = page.getByRole('button', { name: 'Begin' });
  await soon(() => begin.isEnabled()).toBe(true);
  await early.release();
  await settled(page);
  expect(await begin.isEnabled()).toBe(true);
  await page.context().close();
});

test('a new job begins at Intake, and the old one is still there', async () => {
  const page = await bench.page('/jobs');
  await page.getByLabel('Deck').fill('listening room deck');
  const count = async () => (await bench.ask('GET', `/api/jobs`)).jobs.length;
  const before = await count();
  const posts = await holdBack(page, /\/api\/jobs$/);
  // while the server takes its time it cannot be pressed again: it is one job
  const begin = page.getByRole('button', { name: 'Begin' });
  await begin.click();
  await soon(() => begin.isDisabled()).toBe(true);
  await posts.release();
  await page.waitForURL('**/jobs/*/intake');
  expect(await count()).toBe(before + 1);
  await page.getByRole('heading', { level: 2, name: 'Intake' }).waitFor();
  await soon(() => page.getByLabel('Deck', { exact: true }).inputValue()).toBe('listening room deck');
  await page.goto(`${bench.address}/jobs`);
  await page.getByRole('link', { name: 'Job 41 · bench deck 3' }).first().waitFor();
  await page.context().close();
});

test('the methods open offline, from the page itself', async () => {
  const page = await bench.page('/docs/index');
  await page
    .getByRole('main')
    .getByRole('link', { name: /^Signs/ })
    .click();
  await page.waitForURL('**/docs/signs');
  await soon(() => page.locator('.page-text').innerText()).toMatch(/clockwise/i);
  await page.context().close();
});

test('no request left this machine, and no page met an error of its own', () => {
  expect(bench.asked.length).toBeGreaterThan(20);
  expect(bench.asked.filter((url) => !url.startsWith(`${bench.address}/`) && !/^(blob|data):/.test(url))).toEqual([]);
  // an absent server is in the browser's log by its own words, and so is the line that it left
  expect(
    bench.errors.filter(
      (text) =>
        !/ERR_CONNECTION_(REFUSED|RESET|CLOSED)|ERR_EMPTY_RESPONSE|ERR_INCOMPLETE_CHUNKED_ENCODING|409 \(Conflict\)/.test(
          text,
        ),
    ),
  ).toEqual([]);
});
