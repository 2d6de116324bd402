import { expect, test } from 'vitest';
import type { CaptureEntry } from '../../api.ts';
import { runModel } from '../run.ts';
import type { JobTyped } from '../stationModel.ts';
import { turnsOf } from './halfTurn.ts';
import { preampKept, responseFault, responseLines, responseSpan, responsesUsed } from './responses.ts';

const csv = '20,0.4\n1000,0\n20000,-0.3\n';
const picked = (part: object) => ({ parts: { preamp: { id: null, revision: 0, part } } }) as never;
const preamp = { schema: 1, kind: 'preamp', name: 'bench phono 2' };

test('the span of a response, or what keeps it from being read', () => {
  expect(responseSpan(csv)).toBe('3 frequencies, 20 Hz to 20 kHz');
  expect(responseSpan('20\n30\n')).toMatch(/one column/);
});

test('too large is told in megabytes, and just not too large is not', () => {
  expect(responseFault(csv, 'a.csv', csv.length)).toBeNull();
  expect(responseFault(csv, 'a.csv', csv.length - 1)).toMatch(/^a\.csv: it is too large for a response; .* MB at most/);
  expect(responseFault(`${csv}${' '.repeat(1_000_000)}`, 'a.csv')).toContain('; 1 MB at most were expected.');
});

test('the preamp that was picked, where its response is kept with it', () => {
  expect(preampKept({})).toBeNull();
  expect(preampKept(picked(preamp))).toBeNull();
  expect(preampKept(picked({ ...preamp, responseCsv: csv }))).toEqual({ name: 'bench phono 2', csv });
});

test('what cannot be read is not taken off', () => {
  const record = { file: 'r.csv', csv: '20\n', key: 'k', name: 'Test' };
  expect(responsesUsed({ preamp: { file: 'p.csv', csv: '20\n' }, record }, 'k', {})).toEqual({
    preamp: null,
    recordResponse: null,
  });
});

test('the report has a line for each that is there', () => {
  const record = { file: 'r.csv', csv, key: 'k', name: 'Test' };
  expect(responseLines({}, {})).toEqual([]);
  expect(responseLines({ record }, {})).toEqual([{ label: 'Record’s calibration', text: 'r.csv, of Test' }]);
  expect(responseLines({ preamp: { file: 'p.csv', csv } }, picked({ ...preamp, responseCsv: csv }))).toEqual([
    { label: 'Preamp’s response as measured', text: 'p.csv' },
  ]);
});

test('Run on the sheet: limits, bench, responses, the leads exchanged, half a turn', () => {
  const job = { stations: {}, captures: [], practice: false, fittings: [], shop: {} } as unknown as JobTyped;
  expect(runModel.lines({}, job)).toEqual([{ label: 'Limits', text: 'Deck class shop' }]);
  const shop = { bench: { clock: '0.01' }, limits: { class: 'studio' as const, recheck: { tilt: '0.1' } } };
  expect(runModel.lines({ responses: { preamp: { file: 'p.csv', csv } } }, { ...job, shop })).toEqual([
    { label: 'Limits', text: 'Deck class studio, set by this shop; checked again beyond tilt 0.1° (set by this shop)' },
    { label: 'Converter’s clock, within ±', text: '0.01 %, set by this shop' },
    { label: 'Preamp’s response as measured', text: 'p.csv' },
  ]);
  const balance = (id: string, value: number) => ({
    id,
    findings: [
      { quantity: 'channel-balance', value, unit: 'dB', uncertainty: 0.1, bands: [], note: '', verdict: 'info' },
    ],
  });
  const captures = [balance('a', 0.7), balance('b', -0.3)] as unknown as readonly CaptureEntry[];
  const labels = runModel
    .lines({ exchanged: { first: 'a', second: 'b' } }, { ...job, captures })
    .map((line) => line.label);
  expect(labels).toEqual([
    'Limits',
    'Channel balance of the cartridge, left over right',
    'Channel balance of the chain, left over right',
  ]);
});

test('once-per-turn swings count with where they start and the band that they are of', () => {
  const atStart = { re: 0.001, im: 0, variance: 1e-12, degreesOfFreedom: 40, rotationHz: 0.5556 };
  const finding = { quantity: 'once-per-turn', value: 0.1, unit: '%', uncertainty: 0.001, note: '', verdict: 'info' };
  const turns = turnsOf({
    findings: [
      { ...finding, bands: [4, 5], atStart },
      { ...finding, bands: [], atStart },
      { ...finding, bands: [4] },
      { ...finding, quantity: 'speed-error', bands: [4], atStart },
    ] as never,
  });
  expect(turns).toEqual([{ ...atStart, band: 4 }]);
});
