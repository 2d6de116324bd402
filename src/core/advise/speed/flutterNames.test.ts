import { expect, it } from 'vitest';
import type { Finding } from '../../measure/finding.ts';
import { statement } from '../../words/statement.ts';
import { told } from '../told.fixture.ts';
import { namedFlutter } from './flutterNames.ts';

const own = statement('resonance-both-ways');
const line = (atHz?: number, quantity = 'flutter-line'): Finding => ({
  quantity,
  value: 0.1,
  unit: '%',
  uncertainty: 0.01,
  bands: [],
  notes: [own],
  ...(atHz === undefined ? {} : { atHz }),
});
const turning = { heardHz: 100 / 180, nominalHz: 100 / 180, resolutionHz: 0.01 };
/** 300 mm of platter on a 15 mm pulley by a belt of 700 mm; an idler wheel of 50 mm */
const drive = { platterMm: 300, pulleyMm: 15, beltMm: 700, idlerMm: 50 };
const turn = 100 / 180;
const said = (atHz: number, facts: Parameters<typeof namedFlutter>[1] = drive) =>
  namedFlutter([line(atHz)], facts, turning)[0]
    .notes.slice(1)
    .map((one) => told(one));

it.each([
  [turn, 'flutter-of-platter times=1'],
  [3 * turn, 'flutter-of-platter times=3'],
  [20 * turn, 'flutter-of-motor times=1'],
  [40 * turn, 'flutter-of-motor times=2'],
  [(Math.PI * 300 * turn) / 700, 'flutter-of-belt times=1'],
  [6.3 * turn, null],
  [6 * turn, 'flutter-of-idler times=1'],
  [60, 'flutter-of-mains times=1'],
  [100, 'flutter-of-mains times=2'],
])('%d Hz is told as %s', (hz, expected) => {
  if (expected === null) expect(said(hz)).toEqual(['flutter-of-nothing-known']);
  else expect(said(hz)).toContain(expected);
});

it('what nothing known turns at is told by whether the drive is known', () => {
  expect(said(7.77)).toEqual(['flutter-of-nothing-known']);
  expect(said(7.77, { pulleyMm: 15 })).toEqual(['flutter-drive-unknown']);
  expect(said(7.77, { motorRpm: 300 })).toEqual(['flutter-of-nothing-known']);
});

it('its own notes stay first; other figures and lines without a place are passed on as they are', () => {
  const findings = [line(turn), line(undefined), line(turn, 'speed-error')];
  const named = namedFlutter(findings, drive, turning);
  expect(named[0]).toEqual({ ...findings[0], notes: [own, statement('flutter-of-platter', { times: 1 })] });
  expect(named.slice(1)).toEqual(findings.slice(1));
  expect(namedFlutter(findings, drive, null)).toEqual(findings);
  expect(namedFlutter([], drive, turning)).toEqual([]);
});
