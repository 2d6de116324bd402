/** Which peaks are told to be none without the median of their neighbours: every one that more than half of them put under the bound. */
import { afterEach, expect, it, vi } from 'vitest';
import { ComplexFft } from '../signal/fft.ts';
import { gaussian } from '../signal/gaussian.fixture.ts';
import { median } from '../signal/robust.ts';
import { transformSize } from '../signal/sharedFft.ts';
import { atOnce, ofTheCaller } from '../signal/steps.ts';
import { flutterLinesInSteps } from './flutterLines.ts';

vi.mock('../signal/robust.ts', async (original) => {
  const real = await original<typeof import('../signal/robust.ts')>();
  return { ...real, median: vi.fn(real.median) };
});
const asked = vi.mocked(median);
afterEach(() => asked.mockClear());

/** Sizes of the neighbourhoods whose median is still needed, in order. */
function needed(deviation: Float64Array, rateHz: number): number[] {
  const { length } = deviation;
  const size = transformSize(2 * length);
  const mean = deviation.reduce((a, b) => a + b, 0) / length;
  const [re, im] = [new Float64Array(size), new Float64Array(size)];
  for (let n = 0; n < length; n++) re[n] = (deviation[n] - mean) * (0.5 - 0.5 * Math.cos((2 * Math.PI * n) / length));
  new ComplexFft(size).forward(re, im);
  const power = Array.from({ length: size / 2 }, (_, k) => re[k] ** 2 + im[k] ** 2);
  const perBin = size / length;
  const sizes: number[] = [];
  const to = Math.min(size / 2 - 2, Math.floor((Math.min(200, 0.4 * rateHz) * size) / rateHz));
  for (let k = Math.max(Math.ceil(2.5 * perBin), Math.ceil((0.25 * size) / rateHz)); k <= to; k++) {
    if (power[k] <= power[k - 1] || power[k] < power[k + 1]) continue;
    const skirt = Math.ceil(2.4 * perBin);
    const reach = skirt + Math.max(Math.ceil(12 * perBin), Math.round(0.15 * k));
    const about = [
      ...power.slice(Math.max(1, k - reach), Math.max(1, k - skirt)),
      ...power.slice(k + skirt + 1, k + reach + 1),
    ];
    const over = about.filter((v) => (16 * v) / Math.LN2 >= power[k]).length;
    if (over <= Math.floor(about.length / 2)) sizes.push(about.length);
  }
  return sizes;
}

it.each([
  [100, 12, 0],
  [400, 4, 3e-4],
  [250, 20, 1e-3],
])('at %i values a second, %i s of noise and a swing of %f', (rateHz, lengthS, peak) => {
  const draw = gaussian(rateHz);
  const length = rateHz * lengthS;
  const deviation = Float64Array.from(
    { length },
    (_, n) => 1e-4 * draw() * (1 + n / length) + peak * Math.sin((2 * Math.PI * 7.3 * n) / rateHz),
  );
  atOnce(
    flutterLinesInSteps(
      { rateHz, startS: 0, meanHz: 3150, deviation, level: new Float64Array(length), goodShare: 1 },
      ofTheCaller,
    ),
  );
  const sizes = asked.mock.calls.map(([values]) => values.length);
  expect(sizes).toEqual(needed(deviation, rateHz));
  // of some hundred peaks
  expect(sizes.length).toBeLessThan(60);
});
