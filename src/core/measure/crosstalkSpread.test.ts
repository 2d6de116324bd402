/** Every term of the uncertainty of leaks and tilt by itself, the others made next to nothing. */
import { describe, expect, it } from 'vitest';
import { coverageFactor } from '../signal/robust.ts';
import type { CrosstalkReadings } from './channelGain.ts';
import { type Crosstalk, crosstalkOf } from './crosstalk.ts';
import { tiltOfEqualSeparations } from './tilt.ts';

const TINY = 1e-30;
const estimate = (re: number, im: number, varRe = TINY, varIm = varRe, degreesOfFreedom = 100) => ({
  re,
  im,
  varRe,
  varIm,
  degreesOfFreedom,
});
const level = (value: number, variance = TINY, degreesOfFreedom = 100) => ({ value, variance, degreesOfFreedom });
const [A, B] = [
  { re: 0.03, im: 0.01 },
  { re: 0.05, im: -0.02 },
];
const readings = (more: Partial<CrosstalkReadings> = {}): CrosstalkReadings => ({
  leftBand: estimate(A.re, A.im),
  rightBand: estimate(B.re, B.im),
  levelDifference: level(0),
  both: null,
  bothVertical: false,
  inverted: false,
  cutTilt: 0,
  ...more,
});
const found = (of: CrosstalkReadings): Crosstalk => {
  const crosstalk = crosstalkOf(of);
  if (!crosstalk.found) throw new Error(crosstalk.why.code);
  return crosstalk;
};
/** what compression leaves of the gains, ln */
const GAIN = 0.0017;
const sizeA = Math.hypot(A.re, A.im);
const sizeB = Math.hypot(B.re, B.im);

