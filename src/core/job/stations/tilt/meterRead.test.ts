import { describe, expect, test } from 'vitest';
import { tiltFromReadings, tiltFromTwoReadings } from '../../../advise/voltmeter.ts';
import { said } from '../../../words/said.fixture.ts';
import { emptyRow, type MeterTyped, meterLines, meterResult, rowsFromPaste, separationsRead } from './meter.ts';

const pair: MeterTyped = { leftToRight: '28', rightToLeft: '24' };
const volts: MeterTyped = {
  way: 'volts',
  leftOnLeft: '500',
  rightOnLeft: '20',
  leftOnRight: '31.5',
  rightOnRight: '500',
};
const answer = (typed: MeterTyped) => {
  const result = meterResult(typed);
  if (result.kind !== 'answer') throw new Error(result.kind);
  return result.answer;
};
const row = (tilt: string, leftToRight: string, rightToLeft: string) => ({ tilt, leftToRight, rightToLeft });
const rows = [row('-2', '23.5', '34'), row('0', '28', '27'), row('2', '33.5', '22.6')];

describe('two readings', () => {
  test('as they are typed, with the spread that was typed', () => {
    expect(answer(pair)).toEqual(tiltFromTwoReadings({ leftToRightDb: 28, rightToLeftDb: 24 }));
    expect(answer({ ...pair, uncertainty: '1' })).toEqual(
      tiltFromTwoReadings({ leftToRightDb: 28, rightToLeftDb: 24, readingUncertaintyDb: 1 }),
    );
    expect(answer({ ...pair, uncertainty: 'well' })).toEqual(answer(pair));
  });

  test('either of them alone waits, and what cannot be read is not there', () => {
    for (const typed of [{ leftToRight: '28' }, { rightToLeft: '24' }, { ...pair, leftToRight: 'x' }]) {
      expect(meterResult(typed)).toEqual({ kind: 'waiting' });
    }
  });

  test('with both mono sums, and not with one', () => {
    const sums = { leftMono: '-0.3', rightMono: '0.3' };
    const mono = { leftMonoDb: -0.3, rightMonoDb: 0.3 };
    expect(answer({ ...pair, ...sums })).toEqual(tiltFromTwoReadings({ leftToRightDb: 28, rightToLeftDb: 24, mono }));
    for (const one of [{ leftMono: '-0.3' }, { rightMono: '0.3' }]) {
      expect(said(meterResult({ ...pair, ...one }))).toMatchObject({ kind: 'wrong' });
    }
  });
});

describe('four voltages', () => {
  const { way: _, ...typed } = volts;

  test('are set against the same channel; what is not typed waits', () => {
    const leftToRightDb = 20 * Math.log10(500 / 20);
    const rightToLeftDb = 20 * Math.log10(500 / 31.5);
    expect(answer(volts)).toEqual(
      tiltFromTwoReadings({
        leftToRightDb,
        rightToLeftDb,
      }),
    );
    for (const name of Object.keys(typed)) {
      expect(meterResult({ ...volts, [name]: '' }), name).toEqual({ kind: 'waiting' });
    }
  });

  test('mono sums left over from the other way are not asked for and not used', () => {
    for (const sums of [{ leftMono: '-0.3' }, { rightMono: '0.3' }, { leftMono: '-0.3', rightMono: '0.3' }]) {
      expect(answer({ ...volts, ...sums })).toEqual(answer(volts));
    }
  });

  test('are not used where readings in dB are what is read', () => {
    expect(answer({ ...typed, ...pair })).toEqual(answer(pair));
    expect(meterResult(typed)).toEqual({ kind: 'waiting' });
  });
});

