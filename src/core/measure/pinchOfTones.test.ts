/** The tip's radius by hand: weights, what is left over, and which reading is believed. */
import { describe, expect, it } from 'vitest';
import {
  absolutePolarityOf,
  type HeardRadius,
  type PinchTone,
  pinchTone,
  radiusOfTones,
  radiusOfTwoTone,
} from './pinch.ts';
import type { SecondHarmonic } from './secondHarmonic.ts';
import type { SolvedTwoTone } from './twoTones.ts';

const ROOT8 = 2 * Math.SQRT2;
const tone = (velocity: number, omega: number, speed: number, q: number, spread = 1e-4): PinchTone => ({
  q,
  spread,
  velocity,
  omega,
  speed,
});
/** Im q of a tip (cm) and a bend. */
const of = ({ velocity, omega, speed }: PinchTone, radius: number, bend: number): number =>
  (radius * velocity * omega) / (ROOT8 * speed * speed) + (bend * velocity) / omega;
const at = (velocity: number, omega: number, speed: number, spread?: number, off = 0): PinchTone => {
  const one = tone(velocity, omega, speed, 0, spread);
  return { ...one, q: of(one, 15e-4, 3) + off };
};

describe('of tones', () => {
  const three = [at(5, 6000, 50, 1e-4, 2e-4), at(4, 6000, 25, 2e-4, -1e-4), at(6, 20_000, 40, 3e-4, 5e-4)];

  /** Least squares by Cramer's rule, weights 1/u². */
  function reference(tones: readonly PinchTone[]) {
    const rows = tones.map((t) => ({
      a: of(t, 1, 0) / t.spread,
      b: of(t, 0, 1) / t.spread,
      y: t.q / t.spread,
    }));
    const sum = (f: (r: (typeof rows)[number]) => number): number => rows.reduce((s, r) => s + f(r), 0);
    const [aa, ab, bb] = [sum((r) => r.a * r.a), sum((r) => r.a * r.b), sum((r) => r.b * r.b)];
    const [ya, yb] = [sum((r) => r.a * r.y), sum((r) => r.b * r.y)];
    const determinant = aa * bb - ab * ab;
    const radius = (ya * bb - yb * ab) / determinant;
    const bend = (aa * yb - ab * ya) / determinant;
    const chi2 = sum((r) => (r.y - radius * r.a - bend * r.b) ** 2);
    return { radius, chi2, variance: bb / determinant };
  }

  it('is weighted least squares of radius and bend, widened by what they leave over', () => {
    const { radius, chi2, variance } = reference(three);
    expect(chi2).toBeGreaterThan(1);
    const own = Math.sqrt(chi2 * variance) * 1e4;
    expect(radiusOfTones(three)).toEqual({
      um: expect.closeTo(radius * 1e4, 9),
      own: expect.closeTo(own, 9),
      spread: expect.closeTo(Math.hypot(own, 0.035 * radius * 1e4), 9),
    });
  });

  it('what they leave over makes nothing surer, and of two tones there is nothing', () => {
    const exact = [at(5, 6000, 50), at(4, 6000, 25), at(6, 20_000, 40)];
    expect(radiusOfTones(exact)?.own).toBeCloseTo(Math.sqrt(reference(exact).variance) * 1e4, 9);
    const two = three.slice(0, 2);
    expect(radiusOfTones(two)?.own).toBeCloseTo(Math.sqrt(reference(two).variance) * 1e4, 9);
    expect(radiusOfTones(two)?.um).toBeCloseTo(reference(two).radius * 1e4, 9);
  });

  it('needs groove speeds of 1 : 1.5 or frequencies of 1 : 3', () => {
    expect(radiusOfTones([at(5, 6000, 30), at(5, 6000, 45)])).not.toBeNull();
    expect(radiusOfTones([at(5, 6000, 30), at(5, 6000, 44.9)])).toBeNull();
    expect(radiusOfTones([at(5, 6000, 30), at(5, 18_000, 30)])).not.toBeNull();
    expect(radiusOfTones([at(5, 6000, 30), at(5, 17_900, 30)])).toBeNull();
    expect(radiusOfTones([])).toBeNull();
  });

  it('is none where both effects go together', () => {
    // ω²/V² the same in both: one cannot be told from the other
    expect(radiusOfTones([at(5, 6000, 30), at(5, 18_000, 90)])).toBeNull();
  });
});

