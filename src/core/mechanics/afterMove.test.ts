import { expect, test } from 'vitest';
import { degToRad, radToDeg } from '../units/units.ts';
import { cantileverTurn, drawOfRise, forceChangeOfSlide, pitchChangeOfLength, sideSwing } from './afterMove.ts';

const G = 9.80665;

test('a slide: the moments about the pivot balance before and after', () => {
  const [force, mass, length, forward] = [0.017, 0.0071, 243.48, 1.2];
  const after = force + forceChangeOfSlide(force, mass, length, forward);
  expect(after * (length + forward)).toBeCloseTo(force * length + mass * G * forward, 12);
  // 7.1 g by 1.2 mm on a nine-inch arm: about a quarter of a millinewton
  expect(1e3 * (after - force)).toBeCloseTo(0.258, 3);
  expect(forceChangeOfSlide(force, mass, length, 0)).toBe(0);
  expect(forceChangeOfSlide(force, mass, length, -1)).toBeLessThan(0);
});

test('a longer arm from the same pivot lies flatter', () => {
  const change = radToDeg(pitchChangeOfLength(18, 243.48, 1.2));
  expect(change).toBeCloseTo(radToDeg(Math.asin(18 / 243.48) - Math.asin(18 / 244.68)), 12);
  expect(change).toBeCloseTo(0.021, 3);
});

test('a cantilever turns by the way of its tip over its length', () => {
  // 1 mN on 26 µm/mN: 26 µm over 5 mm
  expect(cantileverTurn(1e-3, 26e-3, 5)).toBeCloseTo(0.026 / 5, 12);
});

test('a shell turned by 1° swings a tip 18 mm below its axis by 0.31 mm', () => {
  expect(sideSwing(18, degToRad(1))).toBeCloseTo(0.314, 3);
});

test('a pivot raised draws the tip along', () => {
  expect(drawOfRise(1, 243.48, 18)).toBeCloseTo(
    Math.sqrt(243.48 ** 2 - 18 ** 2) - Math.sqrt(243.48 ** 2 - 19 ** 2),
    12,
  );
  expect(drawOfRise(1, 243.48, 18)).toBeCloseTo(0.0762, 3);
});

test.each([
  ['forward', () => forceChangeOfSlide(0.017, 0.0071, 243, Number.NaN)],
  ['turn', () => sideSwing(18, 2)],
  ['compliance', () => cantileverTurn(1e-3, 0)],
])('refuses what cannot be, by name: %s', (name, ask) => {
  expect(ask).toThrow(new RegExp(`^${name} is `));
});
