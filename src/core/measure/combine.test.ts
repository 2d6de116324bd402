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

it('weights of complex readings go by both parts’ variances together, each part keeping its own', () => {
  const one = { re: 1, im: 2, varRe: 1, varIm: 3, degreesOfFreedom: 5 };
  const two = { re: 1.4, im: 1.8, varRe: 0.5, varIm: 0.5, degreesOfFreedom: 7 };
  // 1/4 against 1/1
  const of = combineComplex([one, two]);
  expect(of.re).toBeCloseTo(0.2 * 1 + 0.8 * 1.4, 12);
  expect(of.im).toBeCloseTo(0.2 * 2 + 0.8 * 1.8, 12);
  expect(of.varRe).toBeCloseTo(0.04 * 1 + 0.64 * 0.5, 12);
  expect(of.varIm).toBeCloseTo(0.04 * 3 + 0.64 * 0.5, 12);
  expect(of.degreesOfFreedom).toBe(12);
  expect(combineComplex([one])).toBe(one);
  expect(() => combineComplex([])).toThrow('readings must not be empty');
});

it('scatter in the imaginary part alone counts as well, and rules from four times on', () => {
  const z = (im: number) => ({ re: 0, im, varRe: 1, varIm: 1, degreesOfFreedom: 10 });
  // χ² of two readings ±d about their mean: 2 d²/2
  const over = combineComplex([z(2.01), z(-2.01)]);
  expect(over.varRe).toBeCloseTo(0.5 * 2.01 ** 2, 12);
  expect(over.varIm).toBeCloseTo(0.5 * 2.01 ** 2, 12);
  expect(over.degreesOfFreedom).toBe(1);
  expect(combineComplex([z(1.99), z(-1.99)]).degreesOfFreedom).toBe(20);
  const under = combineEstimates([of(1.99 / Math.SQRT2, 1), of(-1.99 / Math.SQRT2, 1), of(0, 1)]);
  // χ² = 3.96 over two
  expect(under.variance).toBeCloseTo((1 / 3) * (1.99 ** 2 / 2), 12);
  expect(under.degreesOfFreedom).toBe(60);
});

it('a reading without any variance has the word', () => {
  const sure = combineEstimates([of(5, 0), of(1, 1)]);
  expect(sure.value).toBeCloseTo(5, 12);
  const z = (re: number, variance: number) => ({ re, im: 0, varRe: variance, varIm: variance, degreesOfFreedom: 10 });
  expect(combineComplex([z(5, 0), z(1, 1)]).re).toBeCloseTo(5, 12);
});
