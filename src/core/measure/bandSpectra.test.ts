import { expect, test } from 'vitest';
import type { Recording } from '../capture/recording.ts';
import type { Band } from '../record/band.ts';
import { assumedInTests } from './assumed.fixture.ts';
import { measureSide } from './measureSide.ts';

const rate = 48000;

/** A left-only tone, the right channel 30 dB under it in antiphase, as a recording. */
function recordingOf(seconds: number, hz: number, peak: number): Recording {
  const frames = Math.round(seconds * rate);
  const left = Float64Array.from({ length: frames }, (_, n) => peak * Math.cos((2 * Math.PI * hz * n) / rate));
  const right = left.map((v) => -v * 10 ** (-30 / 20));
  return {
    format: {
      file: 'tone',
      sampleRateHz: rate,
      channels: 2,
      bitDepth: 24,
      encoding: 'integer',
      container: 'wav',
      frames,
      durationS: seconds,
    },
    problems: [],
    async *blocks(range = { fromFrame: 0, toFrame: frames }) {
      for (let at = range.fromFrame; at < range.toFrame; at += 5000) {
        const end = Math.min(range.toFrame, at + 5000);
        yield { startFrame: at, frames: end - at, left: left.slice(at, end), right: right.slice(at, end) };
      }
    },
  };
}

const band: Band = {
  index: 0,
  startS: 0.2,
  endS: 3.8,
  signal: 'tone',
  motion: 'left',
  frequencyHz: 1002,
  radiusMm: null,
  sheetBand: null,
};

const bandSpectra = async (recording: Recording, bands: readonly Band[]) =>
  (await measureSide(recording, bands, { assumed: assumedInTests, withSpectra: true })).curves.filter(
    (c) => c.quantity === 'spectrum' || c.quantity === 'crosstalk-spectrum',
  );

const highest = (curve: { x: readonly number[]; y: readonly number[] }) => {
  const at = curve.y.indexOf(Math.max(...curve.y));
  return { x: curve.x[at], y: curve.y[at] };
};

test('a tone stands at its level re a full-scale sine, the leak 30 dB under it', async () => {
  const curves = await bandSpectra(recordingOf(4, 1002, 0.25), [band]);
  expect(curves.map((curve) => `${curve.quantity} ${curve.channel}`)).toEqual([
    'spectrum left',
    'spectrum right',
    'crosstalk-spectrum left',
    'crosstalk-spectrum right',
  ]);
  const [left, right, closeLeft, closeRight] = curves.map(highest);
  // the window loses at most 0.83 dB for a line between two bins
  expect(left.x).toBeGreaterThan(998);
  expect(left.x).toBeLessThan(1006);
  expect(left.y).toBeGreaterThan(20 * Math.log10(0.25) - 0.9);
  expect(left.y).toBeLessThan(20 * Math.log10(0.25) + 0.1);
  expect(right.y - left.y).toBeCloseTo(-30, 2);
  expect(closeLeft.y).toBeCloseTo(0, 9);
  expect(closeRight.y).toBeCloseTo(-30, 2);
  for (const curve of curves) for (const value of [...curve.x, ...curve.y]) expect(Number.isFinite(value)).toBe(true);
});

test('a band too short for a spectrum gives none', async () => {
  expect(await bandSpectra(recordingOf(1, 1002, 0.25), [{ ...band, endS: 0.21 }])).toEqual([]);
});
