import { describe, expect, it } from 'vitest';
import { gaussian } from '../signal/gaussian.fixture.ts';
import type { BurstReading, ChannelBursts, Lines } from './burstEstimator.ts';
import { bandsOf, heardIn, lockedZ, overAt } from './lockedTests.ts';

const NONE: Lines = { re: [0, 0, 0, 0], im: [0, 0, 0, 0], variance: [1, 1, 1, 1] };
const channel = (lines: Lines, tone = 1): ChannelBursts => ({ tone, even: 0, lines, bursts: NONE });
const reading = (left: Lines, right: Lines, more: Partial<BurstReading> = {}, tones = [1, 1]): BurstReading => ({
  hz: 300,
  first: 14,
  frames: 100,
  left: channel(left, tones[0]),
  right: channel(right, tones[1]),
  ...more,
});
/** Lines of so much amplitude each, turned from one to the next, with noise of a variance (of both parts) about them. */
function lines(count: number, size: (i: number) => number, variance = 1e-4, seed = 3): Lines {
  const draw = gaussian(seed);
  const all = Array.from({ length: count }, (_, i) => i);
  const noise = (): number => Math.sqrt(variance / 2) * draw();
  return {
    re: all.map((i) => size(i) * Math.cos(0.9 * i * i) + noise()),
    im: all.map((i) => size(i) * Math.sin(0.9 * i * i) + noise()),
    variance: all.map((i) => variance * (1 + 0.1 * (i % 3))),
  };
}
const square = ({ re, im }: Lines, i: number): number => re[i] ** 2 + im[i] ** 2;
const range = (from: number, to: number): number[] => Array.from({ length: to - from }, (_, k) => from + k);
const sum = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0);
/** Wilson and Hilferty */
const normal = (chi2: number, freedom: number): number =>
  ((chi2 / freedom) ** (1 / 3) - (1 - 2 / (9 * freedom))) / Math.sqrt(2 / (9 * freedom));

describe('deviations from what noise does', () => {
  it('χ² of so many degrees by its cube root, there and back', () => {
    for (const freedom of [4, 20]) {
      for (const z of [-1, 0, 2.5, 6]) expect(normal(overAt(z, freedom) * freedom, freedom)).toBeCloseTo(z, 9);
    }
    expect(overAt(-30, 4)).toBe(0);
    const of = lines(12, () => 0.01);
    const chi2 = 2 * sum(range(3, 9).map((i) => square(of, i) / of.variance[i]));
    expect(lockedZ(of, 3, 9)).toBeCloseTo(normal(chi2, 12), 9);
    expect(lockedZ({ re: [1], im: [0], variance: [0] }, 0, 1)).toBeGreaterThan(1e6);
  });
});

describe('the bands that are asked', () => {
  it('half octaves from 4 to 16 kHz that hold two lines or more but not all, and the whole', () => {
    const count = 36;
    const of = bandsOf(
      reading(
        lines(count, () => 0),
        lines(count, () => 0),
      ),
    );
    const hz = (i: number): number => 300 * (14 + i);
    expect(of).toHaveLength(8);
    expect(of.at(-1)).toEqual({ from: 0, to: count });
    [4000, 4757, 5657, 6727, 8000, 9514, 11_314].forEach((low, k) => {
      const inside = range(0, count).filter((i) => hz(i) >= low && hz(i) <= low * Math.SQRT2);
      expect(of[k]).toEqual({ from: inside[0], to: inside[inside.length - 1] + 1 });
    });
  });
  it('a half octave with one line, or with them all, is none', () => {
    const of = (hz: number, first: number, count: number) =>
      bandsOf(
        reading(
          lines(count, () => 0),
          NONE,
          { hz, first },
        ),
      );
    // 4000, 5000 and so on to 15 000
    expect(of(1000, 4, 12)).toEqual([
      { from: 0, to: 2 },
      { from: 1, to: 3 },
      { from: 2, to: 5 },
      { from: 3, to: 6 },
      { from: 4, to: 8 },
      { from: 6, to: 10 },
      { from: 8, to: 12 },
      { from: 0, to: 12 },
    ]);
    expect(of(1000, 8, 1)).toEqual([{ from: 0, to: 1 }]);
    expect(of(1000, 8, 3)).toEqual([
      { from: 0, to: 2 },
      { from: 0, to: 3 },
    ]);
  });
});

