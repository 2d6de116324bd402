import { describe, expect, test } from 'vitest';
import { acceptedUnits, meansTwoNumbers, typedQuantity } from './typedQuantity.ts';

const value = (text: string, unit: string): number => {
  const typed = typedQuantity(text, unit);
  if (!typed.found) throw new Error(typed.why);
  return typed.value;
};

describe('a quantity as typed', () => {
  test.each([
    ['17.65', 'mN', 17.65],
    ['1.8 g', 'mN', 1.8 * 9.80665],
    ['1,8g', 'mN', 1.8 * 9.80665],
    ['0.5 in', 'mm', 12.7],
    ['47k', 'Ω', 47000],
    ['47 kΩ', 'Ω', 47000],
    ['0.5 H', 'mH', 500],
    ['0.25 nF', 'pF', 250],
    ['12 10^-6 cm/dyn', 'µm/mN', 12],
    ['12 mm/N', 'µm/mN', 12],
    ['-3', 'dB', -3],
    ['+1.5e1', '', 15],
    ['.5', 'mm', 0.5],
    ['22.5°', 'deg', 22.5],
    ['33⅓', 'rpm', 100 / 3],
    ['16⅔ rpm', 'rpm', 50 / 3],
    ['½ mm', 'mm', 0.5],
    ['−1½', 'dB', -1.5],
  ])('%s for a field in %s', (text, unit, expected) => {
    expect(value(text, unit)).toBeCloseTo(expected, 12);
  });

  test.each([
    ['', 'mN', 'is not a number'],
    ['heavy', 'mN', 'is not a number'],
    ['1,234.5', 'mm', "ends in '.5'"],
    ['2 lb', 'mN', "ends in 'lb'"],
    ['3 mm', '', 'a plain number'],
    ['1e999', 'mm', 'too large'],
    ['NaN', 'mm', 'is not a number'],
    ['5 constructor', 'mm', "ends in 'constructor'"],
  ])("'%s' for a field in %s is refused", (text, unit, why) => {
    const typed = typedQuantity(text, unit);
    expect(typed.found).toBe(false);
    if (!typed.found) expect(typed.why).toContain(why);
  });

  test('the units named in a refusal are taken', () => {
    for (const unit of ['mN', 'mm', 'Ω', 'mH', 'pF', 'mV', 'V', 'µm/mN', 'g', 'deg', 'h', 'rpm', 'g·mm', 'mN/mm']) {
      for (const typed of acceptedUnits(unit))
        expect(typedQuantity(`1 ${typed}`, unit).found, `${typed} for ${unit}`).toBe(true);
    }
  });
});

test('milliohm and megohm are told apart by their capital; a true minus sign is a minus', () => {
  const ohm = (text: string) => typedQuantity(text, 'Ω');
  expect(ohm('1 MΩ')).toEqual({ found: true, value: 1e6 });
  expect(ohm('2.2M')).toEqual({ found: true, value: 2.2e6 });
  expect(ohm('5 mΩ')).toEqual({ found: true, value: 0.005 });
  expect(ohm('47 kΩ')).toEqual({ found: true, value: 47000 });
  expect(typedQuantity('−3,5', 'g·mm')).toEqual({ found: true, value: -3.5 });
});

test('a comma or a point before three digits is only a question where both readings could be meant', () => {
  expect(meansTwoNumbers('47,000', 'Ω', 1, 1e6)).toBe(true);
  expect(meansTwoNumbers('47.000 Ω', 'Ω', 1, 1e6)).toBe(true);
  expect(meansTwoNumbers('−3,200', 'g·mm', -50000, 50000)).toBe(true);
  for (const plain of ['47000', '47.125', '0,125', '47,0', '47,0000', '1,2']) {
    expect(meansTwoNumbers(plain, 'Ω', 0, 1e6), plain).toBe(false);
  }
  expect(meansTwoNumbers('2,000 g', 'g', 0.01, 20)).toBe(false);
  expect(meansTwoNumbers('47,000 pints', 'Ω', 1, 1e6)).toBe(false);
});

test.each(['1 in', '1 inch', '1"'])('%s is 25.4 mm, by its definition of 1959', (typed) => {
  expect(value(typed, 'mm')).toBe(25.4);
});
