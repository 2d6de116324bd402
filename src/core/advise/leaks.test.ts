import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { degToRad, radToDeg } from '../units/units.ts';
import {
  equalSeparationsHideTilt,
  type Leaks,
  leaksAfterRemoving,
  separationsOf,
  tiltOfEqualSeparations,
  tiltOfLeastLeak,
} from './leaks.ts';

/** A tilt of φ, clockwise positive, on top of the cartridge's own leaks: −tan φ into right, +tan φ into left. */
const tilted = (phi: number, own: Leaks): Leaks => ({
  leftIntoRight: { re: own.leftIntoRight.re - Math.tan(phi), im: own.leftIntoRight.im },
  rightIntoLeft: { re: own.rightIntoLeft.re + Math.tan(phi), im: own.rightIntoLeft.im },
});
const none: Leaks = { leftIntoRight: { re: 0, im: 0 }, rightIntoLeft: { re: 0, im: 0 } };
const own: Leaks = { leftIntoRight: { re: 0.03, im: 0.01 }, rightIntoLeft: { re: 0.03, im: -0.012 } };
const leak = fc.double({ min: -0.1, max: 0.1, noNaN: true });
const leaks = fc.record({
  leftIntoRight: fc.record({ re: leak, im: leak }),
  rightIntoLeft: fc.record({ re: leak, im: leak }),
});

describe('tilt from complex leaks', () => {
  it('is positive for a cartridge that stands clockwise seen from its face', () => {
    expect(radToDeg(tiltOfLeastLeak(tilted(degToRad(0.9), own)))).toBeCloseTo(0.9, 9);
    expect(radToDeg(tiltOfLeastLeak(tilted(degToRad(-2), own)))).toBeCloseTo(-2, 9);
  });

  it('makes a pure tilt leak 20 lg tan φ both ways: 1° is 35.162 dB, 3° is 25.612 dB (computed from 45/45 geometry)', () => {
    for (const [deg, db] of [
      [0.1, 55.162],
      [0.5, 41.183],
      [1, 35.162],
      [2, 29.138],
      [3, 25.612],
      [5, 21.161],
    ]) {
      const { leftToRight, rightToLeft } = separationsOf(tilted(degToRad(deg), none));
      expect(leftToRight).toBeCloseTo(db, 3);
      expect(rightToLeft).toBeCloseTo(db, 3);
    }
  });

  it('says where equal separations hide a tilt', () => {
    expect(equalSeparationsHideTilt(tilted(degToRad(2), none), degToRad(0.25))).toBe(true);
    expect(equalSeparationsHideTilt(own, degToRad(0.25))).toBe(false);
    expect(equalSeparationsHideTilt(tilted(degToRad(0.9), own), degToRad(0.25))).toBe(false);
  });

  it('finds no equal-separation angle where the cartridge has no leak in common', () => {
    expect(tiltOfEqualSeparations(tilted(degToRad(2), none)).found).toBe(false);
    const both = tiltOfEqualSeparations(tilted(degToRad(0.9), { ...own, rightIntoLeft: { re: 0.03, im: 0.01 } }));
    expect(both.found && radToDeg(both.tilt)).toBeCloseTo(0.9, 6);
  });

  it('leaves nothing to turn after the turn, and the least total leak (seed 11)', () => {
    fc.assert(
      fc.property(leaks, fc.double({ min: -0.05, max: 0.05, noNaN: true }), (some, off) => {
        const phi = tiltOfLeastLeak(some);
        const after = leaksAfterRemoving(some, phi);
        const total = (l: Leaks) =>
          l.leftIntoRight.re ** 2 + l.leftIntoRight.im ** 2 + l.rightIntoLeft.re ** 2 + l.rightIntoLeft.im ** 2;
        expect(tiltOfLeastLeak(after)).toBeCloseTo(0, 12);
        expect(total(leaksAfterRemoving(some, phi + off))).toBeGreaterThanOrEqual(total(after) - 1e-15);
      }),
      { seed: 11 },
    );
  });

  it('turns its sign when the channels change places (seed 12)', () => {
    fc.assert(
      fc.property(leaks, ({ leftIntoRight, rightIntoLeft }) => {
        const swapped = { leftIntoRight: rightIntoLeft, rightIntoLeft: leftIntoRight };
        expect(tiltOfLeastLeak(swapped)).toBeCloseTo(-tiltOfLeastLeak({ leftIntoRight, rightIntoLeft }), 12);
      }),
      { seed: 12 },
    );
  });
});