describe('what is heard in a band', () => {
  it('against its own noise where the other wall has nothing', () => {
    const own = lines(10, (i) => 0.02 + 0.001 * i);
    const of = heardIn(
      reading(
        own,
        lines(10, () => 0),
      ),
      'left',
      { from: 2, to: 8 },
    );
    expect(of).toEqual({
      from: 2,
      to: 8,
      z: expect.closeTo(lockedZ(own, 2, 8), 9),
      power: expect.closeTo(sum(range(2, 8).map((i) => square(own, i) - own.variance[i])), 12),
      spread: expect.closeTo(Math.sqrt(sum(range(2, 8).map((i) => own.variance[i] ** 2))), 12),
      left: 0,
      may: 0,
    });
    // the same in the other channel
    expect(
      heardIn(
        reading(
          lines(10, () => 0),
          own,
        ),
        'right',
        { from: 2, to: 8 },
      ),
    ).toEqual(of);
  });

  it('a leak is looked for only where the other wall has twice as much for its tone, and surely', () => {
    const own = lines(12, () => 0.1, 1e-6);
    const other = (size: number) => lines(12, () => size, 1e-6, 4);
    const asked = (size: number, tones: [number, number] = [1, 1]): boolean =>
      heardIn(reading(own, other(size), {}, tones), 'left', { from: 0, to: 6 }).may > 0;
    const more = (size: number): number =>
      sum(range(0, 6).map((i) => square(other(size), i))) / sum(range(0, 6).map((i) => square(own, i)));
    for (const size of [0.1, 0.135, 0.14, 0.143, 0.15, 0.3]) expect(asked(size)).toBe(more(size) > 2);
    // three times as loud a tone on that side, in power
    expect(asked(0.15, [1, 3])).toBe(false);
    expect(asked(0.15, [3, 1])).toBe(true);
    expect(asked(0.1, [3, 1])).toBe(true);
    // as much more, but hardly over its noise
    const quiet = lines(12, () => 0, 1e-8);
    const over = (size: number) => lines(12, () => size, 1e-4, 4);
    for (const size of [0.005, 0.01, 0.015, 0.02, 0.03]) {
      const of = heardIn(reading(quiet, over(size)), 'left', { from: 0, to: 6 });
      expect(of.may > 0, `${size}`).toBe(lockedZ(over(size), 0, 6) >= 6);
    }
  });

  it('too few lines to tell a leak, or too many to run straight: not asked, all of it may be left', () => {
    const own = lines(12, () => 0.001, 1e-6);
    const other = lines(12, () => 0.2, 1e-6, 4);
    const of = (from: number, to: number, tones: [number, number] = [1, 1]) =>
      heardIn(reading(own, other, {}, tones), 'left', { from, to });
    const few = of(2, 5, [0.5, 2]);
    const power = (sum(range(2, 5).map((i) => square(other, i))) / 2) * 0.5;
    expect(few.z).toBe(0);
    expect(few.left).toBeCloseTo(power, 12);
    expect(few.may).toBeCloseTo(power, 12);
    expect(few.power).toBeCloseTo(sum(range(2, 5).map((i) => square(own, i) - own.variance[i])), 12);
    expect(of(2, 6).left).not.toBeCloseTo(sum(range(2, 6).map((i) => square(other, i))), 6);
    // nine lines are asked as a band, and the whole of twelve is not
    expect(of(0, 9).z).not.toBe(0);
    expect(of(0, 12).z).toBe(0);
    const [eight, nine] = [8, 9].map((count) =>
      heardIn(
        reading(
          lines(count, () => 0.001, 1e-6),
          lines(count, () => 0.2, 1e-6, 4),
        ),
        'left',
        { from: 0, to: count },
      ),
    );
    expect(eight.z).not.toBe(0);
    expect(nine.z).toBe(0);
  });

  it('a leak that runs straight over the band is taken off, and what a bent generator leaves of it allowed for', () => {
    const count = 8;
    const other = lines(14, (i) => 0.2 + 0.01 * i, 1e-7, 4);
    const noise = lines(14, () => 0, 1e-7);
    const [from, to] = [3, 3 + count];
    const x = (i: number): number => (2 * (i - from)) / (count - 1) - 1;
    const factor = (i: number) => ({ re: 0.1 + 0.03 * x(i), im: -0.05 + 0.02 * x(i) });
    const own: Lines = {
      re: noise.re.map((v, i) => v + factor(i).re * other.re[i] - factor(i).im * other.im[i]),
      im: noise.im.map((v, i) => v + factor(i).re * other.im[i] + factor(i).im * other.re[i]),
      variance: noise.variance,
    };
    const of = heardIn(reading(own, other), 'left', { from, to });
    expect(of.z).toBeGreaterThan(-3);
    expect(of.z).toBeLessThan(3);
    const leak = sum(range(from, to).map((i) => (factor(i).re ** 2 + factor(i).im ** 2) * square(other, i)));
    const power = sum(range(from, to).map((i) => square(other, i)));
    expect(of.left / (0.02 * leak + 1e-4 * power)).toBeCloseTo(1, 2);
    expect(of.may / (0.3 * leak + 3e-3 * power)).toBeCloseTo(1, 2);
  });

  it('what is left is the least squares’ remainder, its noise the greater by what the other wall’s puts in', () => {
    const [from, to] = [1, 8];
    const other = lines(9, (i) => 0.2 + 0.02 * (i % 3), 1e-5, 4);
    const own = lines(9, () => 0.02, 1e-5, 8);
    const n = to - from;
    const at = range(from, to);
    const x = at.map((_, k) => (2 * k) / (n - 1) - 1);
    // normal equations of (a + b x) as four real unknowns, solved by elimination
    const rows = at.flatMap((i, k) => [
      { row: [other.re[i], -other.im[i], x[k] * other.re[i], -x[k] * other.im[i]], value: own.re[i] },
      { row: [other.im[i], other.re[i], x[k] * other.im[i], x[k] * other.re[i]], value: own.im[i] },
    ]);
    const m = range(0, 4).map((a) => [
      ...range(0, 4).map((b) => sum(rows.map(({ row }) => row[a] * row[b]))),
      sum(rows.map(({ row, value }) => row[a] * value)),
    ]);
    for (let p = 0; p < 4; p++) {
      for (let r = 0; r < 4; r++) {
        if (r === p) continue;
        const share = m[r][p] / m[p][p];
        for (let c = p; c <= 4; c++) m[r][c] -= share * m[p][c];
      }
    }
    const [ar, ai, br, bi] = range(0, 4).map((p) => m[p][4] / m[p][p]);
    const factor = x.map((v) => ({ re: ar + br * v, im: ai + bi * v }));
    const left = at.map((i, k) => ({
      re: own.re[i] - factor[k].re * other.re[i] + factor[k].im * other.im[i],
      im: own.im[i] - factor[k].re * other.im[i] - factor[k].im * other.re[i],
      variance: own.variance[i] + (factor[k].re ** 2 + factor[k].im ** 2) * other.variance[i],
    }));
    const chi2 = 2 * sum(left.map((v) => (v.re ** 2 + v.im ** 2) / v.variance));
    const leak = sum(at.map((i, k) => (factor[k].re ** 2 + factor[k].im ** 2) * square(other, i)));
    const power = sum(at.map((i) => square(other, i)));
    expect(heardIn(reading(own, other), 'left', { from, to })).toEqual({
      from,
      to,
      z: expect.closeTo(normal(chi2, 2 * (n - 2)), 6),
      power: expect.closeTo(sum(left.map((v) => v.re ** 2 + v.im ** 2 - ((n - 2) / n) * v.variance)), 10),
      spread: expect.closeTo(Math.sqrt(sum(left.map((v) => v.variance ** 2))), 12),
      left: expect.closeTo(0.02 * leak + 1e-4 * power, 10),
      may: expect.closeTo(0.3 * leak + 3e-3 * power, 10),
    });
  });
});
