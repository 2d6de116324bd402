import { expect, test } from 'vitest';
import { say } from '../words/statement.ts';
import type { JsonObject } from './json.ts';
import { checkRecord, recordFrom, recordLine, recordTyped } from './recordFile.ts';

const whole: JsonObject = {
  schema: 1,
  name: 'House record, side A',
  rpm: 100 / 3,
  referenceVelocityCmS: 7.07,
  cut: { tiltDeg: -0.2, tiltUncertaintyDeg: 0.1, verticalAngleKind: 'effective', remark: 'owner’s own' },
  bands: [
    { signal: 'tone', motion: 'left', frequencyHz: 1000, peakVelocityCmS: 7.07, radiusMm: 140 },
    { signal: 'two-tone', motion: 'lateral', frequenciesHz: [60, 4000], ratio: 4 },
    { signal: 'sweep', motion: 'vertical', fromHz: 20, toHz: 20_000, law: 'log', cut: 'riaa', durationS: 50 },
    { signal: 'noise', motion: 'lateral', shelf: 3 },
    { signal: 'silent-groove', radiusMm: 70 },
  ],
};

test('what the library keeps comes back from the form as it was, what the reader does not know included', () => {
  const read = recordFrom(recordTyped(whole));
  expect('data' in read && read.data).toEqual(whole);
  expect('sheet' in read && recordLine(read.sheet)).toBe('5 bands, 33⅓ rpm, with certificate');
});

test('figures are typed with their units, and a speed in the ways it is said', () => {
  const typed = {
    name: 'A',
    rpm: '33.3',
    bands: [{ signal: 'tone', motion: 'left', frequencyHz: '1 kHz', peakVelocityCmS: '70.7 mm/s' }],
  };
  const read = recordFrom(typed);
  expect('data' in read && read.data).toEqual({
    schema: 1,
    name: 'A',
    rpm: 100 / 3,
    bands: [{ signal: 'tone', motion: 'left', frequencyHz: 1000, peakVelocityCmS: 7.07 }],
  });
});

test('every fault is told at once, with its band', () => {
  const read = recordFrom({
    name: ' ',
    rpm: '',
    bands: [{ signal: 'sweep', motion: 'left', fromHz: '20', toHz: 'high' }],
  });
  expect('faults' in read && read.faults.map(({ where }) => where)).toEqual(['Speed', 'Name', 'Band 1, To']);
});

test('a signal that is changed leaves nothing of the other behind', () => {
  const read = recordFrom({
    name: 'A',
    rpm: '45',
    bands: [{ signal: 'noise', motion: 'left', frequencyHz: '1000', law: 'log' }],
  });
  expect('data' in read && read.data.bands).toEqual([{ signal: 'noise', motion: 'left' }]);
});

test('what the reader of record files refuses is refused in its words', () => {
  const read = recordFrom({ name: 'A', rpm: '45', bands: [{ signal: 'tone', motion: '', frequencyHz: '1000' }] });
  expect('faults' in read && say(read.faults[0].why)).toMatch(/bands\[0\]\.motion is missing; one of "left"/);
  expect('faults' in checkRecord(null)).toBe(true);
});
