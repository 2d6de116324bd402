import { expect, it } from 'vitest';
import { combineComplex, combineEstimates } from './combine.ts';

const of = (value: number, variance: number, degreesOfFreedom = 20) => ({ value, variance, degreesOfFreedom });

it('weighs by 1/variance, and keeps 1/Σ(1/variance) where the readings agree', () => {
  const both = combineEstimates([of(1, 1), of(1.3, 0.25)]);
  expect(both.value).toBeCloseTo((1 * 1 + 1.3 * 4) / 5, 12);
  expect(both.variance).toBeCloseTo(1 / 5, 12);
  expect(both.degreesOfFreedom).toBe(40);
});

it('readings that scatter by more than their variances allow are as unsure as they show (Birge’s ratio)', () => {
  // three of one variance: the variance of their mean is then s²/n, whatever they say of themselves
  const values = [0, 1, 5];
  const three = combineEstimates(values.map((v) => of(v, 1e-4)));
  const s2 = values.reduce((sum, v) => sum + (v - 2) ** 2, 0) / 2;
  expect(three.variance).toBeCloseTo(s2 / 3, 9);
  // and known from so few
  expect(three.degreesOfFreedom).toBe(2);
  // never less than they say
  expect(combineEstimates([of(1, 1), of(1, 1)]).variance).toBeCloseTo(0.5, 12);
});

it('the same of complex readings, both parts together', () => {
  const z = (re: number, im: number, variance: number) => ({
    re,
    im,
    varRe: variance,
    varIm: variance,
    degreesOfFreedom: 10,
  });
  expect(combineComplex([z(1, 0, 1), z(1.1, 0.1, 1)])).toMatchObject({ varRe: 0.5, varIm: 0.5, degreesOfFreedom: 20 });
  const apart = combineComplex([z(0, 0, 1e-6), z(0.3, 0.4, 1e-6)]);
  // 0.25 off the mean either way: χ² = 2 · 0.0625/2e-6, on the variance of the mean
  expect(apart.varRe).toBeCloseTo((0.0625 / 1e-6) * 0.5e-6, 9);
  expect(apart.degreesOfFreedom).toBe(1);
});

it('one reading is itself; none is a mistake of the caller’s', () => {
  expect(combineEstimates([of(3, 2, 7)])).toEqual(of(3, 2, 7));
  expect(() => combineEstimates([])).toThrow('readings must not be empty');
});