describe('readings at several tilts', () => {
  const several = (...of: ReturnType<typeof row>[]) => meterResult({ way: 'several', rows: of });
  const readings = rows.map((one) => ({
    tiltDeg: Number(one.tilt),
    leftToRightDb: Number(one.leftToRight),
    rightToLeftDb: Number(one.rightToLeft),
  }));

  test('every row that holds something; rows that are empty are passed over', () => {
    expect(several(...rows)).toEqual({ kind: 'answer', answer: tiltFromReadings(readings) });
    expect(several(emptyRow, rows[0], emptyRow, rows[1], rows[2])).toEqual(several(...rows));
    expect(meterResult({ way: 'several', rows, uncertainty: '1' })).toEqual({
      kind: 'answer',
      answer: tiltFromReadings(readings, 1),
    });
    expect(several()).toEqual({ kind: 'waiting' });
    expect(several(emptyRow)).toEqual({ kind: 'waiting' });
    expect(meterResult({ way: 'several' })).toEqual({ kind: 'waiting' });
    expect(several(rows[0])).toMatchObject({ kind: 'answer', answer: { found: false } });
  });

  test('a row that is not complete, or cannot be read, is named', () => {
    const lacks = (place: number) => ({
      kind: 'wrong',
      why: `Row ${place} is not complete: tilt and both readings are needed.`,
    });
    expect(said(several(rows[0], row('', '28', '27')))).toEqual(lacks(2));
    expect(said(several(row('1', '', '27')))).toEqual(lacks(1));
    expect(said(several(emptyRow, row('1', '28', '')))).toEqual(lacks(2));
    expect(said(several(rows[0], row('', 'far', '')))).toEqual({
      kind: 'wrong',
      why: 'Row 2: Found “far”; a number, 3 to 80 dB was expected.',
    });
    expect(said(several(row('1', '28', '90')))).toEqual({
      kind: 'wrong',
      why: 'Row 1: Found 90 dB; 3 to 80 dB was expected.',
    });
  });

  test('are no pair of readings of where it stands', () => {
    expect(separationsRead({ ...volts, ...pair, way: 'several', rows })).toBeNull();
  });
});

test('the separations as figures, as good as they were typed to be, else as usual', () => {
  const figures = (across: unknown, back: unknown, uncertainty: number) => [
    { quantity: 'separation-left-to-right', value: across, unit: 'dB', uncertainty },
    { quantity: 'separation-right-to-left', value: back, unit: 'dB', uncertainty },
  ];
  expect(separationsRead(pair)).toEqual(figures(28, 24, 0.3));
  expect(separationsRead({ ...pair, uncertainty: '0.5' })).toEqual(figures(28, 24, 0.5));
  expect(separationsRead(volts)).toEqual(figures(expect.closeTo(27.959, 3), expect.closeTo(24.013, 3), 0.3));
  expect(separationsRead({})).toBeNull();
  expect(separationsRead({ ...pair, leftMono: '1' })).toBeNull();
});

test('the report tells the tilt as read, with what is expected of turning it back', () => {
  // the leaks 10^(−28/20) and 10^(−24/20) meet at their mean, 25.77 dB; half their difference is 0.667°
  expect(meterLines(pair)).toEqual([
    {
      label: 'Tilt, from a meter, as read',
      text: expect.stringMatching(
        /^\+0\.7 ± \d\.\d°, clockwise seen from its face positive; turned back, separations of 25\.8 ± 0\.3 dB and 25\.8 ± 0\.3 dB are expected$/,
      ),
    },
  ]);
  expect(meterLines({ ...pair, uncertainty: '1' })[0].text).toContain('separations of 25.8 ± 1.0 dB and');
  expect(meterLines({})).toEqual([]);
  expect(meterLines({ ...pair, leftMono: '1' })).toEqual([]);
  expect(meterLines({ way: 'several', rows: rows.slice(0, 1) })).toEqual([]);
});

test('pasted rows with any of the separators, with and without a header, in one line or in many', () => {
  const one = { tilt: '1', leftToRight: '28', rightToLeft: '24.5' };
  expect(rowsFromPaste('1;28;24,5')).toEqual([one]);
  expect(rowsFromPaste('1,28,24.5')).toEqual([one]);
  expect(rowsFromPaste('1\t28\t24,5\r\n1\t28\t24,5')).toEqual([one, one]);
  expect(rowsFromPaste('right_to_left_db;tilt_deg;left_to_right_db\r24,5;1;28')).toEqual([one]);
  expect(rowsFromPaste('Tilt deg;Left to right dB;Right to left dB\r\n1;28;24,5')).toEqual([one]);
  expect(() => rowsFromPaste('')).toThrow();
});
