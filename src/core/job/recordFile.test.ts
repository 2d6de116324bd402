import { describe, expect, test } from 'vitest';
import { MOST_BANDS } from '../record/sheet.ts';
import { said } from '../words/said.fixture.ts';
import { say } from '../words/statement.ts';
import type { JsonObject } from './json.ts';
import { bandSignals, checkRecord, fieldsOfSignal, recordFrom, recordLine, recordTyped } from './recordFile.ts';

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

describe('a file as the form shows it', () => {
  test('has every figure as a text, what is none empty, and a speed as it is marked', () => {
    expect(recordTyped(whole)).toEqual({
      name: 'House record, side A',
      rpm: '33⅓',
      referenceVelocityCmS: '7.07',
      cut: { tiltDeg: '-0.2', tiltUncertaintyDeg: '0.1', verticalAngleKind: 'effective', remark: 'owner’s own' },
      bands: [
        { signal: 'tone', motion: 'left', frequencyHz: '1000', peakVelocityCmS: '7.07', radiusMm: '140' },
        { signal: 'two-tone', motion: 'lateral', lowerHz: '60', upperHz: '4000', ratio: '4' },
        { signal: 'sweep', motion: 'vertical', fromHz: '20', toHz: '20000', law: 'log', cut: 'riaa', durationS: '50' },
        { signal: 'noise', motion: 'lateral', shelf: 3 },
        { signal: 'silent-groove', radiusMm: '70' },
      ],
    });
    const speed = (rpm: JsonObject[string] | undefined) => recordTyped({ rpm } as JsonObject).rpm;
    expect([100 / 3, 50 / 3, 45, 33.3, 78.26].map(speed)).toEqual(['33⅓', '16⅔', '45', '33.3', '78.26']);
    expect([speed(100 / 3 + 2e-6), speed('33'), speed(undefined)]).toEqual([String(100 / 3 + 2e-6), '33', '']);
  });

  test('of anything else is an empty form', () => {
    expect(recordTyped({})).toEqual({ rpm: '', bands: [] });
    expect(recordTyped({ bands: 'odd', cut: 'odd', rpm: 45 })).toEqual({ rpm: '45', bands: [] });
    expect(recordTyped({ bands: [7, { signal: 'two-tone', frequenciesHz: [], ratio: null }] }).bands).toEqual([
      { signal: 'two-tone', ratio: '', lowerHz: '', upperHz: '' },
    ]);
  });
});

