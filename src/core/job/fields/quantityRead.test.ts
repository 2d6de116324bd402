import { describe, expect, test } from 'vitest';
import { said } from '../../words/said.fixture.ts';
import { bareText, isBare, quantityText, readQuantity, typedText, typedValue } from './quantity.ts';

const force = { unit: 'mN', min: 1, max: 150 };
const length = { unit: 'mm', min: 100, max: 1000 };
const spread = { ...length, spread: true };
const plain = { unit: '', min: 0, max: 20 };
const infinity = Number.POSITIVE_INFINITY;

const wrong = (...asked: Parameters<typeof readQuantity>): unknown => {
  const read = said(readQuantity(...asked)) as { wrong?: string };
  return read.wrong ?? read;
};

describe('bounds', () => {
  test('both ends are inside', () => {
    expect([readQuantity('1', force), readQuantity('150', force)]).toEqual([{ value: 1 }, { value: 150 }]);
    expect(wrong('0.999', force)).toBe('Found 0.999 mN; 1 to 150 mN was expected.');
    expect(wrong('150.1', force)).toBe('Found 150.1 mN; 1 to 150 mN was expected.');
  });

  test('open to one side', () => {
    expect(wrong('-1', { unit: 'dB', min: 0, max: infinity })).toBe('Found −1 dB; 0 dB or more was expected.');
    expect(wrong('5', { unit: 'dB', min: -infinity, max: 3 })).toBe('Found 5 dB; 3 dB or less was expected.');
    expect(wrong('-1', { unit: '', min: 0, max: infinity })).toBe('Found −1; 0 or more was expected.');
  });

  test('a plain number has no unit to name, and takes none', () => {
    expect(wrong('30', plain)).toBe('Found 30; 0 to 20 was expected.');
    expect(wrong('two', plain)).toBe('Found “two”; a number, 0 to 20 was expected.');
    expect(wrong('2 g', plain)).toBe('Found “2 g”; a number, 0 to 20 was expected.');
  });

  test('other units are offered where one was typed, four at most', () => {
    expect(wrong('2 kg', force)).toBe('Found “2 kg”; a number, 1 to 150 mN was expected; n, g, gf, p also go.');
    expect(wrong('+2,5 kg', force)).toContain('also go');
    expect(wrong('-2 kg', force)).toContain('also go');
    // numbers behind one another are no unit
    expect(wrong('1,2,3', force)).toBe('Found “1,2,3”; a number, 1 to 150 mN was expected.');
    expect(wrong('1.2.3', force)).toBe('Found “1.2.3”; a number, 1 to 150 mN was expected.');
    expect(wrong('kg', force)).toBe('Found “kg”; a number, 1 to 150 mN was expected.');
    expect(wrong('2 kg', { unit: 'dB', min: 0, max: 10 })).toBe('Found “2 kg”; a number, 0 to 10 dB was expected.');
    expect(wrong('2 kg', { unit: 'deg', min: 0, max: 10 })).toBe(
      'Found “2 kg”; a number, 0 to 10 deg was expected; °, degree, degrees also go.',
    );
    expect(wrong('2 kg', length)).toBe('Found “2 kg”; a number, 100 to 1000 mm was expected; cm, m, in, inch also go.');
  });
});

describe('a bare number in another unit', () => {
  test('stands for it; with a unit of its own it does not', () => {
    expect(readQuantity('2', force, 'g')).toEqual({ value: 2 * 9.80665 });
    expect(readQuantity('20', force, 'mN')).toEqual({ value: 20 });
    expect(readQuantity('20 mN', force, 'g')).toEqual({ value: 20 });
    expect(readQuantity('20', force)).toEqual({ value: 20 });
  });

  test('what was found and the bounds are told in it', () => {
    expect(wrong('900', force, 'g')).toBe('Found 900 g; 0.102 to 15.3 g was expected.');
    expect(wrong('900 mN', force, 'g')).toBe('Found 91.8 g; 0.102 to 15.3 g was expected.');
    expect(wrong('900', force, 'mN')).toBe('Found 900 mN; 1 to 150 mN was expected.');
    expect(wrong('much', force, 'g')).toBe('Found “much”; a number, 0.102 to 15.3 g was expected.');
  });

  test('a figure as it would be typed without a unit', () => {
    expect(bareText(18, 'mN')).toBe('18');
    expect(bareText(18, 'mN', 'mN')).toBe('18');
    expect(bareText(18, 'mN', 'g')).toBe('1.84');
    expect(bareText(18.123456, 'mN')).toBe('18.1235');
    // a unit that is none of this field’s changes nothing
    expect(bareText(18, 'mN', 'mm')).toBe('18');
  });
});

