// biome-ignore-all lint/performance/useDomNodeTextContent: what is tested is the text as it is seen
/** First start, what stays after a reload, and a server that is away for a while. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Bench, openBench } from './bench.ts';

let bench: Bench;
beforeAll(async () => {
  bench = await openBench();
});
afterAll(() => bench?.close());

test('the demo job is open at Tilt, with every station and what to do', async () => {
  const page = await bench.page('/');
  await page.waitForURL(`**${bench.station('tilt')}`);
  expect(await page.title()).toBe('Tilt · Job 41 · bench deck 3 · Platterside');
  expect(await page.getAttribute('html', 'lang')).toBe('en');
  const stations = page.locator('nav ol a');
  expect(await stations.count()).toBe(9);
  expect(await stations.allInnerTexts()).toEqual(
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
  await expect.poll(() => page.title()).toMatch(/^Run · /);
  await expect.poll(() => page.evaluate(() => document.activeElement?.textContent)).toBe('Run');
  await page.goBack();
  await page.waitForURL(`**${bench.station('tilt')}`);
  await page.getByRole('heading', { level: 2, name: 'Tilt' }).waitFor();
  await page.context().close();
});

test('what is typed is there after a reload, as it was typed, and so is the place', async () => {
  const page = await bench.page(bench.station('intake'));
  await page.getByRole('textbox', { name: 'Stylus hours, h' }).fill('612,5');
  await page.getByLabel('Cartridge', { exact: true }).fill('moving magnet, middle compliance');
  await page.getByText('Tip there, clean').click();
  await page.waitForResponse(
    (response) => response.request().method() === 'PUT' && response.url().includes('stations'),
  );
  await page.goto(bench.address);
  await page.waitForURL(`**${bench.station('intake')}`);
  await expect.poll(() => page.getByRole('textbox', { name: 'Stylus hours, h' }).inputValue()).toBe('612,5');
  expect(await page.getByLabel('Cartridge', { exact: true }).inputValue()).toBe('moving magnet, middle compliance');
  expect(await page.getByLabel(/^Tip there, clean/).isChecked()).toBe(true);
  await page.context().close();
});

test('a change made in another window is not overwritten, nor lost', async () => {
  const [one, two] = [await bench.page(bench.station('match')), await bench.page(bench.station('match'))];
  const saved = (page: typeof one) =>
    page.waitForResponse((response) => response.url().includes('stations/match') && response.status() === 200);
  const first = saved(one);
  await one.getByLabel('Notes at Match').fill('from the first window');
  await first;
  const second = saved(two);
  await two.getByRole('button', { name: /is done|Open it again/ }).click();
  await second;
  const job = await (await one.request.get(`${bench.address}/api/jobs/${bench.demo}`)).json();
  expect(job.stations.match.data.notes).toBe('from the first window');
  await one.context().close();
  await two.context().close();
});

test('with the server away the page says so, keeps what is typed, and saves it when the server is back', async () => {
  const page = await bench.page(bench.station('height'));
  await page.getByLabel('Notes at Height').waitFor();
  // the station's own part comes after its frame
  await page.waitForLoadState('networkidle');
  await bench.stopServer();
  await page.getByLabel('Notes at Height').fill('typed while the server was away');
  await page.getByText('The bench server does not answer.', { exact: true }).waitFor();
  expect(await page.getByLabel('Notes at Height').inputValue()).toBe('typed while the server was away');
  await bench.startServer();
  await page.getByRole('button', { name: 'Try now' }).click();
  await page.getByText('The bench server does not answer.', { exact: true }).waitFor({ state: 'hidden' });
  const kept = async () =>
    (await (await page.request.get(`${bench.address}/api/jobs/${bench.demo}`)).json()).stations.height.data.notes;
  await expect.poll(kept).toBe('typed while the server was away');
  await page.context().close();
});

test('a new job begins at Intake, and the old one is still there', async () => {
  const page = await bench.page('/jobs');
  await page.getByLabel('Deck').fill('listening room deck');
  await page.getByRole('button', { name: 'Begin' }).click();
  await page.waitForURL('**/jobs/*/intake');
  await page.getByRole('heading', { level: 2, name: 'Intake' }).waitFor();
  expect(await page.getByLabel('Deck', { exact: true }).inputValue()).toBe('listening room deck');
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
  await expect.poll(() => page.locator('.page-text').innerText()).toMatch(/clockwise/i);
  await page.context().close();
});

test('no request left this machine, and no page met an error of its own', () => {
  expect(bench.asked.length).toBeGreaterThan(20);
  expect(bench.asked.filter((url) => !url.startsWith(`${bench.address}/`) && !/^(blob|data):/.test(url))).toEqual([]);
  // an absent server is in the browser's log by its own words
  expect(bench.errors.filter((text) => !/ERR_CONNECTION_REFUSED|409 \(Conflict\)/.test(text))).toEqual([]);
});
