import { expect, test } from 'vitest';
import { degToRad, radToDeg } from '../units/units.ts';
import { angleForRise, riseForAngle } from './armHeight.ts';

test('1° is 4.0 mm for an arm of 230 mm', () => {
  expect(riseForAngle(degToRad(1), 230)).toBeCloseTo(4.0147, 4);
  expect(radToDeg(angleForRise(4, 230))).toBeCloseTo(0.99635, 5);
});

test('sign: raising the pivot steepens the vertical tracking angle', () => {
  // the tip at (0, 0), the cantilever's bearing behind and above it at 22°: turn the whole arm about the tip by the rise
  const alpha = degToRad(22);
  const turn = angleForRise(4, 230);
  const bearing = { back: 7 * Math.cos(alpha + turn), up: 7 * Math.sin(alpha + turn) };
  expect(Math.atan2(bearing.up, bearing.back)).toBeGreaterThan(alpha);
  expect(angleForRise(4, 230)).toBeGreaterThan(0);
  expect(angleForRise(-1.5, 230)).toBeLessThan(0);
});

test('there and back, and scale', () => {
  expect(riseForAngle(angleForRise(2.5, 239), 239)).toBeCloseTo(2.5, 12);
  expect(angleForRise(5, 478)).toBeCloseTo(angleForRise(2.5, 239), 15);
  expect(() => angleForRise(1, 0)).toThrow(/effectiveLength is 0 mm/);
});
