/** Every line against the same search written out: no shortcut, medians of all neighbours. */
import { expect, it } from 'vitest';
import { ComplexFft } from '../signal/fft.ts';
import { gaussian } from '../signal/gaussian.fixture.ts';
import { transformSize } from '../signal/sharedFft.ts';
import { atOnce, ofTheCaller } from '../signal/steps.ts';
import { type FlutterLine, flutterLinesInSteps } from './flutterLines.ts';
import type { SpeedTrace } from './toneSegment.ts';

const find = (trace: SpeedTrace): FlutterLine[] => atOnce(flutterLinesInSteps(trace, ofTheCaller));

function traceOf(
  rateHz: number,
  lengthS: number,
  lines: readonly (readonly [hz: number, peak: number])[],
  noise: number,
  offset = 0,
): SpeedTrace {
  const draw = gaussian(21);
  const length = Math.round(rateHz * lengthS);
  const deviation = Float64Array.from({ length }, (_, n) => {
    const t = n / rateHz;
    return lines.reduce(
      (sum, [hz, peak], i) => sum + peak * Math.cos(2 * Math.PI * hz * t + i),
      offset + noise * draw(),
    );
  });
  return { rateHz, startS: 0, meanHz: 3150, deviation, level: new Float64Array(length), goodShare: 1 };
}

const middle = (values: readonly number[]): number => {
  const sorted = values.toSorted((a, b) => a - b);
  const half = sorted.length / 2;
  return sorted.length === 0 ? 0 : (sorted[Math.ceil(half) - 1] + sorted[Math.floor(half)]) / 2;
};

function plain({ deviation, rateHz }: SpeedTrace): FlutterLine[] {
  const { length } = deviation;
  const size = transformSize(2 * length);
  const mean = deviation.reduce((a, b) => a + b, 0) / length;
  const [re, im] = [new Float64Array(size), new Float64Array(size)];
  let sum = 0;
  for (let n = 0; n < length; n++) {
    const w = 0.5 - 0.5 * Math.cos((2 * Math.PI * n) / length);
    re[n] = (deviation[n] - mean) * w;
    sum += w;
  }
  new ComplexFft(size).forward(re, im);
  const power = Array.from({ length: size / 2 }, (_, k) => re[k] ** 2 + im[k] ** 2);
  const perBin = size / length;
  const found: FlutterLine[] = [];
  for (let k = 2; k < size / 2 - 1; k++) {
    const hzOfBin = (k * rateHz) / size;
    if (k < 2.5 * perBin || hzOfBin < 0.25 || hzOfBin > 200 || hzOfBin > 0.4 * rateHz) continue;
    if (power[k] <= power[k - 1] || power[k] < power[k + 1]) continue;
    const skirt = Math.ceil(2.4 * perBin);
    const reach = skirt + Math.max(Math.ceil(12 * perBin), Math.round(0.15 * k));
    const about = [
      ...power.slice(Math.max(1, k - reach), Math.max(1, k - skirt)),
      ...power.slice(k + skirt + 1, k + reach + 1),
    ];
    const floor = middle(about) / Math.LN2;
    if (power[k] <= 16 * floor) continue;
    const [a, b, c] = [k - 1, k, k + 1].map((i) => Math.log(power[i]));
    const off = (a - c) / (2 * (a - 2 * b + c));
    const hz = ((k + off) * rateHz) / size;
    const u = (Math.PI * hz) / rateHz;
    const scale = ((2 / sum) * u) / Math.sin(u);
    const top = Math.exp((b - ((a - c) * off) / 4) / 2);
    found.push({
      hz,
      hzSpread: (0.55 / (length / rateHz)) * Math.sqrt(floor / power[k]),
      peak: scale * top,
      spread: scale * Math.hypot(Math.sqrt(floor / 2), 0.002 * top),
    });
  }
  found.sort((x, y) => y.peak - x.peak);
  const binHz = rateHz / length;
  return found
    .filter(
      (line, i) =>
        line.peak >= 1e-5 &&
        found.slice(0, i).every((other) => {
          const bins = Math.abs(other.hz - line.hz) / binHz;
          return bins >= 4 && line.peak >= other.peak * 0.3 * (2.5 / Math.max(1, bins)) ** 3;
        }),
    )
    .slice(0, 8);
}

const comb = (count: number): [number, number][] =>
  Array.from({ length: count }, (_, i) => [7 + 17.3 * i, 2e-3 / (1 + i / 9)]);

it.each([
  [
    'a few lines in noise',
    traceOf(
      250,
      9.7,
      [
        [0.9, 1e-3],
        [11.7, 3e-4],
        [50.3, 5e-5],
      ],
      1e-4,
    ),
  ],
  ['more lines than are told', traceOf(1000, 4.1, comb(11), 1e-5)],
  ['noise alone', traceOf(250, 6, [], 1e-3)],
  [
    'a low line between side lobes of a strong one',
    traceOf(
      200,
      6,
      [
        [20, 1e-2],
        [21.1, 1.1e-4],
        [22, 1e-3],
        [26, 2e-5],
      ],
      1e-7,
    ),
  ],
  ['a speed that is off, so that the mean is not nothing', traceOf(300, 7, [[3, 1e-3]], 1e-5, 0.02)],
  [
    'the ends of the range',
    traceOf(
      520,
      8,
      [
        [0.2, 1e-3],
        [0.3, 1e-3],
        [199.5, 1e-3],
        [201, 1e-3],
        [210, 1e-3],
      ],
      1e-6,
    ),
  ],
  [
    'a rate that ends the range earlier',
    traceOf(
      200,
      12,
      [
        [79, 1e-3],
        [81, 1e-3],
      ],
      1e-6,
    ),
  ],
  ['a short trace', traceOf(100, 0.64, [[20, 1e-3]], 1e-5)],
  ['power that is even over long stretches', traceOf(200, 20, [[33, 1e-4]], 1e-5)],
])('%s', (_, trace) => {
  const [lines, wanted] = [find(trace), plain(trace)];
  expect(lines).toHaveLength(wanted.length);
  lines.forEach((line, i) => {
    for (const key of ['hz', 'hzSpread', 'peak', 'spread'] as const)
      expect(line[key] / wanted[i][key]).toBeCloseTo(1, 8);
  });
});

it('lines are told to the last place: as many as there are, eight at most', () => {
  expect(find(traceOf(1000, 4.1, comb(3), 1e-6))).toHaveLength(3);
  expect(find(traceOf(1000, 4.1, comb(11), 1e-6))).toHaveLength(8);
});

it('at least 64 values', () => {
  expect(() => find(traceOf(100, 0.63, [], 1))).toThrow('deviation holds 63 samples, at least 64 needed');
});
