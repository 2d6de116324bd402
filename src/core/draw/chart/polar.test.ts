import { expect, it, test } from 'vitest';
import { polarPlot } from './polar.ts';

const points = (path: string): [number, number][] =>
  path
    .slice(1)
    .split('L')
    .map((p) => p.split(',').map(Number) as [number, number]);

it('draws once per turn as a ring moved aside, every turn over the last', () => {
  const x = Array.from({ length: 108 }, (_, i) => 5 + 10 * i);
  const y = x.map((deg) => 0.1 * Math.cos((deg * Math.PI) / 180));
  const { turns, mean, around, rings } = polarPlot(x, y, 200);
  expect(points(turns)).toHaveLength(108);
  const ring = points(mean);
  // closed, and its middle lies above the centre: most speed at 0°
  expect(ring[0]).toEqual(ring.at(-1));
  const middle = ring.slice(1).reduce((sum, [, down]) => sum + down / 36, 0);
  expect(middle).toBeCloseTo(-34 / 1.02 / 2, 0);
  expect(around).toHaveLength(36);
  expect(around[0]).toMatchObject({ deg: 5 });
  for (const { deg, mean: value, low, high } of around) {
    expect(value).toBeCloseTo(0.1 * Math.cos((deg * Math.PI) / 180), 9);
    expect(high - low).toBeLessThan(1e-9);
  }
  expect(rings.map(({ value }) => value)).toEqual([-0.05, 0, 0.05]);
});

it('a speed that does not move is a circle, and part of a turn stays open', () => {
  const { mean, around } = polarPlot([0, 10, 20], [0, 0, 0], 100);
  expect(around).toHaveLength(3);
  expect(points(mean)).toHaveLength(3);
  for (const [a, b] of points(mean)) expect(Math.hypot(a, b)).toBeCloseTo(31, 0);
});

test('values are gathered by tens of degrees, whichever turn or sign their angle has', () => {
  const x = [-355, -10, -0.5, 0, 9.99, 10, 359.9, 360, 725];
  const y = [4, 1, -3, 2, 6, 7, 5, -8, 1];
  expect(polarPlot(x, y, 100).around).toEqual([
    { deg: 5, mean: 1, low: -8, high: 6 },
    { deg: 15, mean: 7, low: 7, high: 7 },
    { deg: 355, mean: 1, low: -3, high: 5 },
  ]);
});

test('zero lies at 0.62 of the radius and the greatest deviation, with 2 % of room, at 0.96', () => {
  const { turns, mean, rings } = polarPlot([0, 90, 180], [4, -2, 0], 200);
  // 62 + 34 · 4 / 4.08 up, 62 − 34 · 2 / 4.08 to the right, 62 down
  expect(points(turns)).toEqual([
    [0, -95.3],
    [45.3, -0],
    [0, 62],
  ]);
  expect(points(mean)).toHaveLength(3);
  expect(rings).toEqual([
    { r: expect.closeTo(62 - (34 * 2) / 4.08, 9), value: -2 },
    { r: 62, value: 0 },
    { r: expect.closeTo(62 + (34 * 2) / 4.08, 9), value: 2 },
  ]);
});

test('the labelled ring is 1, 2 or 5 times a power of ten, at most half the greatest deviation', () => {
  const ring = (most: number): number => polarPlot([0, 1], [0, -most], 100).rings[2].value;
  for (const [most, value] of [
    [0.39, 0.1],
    [0.395, 0.2],
    [0.97, 0.2],
    [0.99, 0.5],
    [1.95, 0.5],
    [1.97, 1],
    [3.9, 1],
    [3.95, 2],
    [9.7, 2],
    [9.9, 5],
    [19.5, 5],
    [19.7, 10],
    [200, 100],
  ] as const) {
    expect(ring(most), `${most}`).toBeCloseTo(value, 12);
  }
});
