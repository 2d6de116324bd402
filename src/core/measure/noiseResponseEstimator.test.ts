import { describe, expect, it } from 'vitest';
import { gaussian } from '../signal/gaussian.fixture.ts';
import { OctaveChain } from '../signal/octaveChain.ts';
import { WelchSpectrum } from '../signal/spectra.ts';
import type { Passage, SideKnown } from './bandEstimator.ts';
import { noiseResponseKind } from './noiseResponseEstimator.ts';
import type { SweepPoint } from './sweepEstimator.ts';

function noise(frames: number): { left: Float64Array; right: Float64Array } {
  const draw = gaussian(17);
  const left = Float64Array.from({ length: frames }, () => 0.1 * draw());
  // half as loud, two frames later, and a little of its own
  const right = Float64Array.from({ length: frames }, (_, n) => (n < 2 ? 0 : 0.5 * left[n - 2]) + 0.01 * draw());
  return { left, right };
}
function read(rate: number, { left, right }: { left: Float64Array; right: Float64Array }): readonly SweepPoint[] {
  const estimator = noiseResponseKind.begin(rate, {});
  for (let from = 0; from < left.length; from += 20_000) {
    const to = Math.min(left.length, from + 20_000);
    estimator.push({
      startFrame: from,
      frames: to - from,
      left: left.subarray(from, to),
      right: right.subarray(from, to),
    });
  }
  const points = estimator.result();
  estimator.end();
  return points;
}

/** Every third of an octave out of the two spectra, bin by bin with the share of it that lies inside. */
function plain(rate: number, { left, right }: { left: Float64Array; right: Float64Array }): SweepPoint[] {
  const levels = Math.max(1, 1 + Math.floor(Math.log2(rate / 2800)));
  const high = new WelchSpectrum(rate, 8192);
  const low = new WelchSpectrum(rate / 2 ** (levels - 1), 4096);
  const chain = new OctaveChain(rate, levels, (level, l, r, count) => {
    if (level === 0) high.push(l, r, count);
    if (level === levels - 1) low.push(l, r, count);
  });
  chain.push(left, right, left.length);
  chain.end();
  const [wide, fine] = [high.spectrum(), low.spectrum()];
  const points: SweepPoint[] = [];
  for (let k = -17; k <= 13; k++) {
    const hz = 1000 * 2 ** (k / 3);
    if (hz < 19.6 || hz > 20_400 || hz > 0.4 * rate) continue;
    const of = hz < (0.37 * fine.sampleRateHz) / 2 ** (1 / 6) ? fine : wide;
    const [from, to] = [hz / 2 ** (1 / 6), hz * 2 ** (1 / 6)];
    if ((to - from) / of.binHz < 6) continue;
    const sum = (density: Float64Array): number =>
      density.reduce((all, v, bin) => {
        const inside = Math.min((bin + 0.5) * of.binHz, to) - Math.max((bin - 0.5) * of.binHz, from);
        return all + 2 * v * Math.max(0, inside);
      }, 0);
    points.push({
      hz,
      left: sum(of.leftDensity),
      right: sum(of.rightDensity),
      re: sum(of.crossDensityRe),
      im: -sum(of.crossDensityIm),
      spreadDb: 4.34 / Math.sqrt((to - from) * (left.length / rate) * 0.9),
      noise: 0,
      spectra: 1,
    });
  }
  return points;
}

describe('level and phase of noise in thirds of an octave', () => {
  it.each([
    [8000, 40_000],
    [48_000, 110_000],
  ])('at %i Hz', (rate, frames) => {
    const heard = noise(frames);
    const [points, wanted] = [read(rate, heard), plain(rate, heard)];
    expect(points.map(({ hz }) => hz)).toEqual(wanted.map(({ hz }) => hz));
    expect(points.length).toBeGreaterThan(18);
    points.forEach((point, i) => {
      for (const key of ['left', 'right', 're', 'im', 'spreadDb'] as const)
        expect(point[key] / wanted[i][key]).toBeCloseTo(1, 9);
      expect([point.noise, point.spectra]).toEqual([0, 1]);
      // the right is half as loud, and late: its phase against left is negative
      expect(point.right / point.left).toBeCloseTo(0.26, 1);
      const phase = Math.atan2(point.im, point.re);
      const late = (-2 * Math.PI * point.hz * 2) / rate;
      expect(Math.abs(Math.atan2(Math.sin(phase - late), Math.cos(phase - late)))).toBeLessThan(0.15);
    });
  });

  it('too short, or silent, tells nothing', () => {
    // four of the coarse spectra need two and a half lengths, two of the fine ones one and a half
    expect(read(8000, noise(8192 * 2))).toEqual([]);
    expect(read(8000, noise(8192 * 2.5)).length).toBeGreaterThan(0);
    expect(read(48_000, noise(8192 * 10))).toEqual([]);
    const still = { left: new Float64Array(40_000), right: new Float64Array(40_000) };
    expect(read(8000, still)).toEqual([]);
  });
});

it('noise of four seconds or more, at 8 kHz or more', () => {
  const asked = (signal: Passage['signal'], lengthS: number, sampleRateHz: number) =>
    noiseResponseKind.settings({ signal, startS: 1, endS: 1 + lengthS, band: null }, { sampleRateHz } as SideKnown);
  expect(asked('noise', 4, 8000)).toEqual({});
  expect(asked('noise', 3.99, 8000)).toBeNull();
  expect(asked('noise', 4, 7999)).toBeNull();
  expect(asked('sweep', 4, 8000)).toBeNull();
});
