import { describe, expect, it } from 'vitest';
import { WelchSpectrum } from './spectra.ts';

const sampleRateHz = 48_000;

describe('WelchSpectrum', () => {
  it('reads the rms of a tone, and the phase of left over right', () => {
    const n = 16_384;
    const f = (sampleRateHz / 1024) * 40;
    const left = Float64Array.from({ length: n }, (_, i) => 0.5 * Math.cos((2 * Math.PI * f * i) / sampleRateHz));
    const right = left.map((_, i) => 0.25 * Math.cos((2 * Math.PI * f * i) / sampleRateHz - 1));
    const welch = new WelchSpectrum(sampleRateHz, 1024);
    for (let at = 0; at < n; at += 1000) welch.push(left.slice(at, at + 1000), right.slice(at, at + 1000));
    const s = welch.spectrum();
    expect(s.segments).toBe(31);
    expect(s.leftDensity[40] * s.lineBandwidthHz).toBeCloseTo(0.5 ** 2 / 2, 10);
    expect(s.rightDensity[40] * s.lineBandwidthHz).toBeCloseTo(0.25 ** 2 / 2, 10);
    expect(Math.atan2(s.crossDensityIm[40], s.crossDensityRe[40])).toBeCloseTo(1, 8);
  });

  it('keeps the power of noise: Σ density · binHz is the mean square', () => {
    let s = 1;
    const draw = (): number => {
      s = (Math.imul(s, 1664525) + 1013904223) >>> 0;
      return s / 2 ** 31 - 1;
    };
    const left = Float64Array.from({ length: 200_000 }, draw);
    const right = Float64Array.from({ length: 200_000 }, draw);
    const welch = new WelchSpectrum(sampleRateHz, 512, 'blackman-harris-periodic');
    welch.push(left, right);
    const { leftDensity, binHz } = welch.spectrum();
    const total = leftDensity.reduce((a, b) => a + b, 0) * binHz;
    expect(total * 3).toBeGreaterThan(0.98);
    expect(total * 3).toBeLessThan(1.02);
  });

  it('gives zeros, never NaN, before one whole segment', () => {
    const welch = new WelchSpectrum(sampleRateHz, 256);
    welch.push(new Float64Array(100), new Float64Array(100));
    const s = welch.spectrum();
    expect(s.segments).toBe(0);
    expect(s.leftDensity.every((v) => v === 0)).toBe(true);
    expect(() => welch.push(new Float64Array(4), new Float64Array(4), 5)).toThrow('frames 5');
  });
});
