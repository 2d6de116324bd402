import { describe, expect, it } from 'vitest';
import { quantile } from '../signal/robust.ts';
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
