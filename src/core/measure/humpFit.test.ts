/** Spectra written down in closed form, with the chance of averaged periodograms put on them. */
import { expect, it } from 'vitest';
import { bodyItself, fitHump, type HumpPoint, tipAgainstBody } from './humpFit.ts';

/** Deterministic, (0, 1). */
function draws(seed: number): () => number {
  let s = seed * 2_654_435_761;
  return () => {
    s = (Math.imul(s, 1_664_525) + 1_013_904_223) >>> 0;
    return (s + 0.5) / 2 ** 32;
  };
}

/** |H|² and |1 − H|² of s²/(s² + sω₀/Q + ω₀²), written out. */
const tip = (f: number, f0: number, q: number): number => f ** 4 / ((f0 ** 2 - f ** 2) ** 2 + ((f * f0) / q) ** 2);
const body = (f: number, f0: number, q: number): number =>
  (f0 ** 4 + ((f * f0) / q) ** 2) / ((f0 ** 2 - f ** 2) ** 2 + ((f * f0) / q) ** 2);

const BIN = 0.25;
/** The mean of `averages` exponential powers, bin by bin. */
function points(density: (f: number) => number, averages: number, seed: number): HumpPoint[] {
  const draw = draws(seed);
  return Array.from({ length: 160 }, (_, k) => {
    const hz = (k + 6) * BIN;
    let sum = 0;
    for (let i = 0; i < averages; i++) sum -= Math.log(draw());
    return { hz, power: (density(hz) * sum) / averages, spread: (m) => m / Math.sqrt(averages) };
  });
}

it.each([
  ['tip', tip, tipAgainstBody],
  ['body', body, bodyItself],
] as const)('%s: f₀ and Q over many draws, whatever one power of the frequency drives it', (_, shape, kernel) => {
  let [inside, told] = [0, 0];
  let bias = 0;
  for (let seed = 1; seed <= 24; seed++) {
    const draw = draws(seed + 500);
    const [f0, q, fall] = [6 + 8 * draw(), 1.8 + 4 * draw(), 3 * draw()];
    const hump = fitHump(
      points((f) => 1e-9 * f ** -fall * shape(f, f0, q), 24, seed),
      BIN,
      kernel,
    );
    if (hump === null) continue;
    told += 1;
    bias += Math.log(hump.hz / f0);
    if (Math.abs(hump.hz / f0 - 1) < 2 * hump.hzSpread && Math.abs(hump.q / q - 1) < 2 * hump.qSpread + 0.05)
      inside += 1;
  }
  expect(told).toBeGreaterThanOrEqual(18);
  expect(inside / told).toBeGreaterThanOrEqual(0.8);
  expect(Math.abs(bias / told)).toBeLessThan(0.02);
});

it('a smooth rise and fall is no resonance', () => {
  for (let seed = 1; seed <= 12; seed++) {
    const draw = draws(seed + 900);
    const [corner, fall] = [5 + 15 * draw(), 1 + 3 * draw()];
    const smooth = (f: number): number => 1 / (1 + (5 / f) ** 2) / (1 + (f / corner) ** fall);
    for (const kernel of [tipAgainstBody, bodyItself]) {
      expect(fitHump(points(smooth, 24, seed), BIN, kernel), `seed ${seed}`).toBeNull();
    }
  }
});
