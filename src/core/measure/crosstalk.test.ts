import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Complex } from '../units/complex.ts';
import { type CrosstalkReadings, channelRatio } from './channelGain.ts';
import { type Crosstalk, crosstalkOf as crosstalkFrom } from './crosstalk.ts';
import type { ComplexEstimate, Estimate } from './toneSegment.ts';

const deg = Math.PI / 180;
const sure = (c: Complex, variance = 1e-10): ComplexEstimate => ({
  ...c,
  varRe: variance,
  varIm: variance,
  degreesOfFreedom: 100,
});
const level = (value: number, variance = 1e-10): Estimate => ({ value, variance, degreesOfFreedom: 100 });
const add = (a: Complex, b: Complex): Complex => ({ re: a.re + b.re, im: a.im + b.im });
const mul = (a: Complex, b: Complex): Complex => ({ re: a.re * b.re - a.im * b.im, im: a.re * b.im + a.im * b.re });
const div = (a: Complex, b: Complex): Complex => {
  const d = b.re ** 2 + b.im ** 2;
  return { re: (a.re * b.re + a.im * b.im) / d, im: (a.im * b.re - a.re * b.im) / d };
};
const negative = (c: Complex): Complex => ({ re: -c.re, im: -c.im });

/** Readings of a chain: matrix from walls to channels for a tilt, the cartridge's own leaks and the right channel's gain. */
function readingsOf(tilt: number, a: Complex, b: Complex, g: Complex, vertical = false): CrosstalkReadings {
  const [c, s] = [Math.cos(tilt), Math.sin(tilt)];
  const ll = { re: c - b.re * s, im: -b.im * s };
  const lr = { re: s + b.re * c, im: b.im * c };
  const rl = mul(g, { re: -s + a.re * c, im: a.im * c });
  const rr = mul(g, { re: c + a.re * s, im: a.im * s });
  const sign = vertical ? negative : (z: Complex) => z;
  return {
    leftBand: sure(div(rl, ll)),
    rightBand: sure(div(lr, rr)),
    levelDifference: level(Math.log(Math.hypot(ll.re, ll.im) / Math.hypot(rr.re, rr.im))),
    both: sure(div(add(ll, sign(lr)), add(rl, sign(rr)))),
    bothVertical: vertical,
    inverted: false,
    cutTilt: 0,
  };
}

function crosstalkOf(readings: CrosstalkReadings): Crosstalk {
  const crosstalk = crosstalkFrom(readings);
  if (!crosstalk.found) throw new Error(crosstalk.why.code);
  return crosstalk;
}

const complex = (most: number) =>
  fc.record({
    re: fc.double({ min: -most, max: most, noNaN: true }),
    im: fc.double({ min: -most, max: most, noNaN: true }),
  });
const gain = fc.record({
  size: fc.double({ min: 0.5, max: 2, noNaN: true }),
  angle: fc.double({ min: -Math.PI, max: Math.PI, noNaN: true }),
});

