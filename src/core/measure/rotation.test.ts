import { describe, expect, it } from 'vitest';
import { fitRotation } from './rotation.ts';

const RATE_HZ = 20;
const GROUP_S = 1 / RATE_HZ;

/** What a deck does between the harmonics of its rotation, as a sum of sines: the same function wherever it is sampled. */
const lines = Array.from({ length: 300 }, (_, i) => {
  const at = (n: number): number => {
    const x = Math.sin(n * 12.9898 + i * 78.233) * 43758.5453;
    return x - Math.floor(x);
  };
  return { hz: 0.02 + 9 * at(1), size: 2e-5 * at(2), phase: 2 * Math.PI * at(3) };
});
const wander = (t: number): number =>
  lines.reduce((s, { hz, size, phase }) => s + size * Math.cos(2 * Math.PI * hz * t + phase), 0);

function heard(startS: number, lengthS: number, rotationHz: number, of: (t: number) => number = wander) {
  const swing = (t: number): number => 1e-3 * Math.cos(2 * Math.PI * rotationHz * t + 0.4);
  const deviation = Float64Array.from({ length: Math.floor(lengthS * RATE_HZ) }, (_, n) => {
    const t = startS + n / RATE_HZ;
    return swing(t) + of(t);
  });
  return fitRotation({ rateHz: RATE_HZ, startS, meanHz: 3150, deviation, groupS: GROUP_S }, rotationHz)!;
}

describe('once per turn', () => {
  it('has size and phase at the first frame of a swing, what averaging took off put back', () => {
    const fit = heard(7.3, 9, 0.5556, () => 0);
    const back = (Math.PI * 0.5556 * GROUP_S) / Math.sin(Math.PI * 0.5556 * GROUP_S);
    expect(Math.hypot(fit.re, fit.im)).toBeCloseTo(1e-3 * back, 9);
    expect(Math.atan2(fit.im, fit.re)).toBeCloseTo(0.4, 6);
    expect(fit.turning).toBeCloseTo(0, 6);
  });

  // whole and broken numbers of turns, at 33⅓, 45 and 78 turns a minute
  it.each([
    [9, 100 / 180],
    [5.4, 100 / 180],
    [8, 0.75],
    [12, 1.3],
  ])(
    'is as sure wherever its %f s begin: half a millisecond changes no uncertainty (%f turns a second)',
    (lengthS, hz) => {
      let most = 1;
      let [last, lastMean] = [Number.NaN, Number.NaN];
      for (let k = 0; k <= 60; k++) {
        // the start of the trace and with it the speed as heard move by a hair
        const fit = heard(3 + k * 5e-4, lengthS, hz * (1 + k * 1e-7));
        for (const [now, before] of [
          [fit.variance, last],
          [fit.meanVariance, lastMean],
        ]) {
          if (Number.isFinite(before)) most = Math.max(most, now / before, before / now);
        }
        [last, lastMean] = [fit.variance, fit.meanVariance];
      }
      expect(most).toBeLessThan(1.03);
    },
  );
});
