/**
 * Crosstalk of a cartridge that leaks by nothing but its tilt: 20 lg tan φ. Computed from the 45/45 geometry (IEC 60098 cl. 6);
 * no table of it was seen in a source.
 */
import { describe, expect, it } from 'vitest';
import { predictAfterTurn, tiltFromLeaks } from '../../src/core/measure/tilt.ts';
import { degToRad, radToDeg, ratioToDb } from '../../src/core/units/units.ts';

/** tilt, °: level of the leak, dB */
const levels = [
  [0.1, -55.162],
  [0.25, -47.204],
  [0.5, -41.183],
  [1, -35.162],
  [1.5, -31.639],
  [2, -29.138],
  [3, -25.612],
  [4, -23.107],
  [5, -21.161],
] as const;

/** separation, dB: tilt that alone would leave it, ° */
const tilts = [
  [20, 5.711],
  [25, 3.219],
  [30, 1.811],
  [35, 1.019],
  [40, 0.573],
] as const;

const none = { leftIntoRight: { re: 0, im: 0 }, rightIntoLeft: { re: 0, im: 0 } };

describe('a tilt alone', () => {
  it.each(levels)('of %s° leaks at %s dB both ways, left into right in antiphase', (tiltDeg, db) => {
    // turned back by −φ is turned clockwise by φ
    const { leftIntoRight, rightIntoLeft } = predictAfterTurn(none, -degToRad(tiltDeg));
    expect(Math.abs(ratioToDb(Math.abs(leftIntoRight.re)) - db)).toBeLessThanOrEqual(0.0006);
    expect(Math.abs(ratioToDb(Math.abs(rightIntoLeft.re)) - db)).toBeLessThanOrEqual(0.0006);
    expect([leftIntoRight.re < 0, rightIntoLeft.re > 0, leftIntoRight.im, rightIntoLeft.im]).toEqual([
      true,
      true,
      0,
      0,
    ]);
    expect(radToDeg(tiltFromLeaks({ leftIntoRight, rightIntoLeft }))).toBeCloseTo(tiltDeg, 9);
  });

  it.each(tilts)('that leaves %s dB is %s°, either way', (db, tiltDeg) => {
    const leak = 10 ** (-db / 20);
    for (const sign of [1, -1]) {
      const found = tiltFromLeaks({
        leftIntoRight: { re: -sign * leak, im: 0 },
        rightIntoLeft: { re: sign * leak, im: 0 },
      });
      expect(Math.abs(radToDeg(found) - sign * tiltDeg)).toBeLessThanOrEqual(0.0006);
    }
  });
});
