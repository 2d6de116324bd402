// biome-ignore-all lint/performance/useDomNodeTextContent: what is tested is the text as it is seen
/** Weigh: every figure against the core's, stale with its reason and cleared, everything typed kept. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { counterweightReach } from '../../src/core/advise/matchBalance.ts';
import { matchSkating, USUAL_GROOVES } from '../../src/core/advise/matchSkating.ts';
import { antiSkatingStart, skatingOverSide } from '../../src/core/advise/skatingSide.ts';
import { counterweightPlan, forceAtRecord, forceFindings, forceStart } from '../../src/core/advise/weigh.ts';
import { apiPaths, type Job, jobSchema, type StationChange } from '../../src/core/job/api.ts';
import { linesOf, typedOf } from '../../src/core/job/stations/index.ts';
import { calibrateGauge } from '../../src/core/mechanics/forceGauge.ts';
import { mnToGramForce } from '../../src/core/units/units.ts';
import { say, sayAll } from '../../src/core/words/statement.ts';
import { overflowOf, unfold } from './axeFaults.ts';
import { type Bench, openBench } from './bench.ts';
import { settled, soon } from './settled.ts';

let bench: Bench;
let page: Page;
let id: string;

/** What is typed under "Arm and cartridge". */
const typed = {
  'Tracking force from, g': '15 mN',
  'Tracking force to, g': '20 mN',
  'Recommended, g': '18 mN',
  'Effective length, mm': '239,3',
  'Counterweight mass, g': '110',
  'Counterweight thread, mm': '1.5',
  'Dial, one turn, g': '7 mN',
  'Cartridge’s mass, g': '6.5',
  'Mass of screws, nuts, spacer, g': '0.6',
  'Arm’s own moment, g·mm': '3200',
  'Counterweight nearest, mm': '28',
  'Counterweight farthest, mm': '58',
  'Whole moving mass, g': '215',
  'Centre of gravity below the pivot, mm': '4',
  'Pivot above the stylus tip, mm': '18',
  'Spindle to pivot, mm': '222',
} as const;

const length = 239.3;
const arm = { force: 0.018, effectiveLength: length, pivotAboveTip: 18, movingMass: 0.215, centreBelowPivot: 4 };
const plan = { counterweightMassG: 110, effectiveLengthMm: length, threadPitchMm: 1.5, dialPerTurnMn: 7 };
const calibration = calibrateGauge([{ reference: 2, referenceUncertainty: 0.002, reading: 2.04 }], 0.01);
const atRecord = forceAtRecord({
  readingG: 1.93,
  resolutionG: 0.01,
  calibration,
  heightMm: 5,
  effect: { kind: 'arm', arm },
});

const stored = async (): Promise<Job> => jobSchema.parse(await bench.ask('GET', apiPaths.job(id)));
const fill = (label: string, text: string) => page.getByLabel(label, { exact: true }).fill(text);
const card = (name: string) => page.getByRole('region', { name, exact: true });
const text = async (name: string) => (await card(name).innerText()).replace(/\s+/g, ' ');

beforeAll(async () => {
  bench = await openBench({ unfolded: true });
  ({ id } = await bench.ask('POST', apiPaths.jobs, { deck: { name: 'deck to weigh' } }));
  page = await bench.page(`/jobs/${id}/weigh`);
  await card('Force to set').waitFor();
});
afterAll(() => bench?.close());

test('with nothing known it says what is missing, and shows no figure', async () => {
  await soon(() => text('Force to set')).toContain(
    'The tracking force that the cartridge’s maker states is not known.',
  );
  await soon(() => text('Force at the tip')).toContain('Nothing was weighed yet.');
  await soon(() => page.locator('main .figure').count()).toBe(0);
  for (const [label, value] of Object.entries(typed)) await fill(label, value);
});

test('where in the range to start, warm or cold, in both units', async () => {
  await soon(() => text('Force to set')).toContain(sayAll(forceStart(15, 20, 18).says));
  await soon(() => text('Force to set')).toMatch(/1\.84 g 18\.0 mN/);
  await fill('Temperature of room and cartridge, °C', '12');
  await soon(() => text('Force to set')).toContain(sayAll(forceStart(15, 20, 18, 12).says));
  await fill('Temperature of room and cartridge, °C', '31');
  await soon(() => text('Force to set')).toContain(sayAll(forceStart(15, 20, 18, 31).says));
  await fill('Temperature of room and cartridge, °C', '');
});

