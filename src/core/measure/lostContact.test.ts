import { expect, it } from 'vitest';
import { limitOverTone, RINGS_HZ, ringLine, tracedHarmonics } from './lostContact.ts';

it('the lag of a tip is its missing acceleration over the time in which it is missing', () => {
  // a sum of its own: share 0.02 of a − a_limit over the stretch in which cos θ > cos φ
  const phi = 0.7;
  let lag = 0;
  for (let i = 0; i < 100_000; i++)
    lag += (0.02 * (Math.cos(-phi + (2 * phi * (i + 0.5)) / 1e5) - Math.cos(phi)) * 2 * phi) / 1e5;
  expect(limitOverTone(lag)).toBeCloseTo(Math.cos(phi), 6);
  expect(limitOverTone(0)).toBeCloseTo(1, 6);
  expect(limitOverTone(0.05)).toBe(0);
});

it('lines of a ring are its transform once a period', () => {
  const [ring, tone, hz] = [8000, 300, 8400];
  let [re, im] = [0, 0];
  const step = 1e-7;
  for (let i = 0; i < 20_000; i++) {
    const t = (i + 0.5) * step;
    const value = Math.exp((-2 * Math.PI * ring * t) / 4) * Math.cos(2 * Math.PI * ring * t);
    re += value * Math.cos(2 * Math.PI * hz * t) * step;
    im += value * Math.sin(2 * Math.PI * hz * t) * step;
  }
  expect(ringLine(ring, tone, hz) / (tone * Math.hypot(re, im))).toBeCloseTo(1, 3);
});

it('what the roundest tip traces is what a ball that rolls on a sine does', () => {
  const [hz, wall, groove] = [1000, 12, 30];
  const w = 2 * Math.PI * hz;
  const n = 65_536;
  // contact at s, centre at s − R sin ϑ, moving as steep as the wall there: velocities over places of the centre, taken apart
  const heard = Array.from({ length: n }, (_, i) => {
    const s = (i / n) * (groove / hz);
    const slope = (wall / groove) * Math.cos((w * s) / groove);
    return { at: s - 19e-4 * Math.sin(Math.atan(slope)), slope };
  });
  const line = (order: number): number => {
    let [re, im] = [0, 0];
    for (let i = 0; i < n; i++) {
      const next = heard[(i + 1) % n];
      const width = next.at - heard[i].at + (i === n - 1 ? groove / hz : 0);
      const [place, middle] = [(w * (heard[i].at + width / 2)) / groove, (heard[i].slope + next.slope) / 2];
      re += middle * Math.cos(order * place) * width;
      im += middle * Math.sin(order * place) * width;
    }
    return Math.hypot(re, im);
  };
  const traced = tracedHarmonics(hz, wall, groove);
  for (const order of [2, 3, 5, 8]) {
    // the sum over straight pieces is good to 1e-8
    expect(Math.abs(line(order) / line(1) - traced(order)), `order ${order}`).toBeLessThan(0.01 * traced(order) + 1e-8);
  }
  expect(tracedHarmonics(hz, wall, 10)(8)).toBe(0.25);
});

it.each([
  [RINGS_HZ[0], 300, 4200],
  [RINGS_HZ[2], 1000, 3000],
  [RINGS_HZ[4], 315, 14_800],
])(
  'a ring of %i Hz once a period of %i Hz: its Laplace transform at iω, (s + a)/((s + a)² + ω₀²), at %i Hz',
  (ring, tone, hz) => {
    const [w, w0] = [2 * Math.PI * hz, 2 * Math.PI * ring];
    const a = w0 / 4;
    // |iω + a| over the distances to both poles, −a ± iω₀
    const poles = Math.hypot(a, w - w0) * Math.hypot(a, w + w0);
    expect(ringLine(ring, tone, hz)).toBeCloseTo((tone * Math.hypot(a, w)) / poles, 12);
  },
);

it('a tone that hardly bends the wall is traced as it is: harmonics fall to nothing, beyond the fortieth there is none', () => {
  const traced = tracedHarmonics(300, 2, 50);
  expect(traced(1)).toBe(1);
  expect(traced(2)).toBeLessThan(0.02);
  expect(traced(40)).toBeGreaterThanOrEqual(0);
  expect(traced(41)).toBe(0);
  // second order of a small slope: k R v/V times half of it
  const steep = 2 / 50;
  const k = (2 * Math.PI * 300) / 50;
  expect(traced(2) / ((k * 19e-4 * steep) / 2)).toBeCloseTo(1, 2);
});

it('a wall bent so far that the ball nearly bridges it may put out any harmonic, 2/k of it', () => {
  // step of the centre where the wall is bent most: 1 − R k v/V
  const grooveAt = (step: number): number => Math.sqrt((19e-4 * 2 * Math.PI * 1000 * 10) / (1 - step));
  const over = tracedHarmonics(1000, 10, grooveAt(0.19));
  expect([2, 5, 50].map(over)).toEqual([1, 0.4, 0.04]);
  expect(tracedHarmonics(1000, 10, grooveAt(0.21))(50)).toBe(0);
});
