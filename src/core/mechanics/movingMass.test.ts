import { expect, test } from 'vitest';
import { massAtTip } from './movingMass.ts';

test('what sits at the tip counts whole, half way a quarter, at the pivot nothing; behind it the same', () => {
  expect(massAtTip(0.008, 230, 230)).toBe(0.008);
  expect(massAtTip(0.008, 115, 230)).toBeCloseTo(0.002, 12);
  expect(massAtTip(0.008, 0, 230)).toBe(0);
  expect(massAtTip(0.11, -46, 230)).toBeCloseTo(0.0044, 12);
});

test('scale: both lengths doubled change nothing', () => {
  expect(massAtTip(0.11, 90, 460)).toBeCloseTo(massAtTip(0.11, 45, 230), 15);
});

test('refuses what is no mass', () => {
  expect(() => massAtTip(Number.NaN, 1, 230)).toThrow('mass is NaN kg; from 0 to 5 kg was expected');
});
