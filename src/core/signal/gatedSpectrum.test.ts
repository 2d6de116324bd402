import { expect, it } from 'vitest';
import { GatedSpectrum } from './gatedSpectrum.ts';
import { gaussian } from './gaussian.fixture.ts';

const RATE = 48_000;

function noiseOf(seconds: number, clicksAtS: readonly number[]) {
  const draw = gaussian(3);
  const n = seconds * RATE;
  const left = Float64Array.from({ length: n }, () => 0.001 * draw());
  const right = Float64Array.from({ length: n }, () => 0.002 * draw());
  for (const at of clicksAtS) for (let i = 0; i < 5; i++) left[Math.round(at * RATE) + i] += 0.5;
  return { left, right };
}

const CLICKS = [0.5, 1.7, 1.9, 3.3];

it('means the noise and leaves out and counts the clicks, however the blocks are cut', () => {
  const { left, right } = noiseOf(4, CLICKS);
  const heard = [left.length, 1000, 4801].map((step) => {
    const spectrum = new GatedSpectrum(RATE, 2048, 1000);
    for (let at = 0; at < left.length; at += step) {
      const end = Math.min(left.length, at + step);
      spectrum.push(left.subarray(at, end), right.subarray(at, end), end - at);
    }
    return spectrum.spectra(2, 6);
  });
  const [whole] = heard;
  expect(heard[1]).toEqual(whole);
  expect(heard[2]).toEqual(whole);
  expect(whole.bursts).toBe(CLICKS.length);
  expect(whole.heard - whole.segments).toBeGreaterThanOrEqual(CLICKS.length);
  // Parseval: density over half the rate is the variance
  const variance = (d: Float64Array): number => d.reduce((sum, v) => sum + v, 0) * whole.binHz;
  expect(variance(whole.left) / 1e-6).toBeCloseTo(1, 1);
  expect(variance(whole.right) / 4e-6).toBeCloseTo(1, 1);
});

it('of silence and of nothing there is nothing to say', () => {
  const silent = new GatedSpectrum(RATE, 2048, 1000);
  expect(silent.spectra(2, 6)).toMatchObject({ segments: 0, heard: 0, bursts: 0 });
  silent.push(new Float64Array(10_000), new Float64Array(10_000), 10_000);
  const { left, bursts } = silent.spectra(2, 6);
  expect(left.every((v) => v === 0)).toBe(true);
  expect(bursts).toBe(0);
});
