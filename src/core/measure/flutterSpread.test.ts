import { describe, expect, it } from 'vitest';
import { coverageFactor, quantile } from '../signal/robust.ts';
import { spreadOfMean, spreadOfWeighting, spreadOverTurns } from './flutterSpread.ts';

const rateHz = 1000;
const turn = { hz: 0.5556, cos: 1e-3, sin: 0 };

/** |deviation| of a swing once per turn whose size changes from turn to turn by `wander` of itself */
function swing(lengthS: number, wander: number): { size: Float64Array; peak: number } {
  const size = Float64Array.from({ length: Math.round(lengthS * rateHz) }, (_, n) => {
    const t = n / rateHz;
    return Math.abs(1e-3 * (1 + wander * Math.sin(1.3 * t)) * Math.cos(2 * Math.PI * turn.hz * t));
  });
  return { size, peak: quantile(size, 0.95) };
}

describe('what a wow-and-flutter figure is uncertain by', () => {
  it('takes no swing within a turn for a change from turn to turn, however many turns there are', () => {
    for (const lengthS of [7, 8.6, 9.3, 12.5, 17]) {
      const { size, peak } = swing(lengthS, 0);
      expect(spreadOverTurns(size, peak, rateHz, [turn]), `${lengthS} s`).toBeLessThan(0.002 * peak);
    }
  });

  it('sees what does change', () => {
    for (const lengthS of [8.6, 12.5, 17]) {
      const { size, peak } = swing(lengthS, 0.1);
      const spread = spreadOverTurns(size, peak, rateHz, [turn]);
      expect(spread, `${lengthS} s`).toBeGreaterThan(0.01 * peak);
      expect(spread, `${lengthS} s`).toBeLessThan(0.15 * peak);
    }
  });

  it('says little of a stretch shorter than two turns', () => {
    const { size, peak } = swing(3, 0);
    expect(spreadOverTurns(size, peak, rateHz, [turn])).toBe(peak / 4);
  });

  it('allows less for the mean the more turns there are, and nothing where no slow line counts', () => {
    const flat = (): number => 1;
    expect(spreadOfMean([turn], flat, 9)).toBeGreaterThan(spreadOfMean([turn], flat, 36));
    // five and a quarter turns: a mean off by up to a/πn
    const most = 1e-3 / (Math.PI * 5.25);
    expect(2 * spreadOfMean([turn], flat, 5.25 / turn.hz)).toBeLessThan(most);
    expect(2 * spreadOfMean([turn], flat, 5.25 / turn.hz)).toBeGreaterThan(0.25 * most);
    expect(spreadOfMean([], flat, 9)).toBe(0);
  });

  it('reaches the straight lines between the points of the weighting with k = 2, and a little further', () => {
    expect(2 * spreadOfWeighting(0.019)).toBeGreaterThan(0.019);
    expect(2 * spreadOfWeighting(0.019)).toBeLessThan(0.026);
    expect(spreadOfWeighting(0)).toBeGreaterThan(0.002);
  });
});

describe('from turn to turn', () => {
  const noise = (length: number): Float64Array =>
    Float64Array.from({ length }, (_, n) => Math.abs(Math.sin(n * n * 0.37 + 1) + 0.4 * Math.sin(0.011 * n)));

  /** Shares over the 95 % point in blocks of one turn, written out. */
  function plain(size: Float64Array, peak: number, hz: number, turnS: number): number {
    const block = turnS * hz;
    const blocks = Math.floor(size.length / block);
    const start = (size.length - blocks * block) / 2;
    const shares: number[] = [];
    for (let b = 0; b < blocks; b++) {
      const part = Array.from(size).slice(Math.round(start + b * block), Math.round(start + (b + 1) * block));
      shares.push(part.filter((v) => v > peak).length / part.length);
    }
    const mean = shares.reduce((a, b) => a + b, 0) / blocks;
    const variance = shares.reduce((a, b) => a + (b - mean) ** 2, 0) / (blocks * (blocks - 1));
    return (
      (coverageFactor(blocks - 1) / 2) * Math.sqrt(variance) * ((quantile(size, 0.98) - quantile(size, 0.92)) / 0.06)
    );
  }

  it.each([
    [2111, 100],
    [777, 50],
    [500, 100],
  ])(
    '%i values at %i Hz: the scatter of the share over the 95 % point, by the slope of the distribution there',
    (length, hz) => {
      const size = noise(length);
      const peak = quantile(size, 0.95);
      // no swing shows how long a turn is
      expect(spreadOverTurns(size, peak, hz, [])).toBeCloseTo(plain(size, peak, hz, 1.8), 12);
      const lines = [
        { hz: 0.41, cos: 0, sin: 0.2 },
        { hz: 0.7, cos: 0.2, sin: 0.2 },
        { hz: 1.5, cos: 0.21, sin: 0 },
        { hz: 1.6, cos: 5, sin: 5 },
        { hz: 0.4, cos: 5, sin: 5 },
      ];
      // the strongest between 0.4 and 1.6 Hz
      expect(spreadOverTurns(size, peak, hz, lines)).toBeCloseTo(plain(size, peak, hz, 1 / 0.7), 12);
      expect(spreadOverTurns(size, peak, hz, lines.toReversed())).toBeCloseTo(plain(size, peak, hz, 1 / 0.7), 12);
    },
  );

  it('two turns are enough, a value less is not', () => {
    const size = noise(360);
    const peak = quantile(size, 0.95);
    expect(spreadOverTurns(size, peak, 100, [])).toBeCloseTo(plain(size, peak, 100, 1.8), 12);
    expect(spreadOverTurns(size.slice(1), peak, 100, [])).toBe(peak / 4);
  });
});

it('of a mean: each line’s open part of a swing at the three likeliest lengths, a third of it, by squares', () => {
  const lines = [
    { hz: 0.5, cos: 3e-3, sin: 4e-3 },
    { hz: 1.3, cos: 0, sin: 2e-3 },
  ];
  const gain = (hz: number): number => 2 - hz;
  for (const lengthS of [7.9, 10, 11.3]) {
    const square = lines.reduce((sum, { hz, cos, sin }) => {
      const open = Math.max(...[0, 0.2, 0.4].map((more) => Math.abs(Math.sin(Math.PI * hz * (lengthS + more)))));
      return sum + (gain(hz) ** 2 * open ** 2 * (cos ** 2 + sin ** 2)) / (Math.PI * hz * lengthS) ** 2;
    }, 0);
    expect(spreadOfMean(lines, gain, lengthS)).toBeCloseTo(0.33 * Math.sqrt(square), 12);
  }
  expect(spreadOfWeighting(0.02)).toBeCloseTo(Math.hypot(0.013, 0.0033), 12);
});
