/** The whole of a wow-and-flutter figure against the same formulas written out, a transform for each thing. */
import { describe, expect, it } from 'vitest';
import { ComplexFft } from '../signal/fft.ts';
import { gaussian } from '../signal/gaussian.fixture.ts';
import { quasiPeak } from '../signal/quasiPeak.ts';
import { quantile } from '../signal/robust.ts';
import { transformSize } from '../signal/sharedFft.ts';
import { atOnce } from '../signal/steps.ts';
import { FlutterAnalysis } from './flutter.ts';
import { spreadOfMean, spreadOfWeighting, spreadOverTurns } from './flutterSpread.ts';
import { addLines, mirrored, smoothed } from './flutterTrace.ts';
import { unweightedGain, weightedGain, weightingDoubt } from './flutterWeighting.ts';
import { slowLinesInSteps } from './slowLines.ts';
import { thinned } from './thinTrace.ts';
import type { SpeedTrace } from './toneSegment.ts';

function trace(rateHz: number, lengthS: number, swing: number, noise: number, meanHz = 3150): SpeedTrace {
  const draw = gaussian(5);
  const length = Math.round(rateHz * lengthS);
  const phase = Float64Array.from({ length: length + 1 }, () => noise * draw());
  const deviation = Float64Array.from({ length }, (_, n) => {
    const t = n / rateHz;
    const own =
      swing *
      (Math.cos(2 * Math.PI * 0.56 * t) + 0.4 * Math.sin(2 * Math.PI * 7.3 * t) + 0.3 * Math.cos(2 * Math.PI * 19 * t));
    return own + ((phase[n + 1] - phase[n]) * rateHz) / (2 * Math.PI * meanHz);
  });
  return {
    rateHz,
    startS: 3,
    meanHz,
    deviation,
    level: Float64Array.from({ length }, () => noise * draw()),
    goodShare: 1,
  };
}

function transform(x: Float64Array): { re: Float64Array; im: Float64Array } {
  const [re, im] = [x.slice(), new Float64Array(x.length)];
  new ComplexFft(x.length).forward(re, im);
  return { re: re.slice(0, x.length / 2 + 1), im: im.slice(0, x.length / 2 + 1) };
}

function plain(of: SpeedTrace) {
  const { deviation, level, rateHz, meanHz } = of;
  const { length } = deviation;
  const size = transformSize(2 * length);
  const lead = Math.floor((size - length) / 2);
  const lines = atOnce(slowLinesInSteps(thinned(of)));
  const rest = deviation.slice();
  addLines(rest, lines, rateHz, () => -1);
  const y = transform(mirrored(rest, size, lead));
  const n = transform(mirrored(level, size, lead));
  const perPhase = (k: number): number => (rateHz / (Math.PI * meanHz)) * Math.sin((Math.PI * k) / size);
  const heard = y.re.map((v, k) => (k === 0 ? 0 : v ** 2 + y.im[k] ** 2));
  const noise = n.re.map((v, k) => (k === 0 ? 0 : (v ** 2 + n.im[k] ** 2) * perPhase(k) ** 2));
  const least = Math.ceil((5 * size) / length);
  const [smoothHeard, smoothNoise] = [smoothed(heard, least), smoothed(noise, least)];
  const figure = (gain: (hz: number) => number) => {
    const weight = (k: number): number =>
      (gain((k * rateHz) / size) * ((Math.PI * k) / size)) / Math.sin((Math.PI * k) / size);
    const doubt = (k: number): number =>
      (weightingDoubt((k * rateHz) / size) * ((Math.PI * k) / size)) / Math.sin((Math.PI * k) / size);
    const sums = { heard: 0, noise: 0, kept: 0, doubted: 0, variance: 0 };
    const gains = new Float64Array(size / 2);
    for (let k = 1; k < size / 2; k++) {
      const w2 = weight(k) ** 2;
      const clean = Math.max(0, smoothHeard[k] - smoothNoise[k]);
      if (w2 === 0) continue;
      gains[k] = Math.sqrt((w2 * clean) / smoothHeard[k]);
      sums.heard += heard[k] * w2;
      sums.noise += noise[k] * w2;
      sums.kept += heard[k] * gains[k] ** 2;
      sums.doubted += clean * w2 * doubt(k);
      sums.variance += 4 * (smoothNoise[k] ** 2 + clean * smoothNoise[k]) * w2 ** 2;
    }
    const square = 2 / size ** 2;
    const clean = Math.max(0, sums.heard - sums.noise) * square;
    const scale = Math.sqrt(Math.min(1, clean / (sums.kept * square)));
    const [re, im] = [new Float64Array(size), new Float64Array(size)];
    for (let k = 1; k < size / 2; k++) {
      re[k] = 2 * scale * gains[k] * y.re[k];
      im[k] = 2 * scale * gains[k] * y.im[k];
    }
    // the real part of what holds the positive frequencies twice
    new ComplexFft(size).inverse(re, im);
    const back = re.slice(lead, lead + length);
    addLines(back, lines, rateHz, gain);
    let linePower = 0;
    let doubted = sums.doubted * square;
    for (const { hz, cos, sin } of lines) {
      const own = (gain(hz) ** 2 * (cos ** 2 + sin ** 2)) / 2;
      linePower += own;
      doubted += own * weightingDoubt(hz);
    }
    const power = clean + linePower;
    const sizes = back.map(Math.abs);
    const peak2Sigma = quantile(sizes, 0.95);
    const spreadOfClean = square * Math.sqrt((sums.variance * size) / (2 * length));
    const crest = Math.max(1, peak2Sigma / Math.sqrt(power));
    const ofNoise = 0.7 * crest * (Math.sqrt(power + 2 * spreadOfClean) - Math.sqrt(power));
    const rest_ =
      gain === weightedGain
        ? peak2Sigma * spreadOfWeighting(doubted / power)
        : spreadOfMean(lines, gain, length / rateHz);
    return {
      back,
      figure: {
        peak2Sigma,
        quasiPeak: Math.max(...quasiPeak(back, rateHz)),
        spread: Math.hypot(ofNoise, spreadOverTurns(sizes, peak2Sigma, rateHz, lines), rest_),
        noiseShare: Math.min(1, (sums.noise * square) / (sums.heard * square + linePower)),
      },
    };
  };
  return { lines, size, smoothNoise, weighted: figure(weightedGain), unweighted: figure(unweightedGain) };
}

