import { expect, it } from 'vitest';
import { FoldedPeriod } from './foldedPeriod.ts';

const FRAMES = 900;
const phaseAt = (n: number): number => 0.031 * n + 1e-6 * n * n - 40;
const left = Float64Array.from({ length: FRAMES }, (_, n) => Math.cos(9 * phaseAt(n) + 0.4) + 0.2 * Math.sin(1.7 * n));
const right = Float64Array.from(
  { length: FRAMES },
  (_, n) => 0.5 * Math.sin(11 * phaseAt(n)) * (1 + Math.cos(6 * phaseAt(n))),
);

/** Harmonics of what lies at each place of the period, place by place. */
function plain(x: Float64Array, orders: readonly number[], places: number): number[] {
  return orders.flatMap((order) => {
    let [re, im] = [0, 0];
    x.forEach((v, n) => {
      const turns = phaseAt(n) / (2 * Math.PI);
      const place = Math.floor((turns - Math.floor(turns)) * places) / places;
      re += (v * Math.cos(2 * Math.PI * order * place)) / x.length;
      im -= (v * Math.sin(2 * Math.PI * order * place)) / x.length;
    });
    return [re, im];
  });
}
const agree = (of: Float32Array, wanted: readonly number[]): void => {
  expect(of).toHaveLength(wanted.length);
  of.forEach((v, i) => {
    expect(v).toBeCloseTo(wanted[i], 6);
  });
};

it.each([
  [8, 12, 256],
  [8, 21, 256],
  [8, 22, 512],
])('harmonics %i to %i of a frame laid over the period in %i places, and of its power', (first, last, places) => {
  const fold = new FoldedPeriod(first, last);
  expect([fold.first, fold.last]).toEqual([first, last]);
  const orders = Array.from({ length: last - first + 1 }, (_, i) => first + i);
  // twice: nothing stays from one frame to the next
  for (let round = 0; round < 2; round++) {
    const of = fold.of({ left, right }, phaseAt);
    for (const [channel, x] of [
      [of.left, left],
      [of.right, right],
    ] as const) {
      const square = x.map((v) => v * v);
      expect(channel.power).toBeCloseTo(square.reduce((a, b) => a + b, 0) / FRAMES, 9);
      agree(channel.lines, plain(x, orders, places));
      agree(channel.bursts, plain(square, [5, 6, 7, 8], places));
    }
  }
});
