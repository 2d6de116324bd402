import { describe, expect, it } from 'vitest';
import { armTransfer, sweptLevel, sweptTransfer } from './sweptArm.ts';

it('a steady tone passes as s²/(s² + sω₀/Q + ω₀²)', () => {
  for (const [hz, f0, q] of [
    [5, 10, 3],
    [10, 10, 3],
    [30, 9, 0.6],
  ]) {
    const [s, w] = [hz / f0, 1];
    // −x²/(1 − x² + jx/Q)
    const [a, b] = [w - s * s, s / q];
    const told = armTransfer(hz, f0, q);
    expect(told.re).toBeCloseTo((-s * s * a) / (a * a + b * b), 12);
    expect(told.im).toBeCloseTo((s * s * b) / (a * a + b * b), 12);
  }
  expect(armTransfer(10, 10, 3).im).toBeCloseTo(3, 12);
});

describe('a window', () => {
  /** Means under half a Hann window's width to either side, by seven places: 0.5 + 0.5 cos πx over their sum of 4. */
  const reference = (hz: number, hzPerS: number, windowS: number, rise: number, f0: number, q: number) => {
    let [re, im] = [0, 0];
    for (const x of [-0.75, -0.5, -0.25, 0, 0.25, 0.5, 0.75]) {
      const weight = (0.5 + 0.5 * Math.cos(Math.PI * x)) / 4;
      const at = Math.max(0.2, hz + (hzPerS * windowS * x) / 2);
      const one = sweptTransfer({ hz: at, hzPerS, windowS: 0, rise }, f0, q);
      re += weight * one.re;
      im += weight * one.im;
    }
    return { re, im };
  };

  it.each([
    [9, 0.8, 2, 0.3],
    [9, -0.8, 2, 0],
    [0.5, 1, 4, 0],
  ])('at %f Hz, %f Hz/s, %f s long', (hz, hzPerS, windowS, rise) => {
    const told = sweptTransfer({ hz, hzPerS, windowS, rise }, 9.5, 4);
    const plain = reference(hz, hzPerS, windowS, rise, 9.5, 4);
    expect(told.re).toBeCloseTo(plain.re, 12);
    expect(told.im).toBeCloseTo(plain.im, 12);
  });

  it('sees a steady tone as it is', () => {
    const told = sweptTransfer({ hz: 9, hzPerS: 0, windowS: 2 }, 9.5, 4);
    const plain = armTransfer(9, 9.5, 4);
    expect(told.re).toBeCloseTo(plain.re, 12);
    expect(told.im).toBeCloseTo(plain.im, 12);
  });
});

it('critical damping lies between what is hardly damped less and hardly more', () => {
  const at = (q: number) => sweptTransfer({ hz: 8, hzPerS: 1.5, windowS: 0 }, 9, q);
  const [less, just, more] = [at(0.499), at(0.5), at(0.501)];
  expect(just.re).toBeCloseTo((less.re + more.re) / 2, 4);
  expect(just.im).toBeCloseTo((less.im + more.im) / 2, 4);
});

it('downwards it answers as upwards would backwards: slow enough, both are the steady tone', () => {
  for (const hzPerS of [1e-4, -1e-4]) {
    const told = sweptTransfer({ hz: 11, hzPerS, windowS: 0 }, 9, 0.4);
    const plain = armTransfer(11, 9, 0.4);
    expect(told.re).toBeCloseTo(plain.re, 4);
    expect(told.im).toBeCloseTo(plain.im, 4);
  }
});

it('a level is that of the squares, down to −120 dB', () => {
  const { re, im } = armTransfer(5, 9, 3);
  expect(sweptLevel({ hz: 5, hzPerS: 0, windowS: 0 }, 9, 3)).toBeCloseTo(20 * Math.log10(Math.hypot(re, im)), 9);
  expect(sweptLevel({ hz: 1e-4, hzPerS: 0, windowS: 0 }, 9, 3)).toBe(-120);
});
