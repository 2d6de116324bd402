import { expect, it } from 'vitest';
import { magnitude } from '../units/complex.ts';
import { playbackGain, playbackResponse } from './playbackEqualisation.ts';
import { referencePower, spreadDb, under } from './quietLevel.ts';

it('follows (1 + s·318 µs) / ((1 + s·3180 µs)(1 + s·75 µs)), 0 dB at 1 kHz, phase and all', () => {
  const at = (hz: number) => {
    const s = 2 * Math.PI * hz;
    const times = (a: number[], b: number[]) => [a[0] * b[0] - a[1] * b[1], a[0] * b[1] + a[1] * b[0]];
    const [c, d] = times([1, s * 3180e-6], [1, s * 75e-6]);
    const size = c * c + d * d;
    return times([1, s * 318e-6], [c / size, -d / size]);
  };
  const one = Math.hypot(...at(1000));
  for (const hz of [2, 50.05, 500.5, 1000, 2122, 20_000]) {
    const [re, im] = at(hz);
    const told = playbackResponse(hz);
    expect(told.re).toBeCloseTo(re / one, 12);
    expect(told.im).toBeCloseTo(im / one, 12);
    expect(playbackGain(hz)).toBeCloseTo(magnitude(told), 12);
  }
});

it('is asked above 0 Hz alone', () => {
  for (const hz of [0, -1, Number.NaN, Number.POSITIVE_INFINITY]) {
    expect(() => playbackGain(hz)).toThrow(`hz ${hz} must be above 0`);
    expect(() => playbackResponse(hz)).toThrow(`hz ${hz} must be above 0`);
  }
});

it('a power lies under the reference by their ratio, 160 dB at most; what it is unsure by ends at its own size', () => {
  const of = { amplitude: 0.2, bands: [], hz: 1000 };
  expect(referencePower(of)).toBeCloseTo(0.02, 15);
  expect(under(of, 0.02)).toBeCloseTo(0, 12);
  expect(under(of, 2e-8)).toBeCloseTo(60, 9);
  expect(under(of, 0.2)).toBeCloseTo(-10, 9);
  expect(under(of, 0)).toBe(160);
  expect(under(of, 1e-20)).toBe(160);
  // k = 2: 2 · (10/ln 10) · 10 %
  expect(spreadDb(3, 0.3)).toBeCloseTo((2 * 10 * 0.1) / Math.LN10, 12);
  expect(spreadDb(3, 9)).toBeCloseTo(20 / Math.LN10, 12);
  expect(spreadDb(0, 1)).toBe(0);
});
