import { describe, expect, it } from 'vitest';
import { type MonoSums, tiltFromMonoSums } from './monoSums.ts';

const DB = 20 / Math.LN10;
const spread = { separationDb: 0.3, monoDb: 0.1 };
/** Sums through a switch of this gain, of leaks with these in-phase and quadrature parts. */
const sums = (a: readonly [number, number], b: readonly [number, number], gainDb = 0): MonoSums => ({
  leftMonoDb: DB * Math.log(Math.hypot(1 + a[0], a[1])) + gainDb,
  rightMonoDb: DB * Math.log(Math.hypot(1 + b[0], b[1])) + gainDb,
});
const read = (a: readonly [number, number], b: readonly [number, number], gainDb = 0, of = spread) => {
  const answer = tiltFromMonoSums(Math.hypot(...a), Math.hypot(...b), sums(a, b, gainDb), of);
  if (!answer.found) throw new Error(answer.why.code);
  return answer;
};

describe('leaks from three readings', () => {
  it.each([
    [
      [0.01, 0.02],
      [0.04, 0.01],
    ],
    [
      [0.04, 0.01],
      [0.01, 0.02],
    ],
    [
      [-0.03, 0.01],
      [0.03, 0.02],
    ],
    [
      [-0.02, 0],
      [-0.05, 0.005],
    ],
  ] as const)('%j and %j come back with their in-phase parts, the quadrature without its sign', (a, b) => {
    for (const sign of [1, -1]) {
      const of = read([a[0], sign * a[1]], [b[0], sign * b[1]]);
      expect(of.leaks.leftIntoRight.re).toBeCloseTo(a[0], 6);
      expect(of.leaks.rightIntoLeft.re).toBeCloseTo(b[0], 6);
      expect(of.leaks.leftIntoRight.im).toBeCloseTo(a[1], 4);
      expect(of.leaks.rightIntoLeft.im).toBeCloseTo(b[1], 4);
      expect(of.tilt).toBeCloseTo(Math.atan((b[0] - a[0]) / 2), 6);
    }
  });

  it('a switch’s own gain hides the common part alone: it is taken as nothing', () => {
    const [a, b] = [
      [0.01, 0.02],
      [0.04, 0.01],
    ] as const;
    const of = read(a, b, -6.02);
    expect(of.tilt).toBeCloseTo(0.0143, 4);
    expect(of.leaks.leftIntoRight.re).toBeCloseTo(-0.0143, 4);
    expect(of.leaks.rightIntoLeft.re).toBeCloseTo(0.0143, 4);
  });

  it('the doubt by hand: both sums, and what the sizes put into them', () => {
    const [a, b] = [
      [0.05, 0],
      [0, 0.1],
    ] as const;
    const ofSums = (Math.SQRT2 * 0.1) / DB / 2;
    const ofSizes = (Math.hypot(0.05 ** 2, 0.1 ** 2) * 0.3) / DB / 2;
    expect(read(a, b).uncertainty).toBeCloseTo(Math.hypot(ofSums, ofSizes), 12);
    expect(read(a, b, 0, { separationDb: 10, monoDb: 0 }).uncertainty).toBeCloseTo((ofSizes * 10) / 0.3, 12);
  });

  it('a leak’s in-phase part is never more than the leak', () => {
    // the difference asks for a little more than both sizes hold, within doubt
    const of = tiltFromMonoSums(0.01, 0.01, { leftMonoDb: -0.13, rightMonoDb: 0.13 }, spread);
    expect(of.found && of.leaks).toEqual({ leftIntoRight: { re: -0.01, im: 0 }, rightIntoLeft: { re: 0.01, im: 0 } });
    const turned = tiltFromMonoSums(0.01, 0.01, { leftMonoDb: 0.13, rightMonoDb: -0.13 }, spread);
    expect(turned.found && turned.leaks).toEqual({
      leftIntoRight: { re: 0.01, im: 0 },
      rightIntoLeft: { re: -0.01, im: 0 },
    });
  });

  it('sums further apart than the leaks and the doubt allow are refused, either way', () => {
    const found = (half: number) =>
      tiltFromMonoSums(0.01, 0.01, { leftMonoDb: -half, rightMonoDb: half }, spread).found;
    // t = 0.01 and ±0.0081 of it: 2 t = half/4.343
    const edge = DB * (0.01 + Math.hypot((Math.SQRT2 * 0.1) / DB / 2, 1e-6));
    for (const sign of [1, -1]) {
      expect(found(sign * (edge - 0.002))).toBe(true);
      expect(found(sign * (edge + 0.002))).toBe(false);
    }
    expect(tiltFromMonoSums(0.01, 0.01, { leftMonoDb: -1, rightMonoDb: 1 }, spread)).toEqual({
      found: false,
      why: { code: 'mono-sums-disagree', values: {} },
    });
  });

  it.each([
    [-12, 6],
    [6, -12],
  ])('sums of %d and %d dB are levels of a mono sum', (leftMonoDb, rightMonoDb) => {
    expect(tiltFromMonoSums(0.01, 0.01, { leftMonoDb, rightMonoDb }, spread).found).toBe(false);
    for (const odd of [-12.1, 6.1, Number.NaN]) {
      expect(() => tiltFromMonoSums(0.01, 0.01, { leftMonoDb: odd, rightMonoDb }, spread)).toThrow(
        `left mono is ${odd}`,
      );
      expect(() => tiltFromMonoSums(0.01, 0.01, { leftMonoDb, rightMonoDb: odd }, spread)).toThrow(
        `right mono is ${odd}`,
      );
    }
  });
});
