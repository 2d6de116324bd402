/**
 * Against a plain evaluation of the same posterior: for each δ the least squares of E and W under their priors, by Cramer's rule
 * on complex numbers written out here, over the same grid.
 */
import { describe, expect, it } from 'vitest';
import type { Complex } from '../units/complex.ts';
import { type ArmGeometry, armPhase } from './armPhase.ts';
import { type BandPhasor, fitHole, type HolePriors } from './holeFit.ts';

const mul = (a: Complex, b: Complex): Complex => ({ re: a.re * b.re - a.im * b.im, im: a.re * b.im + a.im * b.re });
const add = (a: Complex, b: Complex): Complex => ({ re: a.re + b.re, im: a.im + b.im });
const by = (a: Complex, k: number): Complex => ({ re: a.re * k, im: a.im * k });
const conj = (a: Complex): Complex => ({ re: a.re, im: -a.im });
const sq = (a: Complex): number => a.re ** 2 + a.im ** 2;
const polar = (size: number, angle: number): Complex => ({ re: size * Math.cos(angle), im: size * Math.sin(angle) });
const ZERO = { re: 0, im: 0 };

const ARM = { spindleToPivot: 222, effectiveLength: 239.3 };
const HOLE = polar(0.3, 0.7);
const PLATTER = polar(4e-4, -1.1);

function band(
  radiusMm: number,
  middleS: number,
  more: Partial<BandPhasor> & { delta?: number; arm_?: ArmGeometry } = {},
): BandPhasor {
  const arm = armPhase(more.arm_ ?? ARM, radiusMm);
  if (arm === null) throw new Error('out of reach');
  const p = mul(add(mul(arm.hole, HOLE), PLATTER), polar(1, (more.delta ?? 0) * middleS));
  return { re: p.re, im: p.im, variance: 1e-10, middleS, turning: 0, turningVariance: 1e-4, arm, radiusMm, ...more };
}
const priors = (more: Partial<HolePriors> = {}): HolePriors => ({
  hole: 0.4,
  platter: 5e-4,
  rotation: { mean: 0, spread: 1e-3 },
  radius: 0.5,
  ...more,
});

