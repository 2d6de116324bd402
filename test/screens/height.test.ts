// biome-ignore-all lint/performance/useDomNodeTextContent: what is tested is the text as it is seen
/** Height: angle, records and aims against the core's; a measured angle only where the job holds one. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { angleTargets, heightAdvice, heightSheet } from '../../src/core/advise/height.ts';
import { apiPaths, captureAddedSchema, type Job, jobSchema } from '../../src/core/job/api.ts';
import { leafChanges } from '../../src/core/job/leafPaths.ts';
import { straightSide } from '../../src/core/job/side.fixture.ts';
import { overflowOf, unfold } from './axeFaults.ts';
import { type Bench, openBench } from './bench.ts';
import { settled, soon } from './settled.ts';

let bench: Bench;
let page: Page;
let id: string;

const arm = { force: 0.018, effectiveLength: 239.3, pivotAboveTip: 18, movingMass: 0.215, centreBelowPivot: 4 };

const stored = async (): Promise<Job> => jobSchema.parse(await bench.ask('GET', apiPaths.job(id)));
const fill = (label: string, text: string) => page.getByLabel(label, { exact: true }).fill(text);
const card = (name: string) => page.getByRole('region', { name, exact: true });
const text = async (name: string) => (await card(name).innerText()).replace(/\s+/g, ' ').replaceAll('−', '-');
const reload = async (): Promise<void> => {
  await settled(page);
  await page.reload();
  await settled(page);
};

beforeAll(async () => {
  bench = await openBench({ unfolded: true });
  ({ id } = jobSchema.parse(await bench.ask('POST', apiPaths.jobs, { deck: { name: 'deck to raise' } })));
  // what was typed at Weigh serves here too
  const typed = { facts: { movingMassG: '215', centreBelowPivotMm: '4' }, target: '18 mN' };
  await bench.ask('PATCH', apiPaths.station(id, 'weigh'), { changes: leafChanges({}, typed) });
  page = await bench.page(`/jobs/${id}/height`);
  await card('Angle for each mm').waitFor();
});
afterAll(() => bench?.close());

test('without the effective length it says so; what standard and practice say stands there all the same', async () => {
  await soon(() => text('Angle for each mm')).toContain('The effective length is not known.');
  const shown = await text('Angle to aim at');
  for (const { title, source } of angleTargets) {
    expect(shown).toContain(title);
    // the kind of the aim says “common practice” already
    expect(shown).toContain(source.replaceAll('−', '-').replace('common practice: ', ''));
  }
  expect(shown.match(/common practice/g)).toHaveLength(1);
  await soon(() => page.locator('main .figure').count()).toBe(0);
});

test('angle per mm, with its uncertainty', async () => {
  await fill('Effective length, mm', '239.3');
  const { degPerMm, mmPerDeg } = heightSheet({ effectiveLengthMm: 239.3, setOnThicknessMm: 2, otherThicknessMm: [] });
  await soon(() => text('Angle for each mm')).toContain(`${degPerMm.toFixed(3)}° ± 0.001°`);
  expect(await text('Angle for each mm')).toContain(`1° is ${mmPerDeg.toFixed(2)} mm ± 0.01 mm`);
});

test('other records: angle, what undoes it, and the force by the balance typed here and at Weigh', async () => {
  await fill('Record that it is set on, mm', '1,5');
  await fill('Another record, mm', '2.2');
  await soon(() => text('Records of other thickness')).toContain(
    'The change of force is left out: the pivot’s height above the tip',
  );
  await page.getByText('For the change of force with height').click();
  await fill('Pivot above the stylus tip, mm', '18');
  const { thickness } = heightSheet({
    effectiveLengthMm: 239.3,
    setOnThicknessMm: 1.5,
    otherThicknessMm: [1, 2, 2.2, 2.5, 3],
    arm,
  });
  for (const { thicknessMm, angleDeg, riseMm, forceMn } of thickness) {
    const sign = (value: number) => (value > 0 ? '+' : '');
    await soon(() => text('Records of other thickness')).toContain(
      `${thicknessMm.toFixed(1)} mm ${sign(angleDeg)}${angleDeg.toFixed(2)}° ${riseMm > 0 ? 'up' : 'down'} ${Math.abs(riseMm).toFixed(1)} mm ${sign(forceMn ?? 0)}${forceMn?.toFixed(2)} mN`,
    );
  }
});

test('the stated angle at this height and the way to each aim; signs: up is steeper', async () => {
  await fill('Vertical tracking angle, °', '18');
  await fill('Over level, at the pivot, mm', '2');
  const sheet = heightSheet({
    effectiveLengthMm: 239.3,
    setOnThicknessMm: 1.5,
    otherThicknessMm: [],
    verticalAngleDeg: 18,
    riseMm: 2,
  });
  const shown = () => text('Angle to aim at');
  await soon(shown).toContain(`${sheet.statedDeg?.toFixed(1)}°`);
  await soon(shown).toContain('by the maker’s statement alone');
  const rise = (name: string) => sheet.targets.find((target) => target.name === name)?.riseMm ?? 0;
  await soon(shown).toContain(`raise ${rise('standard').toFixed(1)} mm`);
  await soon(shown).toContain(`lower ${Math.abs(rise('older')).toFixed(1)} mm`);
  await soon(() => card('Angle for each mm').locator('svg').getAttribute('aria-label')).toContain(
    '2.0 mm over level at the pivot',
  );
});

test('nonsense is refused beside its field', async () => {
  await fill('Over level, at the pivot, mm', '300');
  await page.getByLabel('Pillar reads').focus();
  await page.getByText('Found 300 mm; −30 to 30 mm was expected.').waitFor();
  await soon(() => page.getByRole('button', { name: 'The height is set' }).isDisabled()).toBe(true);
  await fill('Over level, at the pivot, mm', '2');
});

test('nothing is shown as measured until the job holds such a figure', async () => {
  await soon(() => text('The angle as measured')).toContain('Not measured. What is fitted was not recorded yet.');
  const { capture } = captureAddedSchema.parse(
    await bench.ask('POST', apiPaths.captures(id), { document: straightSide, station: 'run' }),
  );
  expect(capture.id).not.toBe('');
  await reload();
  await card('The angle as measured').waitFor();
  await soon(() => text('The angle as measured')).toContain(
    'None of the 1 recording of what is fitted holds the vertical tracking error.',
  );
  expect(await card('The angle as measured').locator('.figure').count()).toBe(0);
});

test('a measured angle asks for the move that the core gives, and opens its evidence', async () => {
  const measured = {
    ...straightSide,
    capture: { ...straightSide.capture, file: 'vertical.wav', sha256: 'c'.repeat(64) },
    findings: [
      {
        quantity: 'vertical-tracking-error',
        value: 2,
        unit: 'deg',
        uncertainty: 0.3,
        bands: [0],
        note: '',
        verdict: 'adjust',
      },
    ],
    advice: [],
  };
  await bench.ask('POST', apiPaths.captures(id), { document: measured, station: 'run' });
  await reload();
  await card('The angle as measured').getByText('Lower the arm at its pivot').waitFor();
  const advice = heightAdvice(2, 0.3, { effectiveLengthMm: 239.3 });
  const shown = () => text('The angle as measured');
  // every angle within the ± asks for all that height cures: nothing of the move is open
  expect(advice.uncertainty).toBeCloseTo(0, 9);
  await soon(shown).toContain(`${advice.amount?.toFixed(2)} mm Lower the arm`);
  await soon(shown).toContain(advice.why);
  await soon(shown).toContain(advice.caution ?? '');
  await fill('The arm can still come down, mm', '4');
  await fill('The arm can still go up, mm', '10');
  await soon(() => text('The angle as measured')).toContain(
    heightAdvice(2, 0.3, { effectiveLengthMm: 239.3 }, { down: 4, up: 10 }).why,
  );
  await card('The angle as measured').getByRole('button', { name: 'Vertical tracking error' }).click();
  await page.getByRole('dialog').getByText('Formula, source and limits in full').waitFor();
  await page.keyboard.press('Escape');
  await page.getByRole('dialog').waitFor({ state: 'hidden' });
});

test('set: kept with record and pillar, stale for what rests on it, and the old measurement is called old', async () => {
  await fill('Pillar reads', 'second line');
  await page.getByRole('button', { name: 'The height is set' }).click();
  await page
    .getByText('Last left 2.0 mm over level at the pivot on a record of 1.5 mm, pillar at second line')
    .waitFor();
  await soon(async () => (await stored()).stations.weigh.status).toBe('stale');
  await soon(async () => (await stored()).stations.weigh.staleBecause?.[0]).toContain(
    'The arm height was changed (2.0 mm over level at the pivot) at Height',
  );
  await soon(async () => (await stored()).stations.height.status).toBe('done');
  await soon(async () => (await stored()).stations.height.data.sets).toMatchObject([
    { riseMm: 2, thicknessMm: 1.5, mark: 'second line', left: false },
  ]);
  await soon(() => text('The angle as measured')).toContain('Read before the height was last set.');
});

test('another stylus makes it stale with its reason; looked at again and left clears it, and moves nothing', async () => {
  await bench.ask('POST', apiPaths.moves(id), { move: 'change-stylus', station: 'fit' });
  await reload();
  await page.getByText('The stylus was changed at Fit: the new cantilever has its own angle.').waitFor();
  await soon(() => page.getByRole('status').filter({ hasText: 'Last left' }).innerText()).toContain('look again');
  await settled(page);
  const before = (await stored()).stations.weigh.staleBecause?.length;
  await page.getByRole('button', { name: 'It is still right: nothing moved' }).click();
  await soon(async () => (await stored()).stations.height.status).toBe('done');
  await soon(() => page.getByText('Check this again.').count()).toBe(0);
  await settled(page);
  expect((await stored()).stations.weigh.staleBecause?.length).toBe(before);
});

test('everything typed is there after a reload, and runs out of no narrow page', async () => {
  await page.setViewportSize({ width: 390, height: 844 });
  await reload();
  await card('Angle for each mm').waitFor();
  await unfold(page);
  const kept = {
    'Effective length, mm': '239.3',
    'Vertical tracking angle, °': '18',
    'Over level, at the pivot, mm': '2',
    'Record that it is set on, mm': '1,5',
    'Another record, mm': '2.2',
    'Pivot above the stylus tip, mm': '18',
    'Pillar reads': 'second line',
  };
  for (const [label, value] of Object.entries(kept)) {
    await soon(() => page.getByLabel(label, { exact: true }).inputValue(), label).toBe(value);
  }
  expect(await overflowOf(page)).toBe(0);
});

test('the page met no error of its own', () => {
  expect(bench.errors).toEqual([]);
});
