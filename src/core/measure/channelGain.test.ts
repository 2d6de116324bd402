import { describe, expect, it } from 'vitest';
import { type CrosstalkReadings, channelRatio, gainShare, numbersOf } from './channelGain.ts';

const estimate = (re: number, im: number, varRe: number, varIm: number, degreesOfFreedom: number) => ({
  re,
  im,
  varRe,
  varIm,
  degreesOfFreedom,
});
const readings = (more: Partial<CrosstalkReadings> = {}): CrosstalkReadings => ({
  leftBand: estimate(0, 0, 1e-8, 2e-8, 11),
  rightBand: estimate(0, 0, 3e-8, 4e-8, 12),
  levelDifference: { value: 0, variance: 1e-6, degreesOfFreedom: 13 },
  both: estimate(1, 0, 1e-6, 3e-6, 14),
  bothVertical: false,
  inverted: false,
  cutTilt: 0,
  ...more,
});
const shareOf = (of: CrosstalkReadings) => gainShare(of, numbersOf(of).values);

describe('the readings as numbers', () => {
  it('left band, right band, levels, both; real part first, each with its variance and freedom', () => {
    const of = readings({
      leftBand: estimate(0.1, 0.2, 1, 2, 11),
      rightBand: estimate(0.3, 0.4, 3, 4, 12),
      levelDifference: { value: 0.5, variance: 5, degreesOfFreedom: 13 },
      both: estimate(0.6, 0.7, 6, 7, 14),
    });
    expect(numbersOf(of)).toEqual({
      values: [0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7],
      variances: [1, 2, 3, 4, 5, 6, 7],
      freedoms: [11, 11, 12, 12, 13, 14, 14],
    });
    const without = numbersOf({ ...of, both: null });
    expect(without.values.slice(5)).toEqual([0, 0]);
    expect(without.variances.slice(5)).toEqual([0, 0]);
    expect(without.freedoms.slice(4)).toEqual([13, Infinity, Infinity]);
  });
});

describe('the channels’ ratio', () => {
  it('is (q − m_RL)/(1 − q m_LR) of a lateral band, and its negative of a vertical one', () => {
    const [q, left, right] = [
      { re: 1.1, im: 0.3 },
      { re: 0.04, im: -0.02 },
      { re: -0.03, im: 0.05 },
    ];
    const rho = channelRatio(q, left, right, false);
    // put back: ρ (1 − q m_LR) = q − m_RL
    const one = { re: 1 - (q.re * left.re - q.im * left.im), im: -(q.re * left.im + q.im * left.re) };
    expect(rho.re * one.re - rho.im * one.im).toBeCloseTo(q.re - right.re, 12);
    expect(rho.re * one.im + rho.im * one.re).toBeCloseTo(q.im - right.im, 12);
    const vertical = channelRatio(q, left, right, true);
    expect(vertical).toEqual({ re: -rho.re, im: -rho.im });
  });
});

describe('how the gain is shared between levels and lateral band', () => {
  /** of ln |ρ|: the mean of both parts’ variances over |q|², and 0.01 dB */
  const relative = 2e-6 / 4 + 0.0012 ** 2;

  it('all to the levels where no lateral band plays', () => {
    expect(shareOf(readings({ both: null }))).toEqual({ share: 1, extra: 0, disagreement: null });
  });

  it('by variances where they agree', () => {
    const of = readings({
      both: estimate(0, 2, 1e-6, 3e-6, 14),
      levelDifference: { value: Math.log(2), variance: 1e-6, degreesOfFreedom: 13 },
    });
    expect(shareOf(of)).toEqual({
      share: expect.closeTo(relative / (relative + 1e-6), 12),
      extra: 0,
      disagreement: null,
    });
  });

  it.each([1, -1])(
    'by variances, with half of what they differ by beside it, from 0.05 dB on and 2.6 of what both allow (sign %i)',
    (sign) => {
      const at = (difference: number, variance: number) =>
        shareOf(
          readings({
            both: estimate(2, 0, 1e-6, 3e-6, 14),
            levelDifference: { value: Math.log(2) + sign * difference, variance, degreesOfFreedom: 13 },
          }),
        );
      expect(at(0.0059, 1e-7).disagreement).toBeNull();
      const share = relative / (relative + 1e-7);
      expect(at(0.0061, 1e-7)).toEqual({
        share: expect.closeTo(share, 9),
        extra: expect.closeTo(0.00305 ** 2, 12),
        disagreement: expect.closeTo(sign * 0.0061, 12),
      });
      const bound = 2.6 * Math.sqrt(relative + 1e-5);
      expect(at(bound - 1e-5, 1e-5)).toMatchObject({ extra: 0, disagreement: null });
      expect(at(bound + 1e-5, 1e-5).disagreement).toBeCloseTo(sign * (bound + 1e-5), 12);
      // beyond 0.2 dB the lateral band alone
      expect(at(0.0229, 1e-7).share).toBeCloseTo(share, 9);
      expect(at(0.0231, 1e-7)).toEqual({
        share: 0,
        extra: expect.closeTo((0.0231 / 2) ** 2, 12),
        disagreement: expect.closeTo(sign * 0.0231, 12),
      });
    },
  );
});
