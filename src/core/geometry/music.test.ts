import { expect, test } from 'vitest';
import { evenWeight, type MusicPoint, musicWeight, weightAt } from './music.ts';
import { spanNodes } from './quadrature.ts';

const point = (radius: number, weight: number): MusicPoint => ({ radius, weight });
const refused = (...points: MusicPoint[]): string => {
  try {
    musicWeight(points);
    return 'taken';
  } catch (e) {
    return (e as Error).message;
  }
};

test('points are sorted by radius, and what was given stays as it was', () => {
  const given = [point(120, 1), point(60, 2), point(90, 0)];
  expect(musicWeight(given)).toEqual([point(60, 2), point(90, 0), point(120, 1)]);
  expect(given[0].radius).toBe(120);
});

test('tables that are none are refused with the reason', () => {
  expect(refused()).toBe('the music weight has 0 points; it needs at least 2');
  expect(refused(point(60, 1))).toBe('the music weight has 1 points; it needs at least 2');
  expect(refused(point(60, 1), point(60, 2))).toBe('the music weight gives 60 mm twice; each radius may be given once');
  expect(refused(point(90, 1), point(60, 1), point(90, 2))).toContain('90 mm twice');
  expect(refused(point(60, 0), point(90, 0))).toBe('the music weight is 0 everywhere; one at least must be over 0');
  expect(refused(point(60, 0), point(90, 1))).toBe('taken');
  expect(refused(point(60, 1), point(90, 0))).toBe('taken');
  expect(refused(point(19.9, 1), point(90, 1))).toContain('radius of a music weight is 19.9 mm');
  expect(refused(point(20, 1), point(200.1, 1))).toContain('200.1 mm');
  expect(refused(point(20, 1), point(200, 1e9))).toBe('taken');
  expect(refused(point(20, 1), point(200, -0.1))).toContain('music weight at 200 mm is -0.1');
  expect(refused(point(20, 1), point(200, 1.1e9))).toContain('music weight at 200 mm');
});

test('the weight runs straight between its points and level beyond them', () => {
  const music = [point(60, 2), point(80, 6), point(120, 0)];
  for (const [r, weight] of [
    [20, 2],
    [60, 2],
    [65, 3],
    [80, 6],
    [90, 4.5],
    [120, 0],
    [150, 0],
  ]) {
    expect(weightAt(music, r), `${r}`).toBeCloseTo(weight, 12);
  }
  expect([weightAt(evenWeight, 20), weightAt(evenWeight, 100), weightAt(evenWeight, 250)]).toEqual([1, 1, 1]);
});

test('a sum over a span’s nodes is the integral under the weight, its corners included', () => {
  const sum = (inner: number, outer: number, music: readonly MusicPoint[], f: (r: number) => number): number =>
    spanNodes(inner, outer, music).reduce((total, { radius, weight }) => total + weight * f(radius), 0);
  const even = [point(20, 1), point(200, 1)];
  for (let power = 0; power <= 12; power++) {
    const exact = (140 ** (power + 1) - 60 ** (power + 1)) / (power + 1);
    expect(sum(60, 140, even, (r) => r ** power) / exact, `${power}`).toBeCloseTo(1, 12);
  }
  expect(sum(60, 140, even, (r) => 1 / r)).toBeCloseTo(Math.log(140 / 60), 12);
  // a roof from 2 at 60 over 6 at 80 down to 0 at 120: 2 · 10 below 60, 80 and 120 under it
  const roof = [point(60, 2), point(80, 6), point(120, 0)];
  expect(sum(50, 140, roof, () => 1)).toBeCloseTo(20 + 80 + 120, 10);
  expect(sum(60, 120, roof, () => 1)).toBeCloseTo(200, 10);
  expect(spanNodes(60, 120, roof)).toHaveLength(40);
  expect(spanNodes(50, 140, roof)).toHaveLength(60);
  const radii = spanNodes(50, 140, roof).map(({ radius }) => radius);
  expect(radii).toEqual([...radii].sort((a, b) => a - b));
});

test('music that lies nowhere in the span is refused', () => {
  const music = [point(60, 0), point(80, 0), point(90, 1)];
  expect(() => spanNodes(60, 80, music)).toThrow(
    'the music weight is 0 all the way from 60 to 80 mm; some of it must lie in the groove span',
  );
  expect(spanNodes(60, 81, music).length).toBeGreaterThan(0);
});
