import { describe, expect, it } from 'vitest';
import { gaussian } from '../signal/gaussian.fixture.ts';
import { FlutterAnalysis } from './flutter.ts';
import { weightedGain } from './flutterWeighting.ts';
import type { SpeedTrace } from './toneSegment.ts';

const rateHz = 1000;
const meanHz = 3150;

/** Phase of a tone whose speed is a sum of sines, noise added to both quadratures; then the trace as it is read. */
function trace(
  lengthS: number,
  lines: readonly (readonly [number, number, number])[],
  noise: number,
  seed = 1,
): SpeedTrace {
  const draw = gaussian(seed);
  const length = Math.round(lengthS * rateHz);
  const phase = new Float64Array(length + 1);
  const level = new Float64Array(length);
  for (let n = 0; n <= length; n++) {
    const t = n / rateHz;
    for (const [hz, peak, at] of lines) phase[n] += ((peak * meanHz) / hz) * Math.sin(2 * Math.PI * hz * t + at);
    phase[n] += noise * draw();
    if (n < length) level[n] = noise * draw();
  }
  const deviation = Float64Array.from(
    { length },
    (_, n) => ((phase[n + 1] - phase[n]) * rateHz) / (2 * Math.PI * meanHz),
  );
  return { rateHz, startS: 0, meanHz, deviation, level, goodShare: 1 };
}

/** 2σ of a sine of peak 1: passed for 5 % of the time */
const SINE = Math.sin((Math.PI / 2) * 0.95);

describe('wow and flutter', () => {
  it('reads a sine anywhere from 0.5 to 190 Hz, weighted and not, within 1 %', () => {
    for (const hz of [0.5, 0.556, 1.3, 4, 11, 37, 90, 190]) {
      const { weighted, unweighted } = FlutterAnalysis.of(trace(10.3, [[hz, 1e-3, 1]], 0)).figures();
      expect(unweighted.peak2Sigma / (1e-3 * SINE)).toBeCloseTo(1, 2);
      expect(weighted.peak2Sigma / (1e-3 * SINE * weightedGain(hz))).toBeCloseTo(1, 2);
    }
  });

  it('is not misled by ends in mid-swing: once per turn at any phase reads alike', () => {
    for (let at = 0; at < 6.2; at += 0.7) {
      const { weighted } = FlutterAnalysis.of(trace(8.1, [[0.5556, 2e-3, at]], 0)).figures();
      expect(Math.abs(weighted.peak2Sigma / (2e-3 * SINE * weightedGain(0.5556)) - 1)).toBeLessThan(0.03);
    }
  });

  it('takes noise out: bias and spread over levels', () => {
    const lines = [
      [0.5556, 6e-4, 0.3],
      [5.3, 2e-4, 1],
      [40, 1e-4, 2],
    ] as const;
    const { unweighted: clean, weighted: cleanWeighted } = FlutterAnalysis.of(trace(12, lines, 0)).figures();
    const report: string[] = [];
    for (const noise of [0.001, 0.003, 0.01, 0.02]) {
      const errors: number[] = [];
      let held = 0;
      const runs = 12;
      let share = 0;
      for (let run = 0; run < runs; run++) {
        const { weighted, unweighted } = FlutterAnalysis.of(trace(12, lines, noise, 100 + run)).figures();
        errors.push(unweighted.peak2Sigma - clean.peak2Sigma);
        share = unweighted.noiseShare;
        if (Math.abs(unweighted.peak2Sigma - clean.peak2Sigma) < 2 * unweighted.spread) held += 1;
        expect(Math.abs(weighted.peak2Sigma / cleanWeighted.peak2Sigma - 1)).toBeLessThan(0.05);
      }
      const bias = errors.reduce((a, b) => a + b, 0) / runs;
      report.push(
        `noise ${(100 * share).toFixed(1)} % of the power: bias ${(100 * bias).toFixed(5)} %, inside k = 2 ${held} of ${runs}`,
      );
      expect(Math.abs(bias)).toBeLessThan(Math.max(3e-5, 0.05 * clean.peak2Sigma));
      expect(held).toBeGreaterThanOrEqual(runs - 1);
    }
    console.log(report.join('\n'));
  });

  it('finds next to nothing in noise alone', () => {
    const { unweighted } = FlutterAnalysis.of(trace(12, [], 0.005, 9)).figures();
    const unclean = (0.005 / 3150) * 200;
    expect(unweighted.peak2Sigma).toBeLessThan(0.35 * unclean);
    expect(unweighted.noiseShare).toBeGreaterThan(0.9);
  });
});
