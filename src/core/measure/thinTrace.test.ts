import { expect, it } from 'vitest';
import { thinned } from './thinTrace.ts';
import type { SpeedTrace } from './toneSegment.ts';

const trace = (rateHz: number, values: number[]): SpeedTrace => ({
  rateHz,
  startS: 3,
  meanHz: 1001,
  deviation: Float64Array.from(values),
  level: new Float64Array(values.length),
  goodShare: 1,
});

it('a trace is averaged in whole groups of a twentieth of a second, each at its own middle', () => {
  expect(thinned(trace(69, [1, 2, 3, 4, 5, 9, 7, 8]))).toEqual({
    rateHz: 23,
    startS: 3 + 1 / 69,
    meanHz: 1001,
    deviation: Float64Array.of(2, 6),
    groupS: 3 / 69,
  });
});

it('one of fewer values a second stays as it is', () => {
  expect(thinned(trace(15, [1, 2, 3]))).toEqual({
    rateHz: 15,
    startS: 3,
    meanHz: 1001,
    deviation: Float64Array.of(1, 2, 3),
    groupS: 1 / 15,
  });
});
