import { describe, expect, it } from 'vitest';
import { chainFigures, chainQuantities, isChainQuantity } from './chainFigures.ts';
import { chartLimits, controlChart, endsRun, LEAST_POINTS } from './controlChart.ts';
import { watchedFigure } from './watchedFigure.ts';

describe('a control chart of single readings', () => {
  /** mean 10, moving ranges 2 1 3 2 */
  const values = [9, 11, 10, 13, 11, 6];

  it('limits by the mean moving range: 2.659 of it either side, ranges up to 3.267 of it', () => {
    const of = chartLimits(values);
    expect(of).toEqual({
      centre: 10,
      low: expect.closeTo(10 - 2.6587 * 2.6, 3),
      high: expect.closeTo(10 + 2.6587 * 2.6, 3),
      ranges: [2, 1, 3, 2, 5],
      meanRange: 2.6,
      rangeLimit: expect.closeTo(3.2665 * 2.6, 3),
    });
  });

  it('a slope by least squares and its spread by the moving range', () => {
    const of = controlChart(values)!;
    // Σ (i − 2.5)(v − 10) / Σ (i − 2.5)²
    expect(of.slope).toBeCloseTo((-2.5 * -1 + -1.5 * 1 + 0 + 0.5 * 3 + 1.5 * 1 + 2.5 * -4) / 17.5, 12);
    expect(of.slopeSpread).toBeCloseTo(2.6 / (2 / Math.sqrt(Math.PI)) / Math.sqrt(17.5), 12);
    expect(of).toMatchObject(chartLimits(values));
    expect(controlChart(values.slice(0, LEAST_POINTS - 1))).toBeNull();
    expect(controlChart(values.slice(0, LEAST_POINTS))).not.toBeNull();
    const rising = controlChart([1, 2, 3, 4, 5])!;
    expect(rising.slope).toBeCloseTo(1, 12);
    expect(controlChart([5, 4, 3, 2, 1])!.slope).toBeCloseTo(-1, 12);
  });

  it('beyond either limit, a jump either way, and both at once', () => {
    const calm = Array.from({ length: 20 }, (_, i) => (i % 2 === 0 ? 1 : -1));
    const signals = (more: number[]) => controlChart([...calm, ...more])!.signals.slice(20);
    expect(signals([0, 0])).toEqual([[], []]);
    for (const sign of [1, -1]) {
      expect(signals([0, 20 * sign])).toEqual([[], ['beyond', 'jump']]);
      expect(signals([-4.4 * sign, 4.4 * sign])[1]).toEqual(['jump']);
      expect(signals([4 * sign, 8.3 * sign])[1]).toEqual(['beyond']);
    }
    // the first reading follows none
    expect(controlChart([3, 0, 0, 0, 0, 0])!.signals).toEqual([['beyond'], ['jump'], [], [], [], []]);
  });

  it('a run is eight in a row on one side of the centre; one on the centre breaks it', () => {
    const run = (values: number[], centre = 0) => endsRun(values, values.length - 1, centre);
    for (const sign of [1, -1]) {
      expect(run(Array(8).fill(sign))).toBe(true);
      expect(run(Array(7).fill(sign))).toBe(false);
      expect(run([-sign, ...Array(8).fill(sign)])).toBe(true);
      expect(run([...Array(4).fill(sign), -sign, ...Array(7).fill(sign)])).toBe(false);
      expect(run([...Array(7).fill(sign), 0])).toBe(false);
      expect(run([...Array(4).fill(sign), 0, ...Array(3).fill(sign)])).toBe(false);
      expect(run([-sign, ...Array(7).fill(sign)])).toBe(false);
    }
    expect(run(Array(8).fill(0))).toBe(false);
    expect(run(Array(8).fill(3), 2)).toBe(true);
    const high = [...Array(8).fill(0.5), ...Array(8).fill(-0.5)].flatMap((v) => [v + 0.4, v - 0.4]);
    expect(controlChart(high)!.signals[7]).toEqual(['run']);
    expect(controlChart(high)!.signals[6]).toEqual([]);
  });
});

describe('a watched figure’s bounds', () => {
  const calm = Array.from({ length: 30 }, (_, i) => (i % 2 === 0 ? 1 : -1));
  const last = (more: number[], gap: number | null = null) =>
    watchedFigure([...calm, ...more], gap).told.at(-1)!.signal;
  /** of the first 25: mean 1/25, moving range 2 */
  const [high, low] = [0.04 + 2.6587 * 2, 0.04 - 2.6587 * 2];

  it('just in and just out of either limit and of the largest jump', () => {
    expect(last([3, high - 0.01])).toBeNull();
    expect(last([3, high + 0.01])).toBe('beyond');
    expect(last([-3, low + 0.01])).toBeNull();
    expect(last([-3, low - 0.01])).toBe('beyond');
    for (const sign of [1, -1]) {
      expect(last([-3 * sign, (-3 + 3.2665 * 2 + 0.01) * sign])).toBe('jump');
      expect(last([-3 * sign, (-3 + 3.2665 * 2 - 0.01) * sign])).toBeNull();
    }
  });

  it('back from a reading that was told is no second thing; from one across a gap neither', () => {
    expect(last([9, 0])).toBeNull();
    expect(last([-3, 4], 31)).toBeNull();
    expect(last([-3, 4], 30)).toBe('jump');
    expect(last([-3, 4], 32)).toBe('jump');
  });

  it('the figures behind its limits are counted, up to 25', () => {
    expect(watchedFigure([]).told).toEqual([]);
    for (const [count, behind] of [
      [0, 0],
      [7, 0],
      [8, 8],
      [25, 25],
      [30, 25],
    ]) {
      expect(watchedFigure(calm.slice(0, count)).behind).toBe(behind);
    }
    expect(watchedFigure(Array(12).fill(1))).toMatchObject({ limits: null, behind: 0 });
  });
});

it('each figure of a chain has a place to look at, and nothing else is one', () => {
  expect(chainQuantities).toEqual(Object.keys(chainFigures));
  expect(chainQuantities.every(isChainQuantity)).toBe(true);
  expect(['eccentricity', 'constructor', ''].some(isChainQuantity)).toBe(false);
});
