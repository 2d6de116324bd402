import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { STANDARD_GRAVITY } from '../units/units.ts';
import {
  armMomentFromFloat,
  counterweightMassFor,
  counterweightMove,
  counterweightPosition,
  forcePerMm,
} from './counterweight.ts';

const seed = 1687;
/** By hand: 15 g at 230 mm is 3.45 kg·mm; a bare arm of 1.5 kg·mm; 4.95 kg·mm in all against 100 g: 49.5 mm. */
const arm = { frontMass: 0.015, effectiveLength: 230, armMoment: 1.5, counterweightMass: 0.1 };

describe('worked by hand', () => {
  test('the floating arm', () => {
    expect(counterweightPosition(arm, 0)).toBeCloseTo(49.5, 12);
  });

  test('2 g at 230 mm is 0.46 kg·mm, 4.6 mm of a 100 g weight', () => {
    expect(counterweightPosition(arm, 0.002 * STANDARD_GRAVITY)).toBeCloseTo(44.9, 12);
    expect(forcePerMm(0.1, 230) / STANDARD_GRAVITY).toBeCloseTo(0.1 / 230, 15);
  });

  test('the way from floating to 2 g: 4.6 mm forward, 3.07 turns of 1.5 mm', () => {
    const move = counterweightMove(0.1, 230, 0, 0.002 * STANDARD_GRAVITY, 1.5);
    expect(move.forward).toBeCloseTo(4.6, 12);
    expect(move.turns).toBeCloseTo(4.6 / 1.5, 12);
    expect(counterweightMove(0.1, 230, 0.02, 0, null)).toMatchObject({ turns: null });
    expect(counterweightMove(0.1, 230, 0.02, 0, null).forward).toBeLessThan(0);
  });

  test('a weight for the middle of the stub', () => {
    const { counterweightMass: _, ...bare } = arm;
    const heavier = counterweightMassFor(bare, 0, 33);
    expect(heavier.found && heavier.value).toBeCloseTo(4.95 / 33, 12);
    expect(counterweightMassFor({ ...bare, armMoment: -5 }, 0, 33)).toMatchObject({ found: false });
  });
});

const anyArm = fc.record({
  frontMass: fc.double({ min: 0.003, max: 0.04, noNaN: true }),
  effectiveLength: fc.double({ min: 180, max: 320, noNaN: true }),
  armMoment: fc.double({ min: -2, max: 8, noNaN: true }),
  counterweightMass: fc.double({ min: 0.05, max: 0.3, noNaN: true }),
});

test(`moments balance (seed ${seed})`, () => {
  fc.assert(
    fc.property(anyArm, fc.double({ min: 0, max: 0.05, noNaN: true }), (a, force) => {
      const x = counterweightPosition(a, force);
      const front = STANDARD_GRAVITY * (a.frontMass * a.effectiveLength + a.armMoment);
      const back = STANDARD_GRAVITY * a.counterweightMass * x + force * a.effectiveLength;
      expect(back).toBeCloseTo(front, 9);
      // forward means more force, by m g / L for each mm
      expect(counterweightPosition(a, force + forcePerMm(a.counterweightMass, a.effectiveLength))).toBeCloseTo(
        x - 1,
        9,
      );
    }),
    { seed },
  );
});

test(`the arm's own moment comes back from one state of balance (seed ${seed})`, () => {
  fc.assert(
    fc.property(anyArm, ({ armMoment, ...rest }) => {
      const float = counterweightPosition({ ...rest, armMoment }, 0);
      if (Math.abs(float) < 500) expect(armMomentFromFloat(rest, float)).toBeCloseTo(armMoment, 9);
    }),
    { seed },
  );
});

test(`scale: all lengths by k move the weight by k and leave the force (seed ${seed})`, () => {
  fc.assert(
    fc.property(anyArm, fc.double({ min: 0.7, max: 1.4, noNaN: true }), (a, k) => {
      const larger = { ...a, effectiveLength: a.effectiveLength * k, armMoment: a.armMoment * k };
      expect(counterweightPosition(larger, 0.018)).toBeCloseTo(k * counterweightPosition(a, 0.018), 8);
    }),
    { seed },
  );
});

test('refuses what is no arm', () => {
  expect(() => counterweightPosition({ ...arm, effectiveLength: Number.NaN }, 0)).toThrow(/effectiveLength is NaN mm/);
  expect(() => counterweightMove(0.1, 230, 0, 0.02, 0)).toThrow(/pitch is 0 mm/);
});