test('the counterweight’s way and its place are the core’s, in figures and in the picture', async () => {
  const expected = counterweightPlan({ ...plan, fromMn: 0, targetMn: 18 });
  const shown = () => text('Counterweight');
  await soon(shown).toContain(`${expected.turns?.toFixed(2)} turns`);
  await soon(shown).toContain(`towards the tip, ${expected.forwardMm.toFixed(2)} mm`);
  await soon(shown).toContain(`Each mm ${expected.perMm.mn.toFixed(2)} mN`);
  await soon(shown).toContain(`+${expected.dialErrorPercent?.toFixed(1)} %`);
  const reach = counterweightReach({
    cartridgeMassG: 6.5,
    hardwareMassG: 0.6,
    effectiveLengthMm: length,
    armMomentGMm: 3200,
    counterweightMassG: 110,
    stubFromMm: 28,
    stubToMm: 58,
    trackingForceMn: 18,
  });
  if (!reach.found) throw new Error(reach.why.code);
  const picture = () => card('Counterweight').locator('svg.arm-view').getAttribute('aria-label');
  await soon(picture).toContain(`${reach.place.atForceMm.toFixed(1)} mm behind the pivot at 18.0 mN`);
  await soon(picture).toContain(`${reach.place.floatingMm.toFixed(1)} mm floating`);
  await fill('Counterweight farthest, mm', '38');
  await soon(() => card('Counterweight').locator('svg.arm-view').getAttribute('aria-label')).toContain('off its stub');
  await soon(() => text('Counterweight')).toContain('What would help:');
  await fill('Counterweight farthest, mm', '58');
});

test('nonsense is refused beside its field, with what was found and the bounds', async () => {
  await fill('Another force, g', '180');
  await page.getByLabel('Dial shows, g', { exact: true }).focus();
  await page.getByText('Found 180 g; 0.408 to 15.3 g was expected.').waitFor();
  await soon(() => text('Force to set')).toContain('The force typed below cannot be used.');
  await soon(() => card('Force to set').locator('.figure').count()).toBe(0);
  await fill('Another force, g', '');
  await fill('Gauge shows, g', 'heavy');
  await page.getByLabel('Dial shows, g', { exact: true }).focus();
  await page.getByText('Found “heavy”; a number, 0.2 to 20 g was expected').waitFor();
  await soon(() => text('Force at the tip')).toContain('The reading cannot be used as it is typed.');
});

test('dial against gauge against gauge at record height, corrected by a known mass', async () => {
  await fill('Known mass, g, row 1', '2');
  await fill('known to within ±, g, row 1', '0.002');
  await fill('Gauge showed, g, row 1', '2.04');
  await page.getByText(`multiplied by ${calibration.factor.toFixed(4)}`).waitFor();
  await fill('Gauge shows, g', '1.93');
  await fill('Dial shows, g', '1.7');
  await fill('Tip on the gauge, over its place on a record, mm', '5');
  const [force, dial] = forceFindings({
    targetMn: 18,
    dialMn: 1.7 * 9.80665,
    atRecord,
    leastMn: 15,
    mostMn: 20,
  });
  const shown = () => text('Force at the tip');
  await soon(shown).toContain(`${atRecord.force.mn.toFixed(2)} mN`);
  await soon(shown).toContain(`${atRecord.force.g.toFixed(3)} g`);
  await soon(shown).toContain(force.note);
  await soon(shown).toContain(dial.note);
  // a target that the reading misses asks for the rest of the way
  await fill('Another force, g', '16 mN');
  const rest = counterweightPlan({ ...plan, fromMn: atRecord.force.mn, targetMn: 16 });
  await soon(shown).toContain('worth adjusting');
  await soon(shown).toContain(`${Math.abs(rest.turns ?? 0).toFixed(3)} turns`);
  await soon(shown).toContain('away from the tip with the counterweight brings it to 16.0 mN');
  await fill('Another force, g', '');
});

test('a bare number keeps its meaning when the unit is changed', async () => {
  const dial = async () => /Dial less gauge.*?(−[\d.]+ mN)/.exec(await text('Force at the tip'))?.[1];
  await soon(() => text('Force at the tip')).not.toContain('16.0 mN');
  await soon(dial).toMatch(/mN$/);
  const before = await dial();
  await page.getByLabel('mN', { exact: true }).check();
  await soon(() => page.getByLabel('Dial shows, mN', { exact: true }).inputValue()).toBe('1.7 g');
  await soon(dial).toBe(before);
  await page.getByLabel('g', { exact: true }).check();
});

