import { describe, expect, it } from 'vitest';
import { chartOf, dashes, groupCurves } from './curves.ts';
import { linePath } from './line.ts';
import { makeScale, nearest, spanOf, tickText, widened } from './scale.ts';

describe('a scale', () => {
  it('goes forth and back, in either direction, linear and logarithmic', () => {
    for (const log of [false, true]) {
      for (const range of [
        [40, 400],
        [400, 40],
      ] as const) {
        const scale = makeScale([20, 20_000], range, log);
        expect([scale(20), scale(20_000)]).toEqual([...range]);
        expect(scale.invert(scale(777))).toBeCloseTo(777, 8);
      }
    }
    expect(makeScale([10, 1000], [0, 2], true)(100)).toBeCloseTo(1, 12);
  });

  it('has round ticks within its domain, exact in decimal, zero without a minus', () => {
    expect(makeScale([-0.31, 0.32], [0, 1], false).ticks(6)).toEqual([-0.3, -0.2, -0.1, 0, 0.1, 0.2, 0.3]);
    expect(makeScale([0, 12], [0, 1], false).ticks(5)).toEqual([0, 2, 4, 6, 8, 10, 12]);
    expect(makeScale([37, 1234], [0, 1], false).ticks(5)).toEqual([200, 400, 600, 800, 1000, 1200]);
    expect(makeScale([20, 20_000], [0, 1], true).ticks(8)).toEqual([
      20, 50, 100, 200, 500, 1000, 2000, 5000, 10_000, 20_000,
    ]);
    expect(makeScale([0.2, 200], [0, 1], true).ticks(3)).toEqual([1, 10, 100]);
    expect(Object.is(makeScale([-1, 1], [0, 1], false).ticks(2)[1], -0)).toBe(false);
  });

  it('refuses a domain that is none', () => {
    expect(() => makeScale([3, 3], [0, 1], false)).toThrow(/from 3 to 3/);
    expect(() => makeScale([0, 3], [0, 1], true)).toThrow(/above 0/);
    expect(() => makeScale([Number.NaN, 3], [0, 1], false)).toThrow(/NaN/);
  });
});

it('spans, room, ticks in words and the nearest value', () => {
  expect(spanOf([[3, 1], [], [7]])).toEqual([1, 7]);
  expect(spanOf([[]])).toBeNull();
  expect(widened([5, 5], 0.1)[1]).toBeGreaterThan(5);
  expect([tickText(-20_000), tickText(0.25)]).toEqual(['\u221220k', '0.25']);
  expect([nearest([1, 2, 4], 2.9), nearest([1, 2, 4], 3.1), nearest([1, 2, 4], 99)]).toEqual([1, 2, 2]);
});

describe('the chart of a group of curves', () => {
  const curve = { quantity: 'spectrum', x: [0, 10, 10_000], y: [1, 2, 3], xUnit: 'Hz', yUnit: 'dB' } as const;

  it('a line without a name of its own has that of its chart, units as they are written', () => {
    const [{ name }] = chartOf({
      quantity: 'channel-difference',
      band: null,
      curves: [{ ...curve, quantity: 'channel-difference' }],
    }).series;
    expect(name).toBe('left over right, against 1 kHz');
  });

  it('tells left and right apart by their strokes and names its axes', () => {
    const curves = [
      { ...curve, channel: 'left' as const },
      { ...curve, channel: 'right' as const },
    ];
    const chart = chartOf({ quantity: 'spectrum', band: null, curves });
    expect(chart).toMatchObject({ title: 'Spectrum', xLabel: 'frequency', yLabel: 'level', xLog: true });
    const strokes = chart.series.map(({ style = 'plain' }) => dashes[style]);
    expect(new Set(strokes).size).toBe(2);
  });

  it('leaves 0 Hz out of a logarithmic axis', () => {
    const sx = makeScale([10, 10_000], [0, 100], true);
    expect(linePath(curve, sx, makeScale([0, 4], [40, 0], false), 600)).toBe('M0.0,20.0L100.0,10.0');
  });
});

it('lines that are no channels have the names that they came with', () => {
  const line = (name: string, y: number[]) => ({
    quantity: 'tracking-error',
    name,
    x: [62, 104],
    y,
    xUnit: 'mm',
    yUnit: 'deg',
  });
  const [group, ...more] = groupCurves([line('heard', [0.1, -0.8]), line('the arm that fits', [0.1, -0.8])]);
  expect(more).toEqual([]);
  const chart = chartOf(group);
  expect(chart.series.map(({ name, style }) => [name, style])).toEqual([
    ['heard', 'points'],
    ['the arm that fits', 'soft'],
  ]);
  // dots, not a line through them
  const unit = makeScale([60, 110], [0, 50], false);
  expect(linePath(chart.series[0], unit, makeScale([-1, 1], [20, 0], false), 100)).toBe('M2.0,9.0h0M44.0,18.0h0');
  expect([chart.title, chart.xLabel, chart.yLabel]).toEqual(['Tracking error over the side', 'radius', 'angle']);
});

it('left and right that were swept one after the other share a chart', () => {
  const swept = (quantity: string, channel: 'left' | 'right', band: number) => ({
    quantity,
    channel,
    band,
    x: [20, 20_000],
    y: [30, 20],
    xUnit: 'Hz',
    yUnit: 'dB',
  });
  const groups = groupCurves([
    swept('separation', 'left', 3),
    swept('separation', 'right', 4),
    swept('spectrum', 'left', 3),
    swept('spectrum', 'right', 4),
  ]);
  expect(groups.map(({ quantity, band, curves }) => [quantity, band, curves.length])).toEqual([
    ['separation', null, 2],
    ['spectrum', 3, 1],
    ['spectrum', 4, 1],
  ]);
});
