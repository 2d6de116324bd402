import { describe, expect, test } from 'vitest';
import { said } from '../../words/said.fixture.ts';
import { isBare, quantityText, readQuantity, typedValue } from './quantity.ts';

const force = { unit: 'mN', min: 1, max: 150 };

describe('a quantity as it is typed', () => {
  test('takes a comma, a true minus and the units that people use', () => {
    expect(said(readQuantity('18,5', force))).toEqual({ value: 18.5 });
    expect(said(readQuantity('2 g', force))).toEqual({ value: 19.6133 });
    expect(said(readQuantity('47k', { unit: 'Ω', min: 1, max: 1e6 }))).toEqual({ value: 47000 });
    expect(said(readQuantity('−12', { unit: 'mm', min: -100, max: 60 }))).toEqual({ value: -12 });
    expect(said(readQuantity('  ', force))).toEqual({ empty: true });
    expect(said(readQuantity(undefined, force))).toEqual({ empty: true });
  });

  test('a grouped thousand is asked back, one that only one reading fits is not', () => {
    expect(said(readQuantity('47,000', { unit: 'Ω', min: 1, max: 1e6 }))).toEqual({
      wrong: 'Found “47,000”, which may mean 47 or a thousand times that; type thousands without a separator.',
    });
    expect(said(readQuantity('1,250', { unit: 'g', min: 0.01, max: 20 }))).toEqual({ value: 1.25 });
  });

  test('says what was found and what was expected', () => {
    expect(said(readQuantity('300', force))).toEqual({ wrong: 'Found 300 mN; 1 to 150 mN was expected.' });
    expect(said(readQuantity('heavy', force))).toEqual({ wrong: 'Found “heavy”; a number, 1 to 150 mN was expected.' });
    expect(said(readQuantity('2 kg', force))).toEqual({
      wrong: 'Found “2 kg”; a number, 1 to 150 mN was expected; n, g, gf, p also go.',
    });
    expect(said(readQuantity('NaN', force))).toHaveProperty('wrong');
    expect(said(readQuantity('1e999', force))).toHaveProperty('wrong');
  });

  test('bounds may be open to one side or to both', () => {
    const open = { unit: '', min: Number.NEGATIVE_INFINITY, max: Number.POSITIVE_INFINITY };
    expect(said(readQuantity('28,5', open))).toEqual({ value: 28.5 });
    expect(said(readQuantity('1,2,3', open))).toEqual({ wrong: 'Found “1,2,3”; a number was expected.' });
    expect(said(readQuantity('2', { ...open, unit: 'dB', min: 3 }))).toEqual({
      wrong: 'Found 2 dB; 3 dB or more was expected.',
    });
    expect(typedValue('2', { ...open, min: 3 })).toBeNull();
    expect(typedValue(undefined, open)).toBeNull();
    expect(typedValue('4', { ...open, min: 3 })).toBe(4);
  });

  test('with its unit or without, spaces in thousands, a figure of every unit that a bench uses', () => {
    const length = { unit: 'mm', min: 100, max: 1000 };
    for (const text of ['222', '222 mm', '222mm', '22,2 cm', '+222.0', ' 222\u00a0mm ']) {
      expect(readQuantity(text, length), text).toEqual({ value: 222 });
    }
    expect(said(readQuantity('1 200 pF', { unit: 'pF', min: 0, max: 1e6 }))).toEqual({ value: 1200 });
    expect(said(readQuantity('1 20', length))).toHaveProperty('wrong');
    expect(said(readQuantity('−1.5°', { unit: '°', min: -60, max: 60 }))).toEqual({ value: -1.5 });
    expect(said(readQuantity('− 1.5 deg', { unit: '°', min: -60, max: 60 }))).toEqual({ value: -1.5 });
    expect(said(readQuantity('3,15 kHz', { unit: 'Hz', min: 100, max: 10_000 }))).toEqual({ value: 3150 });
    expect(said(readQuantity('21 °C', { unit: '°C', min: -20, max: 60 }))).toEqual({ value: 21 });
    expect([isBare('1.8'), isBare(' −1,8 '), isBare('1 200'), isBare('1.8 g'), isBare('x')]).toEqual([
      true,
      true,
      true,
      false,
      false,
    ]);
  });

  test('a bare number stands for the unit chosen, and bounds are said in it', () => {
    expect(said(readQuantity('1.8', force, 'g'))).toEqual({ value: 1.8 * 9.80665 });
    expect(said(readQuantity('17.7 mN', force, 'g'))).toEqual({ value: 17.7 });
    expect(said(readQuantity('18', force, 'g'))).toEqual({ wrong: 'Found 18 g; 0.102 to 15.3 g was expected.' });
  });

  test('its own ± goes where it is taken, and is asked back where it is not', () => {
    const length = { unit: 'mm', min: 100, max: 1000, spread: true };
    for (const text of ['222 ± 0.5 mm', '222 mm ± 0,5 mm', '222 ± 0.5', '222 +/- 0.5', '22.2 cm ± 0.5 mm']) {
      expect(readQuantity(text, length), text).toEqual({ value: 222, uncertainty: 0.5 });
    }
    expect(said(readQuantity('18 ± 0.1 mN', { ...force, spread: true }, 'g'))).toEqual({ value: 18, uncertainty: 0.1 });
    expect(said(readQuantity('222 ± 0.5 mm', { ...length, spread: false }))).toEqual({
      wrong: 'Found “222 ± 0.5 mm”; the number alone was expected, without its ±.',
    });
    expect(said(readQuantity('±0.3', { unit: 'mm', min: 0, max: 10 }))).toEqual({ value: 0.3 });
    for (const text of ['±0.3', '222 ± ', '222 ± −1', '1 ± 2 ± 3', '222 ± much']) {
      expect(readQuantity(text, { ...length, min: -5 }), text).toHaveProperty('wrong');
    }
  });

  test('is written as a sheet would', () => {
    expect(['47000 Ω', '120 Ω'].map((text) => quantityText(Number.parseFloat(text), 'Ω'))).toEqual(['47 kΩ', '120 Ω']);
    expect(quantityText(0.1 + 0.2, 'g')).toBe('0.3 g');
    expect(quantityText(239.3, 'mm')).toBe('239.3 mm');
    expect(quantityText(-3200, 'g·mm')).toBe('−3200 g·mm');
    expect(quantityText(10, '')).toBe('10');
  });
});
