import { expect, it } from 'vitest';
import { type ComplexLeaks, predictAfterTurn, tiltFromLeaks, tiltOfEqualSeparations } from './tilt.ts';

const leaks = (a: [number, number], b: [number, number]): ComplexLeaks => ({
  leftIntoRight: { re: a[0], im: a[1] },
  rightIntoLeft: { re: b[0], im: b[1] },
});
const none = leaks([0, 0], [0, 0]);

it('a turn adds to the angle of either leak, imaginary parts as well', () => {
  const turned = predictAfterTurn(leaks([0.1, 0.2], [0.3, -0.4]), Math.atan(0.5));
  // (0.6 + 0.2i)/(0.95 − 0.1i) and (−0.2 − 0.4i)/(1.15 − 0.2i), by hand
  const over = (ar: number, ai: number, br: number, bi: number) => ({
    re: expect.closeTo((ar * br + ai * bi) / (br * br + bi * bi), 12),
    im: expect.closeTo((ai * br - ar * bi) / (br * br + bi * bi), 12),
  });
  expect(turned).toEqual({ leftIntoRight: over(0.6, 0.2, 0.95, -0.1), rightIntoLeft: over(-0.2, -0.4, 1.15, -0.2) });
});

it('a turn is less than 45°, a leak no larger than what leaks', () => {
  for (const tilt of [Math.PI / 4, -Math.PI / 4, Number.NaN]) {
    expect(() => predictAfterTurn(none, tilt), `${tilt}`).toThrow(RangeError);
  }
  expect(() => predictAfterTurn(none, Math.PI / 4 - 1e-9)).not.toThrow();
  expect(() => predictAfterTurn(none, 1e-9 - Math.PI / 4)).not.toThrow();
  expect(tiltFromLeaks(leaks([0, -1], [1, 0]))).toBeCloseTo(Math.atan(0.5), 12);
  for (const one of [leaks([0, 1.01], [0, 0]), leaks([0, 0], [-1.01, 0]), leaks([0.8, 0.8], [0, 0])])
    expect(() => tiltFromLeaks(one)).toThrow(/must not be larger than 1/);
});

it('equal separations follow (|c_RL|² − |c_LR|²) / 2 Re(c_LR + c_RL), with either sign', () => {
  const t = (0.03 ** 2 + 0.02 ** 2 - 0.05 ** 2 - 0.01 ** 2) / (2 * (0.05 + 0.03));
  expect(tiltOfEqualSeparations(leaks([0.05, 0.01], [0.03, 0.02]))).toBeCloseTo(Math.atan(t), 12);
  expect(tiltOfEqualSeparations(leaks([-0.05, 0.01], [-0.03, 0.02]))).toBeCloseTo(Math.atan(-t), 12);
});

it('equal separations mean nothing without a leak in common, or beyond a tangent of 0.3', () => {
  expect(tiltOfEqualSeparations(leaks([0.02, 0], [-0.0199, 0]))).toBeNull();
  expect(tiltOfEqualSeparations(leaks([0.02, 0], [-0.01989, 0]))).not.toBeNull();
  expect(tiltOfEqualSeparations(leaks([-0.02, 0], [0.01989, 0]))).not.toBeNull();
  expect(tiltOfEqualSeparations(leaks([0.02, 0], [0.01, 0]), 0.03)).toBeNull();
  expect(tiltOfEqualSeparations(leaks([0.02, 0], [0.01, 0]), 0.0299)).not.toBeNull();
  // (b² − a²)/2(a + b) = (b − a)/2
  expect(tiltOfEqualSeparations(leaks([0.1, 0], [0.7, 0]))).toBeNull();
  expect(tiltOfEqualSeparations(leaks([0.1, 0], [0.69, 0]))).toBeCloseTo(Math.atan(0.295), 12);
  expect(tiltOfEqualSeparations(leaks([0.7, 0], [0.1, 0]))).toBeNull();
});
