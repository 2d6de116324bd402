import { describe, expect, it } from 'vitest';
import { type ComplexLeaks, predictAfterTurn, tiltFromLeaks } from '../measure/tilt.ts';
import { degToRad, radToDeg } from '../units/units.ts';
import { equalSeparationsHideTilt, separationsOf } from './leaks.ts';

const none: ComplexLeaks = { leftIntoRight: { re: 0, im: 0 }, rightIntoLeft: { re: 0, im: 0 } };
const own: ComplexLeaks = { leftIntoRight: { re: 0.03, im: 0.01 }, rightIntoLeft: { re: 0.03, im: -0.012 } };
/** The cartridge turned clockwise by so many degrees. */
const tilted = (deg: number, leaks: ComplexLeaks) => predictAfterTurn(leaks, degToRad(-deg));

describe('what two complex leaks mean', () => {
  it('a clockwise tilt is positive', () => {
    expect(radToDeg(tiltFromLeaks(tilted(0.9, own)))).toBeCloseTo(0.9, 2);
    expect(tilted(1, none).leftIntoRight.re).toBeLessThan(0);
    expect(tilted(1, none).rightIntoLeft.re).toBeGreaterThan(0);
  });

  it('a pure tilt leaks 20 lg tan φ both ways (computed from the 45/45 geometry)', () => {
    for (const [deg, db] of [
      [0.1, 55.162],
      [0.5, 41.183],
      [1, 35.162],
      [2, 29.138],
      [3, 25.612],
      [5, 21.161],
    ]) {
      const { leftToRight, rightToLeft } = separationsOf(tilted(deg, none));
      expect(leftToRight).toBeCloseTo(db, 3);
      expect(rightToLeft).toBeCloseTo(db, 3);
    }
  });

  it('says where equal separations hide a tilt', () => {
    expect(equalSeparationsHideTilt(tilted(2, none), degToRad(0.25))).toBe(true);
    expect(equalSeparationsHideTilt(own, degToRad(0.25))).toBe(false);
    expect(equalSeparationsHideTilt(tilted(0.9, own), degToRad(0.25))).toBe(false);
  });
});

it('equal means within 1 dB, as a needle is read', () => {
  const tilt = Math.tan(degToRad(2));
  // the tilt alone leaks by tan φ both ways; one way is made louder by so many dB
  const apart = (db: number): ComplexLeaks => ({
    leftIntoRight: { re: -tilt, im: 0 },
    rightIntoLeft: { re: tilt * 10 ** (db / 20), im: 0 },
  });
  expect(equalSeparationsHideTilt(apart(0.9), degToRad(0.25))).toBe(true);
  expect(equalSeparationsHideTilt(apart(-0.9), degToRad(0.25))).toBe(true);
  expect(equalSeparationsHideTilt(apart(1.1), degToRad(0.25))).toBe(false);
});
