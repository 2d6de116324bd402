import { expect, test } from 'vitest';
import { gainFor, headroomDb, outputAtReference } from './levels.ts';

test('headroom by hand: 5 mV times 100 is 0.5 V, 8 V is 24.08 dB above it', () => {
  expect(headroomDb(0.005, 40, 8)).toBeCloseTo(20 * Math.log10(16), 12);
  expect(headroomDb(0.005, 60, 1)).toBeLessThan(0);
});

test('an output quoted at 3.54 cm/s rms is that at 5 cm/s peak; quoted at 5 cm/s rms it is 3 dB more than at 5 cm/s peak', () => {
  expect(outputAtReference(0.005, 5 / Math.SQRT2, 'rms')).toBeCloseTo(0.005, 12);
  expect(outputAtReference(0.005, 5, 'rms')).toBeCloseTo(0.005 / Math.SQRT2, 12);
  expect(outputAtReference(0.003, 3, 'peak')).toBeCloseTo(0.005, 12);
});

test('gain for line level', () => {
  expect(gainFor(0.005, 0.5)).toBeCloseTo(40, 12);
  expect(() => gainFor(0, 0.5)).toThrow(/input is 0 V/);
  expect(() => headroomDb(Number.NaN, 40, 8)).toThrow(/input is NaN/);
});