describe('what leaks and tilt are uncertain by', () => {
  it('with readings that are certain only what generators compress by: no part of the repeatability', () => {
    const of = found(readings());
    expect(of.leaks).toEqual({ leftIntoRight: A, rightIntoLeft: B });
    expect(of.asHeard).toEqual(of.leaks);
    expect(of.phase).toBeNull();
    expect(of.disagreement).toBeNull();
    expect(of.believesLateral).toBe(false);
    expect(of.gain).toEqual({ value: 0, spread: expect.closeTo(GAIN, 9), own: expect.closeTo(0, 12), k: 2 });
    expect(of.leftIntoRight.value).toBeCloseTo(sizeA, 12);
    expect(of.leftIntoRight.spread).toBeCloseTo(GAIN * sizeA, 8);
    expect(of.rightIntoLeft.value).toBeCloseTo(sizeB, 12);
    expect(of.rightIntoLeft.spread).toBeCloseTo(GAIN * sizeB, 8);
    expect(of.leakSpread.leftIntoRight.re).toBeCloseTo(GAIN * A.re, 8);
    expect(of.leakSpread.leftIntoRight.im).toBeCloseTo(GAIN * A.im, 8);
    expect(of.leakSpread.rightIntoLeft.re).toBeCloseTo(GAIN * B.re, 8);
    expect(of.leakSpread.rightIntoLeft.im).toBeCloseTo(GAIN * -B.im, 8);
    // both leaks move against one another: t = (b − a)/2
    expect(of.tilt.value).toBeCloseTo(Math.atan(0.01), 12);
    expect(of.tilt.spread).toBeCloseTo((GAIN * (A.re + B.re)) / 2, 7);
    expect(of.tilt.own).toBeLessThan(1e-12);
    expect(of.equalTilt?.value).toBe(tiltOfEqualSeparations({ leftIntoRight: A, rightIntoLeft: B }));
  });

  it.each([
    ['leftBand', 'leftIntoRight', A, sizeA],
    ['rightBand', 'rightIntoLeft', B, sizeB],
  ] as const)(
    'noise of either part of %s along its own leak, and half of the real one in the tilt',
    (band, leak, at, size) => {
      const real = found(readings({ [band]: estimate(at.re, at.im, 1e-4, TINY, 7) }));
      expect(real[leak].own).toBeCloseTo((0.01 * at.re) / size, 3);
      expect(real.tilt.own).toBeCloseTo(0.005, 5);
      expect(real.leakSpread[leak].re).toBeCloseTo(Math.hypot(0.01, GAIN * at.re), 6);
      expect(real.leakSpread[leak].im).toBeCloseTo(Math.abs(GAIN * at.im), 6);

      expect(real.tilt.k).toBeCloseTo(coverageFactor(7 * (real.tilt.spread / real.tilt.own) ** 4), 6);
      const imaginary = found(readings({ [band]: estimate(at.re, at.im, TINY, 1e-4, 7) }));
      expect(imaginary.tilt.own).toBeLessThan(1e-9);
      expect(imaginary[leak].own).toBeCloseTo((0.01 * Math.abs(at.im)) / size, 3);
      expect(imaginary.leakSpread[leak].im).toBeCloseTo(Math.hypot(0.01, GAIN * at.im), 6);
    },
  );

  it('noise of the levels moves the gain and both leaks by it', () => {
    const of = found(readings({ levelDifference: level(0, 1e-4, 5) }));
    expect(of.gain.own).toBeCloseTo(0.01, 9);
    expect(of.gain.spread).toBeCloseTo(Math.hypot(0.01, GAIN), 9);
    expect(of.gain.k).toBeCloseTo(coverageFactor(5 * (1 + (GAIN / 0.01) ** 2) ** 2), 6);
    expect(of.leftIntoRight.own).toBeCloseTo(0.01 * sizeA, 6);
    expect(of.rightIntoLeft.own).toBeCloseTo(0.01 * sizeB, 6);
    const one = found(readings({ levelDifference: level(0, 1e-2, 0.3) }));
    expect(one.gain.k).toBe(coverageFactor(1));
  });

  it('levels apart are gain, undone in both leaks; a tilt of the cut is undone after that', () => {
    const of = found(readings({ levelDifference: level(Math.log(1.25)) }));
    expect(of.gain.value).toBeCloseTo(Math.log(1.25), 12);
    expect(of.leaks.leftIntoRight.re).toBeCloseTo(1.25 * A.re, 12);
    expect(of.leaks.rightIntoLeft.im).toBeCloseTo(B.im / 1.25, 12);
    const cut = found(readings({ cutTilt: 0.02 }));
    expect(cut.asHeard).toEqual({ leftIntoRight: A, rightIntoLeft: B });
    // an upright cartridge reads the cut’s tilt as the opposite one
    expect(cut.tilt.value).toBeCloseTo(Math.atan(0.01) + 0.02, 4);
    expect(found(readings({ cutTilt: -0.02 })).tilt.value).toBeCloseTo(Math.atan(0.01) - 0.02, 4);
  });

  it('a reversed channel turns both leaks round where no lateral band tells the phase', () => {
    const of = found(readings({ inverted: true }));
    expect(of.leaks.leftIntoRight.re).toBeCloseTo(-A.re, 12);
    expect(of.leaks.rightIntoLeft.im).toBeCloseTo(-B.im, 12);
  });

  it('a tone beside the one it is told of may have a leak that differs in size, and by half as much in phase: no repeatability', () => {
    const of = found(readings({ offTone: 0.01 }));
    const [reA, imA] = [Math.hypot(A.re, A.im / 2), Math.hypot(A.im, A.re / 2)].map((v) => 0.1 * v);
    const [reB, imB] = [Math.hypot(B.re, B.im / 2), Math.hypot(B.im, B.re / 2)].map((v) => 0.1 * v);
    expect(of.leakSpread.leftIntoRight.re).toBeCloseTo(Math.hypot(reA, GAIN * A.re), 8);
    expect(of.leakSpread.leftIntoRight.im).toBeCloseTo(Math.hypot(imA, GAIN * A.im), 8);
    expect(of.leakSpread.rightIntoLeft.re).toBeCloseTo(Math.hypot(reB, GAIN * B.re), 8);
    expect(of.leakSpread.rightIntoLeft.im).toBeCloseTo(Math.hypot(imB, GAIN * B.im), 8);
    expect(of.tilt.own).toBeLessThan(1e-12);
    expect(of.tilt.k).toBe(2);
  });

  it('levels and lateral band apart: half the difference is in the gain, and it is no noise', () => {
    const both = estimate((1 + B.re) / (1 + A.re), 0);
    const apart = found(
      readings({ leftBand: estimate(A.re, 0), rightBand: estimate(B.re, 0), both, levelDifference: level(0.012) }),
    );
    expect(apart.disagreement).toBeCloseTo(0.012, 9);
    expect(apart.gain.value).toBeCloseTo(0.012, 9);
    expect(apart.gain.spread).toBeCloseTo(Math.hypot(0.006, GAIN), 8);
    expect(apart.gain.own).toBeLessThan(1e-9);
    expect(apart.believesLateral).toBe(false);
    const far = found(
      readings({ leftBand: estimate(A.re, 0), rightBand: estimate(B.re, 0), both, levelDifference: level(-0.03) }),
    );
    expect(far.gain.value).toBeCloseTo(0, 9);
    expect(far.gain.spread).toBeCloseTo(Math.hypot(0.015, GAIN), 8);
    expect(far.believesLateral).toBe(true);
    expect(far.phase).toBeCloseTo(0, 9);
  });

  it('noise of the lateral band turns the phase of both leaks; its share of the gain goes by variances', () => {
    const both = estimate((1 + B.re) / (1 + A.re), 0, TINY, 1e-4, 3);
    const of = found(
      readings({ leftBand: estimate(A.re, 0), rightBand: estimate(B.re, 0), both, levelDifference: level(0, TINY) }),
    );
    expect(of.leakSpread.leftIntoRight.im).toBeCloseTo(0.01 * A.re, 4);
    expect(of.leakSpread.rightIntoLeft.im).toBeCloseTo(0.01 * B.re, 4);
    expect(of.gain.own).toBeLessThan(1e-6);
    expect(of.leakSpread.leftIntoRight.im).toBeGreaterThan(0.009 * A.re);
  });
});

