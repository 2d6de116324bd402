import { expect, it } from 'vitest';
import { gaussian } from '../signal/gaussian.fixture.ts';
import { atOnce, ofTheCaller } from '../signal/steps.ts';
import { flutterLinesInSteps } from './flutterLines.ts';
import type { SpeedTrace } from './toneSegment.ts';

const findFlutterLines = (trace: SpeedTrace) => atOnce(flutterLinesInSteps(trace, ofTheCaller));

const rateHz = 1000;
const meanHz = 3150;

/** As read from a tone whose phase holds the lines, noise added to it. */
function trace(lengthS: number, lines: readonly (readonly [number, number])[], noise: number, seed = 1): SpeedTrace {
  const draw = gaussian(seed);
  const length = Math.round(lengthS * rateHz);
  const phase = new Float64Array(length + 1);
  for (let n = 0; n <= length; n++) {
    const t = n / rateHz;
    for (const [hz, peak] of lines) phase[n] += ((peak * meanHz) / hz) * Math.sin(2 * Math.PI * hz * t + hz);
    phase[n] += noise * draw();
  }
  const deviation = Float64Array.from(
    { length },
    (_, n) => ((phase[n + 1] - phase[n]) * rateHz) / (2 * Math.PI * meanHz),
  );
  return { rateHz, startS: 0, meanHz, deviation, level: new Float64Array(length), goodShare: 1 };
}

it('finds lines with frequency and size anywhere from 0.5 to 190 Hz', () => {
  for (const hz of [0.61, 1.31, 4.17, 11.03, 33.3, 99.7, 190.2]) {
    const [line, ...others] = findFlutterLines(trace(20.3, [[hz, 2e-4]], 3e-4));
    expect(line.hz, `${hz} Hz`).toBeCloseTo(hz, 1);
    expect(Math.abs(line.hz - hz)).toBeLessThan(0.006 + 4 * line.hzSpread);
    expect(Math.abs(line.peak / 2e-4 - 1)).toBeLessThan(0.015);
    expect(others).toEqual([]);
  }
});

it('parts two lines and orders them by size; a weak one beside a strong one is its own', () => {
  const lines = findFlutterLines(
    trace(
      20,
      [
        [5, 1e-3],
        [6.3, 1e-4],
        [50, 3e-4],
      ],
      2e-4,
    ),
  );
  expect(lines.map(({ hz }) => Math.round(10 * hz) / 10)).toEqual([5, 50, 6.3]);
});

it('noise alone, flat or falling, gives next to no line, and holds its size within the uncertainty', () => {
  let false_ = 0;
  const errors: number[] = [];
  for (let seed = 1; seed <= 30; seed++) {
    false_ += findFlutterLines(trace(12, [], 6e-3, seed)).length;
    const [line] = findFlutterLines(trace(12, [[20, 2e-4]], 6e-3, seed + 100));
    errors.push((line.peak - 2e-4) / line.spread);
  }
  expect(false_).toBeLessThan(3);
  const rms = Math.sqrt(errors.reduce((sum, e) => sum + e * e, 0) / errors.length);
  expect(rms).toBeGreaterThan(0.6);
  expect(rms).toBeLessThan(1.4);
});

it('a line that no bench would look for is left out', () => {
  expect(findFlutterLines(trace(20, [[20, 8e-6]], 1e-6))).toEqual([]);
  expect(findFlutterLines(trace(20, [[20, 1.3e-5]], 1e-6))).toHaveLength(1);
});
