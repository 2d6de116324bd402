import { expect, test } from 'vitest';
import type { Advice, JudgedFinding } from '../../../advise/document.ts';
import type { TiltFromMeter } from '../../../advise/voltmeter.ts';
import { turnAdvice } from '../../side.fixture.ts';
import { afterTurn, recordingMove, turnedBy, turnLeft } from './meterMove.ts';

const at = '2026-03-04T09:00:00.000Z';
const found = (quantity: string, value: number | string, unit = 'dB', uncertainty: number | null = 0.1) =>
  ({ quantity, value, unit, uncertainty, bands: [], note: '', verdict: 'adjust' }) as JudgedFinding;
const figure = (quantity: string, value: number, uncertainty: number | null) => ({
  quantity,
  value,
  unit: 'dB',
  uncertainty,
});

test('turned by what a recording advised: read before is what the advice foretells, of that recording', () => {
  const findings = [
    found('azimuth-error', 0.9, 'deg'),
    found('separation-left-to-right', 30.3),
    found('separation-left-to-right', 31, 'dB', null),
    found('separation-right-to-left', 26.3, 'dB', null),
  ];
  expect(recordingMove('turn-shell', turnAdvice, findings, at)).toEqual({
    move: 'turn-shell',
    amount: 0.9,
    unit: 'deg',
    direction: 'anticlockwise, seen from its face',
    at,
    station: 'tilt',
    before: [figure('separation-left-to-right', 30.3, 0.1), figure('separation-right-to-left', 26.3, null)],
    foretold: [figure('separation-left-to-right', 27.9, null), figure('separation-right-to-left', 27.9, null)],
    came: null,
  });
  const clockwise = { ...turnAdvice, direction: 'clockwise-from-front' };
  expect(recordingMove('turn-shell', clockwise, findings, at)).toMatchObject({
    amount: 0.9,
    direction: 'clockwise, seen from its face',
  });
});

test('a figure in words, in another unit or not measured is not what was read before', () => {
  const findings = [found('separation-left-to-right', 'unclear'), found('separation-right-to-left', 26.3, '%')];
  expect(recordingMove('turn-shell', turnAdvice, findings, at).before).toEqual([]);
  expect(recordingMove('turn-shell', { ...turnAdvice, predicts: [] }, findings, at)).toMatchObject({
    before: [],
    foretold: [],
  });
});

test('a shim lifts the other side for the other way round', () => {
  const shim = (direction: string) => recordingMove('shim', { ...turnAdvice, direction }, [], at);
  const spindle = shim('anticlockwise-from-front');
  const rim = shim('clockwise-from-front');
  expect(spindle).toMatchObject({ move: 'shim', unit: 'mm', direction: 'on the spindle side' });
  expect(rim).toMatchObject({ direction: 'on the rim side', amount: spindle.amount });
  expect(spindle.amount).toBe(turnedBy('shim', 0.9));
  expect(turnedBy('turn-shell', -0.9)).toBe(-0.9);
});

test('what is left to turn: nothing where no scale would show it', () => {
  const meter: TiltFromMeter = {} as TiltFromMeter;
  const turn = (amount: number, direction = 'clockwise-from-front'): Advice => ({ ...turnAdvice, amount, direction });
  expect(turnLeft(meter, turn(0.5))).toBe(0.5);
  expect(turnLeft(meter, turn(0.5, 'anticlockwise-from-front'))).toBe(-0.5);
  expect(turnLeft(meter, turn(0.0049))).toBeNull();
  expect(turnLeft(meter, turn(0.0049, 'anticlockwise-from-front'))).toBeNull();
  expect(turnLeft(meter, turn(0.005))).toBe(0.005);
  // from where it stood last, in true degrees
  expect(turnLeft({ ...meter, lastTiltDeg: 2, scale: 0.5 }, turn(0.3))).toBeCloseTo(-0.7, 12);
  expect(turnLeft({ ...meter, lastTiltDeg: 2 }, { ...turn(0.3), action: 'leave-tilt' })).toBe(-2);
  expect(turnLeft(meter, { ...turn(0.3), action: 'leave-tilt' })).toBeNull();
});

test('the form once the turn is made: voltages stay voltages, the spread and the table stay with it', () => {
  const rows = [{ tilt: '1', leftToRight: '28', rightToLeft: '24' }];
  expect(afterTurn({ way: 'volts', leftOnLeft: '500', uncertainty: '0.2', rows })).toEqual({
    way: 'volts',
    uncertainty: '0.2',
    rows,
  });
  expect(afterTurn({ way: 'db', leftToRight: '28' })).toEqual({ way: 'db' });
  expect(afterTurn({})).toEqual({ way: 'db' });
});
