import fc from 'fast-check';
import { expect, test } from 'vitest';
import { STANDARD_GRAVITY } from '../units/units.ts';
import { forceAtRise, type SwingingArm } from './forceAndHeight.ts';

const seed = 333;
const anyArm = fc.record({
  force: fc.double({ min: 0.005, max: 0.05, noNaN: true }),
  effectiveLength: fc.double({ min: 180, max: 320, noNaN: true }),
  pivotAboveTip: fc.double({ min: 0, max: 40, noNaN: true }),
  movingMass: fc.double({ min: 0.05, max: 0.6, noNaN: true }),
  centreBelowPivot: fc.double({ min: -5, max: 30, noNaN: true }),
});

/** Height of the arm's centre of gravity below the pivot's level, with the tip `rise` above its reference place, mm. */
function centreHeight(arm: SwingingArm, rise: number): number {
  const { effectiveLength: L, pivotAboveTip: h } = arm;
  const x = (arm.force * Math.sqrt(L * L - h * h)) / (arm.movingMass * STANDARD_GRAVITY);
  const start = Math.atan2(-h, Math.sqrt(L * L - h * h));
  const now = Math.asin((rise - h) / L);
  const turned = now - start;
  return x * Math.sin(turned) - arm.centreBelowPivot * Math.cos(turned);
}

test(`force is the slope of the arm's weight-energy over the tip's height (seed ${seed})`, () => {
  fc.assert(
    fc.property(anyArm, fc.double({ min: -10, max: 15, noNaN: true }), (arm, rise) => {
      const step = 1e-3;
      const energy = (mm: number) => arm.movingMass * STANDARD_GRAVITY * centreHeight(arm, mm);
      const slope = (energy(rise + step) - energy(rise - step)) / (2 * step);
      expect(Math.abs(forceAtRise(arm, rise) / slope - 1)).toBeLessThan(1e-5);
    }),
    { seed },
  );
});

test('at the reference height it is the force given', () => {
  const arm = { force: 0.018, effectiveLength: 230, pivotAboveTip: 18, movingMass: 0.2, centreBelowPivot: 6 };
  expect(forceAtRise(arm, 0)).toBeCloseTo(0.018, 15);
});

test('by hand: a weight slung 5 mm low, 200 g, lifted 3 mm of 230: 0.2·g·5·sin(3/230)/230', () => {
  const arm = { force: 0.018, effectiveLength: 230, pivotAboveTip: 0, movingMass: 0.2, centreBelowPivot: 5 };
  const gain = (0.2 * STANDARD_GRAVITY * 5 * (3 / 230)) / 230;
  expect(forceAtRise(arm, 3) - 0.018).toBeCloseTo(gain, 5);
  // sign: slung low presses harder when lifted, slung high lighter
  expect(forceAtRise(arm, 3)).toBeGreaterThan(0.018);
  expect(forceAtRise({ ...arm, centreBelowPivot: -5 }, 3)).toBeLessThan(0.018);
});

test('refuses what is no arm', () => {
  const arm = { force: 0.018, effectiveLength: 230, pivotAboveTip: 18, movingMass: 0.2, centreBelowPivot: 6 };
  expect(() => forceAtRise({ ...arm, movingMass: 0 }, 1)).toThrow(/movingMass is 0 kg/);
  expect(() => forceAtRise(arm, Number.NaN)).toThrow(/rise is NaN/);
});
