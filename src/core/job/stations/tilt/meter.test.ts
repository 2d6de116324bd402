import { expect, test } from 'vitest';
import { said } from '../../../words/said.fixture.ts';
import { sentence } from '../../../words/statement.ts';
import { meterResult, rowsFromPaste, separationsFromVolts } from './meter.ts';

test('two readings in dB, comma or point, give the angle of the core', () => {
  const result = meterResult({ way: 'db', leftToRight: '28', rightToLeft: '24,0' });
  if (result.kind !== 'answer' || !result.answer.found) throw new Error('no answer');
  // the leaks 10^(−28/20) and 10^(−24/20) meet at their mean: 25.8 dB both ways
  expect(result.answer.predictedLeftToRightDb).toBeCloseTo(25.77, 2);
  expect(result.answer.predictedRightToLeftDb).toBeCloseTo(25.77, 2);
  expect(result.answer.angleDeg).toBeCloseTo(0.667, 3);
});

test('four voltages: a channel that is twice as loud changes nothing', () => {
  const even = separationsFromVolts({ leftOnLeft: 500, rightOnLeft: 20, leftOnRight: 31.5, rightOnRight: 500 });
  const loud = separationsFromVolts({ leftOnLeft: 1000, rightOnLeft: 20, leftOnRight: 63, rightOnRight: 500 });
  expect(loud.leftToRightDb).toBeCloseTo(even.leftToRightDb, 12);
  expect(loud.rightToLeftDb).toBeCloseTo(even.rightToLeftDb, 12);
  expect(even.leftToRightDb).toBeCloseTo(27.959, 3);
  const result = meterResult({
    way: 'volts',
    leftOnLeft: '500',
    rightOnLeft: '20',
    leftOnRight: '31.5',
    rightOnRight: '500',
  });
  expect(result.kind === 'answer' && result.answer.found && result.answer.angleDeg).toBeCloseTo(0.659, 3);
});

test('what is not complete waits, what is wrong says so', () => {
  expect(said(meterResult({}))).toEqual({ kind: 'waiting' });
  expect(said(meterResult({ leftToRight: '28' }))).toEqual({ kind: 'waiting' });
  const row = { tilt: '1', leftToRight: '', rightToLeft: '30' };
  expect(said(meterResult({ way: 'several', rows: [row] }))).toEqual({
    kind: 'wrong',
    why: 'Row 1 is not complete: tilt and both readings are needed.',
  });
  const volts = meterResult({ way: 'volts', leftOnLeft: '1', rightOnLeft: '1', leftOnRight: '1', rightOnRight: '1' });
  expect(volts.kind === 'wrong' && sentence(volts.why)).toMatch(/between 3 and 80 dB/);
});

test('pasted rows, with and without a header, with decimal commas', () => {
  const rows = [
    { tilt: '-1', leftToRight: '28.5', rightToLeft: '22' },
    { tilt: '1', leftToRight: '23', rightToLeft: '30' },
  ];
  expect(rowsFromPaste('tilt_deg,left_to_right_db,right_to_left_db\n-1,28.5,22\n1,23,30')).toEqual(rows);
  expect(rowsFromPaste('-1\t28,5\t22\n1\t23\t30\n')).toEqual(rows);
  expect(() => rowsFromPaste('1,two,3')).toThrow(/line 2: 'two'|no column/);
});

test('both mono sums read the in-phase parts; one without the other is asked for', () => {
  const typed = { leftToRight: '26', rightToLeft: '26', leftMono: '-0.3', rightMono: '0.3' };
  const result = meterResult(typed);
  expect(result.kind === 'answer' && result.answer.found && result.answer.angleDeg).toBeCloseTo(1.98, 1);
  expect(said(meterResult({ ...typed, rightMono: '' }))).toEqual({
    kind: 'wrong',
    why: 'One mono sum without the other: both bands are needed.',
  });
});
