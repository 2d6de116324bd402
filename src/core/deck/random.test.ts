import { expect, test } from 'vitest';
import { random } from './random.ts';

const draw = (seed: number, stream: number, count: number) => {
  const out = new Float64Array(count);
  random(seed, stream).fillNoise(out, count);
  return out;
};
const moment = (values: Float64Array, power: number) => values.reduce((sum, v) => sum + v ** power, 0) / values.length;

test('noise has mean 0, variance 1 and the flattened peak of four uniforms', () => {
  const values = draw(1, 2, 200000);
  expect(Math.abs(moment(values, 1))).toBeLessThan(0.01);
  expect(moment(values, 2)).toBeCloseTo(1, 2);
  expect(moment(values, 4)).toBeCloseTo(2.7, 1);
});

test('neighbours, streams and seeds are independent', () => {
  const values = draw(1, 2, 100001);
  const correlation = (a: Float64Array, b: Float64Array) => a.reduce((sum, v, i) => sum + v * b[i], 0) / a.length;
  expect(Math.abs(correlation(values.subarray(0, 100000), values.subarray(1)))).toBeLessThan(0.015);
  expect(Math.abs(correlation(values, draw(1, 3, 100001)))).toBeLessThan(0.015);
  expect(Math.abs(correlation(values, draw(2, 2, 100001)))).toBeLessThan(0.015);
});

test('drawn in pieces or at once, the numbers are the same', () => {
  const whole = draw(9, 9, 5000);
  const dice = random(9, 9);
  const part = new Float64Array(1024);
  for (let at = 0; at < 5000; at += 1024) {
    const count = Math.min(1024, 5000 - at);
    dice.fillNoise(part, count);
    expect(part.subarray(0, count)).toEqual(whole.subarray(at, at + count));
  }
});

test('triangular noise reaches ±1 step and has a variance of one sixth', () => {
  const values = new Float64Array(100000);
  random(3, 1).fillTriangular(values, values.length);
  expect(Math.max(...values.subarray(0, 50000))).toBeLessThanOrEqual(1);
  expect(moment(values, 2)).toBeCloseTo(1 / 6, 2);
  const uniform = Array.from({ length: 1000 }, random(5, 5).uniform);
  expect(Math.min(...uniform)).toBeGreaterThanOrEqual(0);
  expect(Math.max(...uniform)).toBeLessThan(1);
});

test('a seed that is not one is refused', () => {
  for (const seed of [-1, 0.5, 2 ** 32, Number.NaN]) expect(() => random(seed, 0)).toThrow('seed:');
});