const close = (value: number, wanted: number, what: string): void =>
  expect(Math.abs(value / wanted - 1), `${what}: ${value} for ${wanted}`).toBeLessThan(1e-6);

describe('wow and flutter, written out', () => {
  it.each([
    ['a quiet tone', trace(512, 8.3, 1e-3, 1e-4)],
    ['a noisy one', trace(700, 5.3, 2e-4, 0.02)],
    ['one of a few turns', trace(600, 4.1, 1e-3, 0.003, 1000)],
    ['one that is read at 510 values a second, for a second', trace(510, 1.21, 4e-4, 0.002, 3000)],
  ])('%s', (_, of) => {
    const wanted = plain(of);
    const { weighted, unweighted, weightedTrace } = FlutterAnalysis.of(of).figures();
    for (const key of ['peak2Sigma', 'quasiPeak', 'spread', 'noiseShare'] as const) {
      close(weighted[key], wanted.weighted.figure[key], `weighted ${key}`);
      close(unweighted[key], wanted.unweighted.figure[key], `unweighted ${key}`);
    }
    const step = Math.max(1, Math.floor(of.rateHz / 250));
    expect(weightedTrace.rateHz).toBe(of.rateHz / step);
    expect(weightedTrace.startS).toBe(3);
    expect(weightedTrace.deviation).toHaveLength(Math.ceil(of.deviation.length / step));
    const peak = wanted.weighted.figure.peak2Sigma;
    weightedTrace.deviation.forEach((v, n) => {
      expect(Math.abs(v - wanted.weighted.back[n * step])).toBeLessThan(1e-6 * peak);
    });
  });

  it('the spectrum to look at: densities of what is heard, lines and all, and of the noise in it', () => {
    const of = trace(512, 4.3, 2e-4, 0.02);
    const { size, smoothNoise } = plain(of);
    const { binHz, heard, noise } = FlutterAnalysis.of(of).spectrum();
    const y = transform(mirrored(of.deviation, size, Math.floor((size - of.deviation.length) / 2)));
    expect(binHz).toBeCloseTo(512 / size, 12);
    expect(heard).toHaveLength(size / 2 + 1);
    for (let k = 1; k <= size / 2; k += 7) {
      close(heard[k], ((y.re[k] ** 2 + y.im[k] ** 2) * 2) / (size * 512), `heard at ${k}`);
      close(noise[k], (smoothNoise[k] * 2) / (size * 512), `noise at ${k}`);
    }
  });

  it('no deviation at all is nothing, without a share of noise', () => {
    const still = { ...trace(512, 4, 0, 0), level: new Float64Array(2048), deviation: new Float64Array(2048) };
    const { weighted, unweighted } = FlutterAnalysis.of(still).figures();
    for (const of of [weighted, unweighted])
      expect(of).toEqual({ peak2Sigma: 0, quasiPeak: 0, spread: 0, noiseShare: 0 });
  });

  it('at least 64 values', () => {
    const short = (length: number): SpeedTrace => ({
      ...trace(100, 1, 1e-3, 1e-3),
      deviation: new Float64Array(length),
      level: new Float64Array(length),
    });
    expect(() => FlutterAnalysis.of(short(63))).toThrow('deviation holds 63 samples, at least 64 needed');
    expect(() => FlutterAnalysis.of(short(64))).not.toThrow();
  });
});