describe('a file as it was typed', () => {
  const tone = { signal: 'tone', motion: 'left', frequencyHz: '1000' };
  const read = (typed: JsonObject) => recordFrom({ name: 'A', rpm: '45', bands: [tone], ...typed });
  const kept = (typed: JsonObject) => {
    const record = read(typed);
    if (!('data' in record)) throw new Error(JSON.stringify(said(record.faults)));
    return record.data;
  };
  const faults = (typed: JsonObject) => {
    const record = read(typed);
    return 'faults' in record ? (said(record.faults) as { where: string; why: string }[]) : [];
  };
  const plain = { schema: 1, name: 'A', rpm: 45, bands: [{ signal: 'tone', motion: 'left', frequencyHz: 1000 }] };

  test('is kept without its empty fields', () => {
    expect(kept({ referenceVelocityCmS: '', remark: '', cut: { tiltDeg: '', verticalAngleKind: '' } })).toEqual(plain);
    expect(kept({ name: ' A ', remark: 'mine', cut: 'odd' })).toEqual({ ...plain, remark: 'mine' });
    expect(kept({ cut: { warpMm: '0.2 mm', verticalAngleKind: 'mechanical' } })).toEqual({
      ...plain,
      cut: { warpMm: 0.2, verticalAngleKind: 'mechanical' },
    });
    expect(kept({ bands: [{ ...tone, radiusMm: '', shelf: '', note: 'x' }, 'odd'] }).bands).toEqual([
      { ...plain.bands[0], note: 'x' },
    ]);
  });

  test('has a speed near to one that is marked taken for that', () => {
    const speeds = ['33⅓', ' 33⅓ ', '33', '33.3', '33.29', '33.28', '16⅔', '16.7', '16.62', '16.6', '78.26'];
    const [long, short] = [100 / 3, 50 / 3];
    expect(speeds.map((rpm) => kept({ rpm }).rpm)).toEqual([
      ...[long, long, 33, long, long, 33.28, short, short, short, 16.6, 78.26],
    ]);
  });

  test('has of each band only what its signal has', () => {
    const all = {
      ...{ frequencyHz: '1000', lowerHz: '60', upperHz: '4000', ratio: '4', fromHz: '20', toHz: '20000' },
      ...{ peakVelocityCmS: '5', radiusMm: '100', durationS: '9', levelCorrectionDb: '-1' },
      ...{ law: 'linear', cut: 'riaa', motion: 'right' },
    };
    const every = { peakVelocityCmS: 5, radiusMm: 100, durationS: 9, levelCorrectionDb: -1, motion: 'right' };
    const bands = kept({ bands: bandSignals.map((signal) => ({ ...all, signal })) }).bands;
    expect(bands).toEqual([
      { signal: 'tone', frequencyHz: 1000, ...every },
      { signal: 'two-tone', frequenciesHz: [60, 4000], ratio: 4, ...every },
      { signal: 'sweep', fromHz: 20, toHz: 20_000, law: 'linear', cut: 'riaa', ...every },
      { signal: 'noise', ...every },
      { signal: 'silent-groove', radiusMm: 100, durationS: 9 },
    ]);
    const sweep = { signal: 'sweep', motion: 'left', fromHz: '20', toHz: '200', law: '', cut: '' };
    expect(kept({ bands: [sweep] }).bands).toEqual([{ signal: 'sweep', motion: 'left', fromHz: 20, toHz: 200 }]);
    expect(kept({ bands: [{ signal: 'noise', motion: '' }] }).bands).toEqual([{ signal: 'noise' }]);
    expect(kept({ bands: [{ motion: 'left', frequencyHz: '50' }] }).bands).toEqual([
      { signal: 'tone', motion: 'left', frequencyHz: 50 },
    ]);
  });

  test('is refused with everything that stands against it, each where it stands', () => {
    expect(faults({ name: '', rpm: ' ', referenceVelocityCmS: 'loud', cut: { tiltDeg: '90' }, bands: [] })).toEqual([
      { where: 'Speed', why: 'Not filled in.' },
      { where: 'Reference velocity', why: expect.stringContaining('“loud”') },
      { where: 'Name', why: 'A record file needs a name to be found again.' },
      { where: 'Certificate, Tilt of the cut', why: expect.stringContaining('Found 90 deg') },
      { where: 'Bands', why: 'At least one band is needed.' },
    ]);
    expect(faults({ bands: [tone, { signal: 'two-tone', motion: 'left' }, { signal: 'sweep' }] })).toEqual(
      ['Band 2, Lower tone', 'Band 2, Upper tone', 'Band 3, From', 'Band 3, To'].map((where) => ({
        where,
        why: 'Not filled in.',
      })),
    );
    expect(faults({ bands: 'odd' })).toEqual([{ where: 'Bands', why: 'At least one band is needed.' }]);
    expect(faults({ bands: [3] })).toHaveLength(1);
    expect(faults({ name: undefined as never })).toMatchObject([{ where: 'Name' }]);
  });

  test('may have as many bands as the reader takes, and no more', () => {
    const silent = { signal: 'silent-groove' };
    expect(faults({ bands: Array(MOST_BANDS).fill(silent) })).toEqual([]);
    expect(faults({ bands: Array(MOST_BANDS + 1).fill(silent) })).toEqual([
      { where: 'Bands', why: 'At most 1000 are kept.' },
    ]);
  });
});

test('a record file is called by its name where it is refused, and in one line where it is read', () => {
  const why = (data: unknown) => {
    const record = checkRecord(data);
    return 'faults' in record ? (said(record.faults) as { where: string; why: string }[])[0].why : null;
  };
  expect(why({ name: 'House record' })).toMatch(/^House record/);
  for (const odd of [null, undefined, 3, { name: 3 }, ['x']])
    expect(why(odd), JSON.stringify(odd)).toMatch(/^The record file/);
  const sheet = (more: object) => {
    const record = checkRecord({ schema: 1, name: 'A', rpm: 45, bands: [{ signal: 'silent-groove' }], ...more });
    if (!('sheet' in record)) throw new Error(JSON.stringify(record.faults));
    return recordLine(record.sheet);
  };
  expect(sheet({})).toBe('one band, 45 rpm');
  expect(sheet({ bands: [{ signal: 'silent-groove' }, { signal: 'noise' }], cut: {} })).toBe(
    '2 bands, 45 rpm, with certificate',
  );
});

test('a band is asked for the figures of its signal, then for those of every band', () => {
  const every = ['peakVelocityCmS', 'radiusMm', 'durationS', 'levelCorrectionDb'];
  expect(bandSignals.map(fieldsOfSignal)).toEqual([
    ['frequencyHz', ...every],
    ['lowerHz', 'upperHz', 'ratio', ...every],
    ['fromHz', 'toHz', ...every],
    every,
    ['radiusMm', 'durationS'],
  ]);
});