describe('the turn that leaks themselves give the channels’ ratio', () => {
  const mul = (a: { re: number; im: number }, b: { re: number; im: number }) => ({
    re: a.re * b.re - a.im * b.im,
    im: a.re * b.im + a.im * b.re,
  });
  const div = (a: { re: number; im: number }, b: { re: number; im: number }) => {
    const d = b.re ** 2 + b.im ** 2;
    return { re: (a.re * b.re + a.im * b.im) / d, im: (a.im * b.re - a.re * b.im) / d };
  };

  it.each([0.04, -0.04])(
    'is taken off: symmetrical leaks under a tilt of %f rad read as that tilt, the chain’s phase as it is',
    (tilt) => {
      // x is both walls’ own leak, g the right channel’s gain
      const x = { re: 0.03, im: 0.06 };
      const g = { re: Math.cos(0.1), im: -Math.sin(0.1) };
      const [c, s] = [Math.cos(tilt), Math.sin(tilt)];
      const ll = { re: c - x.re * s, im: -x.im * s };
      const lr = { re: s + x.re * c, im: x.im * c };
      const rl = mul(g, { re: x.re * c - s, im: x.im * c });
      const rr = mul(g, { re: c + x.re * s, im: x.im * s });
      const add = (a: typeof x, b: typeof x) => ({ re: a.re + b.re, im: a.im + b.im });
      const est = (z: typeof x) => estimate(z.re, z.im);
      const of = found(
        readings({
          leftBand: est(div(rl, ll)),
          rightBand: est(div(lr, rr)),
          both: est(div(add(ll, lr), add(rl, rr))),
          levelDifference: level(Math.log(Math.hypot(ll.re, ll.im) / Math.hypot(rr.re, rr.im))),
        }),
      );
      expect(of.tilt.value).toBeCloseTo(tilt, 3);
      expect(of.phase).toBeCloseTo(0.1, 3);
      // |x|/2 of either, times half of (Im x + Im x)², beside what compression makes of the tilt
      const antisymmetric = Math.hypot(x.re, x.im) / 2;
      const turn = (antisymmetric * (2 * x.im) ** 2) / 2;
      expect(of.tilt.spread).toBeCloseTo(Math.hypot(turn, GAIN * x.re), 4);
      expect(of.tilt.spread / Math.hypot(turn, GAIN * x.re)).toBeCloseTo(1, 1);
    },
  );
});

describe('where nothing is said', () => {
  const why = (more: Partial<CrosstalkReadings>): string | null => {
    const of = crosstalkOf(readings(more));
    return of.found ? null : of.why.code;
  };
  it('no leak at all either way: 120 dB down is no cartridge', () => {
    const none = estimate(0.9e-6, 0);
    expect(why({ leftBand: none, rightBand: none })).toBe('no-leak-at-all');
    expect(why({ leftBand: none, rightBand: estimate(0, 0.9e-6) })).toBe('no-leak-at-all');
    expect(why({ leftBand: none })).toBeNull();
    expect(why({ rightBand: none })).toBeNull();
    expect(why({ leftBand: estimate(0, 1.1e-6), rightBand: none })).toBeNull();
  });
  it('a leak as loud as what is driven', () => {
    expect(why({ leftBand: estimate(0, 0.69) })).toBeNull();
    expect(why({ leftBand: estimate(0, 0.71) })).toBe('leak-as-loud');
    expect(why({ rightBand: estimate(-0.69, 0) })).toBeNull();
    expect(why({ rightBand: estimate(-0.71, 0) })).toBe('leak-as-loud');
  });
  it('leaks that noise may make as loud as what is driven', () => {
    expect(why({ leftBand: estimate(0.3, 0, 0.2) })).toBe('leaks-in-noise');
    expect(why({ rightBand: estimate(0.3, 0, 0.09) })).toBeNull();
  });
  it('no tilt of equal separations where the common leak does not stand four times out of its noise', () => {
    const equal = (spread: number) =>
      found(readings({ leftBand: estimate(0.02, 0.01, spread ** 2), rightBand: estimate(0.02, -0.01, spread ** 2) }))
        .equalTilt;
    // 0.04 over 4√2 of one
    expect(equal(0.0072)).toBeNull();
    expect(equal(0.0069)).not.toBeNull();
    expect(found(readings({ leftBand: estimate(-0.05, 0), rightBand: estimate(0.05, 0) })).equalTilt).toBeNull();
  });
});