function plain(bands: readonly BandPhasor[], held: HolePriors, holeSize: number | null) {
  const w = bands.map(
    (b) => 1 / (b.variance + (holeSize === null ? 0 : ((holeSize * held.radius) / b.radiusMm ** 2) ** 2) + 1e-16),
  );
  const total = bands.reduce((s, b) => s + 1 / b.variance, 0);
  const centre = bands.reduce((s, b) => s + b.middleS / b.variance, 0) / total;
  const h = bands.map((b) => b.arm.hole);
  const a = h.reduce((s, v, i) => s + w[i] * sq(v), 0) + 1 / held.hole ** 2;
  const d = w.reduce((s, v) => s + v, 0) + 1 / held.platter ** 2;
  const b = h.reduce((s, v, i) => add(s, by(conj(v), w[i])), ZERO);
  const det = a * d - sq(b);
  const solve = (y: readonly Complex[]) => {
    const u = y.reduce((s, v, i) => add(s, by(mul(conj(h[i]), v), w[i])), ZERO);
    const v = y.reduce((s, one, i) => add(s, by(one, w[i])), ZERO);
    return {
      hole: by(add(by(u, d), by(mul(b, v), -1)), 1 / det),
      platter: by(add(by(v, a), by(mul(conj(b), u), -1)), 1 / det),
    };
  };
  const turnedBack = (delta: number) => bands.map((one) => mul(one, polar(1, -delta * (one.middleS - centre))));
  const left = (y: readonly Complex[], at: { hole: Complex; platter: Complex }) =>
    y.reduce((s, v, i) => s + w[i] * sq(add(v, by(add(mul(h[i], at.hole), at.platter), -1))), 0);
  const own = bands.reduce((s, one) => s + 1 / one.turningVariance, 0) + 1 / held.rotation.spread ** 2;
  const middle =
    (bands.reduce((s, one) => s + one.turning / one.turningVariance, 0) +
      held.rotation.mean / held.rotation.spread ** 2) /
    own;
  const at = (delta: number) => {
    const y = turnedBack(delta);
    const one = solve(y);
    const misfit =
      left(y, one) +
      sq(one.hole) / held.hole ** 2 +
      sq(one.platter) / held.platter ** 2 +
      bands.reduce((s, of) => s + (delta - of.turning) ** 2 / of.turningVariance, 0) +
      ((delta - held.rotation.mean) / held.rotation.spread) ** 2;
    return { ...one, delta, misfit };
  };
  const grid = (about: number, wide: number, steps: number) =>
    Array.from({ length: steps + 1 }, (_, k) => at(about + wide * ((2 * k) / steps - 1)));
  const least = (of: ReturnType<typeof grid>) => of.reduce((x, p) => (p.misfit < x.misfit ? p : x));
  const wide = 4 / Math.sqrt(own);
  const apartS = Math.max(1, ...bands.map((one) => Math.abs(one.middleS - centre)));
  // 0.05 rad of the band furthest away a step, 400 steps at least
  const steps = Math.max(400, Math.ceil((wide * apartS) / 0.05));
  const coarse = grid(middle, wide, steps);
  const bestOfCoarse = least(coarse);
  // fewer than 24 points within 3 σ of the best: once more, three steps to either side
  const isSharp = coarse.filter(({ misfit }) => misfit < bestOfCoarse.misfit + 9).length < 24;
  const points = isSharp ? grid(bestOfCoarse.delta, (3 * wide) / steps, 400) : coarse;
  const best = least(points);
  const weight = points.map((p) => Math.exp(-(p.misfit - best.misfit) / 2));
  const sum = weight.reduce((s, v) => s + v, 0);
  const mean = (of: (p: (typeof points)[number]) => number) =>
    points.reduce((s, p, i) => s + weight[i] * of(p), 0) / sum;
  const excess = bands.length > 2 ? Math.max(1, left(turnedBack(best.delta), best) / (2 * bands.length - 4)) : 1;
  const noise = { hole: 0, platter: 0 };
  bands.forEach((one, i) => {
    const gain = solve(bands.map((_, k) => ({ re: k === i ? 1 : 0, im: 0 })));
    noise.hole += sq(gain.hole) * one.variance;
    noise.platter += sq(gain.platter) * one.variance;
  });
  const estimate = (of: 'hole' | 'platter', variance: number) => {
    const rms = Math.sqrt(mean((p) => sq(p[of])));
    const wander = mean((p) => (Math.sqrt(sq(p[of])) - rms) ** 2);
    return {
      size: Math.sqrt(Math.max(0, rms ** 2 - variance)),
      spread: Math.sqrt(variance + wander),
      signal: Math.sqrt(noise[of] * excess + wander),
    };
  };
  const rim = Math.max(...bands.map((one) => one.radiusMm));
  const even = solve(bands.map((one) => one.arm.warp));
  const outward = solve(bands.map((one) => by(one.arm.warp, one.radiusMm / rim)));
  const bearing = (p: { hole: Complex; delta: number }) => -Math.atan2(p.hole.im, p.hole.re) + p.delta * centre;
  const round = (v: number) => v - 2 * Math.PI * Math.round(v / (2 * Math.PI));
  return {
    hole: estimate('hole', (d / det) * excess),
    platter: estimate('platter', (a / det) * excess),
    bearing: round(bearing(best)),
    bearingSpread: Math.sqrt(
      ((d / det) * excess) / Math.max(sq(best.hole), 1e-18) + mean((p) => round(bearing(p) - bearing(best)) ** 2),
    ),
    misfit: best.misfit,
    ofWarp: {
      hole: Math.sqrt(Math.max(sq(even.hole), sq(outward.hole))),
      platter: Math.sqrt((sq(even.platter) + sq(outward.platter)) / 3),
    },
    ofHole: bands.map((one, i) => {
      const part = (p: (typeof points)[number]) => mul(mul(h[i], p.hole), polar(1, p.delta * (one.middleS - centre)));
      const centreOf = { re: mean((p) => part(p).re), im: mean((p) => part(p).im) };
      const wander = mean((p) => sq(add(part(p), by(centreOf, -1)))) / 2;
      return { ...centreOf, variance: sq(h[i]) * (d / det) * excess + wander };
    }),
  };
}

function agrees(bands: readonly BandPhasor[], held: HolePriors): ReturnType<typeof fitHole> {
  const fit = fitHole(bands, held);
  const by_ = plain(bands, held, plain(bands, held, null).hole.size);
  const near = (value: number, wanted: number, what: string, share = 1e-8): void =>
    expect(Math.abs(value - wanted), `${what}: ${value} for ${wanted}`).toBeLessThan(share * Math.abs(wanted) + 1e-15);
  for (const part of ['hole', 'platter'] as const) {
    for (const of of ['size', 'spread', 'signal'] as const) near(fit[part][of], by_[part][of], `${part} ${of}`);
    near(fit.ofWarp[part], by_.ofWarp[part], `warp as ${part}`);
  }
  near(fit.bearing, by_.bearing, 'bearing');
  near(fit.bearingSpread, by_.bearingSpread, 'bearing spread');
  expect(fit.ofHole).toHaveLength(bands.length);
  fit.ofHole.forEach((one, i) => {
    near(one.re, by_.ofHole[i].re, `re of band ${i}`);
    near(one.im, by_.ofHole[i].im, `im of band ${i}`);
    near(one.variance, by_.ofHole[i].variance, `variance of band ${i}`);
  });
  return fit;
}

