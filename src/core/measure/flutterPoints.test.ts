import { expect, it } from 'vitest';
import { spectrumPoints } from './flutterPoints.ts';

const spectrum = (bins: number, binHz: number, noise = 0) => ({
  binHz,
  heard: Float64Array.from({ length: bins }, (_, k) => 1 + Math.sin(k) ** 2),
  noise: Float64Array.from({ length: bins }, (_, k) => noise * (1 + Math.cos(3 * k))),
});

it.each([
  [3000, 0.1, 0],
  [3000, 0.1, 1],
  [500, 0.4, 0.8],
  [120, 0.5, 0],
])(
  'of %i bins of %f Hz: twelve steps an octave from 0.2 to 200 Hz, each the sine that holds its power',
  (bins, binHz, noise) => {
    const of = spectrum(bins, binHz, noise);
    const { hz, peak } = spectrumPoints(of);
    expect(hz).toHaveLength(120);
    hz.forEach((middle, i) => {
      expect(middle).toBeCloseTo(0.2 * 2 ** (i / 12), 9);
      const from = Math.max(1, Math.round((middle * 2 ** (-1 / 24)) / binHz));
      const to = Math.min(bins - 1, Math.max(from, Math.round((middle * 2 ** (1 / 24)) / binHz) - 1));
      let power = 0;
      for (let k = from; k <= to; k++) power += Math.max(0, of.heard[k] - of.noise[k]) * binHz;
      expect(peak[i]).toBeCloseTo(Math.sqrt(2 * power), 12);
    });
  },
);

it('steps share no bin between them where they are wider than one', () => {
  const of = spectrum(3000, 0.1);
  const { peak } = spectrumPoints(of);
  // from 24 Hz up every step holds bins of its own: together they hold the whole
  const whole = peak.slice(84).reduce((sum, v) => sum + (v * v) / 2, 0);
  const from = Math.round((0.2 * 2 ** (84 / 12 - 1 / 24)) / 0.1);
  const to = Math.round((0.2 * 2 ** (119 / 12 + 1 / 24)) / 0.1);
  expect(whole).toBeCloseTo(
    of.heard.slice(from, to).reduce((sum, v) => sum + v * 0.1, 0),
    6,
  );
});
