import { expect, it } from 'vitest';
import { flutterLineFigures, weightedRms } from './wowFlutter.ts';

const trace = (size: number, seconds: number) => ({
  lengthS: seconds,
  weightedTrace: {
    rateHz: 250,
    startS: 0,
    deviation: Float32Array.from({ length: 250 * seconds }, (_, n) => size * Math.sin((2 * Math.PI * 4 * n) / 250)),
  },
});

it('weighted rms of a sine is its size over √2, whatever 2σ and a needle make of it', () => {
  expect(weightedRms([trace(0.001, 5)])).toBeCloseTo(0.001 / Math.SQRT2, 8);
});

it('segments count by their length, as mean squares', () => {
  const both = weightedRms([trace(0.001, 10), trace(0.003, 5)]);
  expect(both).toBeCloseTo(Math.sqrt((2 * 0.001 ** 2 + 0.003 ** 2) / 3 / 2), 8);
});

it('a line within its own ± is none', () => {
  const lines = [
    { hz: 25, peak: 1e-4, spread: 1e-5 },
    { hz: 40, peak: 1e-6, spread: 6e-7 },
  ];
  const tone = {
    usedS: 10,
    band: { index: 3 },
    reading: { segments: [{ flutter: { lines } }] },
  } as unknown as Parameters<typeof flutterLineFigures>[0][number];
  const found = flutterLineFigures([tone]);
  expect(found.map(({ atHz, value, bands }) => [atHz, value, bands])).toEqual([[25, 0.01, [3]]]);
});
