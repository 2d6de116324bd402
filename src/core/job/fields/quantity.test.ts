import { describe, expect, test } from 'vitest';
import { quantityText, readQuantity } from './quantity.ts';

const force = { unit: 'mN', min: 1, max: 150 };

describe('a quantity as it is typed', () => {
  test('takes a comma, a true minus and the units that people use', () => {
    expect(readQuantity('18,5', force)).toEqual({ value: 18.5 });
    expect(readQuantity('2 g', force)).toEqual({ value: 19.6133 });
    expect(readQuantity('47k', { unit: 'Ω', min: 1, max: 1e6 })).toEqual({ value: 47000 });
    expect(readQuantity('−12', { unit: 'mm', min: -100, max: 60 })).toEqual({ value: -12 });
    expect(readQuantity('  ', force)).toEqual({ empty: true });
    expect(readQuantity(undefined, force)).toEqual({ empty: true });
  });

  test('a grouped thousand is asked back, one that only one reading fits is not', () => {
    expect(readQuantity('47,000', { unit: 'Ω', min: 1, max: 1e6 })).toEqual({
      wrong: 'Found “47,000”, which may mean 47 or a thousand times that; type thousands without a separator.',
    });
    expect(readQuantity('1,250', { unit: 'g', min: 0.01, max: 20 })).toEqual({ value: 1.25 });
  });

  test('says what was found and what was expected', () => {
    expect(readQuantity('300', force)).toEqual({ wrong: 'Found 300 mN; 1 to 150 mN was expected.' });
    expect(readQuantity('heavy', force)).toEqual({ wrong: 'Found “heavy”; a number, 1 to 150 mN was expected.' });
    expect(readQuantity('2 kg', force)).toEqual({
      wrong: 'Found “2 kg”; a number, 1 to 150 mN was expected; n, g, gf, p also go.',
    });
    expect(readQuantity('NaN', force)).toHaveProperty('wrong');
    expect(readQuantity('1e999', force)).toHaveProperty('wrong');
  });

  test('is written as a sheet would', () => {
    expect(['47000 Ω', '120 Ω'].map((text) => quantityText(Number.parseFloat(text), 'Ω'))).toEqual(['47 kΩ', '120 Ω']);
    expect(quantityText(0.1 + 0.2, 'g')).toBe('0.3 g');
    expect(quantityText(239.3, 'mm')).toBe('239.3 mm');
    expect(quantityText(-3200, 'g·mm')).toBe('−3200 g·mm');
    expect(quantityText(10, '')).toBe('10');
  });
});
