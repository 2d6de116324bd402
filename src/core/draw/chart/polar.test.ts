import { expect, it } from 'vitest';
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
