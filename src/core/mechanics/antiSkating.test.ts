import { expect, test } from 'vitest';
import { STANDARD_GRAVITY } from '../units/units.ts';
import { leverForWeight, threadMoment, threadWeight } from './antiSkating.ts';

test('by hand: 0.45 N·mm on a lever of 15 mm is 30 mN, 3.06 g', () => {
  expect(threadWeight(0.45, 15)).toBeCloseTo(0.03 / STANDARD_GRAVITY, 12);
  expect(leverForWeight(0.45, 0.03 / STANDARD_GRAVITY)).toBeCloseTo(15, 10);
});

test('a thread that pulls at 30° to its lever needs twice the weight', () => {
  expect(threadWeight(0.45, 15, Math.PI / 6)).toBeCloseTo(2 * threadWeight(0.45, 15), 12);
  expect(threadMoment(threadWeight(0.45, 15, 0.7), 15, 0.7)).toBeCloseTo(0.45, 12);
});

test('refuses what cannot be', () => {
  expect(() => threadWeight(0.45, 0)).toThrow(/lever is 0 mm/);
  expect(() => leverForWeight(Number.NaN, 0.003)).toThrow(/moment is NaN/);
});