it('a tone’s second harmonic tells the pinch by what its channels differ in, in quadrature', () => {
  const heard = { difference: { re: 1, im: 2 }, spread: 3, velocity: 4, omega: 5, speed: 6 } as SecondHarmonic;
  expect(pinchTone(heard)).toEqual({ q: 2, spread: 3, velocity: 4, omega: 5, speed: 6 });
});

describe('of a two-tone band', () => {
  const heard = (rho: number, k: number, ratio: number | undefined, velocity = 6.4, speed = 22): SolvedTwoTone =>
    ({
      band: { index: 4 },
      cut: ratio === undefined ? null : { ratio },
      speed,
      velocity,
      heard: { frequenciesHz: [400, 4000] },
      solution: { rho, rhoVariance: 4e-16, k },
    }) as unknown as SolvedTwoTone;

  it('is ρ · 2√2 V², the steepness of both tones put back; with the noise, the lower tone’s phase and the model', () => {
    for (const [rho, ratio, upper] of [
      [1e-6, 2, 3.2],
      [-1e-6, undefined, 1.6],
    ] as const) {
      const steep = (3 / 16) * ((6.4 ** 2 + upper ** 2) / 22 ** 2);
      const scale = (ROOT8 * 22 ** 2 * 1e4) / (1 - steep);
      const k = -2e-3;
      expect(radiusOfTwoTone(heard(rho, k, ratio))).toEqual({
        um: expect.closeTo(rho * scale, 9),
        own: expect.closeTo(2e-8 * scale, 9),
        spread: expect.closeTo(
          Math.hypot(2e-8 * scale, (0.03 * scale * 2e-3) / (2 * 2 * Math.PI * 400), 0.035 * rho * scale),
          9,
        ),
        way: 'two-tone',
        bands: [4],
      });
    }
  });

  it('a groove too steep for it counts as one fifth', () => {
    const { um } = radiusOfTwoTone(heard(1e-6, 0, 4, 30, 20));
    expect(um).toBeCloseTo((1e-6 * ROOT8 * 400 * 1e4) / 0.8, 9);
  });
});

describe('absolute polarity', () => {
  const radius = (um: number, spread: number, ...bands: number[]): HeardRadius => ({
    um,
    own: spread,
    spread,
    way: 'tones',
    bands,
  });

  it('is the surest radius’s sign, with the bands of all that are sure', () => {
    const [a, b, c] = [radius(12, 2, 1, 2), radius(15, 1, 3), radius(-2.9, 1, 4)];
    expect(absolutePolarityOf([a, b, c])).toEqual({ found: true, sign: 1, radius: b, bands: [1, 2, 3] });
    expect(absolutePolarityOf([b, a])).toMatchObject({ radius: b, bands: [3, 1, 2] });
    const over = radius(-15, 1, 3);
    expect(absolutePolarityOf([over])).toEqual({ found: true, sign: -1, radius: over, bands: [3] });
    const twin = radius(14, 1, 9);
    expect(absolutePolarityOf([twin, b])).toMatchObject({ radius: b });
  });

  it('is sure beyond three spreads, and beyond 2 µm', () => {
    const found = (um: number, spread: number): boolean => absolutePolarityOf([radius(um, spread)]).found;
    expect([found(3, 1), found(3.01, 1), found(-3.01, 1)]).toEqual([false, true, true]);
    expect([found(2, 0.1), found(2.01, 0.1)]).toEqual([false, true]);
    expect(absolutePolarityOf([])).toEqual({ found: false, why: 'pinch-weak' });
    expect(absolutePolarityOf([radius(9, 1), radius(9, 1), radius(-9, 1)])).toEqual({
      found: false,
      why: 'pinch-disagrees',
    });
  });
});