describe('crosstalk', () => {
  it('has the channel ratio exactly, from a lateral or a vertical band (seed 5150)', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -0.1, max: 0.1, noNaN: true }),
        complex(0.06),
        complex(0.06),
        gain,
        fc.boolean(),
        (tilt, a, b, g, vertical) => {
          const r = readingsOf(
            tilt,
            a,
            b,
            { re: g.size * Math.cos(g.angle), im: g.size * Math.sin(g.angle) },
            vertical,
          );
          const rho = channelRatio(r.both as Complex, r.leftBand, r.rightBand, vertical);
          return Math.abs(Math.log(Math.hypot(rho.re, rho.im)) - r.levelDifference.value) < 1e-9;
        },
      ),
      { seed: 5150, numRuns: 200 },
    );
  });

  it('gives leaks and tilt that no gain, delay or reversal of a channel can move (seed 5151)', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -0.06, max: 0.06, noNaN: true }),
        complex(0.04),
        complex(0.04),
        gain,
        (tilt, c, b, g) => {
          const a = { re: c.re + 0.05, im: c.im };
          const plain = crosstalkOf(readingsOf(tilt, a, b, { re: 1, im: 0 }));
          const other = crosstalkOf(
            readingsOf(tilt, a, b, { re: g.size * Math.cos(g.angle), im: g.size * Math.sin(g.angle) }),
          );
          return (
            Math.abs(plain.tilt.value - other.tilt.value) < 1e-7 &&
            Math.abs(plain.leaks.leftIntoRight.re - other.leaks.leftIntoRight.re) < 1e-6 &&
            Math.abs(plain.leaks.rightIntoLeft.im - other.leaks.rightIntoLeft.im) < 1e-6
          );
        },
      ),
      { seed: 5151, numRuns: 200 },
    );
  });

  it('turns the tilt’s sign when the walls are exchanged, and keeps its size', () => {
    const [a, b] = [
      { re: 0.02, im: 0.01 },
      { re: 0.035, im: -0.01 },
    ];
    const here = crosstalkOf(readingsOf(1.2 * deg, a, b, { re: 1, im: 0 }));
    const there = crosstalkOf(readingsOf(-1.2 * deg, b, a, { re: 1, im: 0 }));
    expect(there.tilt.value).toBeCloseTo(-here.tilt.value, 10);
    expect(there.leftIntoRight.value).toBeCloseTo(here.rightIntoLeft.value, 10);
  });

  it('says so and widens where levels and lateral band disagree, and believes the lateral band above 0.2 dB', () => {
    const r = readingsOf(1 * deg, { re: 0.02, im: 0 }, { re: 0.03, im: 0 }, { re: 1, im: 0 });
    const fine = crosstalkOf(r);
    expect(fine.disagreement).toBeNull();
    const db = Math.LN10 / 20;
    const little = crosstalkOf({ ...r, levelDifference: level(r.levelDifference.value + 0.1 * db) });
    expect(little.disagreement).toBeCloseTo(0.1 * db, 6);
    expect(little.believesLateral).toBe(false);
    expect(little.rightIntoLeft.spread / little.rightIntoLeft.value).toBeCloseTo(Math.hypot(0.05, 0.0148) * db, 4);
    const much = crosstalkOf({ ...r, levelDifference: level(r.levelDifference.value + 0.6 * db) });
    expect(much.believesLateral).toBe(true);
    expect(much.tilt.value).toBeCloseTo(fine.tilt.value, 6);
    expect(2 * much.rightIntoLeft.spread).toBeGreaterThan(0.55 * db * much.rightIntoLeft.value);
  });

  it('knows how far its own undoing of the chain’s phase may lie off where leaks are large (seed 5153)', () => {
    let state = 5153;
    const draw = (low: number, high: number): number => {
      state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
      return low + ((high - low) * state) / 2 ** 32;
    };
    const leak = (): Complex => {
      const [size, angle] = [10 ** (draw(-40, -20) / 20), draw(-Math.PI, Math.PI)];
      return { re: size * Math.cos(angle), im: size * Math.sin(angle) };
    };
    let held = 0;
    let largest = 0;
    const sets = 400;
    for (let i = 0; i < sets; i++) {
      const [tilt, a, b, turn] = [draw(-3, 3) * deg, leak(), leak(), draw(-0.2, 0.2)];
      const plain = readingsOf(tilt, a, b, { re: 1, im: 0 });
      const size = Math.exp(plain.levelDifference.value);
      const truth = Math.atan((plain.rightBand.re / size - plain.leftBand.re * size) / 2);
      const { value, spread } = crosstalkOf(readingsOf(tilt, a, b, { re: Math.cos(turn), im: Math.sin(turn) })).tilt;
      if (Math.abs(value - truth) <= 2 * spread) held += 1;
      largest = Math.max(largest, Math.abs(value - truth) / deg);
    }
    console.log(
      `tilt without noise: largest error ${largest.toFixed(4)}°, inside k = 2 ${((100 * held) / sets).toFixed(1)} %`,
    );
    expect(held / sets).toBeGreaterThan(0.9);
    expect(largest).toBeLessThan(0.05);
  });

  it('carries the variances of all readings', () => {
    const r = readingsOf(0, { re: 0.03, im: 0 }, { re: 0.03, im: 0 }, { re: 1, im: 0 });
    const noisy = crosstalkOf({ ...r, leftBand: sure(r.leftBand, 1e-6), rightBand: sure(r.rightBand, 1e-6) });
    // t is half the difference of two parts with a spread of 1e-3 each
    expect(noisy.tilt.spread).toBeCloseTo(1e-3 / Math.SQRT2, 5);
    expect(noisy.leftIntoRight.spread).toBeCloseTo(1e-3, 5);
    const unlevel = crosstalkOf({ ...r, both: null, levelDifference: level(0, 1e-4) });
    expect(unlevel.leftIntoRight.spread / unlevel.leftIntoRight.value).toBeCloseTo(Math.hypot(0.01, 0.0017), 4);
    expect(unlevel.phase).toBeNull();
  });

  it('gives nothing where a band is not cut on one side, or drowns in noise', () => {
    const r = readingsOf(0, { re: 0.03, im: 0 }, { re: 0.03, im: 0 }, { re: 1, im: 0 });
    expect(crosstalkFrom({ ...r, leftBand: sure({ re: 0.9, im: 0 }) })).toMatchObject({ found: false });
    expect(crosstalkFrom({ ...r, leftBand: sure(r.leftBand, 2) })).toMatchObject({ found: false });
    expect(crosstalkFrom({ ...r, levelDifference: level(Number.NaN) })).toMatchObject({ found: false });
  });
});
