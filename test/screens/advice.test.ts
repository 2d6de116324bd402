// biome-ignore-all lint/performance/useDomNodeTextContent: what is tested is the text as it is seen
/** What a recording advises is answered where it is told: done, left, taken back; it marks and stands among the moves. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Advice } from '../../src/core/advise/document.ts';
import { apiPaths } from '../../src/core/job/api.ts';
import { tiltedSide } from '../../src/core/job/side.fixture.ts';
import { type Bench, openBench } from './bench.ts';
import { settled, soon } from './settled.ts';

const told = (action: string, more: Partial<Advice> = {}): Advice => ({
  action,
  amount: null,
  unit: '',
  direction: null,
  predicts: [],
  why: `The advice of ${action}.`,
  ...more,
});
const overhang = { ...tiltedSide.findings[0], quantity: 'overhang-heard', value: 15.2, unit: 'mm', uncertainty: 0.3 };
const document = {
  ...tiltedSide,
  findings: [...tiltedSide.findings, overhang],
  advice: [
    ...tiltedSide.advice,
    told('swap-channels'),
    told('speed', {
      amount: 0.6,
      unit: '%',
      direction: 'slower',
      predicts: [{ quantity: 'speed-error', value: 0, unit: '%' }],
    }),
    told('hum'),
    told('slide', { amount: 1.2, unit: 'mm', direction: 'forward' }),
  ],
};

let bench: Bench;
let page: Page;
let job: string;
beforeAll(async () => {
  bench = await openBench();
  job = (await bench.ask('POST', '/api/jobs', { deck: { name: 'a deck to be advised' } })).id;
  await bench.ask('POST', apiPaths.captures(job), { document, station: 'run' });
  for (const name of ['weigh', 'tilt', 'run'])
    await bench.ask('PATCH', `/api/jobs/${job}/stations/${name}`, { status: { was: 'untouched', is: 'done' } });
  page = await bench.page(`/jobs/${job}/run`);
});
afterAll(() => bench?.close());

const stored = () => bench.ask('GET', `/api/jobs/${job}`);
const did = async (action: string): Promise<string> =>
  (await stored()).advice.find((entry: { advice: Advice }) => entry.advice.action === action).outcome.did;
const status = async (name: string): Promise<string> => (await stored()).stations[name].status;
const button = (name: string) => page.getByRole('button', { name, exact: true });
const made = async (): Promise<string> => {
  const answer = await fetch(bench.address + apiPaths.report(job, 'technician'), {
    headers: { authorization: `Bearer ${bench.key}` },
  });
  return (await answer.text()).replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ');
};

test('the speed set at Run marks Run, stands there among the moves, and is taken back', async () => {
  await button('I set the speed').click();
  await page.getByText('Done: speed set. Record the next pass.').waitFor();
  await settled(page);
  expect([await did('speed'), await status('run'), await status('weigh')]).toEqual(['done', 'stale', 'done']);
  await page.getByText('The speed was adjusted at Run: the figures of the last run were taken before it.').waitFor();
  expect(await made()).toMatch(/Run: speed set 0\.60 % slower\./);
  await page.reload();
  await page.getByRole('status').filter({ hasText: 'Done: speed set' }).getByRole('button', { name: 'Undo' }).click();
  await button('I set the speed').waitFor();
  await settled(page);
  expect([await did('speed'), await status('run')]).toEqual(['open', 'done']);
  expect(await made()).not.toContain('speed set');
});

test('hum and leads are answered at Run too, each by its own move', async () => {
  await button('I worked at the hum').click();
  await page.getByText('Done: hum worked at.').waitFor();
  await button('I exchanged left and right').click();
  await page.getByText('Done: left and right changed over.').waitFor();
  await settled(page);
  expect([await did('hum'), await did('swap-channels')]).toEqual(['done', 'done']);
  const { tilt, run } = (await stored()).stations;
  const because = (state: { marks: { move: string; station: string }[] }) =>
    state.marks.map(({ move, station }) => `${move} at ${station}`);
  expect(because(tilt)).toEqual(['rewire at fit']);
  expect(because(run)).toEqual(['set-earth at run', 'rewire at fit']);
});

test('advice left as it is says so, and that is taken back', async () => {
  const speed = page.getByRole('region', { name: 'What to do' }).locator('fieldset', { hasText: 'speed' });
  await speed.getByRole('button', { name: 'Left as it is' }).click();
  await soon(() => did('speed')).toBe('not-done');
  await page.getByRole('status').filter({ hasText: 'Left as it was' }).getByRole('button', { name: 'Undo' }).click();
  await soon(() => did('speed')).toBe('open');
});

test('what sound advises of the overhang is answered at Place', async () => {
  await page.goto(`${bench.address}/jobs/${job}/place`);
  await button('I slid it').click();
  await page.getByText('Done: slid.').waitFor();
  await settled(page);
  expect(await did('slide')).toBe('done');
  const [mark] = (await stored()).stations.weigh.marks;
  expect(mark).toMatchObject({ move: 'slide', station: 'place' });
  expect(await made()).toMatch(/Place: slid 1\.20 mm forward/);
});

test('the leads that Tilt warns of are answered there', async () => {
  await page.goto(`${bench.address}/jobs/${job}/tilt`);
  const status = page.getByRole('status').filter({ hasText: 'Done: left and right changed over' });
  await status.getByRole('button', { name: 'Undo' }).click();
  await button('I exchanged left and right').waitFor();
  await soon(() => did('swap-channels')).toBe('open');
});

const outcome = async (action: string) =>
  (await stored()).advice.findLast((entry: { advice: Advice }) => entry.advice.action === action).outcome;

test('force and anti-skating that the stepped bands ask for are answered at Run; both make Weigh stale, and the force is taken back', async () => {
  const limits = [{ quantity: 'tracking-limit', value: 12.5, unit: 'cm/s' }];
  const advice = [
    told('set-force', { amount: 15, unit: '%', direction: 'more', predicts: limits, caution: 'Volume down first.' }),
    told('set-skating', { amount: 8, unit: '%', direction: 'less', predicts: limits }),
  ];
  const stepped = { ...document, capture: { ...document.capture, sha256: 'c'.repeat(64) }, advice };
  const fresh = (await bench.ask('POST', '/api/jobs', { deck: { name: 'a deck that mistracks' } })).id;
  await bench.ask('POST', apiPaths.captures(fresh), { document: stepped, station: 'run' });
  for (const name of ['weigh', 'height', 'run'])
    await bench.ask('PATCH', `/api/jobs/${fresh}/stations/${name}`, { status: { was: 'untouched', is: 'done' } });
  const now = async (name: string) => (await bench.ask('GET', `/api/jobs/${fresh}`)).stations[name];
  await page.goto(`${bench.address}/jobs/${fresh}/run`);
  await button('I raised the force').click();
  await page.getByText('Done: tracking force raised. Record the next pass.').waitFor();
  await settled(page);
  expect([(await now('weigh')).status, (await now('height')).status, (await now('run')).status]).toEqual(
    Array(3).fill('stale'),
  );
  expect((await now('weigh')).staleBecause).toEqual([
    'The tracking force was set anew at Run: it is no longer the force that was weighed.',
  ]);
  await button('I set the anti-skating').click();
  await page.getByText('Done: anti-skating set.').waitFor();
  await page.goto(`${bench.address}/jobs/${fresh}/weigh`);
  // the newest reason shows, the one before it is folded under it
  await page.getByText('it is no longer the anti-skating that was set there').first().waitFor();
  await page.getByText('it is no longer the force that was weighed').first().waitFor({ state: 'attached' });
  await page.goto(`${bench.address}/jobs/${fresh}/run`);
  const raised = page.getByRole('status').filter({ hasText: 'Done: tracking force raised' });
  await raised.getByRole('button', { name: 'Undo' }).click();
  await button('I raised the force').waitFor();
  await settled(page);
  // the anti-skating is still another than was set at Weigh, and than at the last run
  expect([(await now('weigh')).status, (await now('height')).status, (await now('run')).status]).toEqual([
    'stale',
    'done',
    'stale',
  ]);
  expect((await now('weigh')).staleBecause).toEqual([
    'The anti-skating was changed at Run: it is no longer the anti-skating that was set there.',
  ]);
});

test('a move made at its own card answers what the newest recording advised of it, and gives it back', async () => {
  const advice = [
    told('slide', { amount: 1.2, unit: 'mm', direction: 'forward' }),
    told('set-arm-height', { amount: 2, unit: 'mm', direction: 'raise-at-the-pivot' }),
  ];
  const second = { ...document, capture: { ...document.capture, sha256: 'b'.repeat(64) }, advice };
  await bench.ask('POST', apiPaths.captures(job), { document: second, station: 'run' });
  await bench.ask('PATCH', `/api/jobs/${job}/stations/place`, {
    changes: [
      { path: ['arm', 'spindleToPivot'], is: '226.5' },
      { path: ['read', 'kind'], is: 'ruler' },
      { path: ['read', 'rulerOverhang'], is: '16.3' },
    ],
  });
  await page.goto(`${bench.address}/jobs/${job}/place`);
  await page.getByRole('region', { name: 'What to move' }).getByRole('button', { name: 'I slid it' }).click();
  await soon(async () => (await outcome('slide')).note).toMatch(/^slid \d\.\d mm forward$/);
  await page.getByText(/^Done: slid \d\.\d mm forward/).waitFor();
  await page.getByRole('link', { name: 'Made at Place' }).waitFor();
  await button('Take the last move back').click();
  await soon(async () => (await outcome('slide')).did).toBe('open');

  await page.goto(`${bench.address}/jobs/${job}/height`);
  await page.getByLabel('Over level, at the pivot').fill('2');
  await button('The height is set').click();
  await soon(async () => (await outcome('set-arm-height')).note).toBe('arm height 2.0 mm over level at the pivot');
  await page.getByRole('button', { name: 'Undo setting the height' }).click();
  await soon(async () => (await outcome('set-arm-height')).did).toBe('open');
  await button('It was right: nothing moved').click();
  await settled(page);
  expect([(await outcome('set-arm-height')).did, await status('tilt')]).toEqual(['open', 'stale']);
  expect(bench.errors).toEqual([]);
});
