import { expect, test } from 'vitest';
import { shownFigure } from './figure.ts';
import { decimalsAtBench, showFigure, showFrequency, showNumber, showTime } from './number.ts';

test('the page writes a figure as the sheet does', () => {
  for (const uncertainty of [0.042, 0.12, 0.0207, 1.6, 0.0004, 23, null]) {
    for (const value of [-0.91, 0, 0.913, 27.64, 142.1, -0.0004]) {
      for (const unit of ['dB', '%', 'mm']) {
        const shown = showFigure(value, uncertainty, true, decimalsAtBench(unit));
        const whole = shown.uncertainty === null ? shown.value : `${shown.value} ± ${shown.uncertainty}`;
        expect(`${whole} ${unit}`).toBe(shownFigure(value, unit, uncertainty, true));
      }
    }
  }
});

test('a zero carries no sign', () => {
  expect(showNumber(-0.001, 2, true)).toBe('0.00');
  expect(showNumber(-1.005, 1, true)).toBe('−1.0');
});

test('times and frequencies as a person says them', () => {
  expect([showTime(0), showTime(61.9), showTime(3600)]).toEqual(['0:00', '1:01', '60:00']);
  expect([showTime(61.96, 1), showTime(9.05, 1)]).toEqual(['1:01.9', '0:09.0']);
  expect([showFrequency(1002.1), showFrequency(3156), showFrequency(49.98), showFrequency(300)]).toEqual([
    '1 kHz',
    '3.16 kHz',
    '50 Hz',
    '300 Hz',
  ]);
});
