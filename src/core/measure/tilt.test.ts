import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Complex } from '../units/complex.ts';
import { predictAfterTurn, tiltFromLeaks, tiltOfEqualSeparations } from './tilt.ts';

const deg = Math.PI / 180;
const size = (c: Complex) => Math.hypot(c.re, c.im);

/** Leaks of a cartridge with its own leaks a (left into right) and b, tilted by φ: the turned matrix, written out. */
function turned(a: Complex, b: Complex, phi: number) {
  const c = Math.cos(phi);
  const s = Math.sin(phi);
  // outputs for left driven: L' = c, R' = −s inside; then leak of R' into L by b, of L' into R by a
  const ll = { re: c - b.re * s, im: -b.im * s };
  const rl = { re: -s + a.re * c, im: a.im * c };
  const lr = { re: s + b.re * c, im: b.im * c };
  const rr = { re: c + a.re * s, im: a.im * s };
  const div = (p: typeof ll, q: typeof ll) => {
    const d = q.re ** 2 + q.im ** 2;
    return { re: (p.re * q.re + p.im * q.im) / d, im: (p.im * q.re - p.re * q.im) / d };
  };
  const mul = (p: typeof ll, q: typeof ll) => ({ re: p.re * q.re - p.im * q.im, im: p.re * q.im + p.im * q.re });
  const g = div(ll, rr);
  return { leftIntoRight: mul(div(rl, ll), g), rightIntoLeft: div(div(lr, rr), g) };
}

describe('tilt', () => {
  it('is positive clockwise: a clockwise tilt leaks right into left in phase and left into right in antiphase', () => {
    expect(
      tiltFromLeaks({ leftIntoRight: { re: -0.02, im: 0 }, rightIntoLeft: { re: 0.02, im: 0 } }) / deg,
    ).toBeCloseTo(Math.atan(0.02) / deg, 10);
    const none = { re: 0, im: 0 };
    const leaks = turned(none, none, 2 * deg);
    expect(leaks.leftIntoRight.re).toBeCloseTo(-Math.tan(2 * deg), 12);
    expect(leaks.rightIntoLeft.re).toBeCloseTo(Math.tan(2 * deg), 12);
  });

  it('finds the tilt of a cartridge that leaks alike both ways, and turns it back exactly (seed 4107)', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -8, max: 8, noNaN: true }),
        fc.double({ min: -0.1, max: 0.1, noNaN: true }),
        fc.double({ min: -0.05, max: 0.05, noNaN: true }),
        (tilt, re, im) => {
          const leaks = turned({ re, im }, { re, im }, tilt * deg);
          const found = tiltFromLeaks(leaks) / deg;
          const after = predictAfterTurn(leaks, tilt * deg);
          return (
            // linear in the leaks: what the tangent law adds is t (|c|² + …)
            Math.abs(found - tilt) <
              1e-9 + 1.2 * Math.abs(tilt) * (re * re + im * im + 2 * Math.abs(re * tilt * deg)) &&
            Math.hypot(after.leftIntoRight.re - re, after.leftIntoRight.im - im) < 1e-12 &&
            Math.hypot(after.rightIntoLeft.re - re, after.rightIntoLeft.im - im) < 1e-12
          );
        },
      ),
      { seed: 4107, numRuns: 300 },
    );
  });

  it('is (Re c_RL − Re c_LR)/2, and leaves equal in-phase leaks', () => {
    const leaks = { leftIntoRight: { re: 0.004, im: 0.003 }, rightIntoLeft: { re: 0.021, im: -0.002 } };
    const tilt = tiltFromLeaks(leaks);
    expect(tilt).toBeCloseTo(Math.atan((0.021 - 0.004) / 2), 14);
    const after = predictAfterTurn(leaks, tilt);
    expect(after.leftIntoRight.re).toBeCloseTo(after.rightIntoLeft.re, 5);
  });

  it('cannot be seen by equal separations when there is no leak in common', () => {
    const none = { re: 0, im: 0 };
    const leaks = turned(none, none, 1.5 * deg);
    expect(size(leaks.leftIntoRight)).toBeCloseTo(size(leaks.rightIntoLeft), 12);
    expect(tiltOfEqualSeparations(leaks)).toBeNull();
    expect(tiltFromLeaks(leaks) / deg).toBeCloseTo(1.5, 9);
    const common = tiltOfEqualSeparations({ leftIntoRight: { re: 0.02, im: 0 }, rightIntoLeft: { re: 0.05, im: 0 } });
    expect((common ?? Number.NaN) / deg).toBeCloseTo(Math.atan(0.015) / deg, 10);
  });

  it('refuses what is no leak', () => {
    const none = { re: 0, im: 0 };
    expect(() => tiltFromLeaks({ leftIntoRight: { re: Number.NaN, im: 0 }, rightIntoLeft: none })).toThrow(RangeError);
    expect(() => predictAfterTurn({ leftIntoRight: none, rightIntoLeft: none }, 1)).toThrow('tilt 1');
  });
});