test('the pull over the side and the start of each device are the core’s; nothing is said to be measured', async () => {
  const question = {
    trackingForceMn: atRecord.force.mn,
    friction: 0.3,
    effectiveLengthMm: length,
    spindleToPivotMm: 222,
    grooveInnerMm: USUAL_GROOVES.innerMm,
    grooveOuterMm: USUAL_GROOVES.outerMm,
  };
  const answer = skatingOverSide(question);
  if (!answer.found) throw new Error(answer.why.code);
  const says = (device: Parameters<typeof antiSkatingStart>[2]): string => {
    const start = antiSkatingStart(answer.side, question, device);
    return start.found ? sayAll(start.says) : say(start.why);
  };
  await fill('Thread pulls at, mm', '12');
  await soon(() => text('Where to start the anti-skating')).toContain(says({ kind: 'thread', leverMm: 12 }));
  await page.getByLabel('lever with notches').check();
  await fill('Weight on the lever, g', '4');
  await fill('Notches, mm from the pivot', '10 12,5 15');
  const notched = says({ kind: 'notched-lever', weightG: 4, notchesMm: [10, 12.5, 15] });
  await soon(() => text('Where to start the anti-skating')).toContain(notched);
  await page.getByLabel('dial', { exact: true }).check();
  await soon(() => text('Where to start the anti-skating')).toContain(says({ kind: 'dial', dialFriction: 0.3 }));
  await page.getByLabel('weight on a thread').check();
  const { findings } = matchSkating({ ...question });
  const shown = () => text('Skating force over the side');
  for (const { value } of findings) await soon(shown).toContain(`${Number(value).toFixed(1)} mN`);
  await soon(shown).toContain('A forecast');
  await soon(shown).toContain('No recording in this job measures whether both walls are held alike');
});

test('the force is set: it is kept, closes the station, and stands on the sheet', async () => {
  await page.getByRole('button', { name: 'The force is set' }).click();
  await page.getByText('Last left at').waitFor();
  await soon(() => text('Force at the tip')).toContain('The force is set, as told above.');
  expect(await text('Force at the tip')).not.toContain('Nothing was weighed yet');
  await soon(() => page.getByLabel('Gauge shows, g', { exact: true }).inputValue()).toBe('');
  await settled(page);
  const { status, data } = (await stored()).stations.weigh;
  expect(status).toBe('done');
  expect(data.sets).toMatchObject([{ by: 'gauge', targetMn: 18, calibrated: true, left: false }]);
  const [set] = data.sets as { mn: number; uncertaintyMn: number }[];
  expect(set.mn).toBeCloseTo(atRecord.force.mn, 9);
  expect(set.uncertaintyMn).toBeCloseTo(atRecord.uncertaintyMn, 9);
  const lines = linesOf('weigh', typedOf(await stored()));
  expect(JSON.stringify(lines)).toContain(`${atRecord.force.mn.toFixed(2)} ± `);
});

test('a slide at Place makes it stale with its reason; an old reading is called old; set again clears it', async () => {
  await fill('Gauge shows, g', '1.90');
  await settled(page);
  await bench.ask('POST', apiPaths.moves(id), { move: 'slide', station: 'place', note: '1.2 mm forward' });
  await page.reload();
  await settled(page);
  await page.getByText('The cartridge was slid in its slots (1.2 mm forward) at Place: its weight is nearer').waitFor();
  await soon(() => page.getByRole('status').filter({ hasText: 'Last left at' }).innerText()).toContain('weigh again');
  await soon(() => text('Force at the tip')).toContain('That reading is older than the last move.');
  await soon(() => page.getByRole('button', { name: 'The force is set' }).count()).toBe(0);
  await fill('Gauge shows, g', '1.91');
  await page.getByRole('button', { name: 'It was still right: nothing turned' }).waitFor();
  await page.getByRole('button', { name: 'The force is set' }).click();
  await soon(async () => (await stored()).stations.weigh.status).toBe('done');
  await soon(() => page.getByText('Check this again.').count()).toBe(0);
  const now = await stored();
  expect(now.stations.weigh.staleBecause).toBeUndefined();
  expect(now.stations.weigh.data.sets).toHaveLength(2);
});