describe('a spread', () => {
  test('its unit behind either number or behind both', () => {
    for (const text of ['222±0.5', '222 ±0.5 mm', '222mm ± 0.5mm', '222 +/- 0.5', '222 +- 0.5', '22.2 cm ± 0.05 cm']) {
      expect(readQuantity(text, spread), text).toEqual({ value: 222, uncertainty: expect.closeTo(0.5, 12) });
    }
    expect(readQuantity('22.2 ± 0.05 cm', spread)).toEqual({ value: 222, uncertainty: 0.5 });
    expect(readQuantity('22.2 cm ± 0.05', spread)).toEqual({ value: 222, uncertainty: 0.5 });
    expect(readQuantity('222 ± 0', spread)).toEqual({ value: 222, uncertainty: 0 });
    expect(readQuantity('2 ± 0.1', { ...force, spread: true }, 'g')).toEqual({
      value: 2 * 9.80665,
      uncertainty: 0.1 * 9.80665,
    });
  });

  test('is wrong where either number is, or it is larger than the field is wide', () => {
    expect(wrong('22 ± 0.5 mm', spread)).toBe('Found 22 mm; 100 to 1000 mm was expected.');
    expect(wrong('long ± 0.5 mm', spread)).toBe('Found “long”; a number, 100 to 1000 mm was expected.');
    expect(wrong('222 ± 901', spread)).toBe('Found 901 mm; 0 to 900 mm was expected.');
    expect(readQuantity('222 ± 900', spread)).toEqual({ value: 222, uncertainty: 900 });
    expect(wrong('222 ± wide', spread)).toBe('Found “wide”; a number, 0 to 900 mm was expected.');
    expect(wrong('1 ± 2 ± 3', spread)).toMatch(/^Found “1 ± 2 ± 3”; a number, 100 to 1000 mm was expected/);
    expect(wrong('222 ±', spread)).toMatch(/^Found “”; a number, 0 to 900/);
  });

  test('alone is a size, where the field takes nothing under 0', () => {
    expect(readQuantity('± 0.3', { unit: 'mm', min: 0, max: 10 })).toEqual({ value: 0.3 });
    expect(readQuantity('± 0.3', { unit: 'mm', min: 0.1, max: 10 })).toEqual({ value: 0.3 });
    expect(wrong('± 0.3', { unit: 'mm', min: -10, max: 10 })).toMatch(/^Found “± 0\.3”; a number, −10 to 10 mm/);
    expect(wrong('222 ± 0.5', length)).toBe('Found “222 ± 0.5”; the number alone was expected, without its ±.');
  });
});

test('a number without a unit behind it', () => {
  expect(['1.8', '-1,8', '1 200', '1.8 g', '47k', '', 'x'].map(isBare)).toEqual([
    true,
    true,
    true,
    false,
    false,
    false,
    false,
  ]);
});

test('the value alone, or none', () => {
  expect(typedValue('2', force, 'g')).toBe(2 * 9.80665);
  expect([typedValue('', force), typedValue('x', force), typedValue('900', force)]).toEqual([null, null, null]);
});

test('a field as a report shows it', () => {
  expect(typedText(undefined, force)).toEqual({ text: '', read: true });
  expect(typedText('  ', force)).toEqual({ text: '', read: true });
  expect(typedText('2 g', force)).toEqual({ text: '19.61 mN', read: true });
  expect(typedText(' much ', force)).toEqual({ text: '“much”, which cannot be used', read: false });
  expect(typedText('222 ± 0.5', spread)).toEqual({ text: '222 ± 0.5 mm', read: true });
  expect(typedText('222', spread)).toEqual({ text: '222 mm', read: true });
});

test('a figure of a part: kilo-ohms from a thousand on, degrees against their number, four digits under a thousand', () => {
  const texts: [number, string, string][] = [
    [1000, 'Ω', '1 kΩ'],
    [999, 'Ω', '999 Ω'],
    [47_123, 'Ω', '47.1 kΩ'],
    [1000, 'pF', '1000 pF'],
    [22.567, 'deg', '22.57°'],
    [22.567, '°', '22.57°'],
    [-1234.5, 'g·mm', '−1234.5 g·mm'],
    [1000.44, 'g', '1000.44 g'],
    [999.94, 'g', '999.9 g'],
    [-999.94, 'g', '−999.9 g'],
    [-1000.44, 'g', '−1000.44 g'],
    [3, '', '3'],
  ];
  for (const [value, unit, text] of texts) expect(quantityText(value, unit)).toBe(text);
});
