import { describe, expect, it } from 'vitest';
import { shownFigure, shownInterval, shownSpread, withThisRecord } from './figure.ts';
import { figureLines } from './figureLines.ts';
import { isSigned, quantityTitle } from './quantities.ts';

describe('a figure on a sheet', () => {
  it.each([
    [30.3, 'dB', 0.1, false, '30.30 ± 0.10 dB'],
    [30.27, 'dB', 0.3, false, '30.3 ± 0.3 dB'],
    [0.9123, 'deg', 0.041, true, '+0.91 ± 0.05°'],
    [-0.9123, 'deg', 0.04, true, '−0.91 ± 0.04°'],
    [-0.0001, 'dB', 0.02, true, '0.00 ± 0.02 dB'],
    [37.29833, 'dB', 0.0012, false, '37.30 ± 0.01 dB'],
    [0.833831, 'deg', 0.000074, true, '+0.83 ± 0.01°'],
    [1234.6, 'Hz', 25, false, '1235 ± 25 Hz'],
    [0.00412, '%', 0.00031, true, '+0.0041 ± 0.0004 %'],
    [12.34, 'dB', null, false, '12.3 dB'],
    [0, '%', null, true, '0 %'],
    [512, 'Hz', null, false, '512 Hz'],
    [5, '', 0, false, '5.00'],
    ['in-phase', '–', null, false, 'in-phase'],
  ])('%s %s ± %s', (value, unit, uncertainty, signed, expected) => {
    expect(shownFigure(value, unit, uncertainty, signed)).toBe(expected);
  });

  it('refuses numbers that are none', () => {
    expect(() => shownFigure(Number.NaN, 'dB', null)).toThrow('value NaN ± null: finite numbers were expected');
    expect(() => shownFigure(1, 'dB', Number.POSITIVE_INFINITY)).toThrow(RangeError);
  });

  it('never claims more than was found', () => {
    for (let step = 1; step < 4000; step++) {
      const uncertainty = step * 0.0037;
      const printed = Number(shownFigure(1, '', uncertainty).split(' ± ')[1]);
      expect(printed).toBeGreaterThanOrEqual(uncertainty - 1e-6);
      expect(printed).toBeLessThan(uncertainty * 1.34);
    }
  });
});

describe('the second line of a figure', () => {
  it('says how it repeats with this record, where that is another figure', () => {
    expect(withThisRecord({ unit: 'deg', uncertainty: 0.81, repeatability: 0.008 })).toBe('± 0.01° with this record');
    expect(withThisRecord({ unit: 'dB', uncertainty: 0.0401, repeatability: 0.0404 })).toBeNull();
    expect(withThisRecord({ unit: 'dB', uncertainty: 0.04 })).toBeNull();
    expect(withThisRecord({ unit: 'dB', uncertainty: null, repeatability: 0.1 })).toBeNull();
  });

  it('an interval is written to the same place at both ends', () => {
    expect(shownInterval(30.123, 34.8, 'dB')).toBe('30.1 to 34.8 dB');
    expect(shownInterval(-0.5, 0.25, 'deg')).toBe('\u22120.50 to 0.25°');
    expect(shownInterval(undefined, 1, 'dB')).toBeNull();
  });

  it('what is counted is whole and never goes under 0', () => {
    expect(shownInterval(0, 25.3, '1/min')).toBe('at most 26 a minute');
    expect(shownInterval(0.2, 47.8, '1/min')).toBe('at most 48 a minute');
    expect(shownInterval(4.8, 18.4, '1/min')).toBe('4 to 19 a minute');
    const [shown, below] = figureLines({
      quantity: 'clicks-per-minute',
      value: 9,
      unit: '1/min',
      uncertainty: 17,
      low: 0,
      high: 26,
    });
    expect([shown, below]).toEqual(['at most 26 a minute', null]);
  });

  it('refuses what is no uncertainty', () => {
    expect(() => shownSpread(Number.NaN, 'dB')).toThrow(/NaN/);
    expect(() => shownSpread(-1, 'dB')).toThrow(/-1/);
  });
});

describe('names of quantities', () => {
  it('are in words, also those that nobody has named', () => {
    expect(quantityTitle('azimuth-error')).toBe('Tilt (azimuth error)');
    expect(quantityTitle('arm-bearing-play')).toBe('Arm bearing play');
    expect(quantityTitle('constructor')).toBe('Constructor');
    expect(isSigned('azimuth-error')).toBe(true);
    expect(isSigned('separation-left-to-right')).toBe(false);
  });
});