test('setting the force taken back, the reading that it was set by is there again', async () => {
  const before = (await stored()).stations.weigh.data;
  await fill('Gauge shows, g', '1.95');
  await page.getByRole('button', { name: 'The force is set' }).click();
  await soon(() => page.getByLabel('Gauge shows, g', { exact: true }).inputValue()).toBe('');
  await page.getByRole('button', { name: 'Undo setting the force' }).click();
  await soon(() => page.getByLabel('Gauge shows, g', { exact: true }).inputValue()).toBe('1.95');
  await soon(() => text('Force at the tip')).not.toContain('That reading is older');
  await settled(page);
  expect((await stored()).stations.weigh.data.sets).toEqual(before.sets);
  await page.getByRole('button', { name: 'The force is set' }).click();
  await soon(async () => (await stored()).stations.weigh.status).toBe('done');
});

test('setting the force makes a begun Height look again; weighing it unchanged does not', async () => {
  const begin: StationChange = {
    changes: [{ path: ['notes'], is: 'x' }],
    status: { was: (await stored()).stations.height.status, is: 'done' },
  };
  await bench.ask('PATCH', apiPaths.station(id, 'height'), begin);
  await fill('Gauge shows, g', '1.91');
  await page.getByRole('button', { name: 'It was still right: nothing turned' }).click();
  await settled(page);
  expect((await stored()).stations.height.status).toBe('done');
  await fill('Gauge shows, g', '1.92');
  await page.getByRole('button', { name: 'The force is set' }).click();
  await soon(async () => (await stored()).stations.height.status).toBe('stale');
});

test('the deck levelled here asks to weigh again by itself', async () => {
  await fill('Gauge shows, g', '1.92');
  await page.getByRole('button', { name: 'I levelled the deck' }).click();
  const strip = page.getByRole('status').filter({ hasText: 'Last left at' });
  await strip.getByText('an arm balanced by a weight alone swings with the level of the deck').waitFor();
  await soon(() => text('Force at the tip')).toContain('That reading is older than the last move.');
  await soon(async () => (await stored()).stations.weigh.status).toBe('now');
  await fill('Gauge shows, g', '1.93');
  await page.getByRole('button', { name: 'The force is set' }).click();
  await soon(async () => (await stored()).stations.weigh.status).toBe('done');
  await soon(() => strip.innerText()).toContain('✓ set');
});

test('what was moved here besides the force is taken back, the newest first', async () => {
  await bench.ask('PATCH', apiPaths.station(id, 'run'), {
    changes: [{ path: ['notes'], is: 'x' }],
    status: { was: (await stored()).stations.run.status, is: 'done' },
  });
  const run = async (): Promise<string> => (await stored()).stations.run.status;
  const weigh = async () => (await stored()).stations.weigh;
  const undo = page.getByRole('button', { name: 'Undo the move noted last' });
  expect(await undo.count()).toBe(0);
  await page.getByRole('button', { name: 'I levelled the deck' }).click();
  await page.getByText('Noted: the deck was levelled.').waitFor();
  await page.getByRole('button', { name: 'I fitted another counterweight' }).click();
  await page.getByText('Noted: another counterweight was fitted.').waitFor();
  await soon(run).toBe('stale');
  await undo.click();
  await page.getByText('Noted: the deck was levelled.').waitFor();
  await settled(page);
  expect(await run()).toBe('stale');
  expect(await weigh()).toMatchObject({ status: 'now', data: { movedHere: { move: 'level-deck' } } });
  await undo.click();
  await soon(run).toBe('done');
  await soon(async () => (await weigh()).status).toBe('done');
  expect((await weigh()).data).toMatchObject({ movedHere: null, alsoMoved: [{ move: 'level-deck' }] });
  expect(await undo.count()).toBe(0);
});

test('everything typed is there after a reload, and runs out of no narrow page', async () => {
  await page.getByText('Level the deck, platter still').click();
  await settled(page);
  await page.setViewportSize({ width: 390, height: 844 });
  await page.reload();
  await settled(page);
  await card('Force to set').waitFor();
  await unfold(page);
  for (const [label, value] of Object.entries(typed)) {
    await soon(() => page.getByLabel(label, { exact: true }).inputValue(), label).toBe(value);
  }
  await soon(() => page.getByLabel('Known mass, g, row 1', { exact: true }).inputValue()).toBe('2');
  await soon(() => page.getByLabel('Level the deck, platter still').isChecked()).toBe(true);
  await soon(() => text('Force to set')).toContain(`${mnToGramForce(18).toFixed(2)} g`);
  expect(await overflowOf(page)).toBe(0);
});

test('the page met no error of its own', () => {
  expect(bench.errors).toEqual([]);
});
