// biome-ignore-all lint/performance/useDomNodeTextContent: what is tested is the text as it is seen
/** The voltmeter's form at Tilt. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { meterDocument } from '../../src/core/advise/meterDocument.ts';
import { tiltFromReadings, tiltFromTwoReadings } from '../../src/core/advise/voltmeter.ts';
import { decimalsAtBench, showFigure } from '../../src/core/words/number.ts';
import { type Bench, openBench } from './bench.ts';
import { settled, soon } from './settled.ts';

let bench: Bench;
let page: Page;
beforeAll(async () => {
  bench = await openBench();
  page = await bench.page(bench.station('tilt'));
  await page.getByText('With a voltmeter only').click();
});
afterAll(() => bench?.close());

const card = () => page.locator('.meter-answer');

test('two readings give angle, direction, forecast and the assumption', async () => {
  await page.getByLabel('Left into right, dB').fill('28');
  await page.getByLabel('Right into left, dB').fill('24,0');
  await card().waitFor();
  const expected = tiltFromTwoReadings({ leftToRightDb: 28, rightToLeftDb: 24 });
  const text = async () => (await card().innerText()).replace(/\s+/g, ' ');
  // a degree either way is what two readings leave open: the angle is shown to no more digits than that bears
  const shown = showFigure(
    Math.abs(expected.angleDeg),
    meterDocument(expected).findings[0].uncertainty,
    false,
    decimalsAtBench('deg'),
  );
  await soon(text).toContain(`${shown.value}° ± ${shown.uncertainty}°`);
  await soon(text).toContain('As a trial, turn the cartridge anticlockwise, seen from its face');
  await soon(text).toContain(`about ${expected.predictedLeftToRightDb.toFixed(1)} dB both ways`);
  await soon(text).toContain('equal readings alone prove nothing');
});

test('the job’s record file and the mirror tick count for the meter too', async () => {
  const answer = tiltFromTwoReadings({ leftToRightDb: 28, rightToLeftDb: 24 });
  const sheet = {
    schema: 1,
    name: 'record cut askew',
    rpm: 33.333,
    cut: { tiltDeg: 3, tiltUncertaintyDeg: 0.1 },
    bands: [{ signal: 'tone', motion: 'left', frequencyHz: 1000 }],
  };
  await page.locator('.record-choice input[type=file]').setInputFiles({
    name: 'askew.record.json',
    mimeType: 'application/json',
    buffer: Buffer.from(JSON.stringify(sheet)),
  });
  const text = async () => (await card().innerText()).replace(/\s+/g, ' ');
  await soon(text).toContain('turn the cartridge clockwise, seen from its face');
  const [told] = meterDocument(answer, { cut: sheet.cut }).findings;
  const shown = showFigure(Math.abs(told.value as number), told.uncertainty, false, decimalsAtBench('deg'));
  await soon(text).toContain(`${shown.value}° ± ${shown.uncertainty}°`);
  await page.getByLabel('Mono sum, left-only band, dB').fill('-0.4');
  await page.getByLabel('Mono sum, right-only band, dB').fill('0.4');
  const known = tiltFromTwoReadings({
    leftToRightDb: 28,
    rightToLeftDb: 24,
    mono: { leftMonoDb: -0.4, rightMonoDb: 0.4 },
  });
  if (!known.found) throw new Error('no answer to compare with');
  await page.getByLabel('Record file', { exact: true }).selectOption('');
  const gain = (setByMirror: boolean) => meterDocument(known, { setByMirror }).advice[0].expectedGainDb ?? 0;
  expect(gain(true).toFixed(1)).not.toBe(gain(false).toFixed(1));
  await soon(text).toContain(`${gain(false).toFixed(1)} dB`);
  await page.getByLabel('Set by mirror').check();
  await soon(text).toContain(`${gain(true).toFixed(1)} dB`);
  await page.getByLabel('Set by mirror').uncheck();
  await page.getByLabel('Mono sum, left-only band, dB').fill('');
  await page.getByLabel('Mono sum, right-only band, dB').fill('');
});

test('a reading that cannot be is said beside its field', async () => {
  await page.getByLabel('Right into left, dB').fill('240');
  await page.getByLabel('Left into right, dB').focus();
  await page.getByText('dB; 3 to 80 dB was expected.').waitFor();
  await soon(() => card().count()).toBe(0);
  await page.getByLabel('Right into left, dB').fill('24');
  await card().waitFor();
});

test('the turn that the meter asked for is recorded, held against the next readings, and taken back', async () => {
  await bench.ask('PATCH', `/api/jobs/${bench.demo}/stations/weigh`, {
    status: { was: (await bench.stored()).stations.weigh.status, is: 'done' },
  });
  await settled(page);
  await page.getByRole('button', { name: 'I turned the headshell by it' }).click();
  const moved = page.getByRole('region', { name: 'Moved, predicted and read' });
  await soon(() => moved.innerText()).toMatch(/Headshell turned \d\.\d\d° anticlockwise, seen from its face\./);
  await soon(() => page.getByLabel('Left into right, dB').inputValue()).toBe('');
  await settled(page);
  const { tilt, weigh } = (await bench.stored()).stations;
  expect(tilt.data.moves).toMatchObject([{ move: 'turn-shell', station: 'tilt' }]);
  const marks = ({ marks = [] }: { marks?: { step?: string }[] }) => marks.map(({ step }) => step);
  expect(marks(weigh)).toContain(tilt.data.moves[0].at);
  const [across] = tilt.data.moves[0].foretold;
  await page.getByLabel('Left into right, dB').fill(across.value.toFixed(1));
  await page.getByLabel('Right into left, dB').fill('20');
  const row = (name: string) => moved.getByRole('row', { name });
  await soon(() => row('separation left to right').innerText()).toContain('✓ as predicted');
  await soon(() => row('separation right to left').innerText()).toContain('△ otherwise');
  await moved.getByRole('button', { name: 'Take the last move back' }).click();
  await soon(() => page.getByLabel('Right into left, dB').inputValue()).toBe('24');
  await settled(page);
  const back = (await bench.stored()).stations;
  expect(back.tilt.data.moves).toEqual([]);
  expect(marks(back.weigh)).not.toContain(tilt.data.moves[0].at);
});

test('a table of readings at several tilts can be pasted, and says where to set the scale', async () => {
  await page.getByText('readings at several tilts', { exact: true }).click();
  const csv = 'tilt_deg,left_to_right_db,right_to_left_db\n-2,23.5,34\n0,28,27\n2,33.5,22.6\n';
  await page.getByLabel('Tilt, °, row 1').focus();
  await page.evaluate((text) => {
    const data = new DataTransfer();
    data.setData('text/plain', text);
    document.activeElement?.dispatchEvent(
      new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }),
    );
  }, csv);
  const expected = tiltFromReadings([
    { tiltDeg: -2, leftToRightDb: 23.5, rightToLeftDb: 34 },
    { tiltDeg: 0, leftToRightDb: 28, rightToLeftDb: 27 },
    { tiltDeg: 2, leftToRightDb: 33.5, rightToLeftDb: 22.6 },
  ]);
  if (!expected.found || expected.bestTiltDeg === undefined) throw new Error('no answer to compare with');
  await soon(async () => (await card().innerText()).replace(/\s+/g, ' ')).toContain(
    'Least leak here on your tilt scale',
  );
  const shown = async () => (await card().locator('.figure').innerText()).replace('−', '-').replace(/\s/g, '');
  const best = expected.bestTiltDeg;
  await soon(async () => Math.abs(Number.parseFloat(await shown()) - best)).toBeLessThan(0.06);
  await soon(() => page.getByLabel('Right into left, dB, row 3').inputValue()).toBe('22.6');
});

test('the readings are there after a reload', async () => {
  await settled(page);
  await page.reload();
  await card().waitFor();
  await soon(() => page.getByLabel('Tilt, °, row 1').inputValue()).toBe('-2');
});

test('the page met no error of its own', () => {
  expect(bench.errors).toEqual([]);
});