describe('hole and platter from the phasors of one recording', () => {
  it('two radii of a sure rotation tell both, and the bearing against the pivot', () => {
    const sure = priors({ hole: 4, platter: 5e-3, rotation: { mean: 0, spread: 1e-7 }, radius: 1e-6 });
    const fit = agrees([band(140, 20, { variance: 1e-14 }), band(70, 500, { variance: 1e-14 })], sure);
    expect(fit.hole.size).toBeCloseTo(0.3, 3);
    expect(fit.platter.size).toBeCloseTo(4e-4, 5);
    expect(fit.bearing).toBeCloseTo(-0.7, 3);
  });

  it('a rotation that is not certain widens what bands far apart in time say', () => {
    const bands = [band(140, 20), band(110, 300, { variance: 3e-10 }), band(70, 700, { variance: 2e-10 })];
    const fit = agrees(bands, priors());
    expect(fit.hole.spread).toBeGreaterThan(
      1.2 * agrees(bands, priors({ rotation: { mean: 0, spread: 1e-6 } })).hole.spread,
    );
  });

  it('a rotation off what was heard is found again: by the prior, by the bands’ own phases, by the phases between them', () => {
    for (const delta of [8e-4, -8e-4]) {
      const bands = [140, 110, 70].map((r, i) =>
        band(r, 20 + 150 * i, { delta, turning: 0.9 * delta, turningVariance: 1e-6 }),
      );
      const fit = agrees(bands, priors({ rotation: { mean: delta, spread: 2e-4 }, hole: 2 }));
      expect(fit.hole.size).toBeCloseTo(0.3, 1);
      agrees(bands, priors({ rotation: { mean: 0.5 * delta, spread: 1e-3 } }));
    }
  });

  it('phases between bands that are much sharper than all that was known: the finer grid', () => {
    const bands = [
      band(140, 0, { variance: 1e-13 }),
      band(120, 600, { variance: 1e-13 }),
      band(100, 900, { variance: 1e-13 }),
      band(60, 1300, { variance: 1e-13 }),
    ];
    const fit = agrees(bands, priors({ rotation: { mean: 0, spread: 2e-4 }, radius: 1e-4 }));
    expect(fit.platter.size).toBeCloseTo(4e-4, 5);
  });

  it('one band alone gives what the priors leave of it', () => {
    const fit = agrees([band(100, 40)], priors());
    expect(fit.platter.spread).toBeGreaterThan(3e-4);
    agrees([band(100, 40, { arm_: 'tangential' }), band(60, 80, { arm_: 'tangential' })], priors());
  });

  it('bands that scatter by more than they allow themselves make both parts less sure', () => {
    const bands = [140, 120, 100, 80, 60].map((r, i) => {
      const one = band(r, 20 + 60 * i, { variance: 1e-10 });
      return { ...one, re: one.re + (i % 2 === 0 ? 1e-4 : -1e-4), im: one.im + (i % 3 === 0 ? 1e-4 : 0) };
    });
    const fit = agrees(bands, priors({ radius: 0.01 }));
    const calm = agrees(
      bands.map((one) => ({ ...one, variance: 1e-8 })),
      priors({ radius: 0.01 }),
    );
    expect(fit.hole.spread).toBeGreaterThan(0.5 * calm.hole.spread);
  });

  it('a radius that is off moves a phasor by its share of the hole: the more, the less is known', () => {
    const bands = [band(140, 20), band(70, 60)];
    const of = (radius: number): number =>
      agrees(bands, priors({ radius, rotation: { mean: 0, spread: 1e-7 } })).platter.spread;
    expect(of(15)).toBeGreaterThan(of(0.5));
  });

  it('a hole of nothing has any bearing', () => {
    const none = [140, 70].map((r, i) => ({ ...band(r, 20 + 60 * i), re: 0, im: 0 }));
    const fit = agrees(none, priors());
    expect(fit.hole.size).toBe(0);
    expect(fit.platter.size).toBe(0);
    expect(fit.bearingSpread).toBeGreaterThan(1e6);
  });
});
