import { expect, it } from 'vitest';
import {
  type Complex,
  conjugate,
  less,
  magnitude,
  over,
  phaseOf,
  plus,
  polar,
  reciprocal,
  scaled,
  times,
} from './complex.ts';

const near = (a: Complex, b: Complex): void => {
  expect(a.re).toBeCloseTo(b.re, 12);
  expect(a.im).toBeCloseTo(b.im, 12);
};

it('multiplies by hand: (1 + 2i)(3 − 4i) = 11 + 2i', () => {
  expect(times({ re: 1, im: 2 }, { re: 3, im: -4 })).toEqual({ re: 11, im: 2 });
  near(over({ re: 11, im: 2 }, { re: 3, im: -4 }), { re: 1, im: 2 });
  near(times(reciprocal({ re: 3, im: -4 }), { re: 3, im: -4 }), { re: 1, im: 0 });
});

it('adds angles and multiplies sizes in polar form', () => {
  const a = polar(2, 0.3);
  const b = polar(5, -1.1);
  expect(magnitude(times(a, b))).toBeCloseTo(10, 12);
  expect(phaseOf(times(a, b))).toBeCloseTo(-0.8, 12);
  expect(phaseOf(over(a, b))).toBeCloseTo(1.4, 12);
});

it('gives the square of the size with the conjugate', () => {
  near(times({ re: 3, im: 4 }, conjugate({ re: 3, im: 4 })), { re: 25, im: 0 });
  expect(less(plus({ re: 1, im: 2 }, { re: 3, im: 4 }), { re: 3, im: 4 })).toEqual({ re: 1, im: 2 });
  expect(scaled({ re: 1, im: -2 }, 3)).toEqual({ re: 3, im: -6 });
});
