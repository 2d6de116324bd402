import { describe, expect, it } from 'vitest';
import type { SheetBand } from '../record/sheet.ts';
import type { Complex } from '../units/complex.ts';
import { intermodulationBeside } from './intermodulationBeside.ts';
import { bandOf } from './toneBands.fixture.ts';
import type { ChannelLines } from './twoToneEstimator.ts';
import { undoing } from './twoTones.ts';

const mul = (a: Complex, b: Complex): Complex => ({ re: a.re * b.re - a.im * b.im, im: a.re * b.im + a.im * b.re });
const [F1, F2] = [400, 4000];
const line = (re: number, im: number, variance = 0) => ({ re, im, variance });
const lines: ChannelLines = {
  lower: line(0.06, 0.08),
  upper: line(-0.015, 0.02),
  plus: line(4e-4, 1e-4),
  minus: line(-2e-4, 5e-4),
  plus2: line(1e-4, 0),
  minus2: line(0, 2e-4),
};
const quiet: ChannelLines = {
  ...lines,
  lower: line(1, 0),
  plus: line(0, 0),
};
const cut: SheetBand = {
  signal: 'two-tone',
  motion: 'lateral',
  frequenciesHz: [F1, F2],
  peakVelocityCmS: 10,
  radiusMm: 90,
  levelCorrectionDb: 0,
};
const heard = (left: ChannelLines, right = quiet) =>
  ({ found: true, frequenciesHz: [F1, F2], left, right, usedS: 20, turns: 10 }) as const;
const beside = (
  of: ChannelLines,
  sheetBand: SheetBand | null = cut,
  { flat = true, channel = 'left' as 'left' | 'right', rpm = 100 / 3 } = {},
) => {
  const both = channel === 'left' ? heard(of) : heard(quiet, of);
  return intermodulationBeside({ band: bandOf(), cut: sheetBand, heard: both }, channel, {
    rpm,
    referenceVelocityCmS: 5,
    undo: undoing(flat),
  });
};

/** % of intermodulation with so much added to the second-order lines of a flat capture, s/cm: written out. */
function total(k: number, b: number, of = lines): number {
  const velocity = 8;
  // phase of the lower tone, at its stated velocity
  const size = Math.hypot(of.lower.re, of.lower.im);
  const v1 = { re: (of.lower.re / size) * velocity, im: (of.lower.im / size) * velocity };
  const p = F1 * F2;
  const plus = mul(mul(of.upper, v1), { re: ((k / 2) * (F1 + F2) ** 2) / p + b, im: 0 });
  const minus = mul(mul(of.upper, { re: v1.re, im: -v1.im }), { re: (-(k / 2) * (F2 - F1) ** 2) / p + b, im: 0 });
  const upper = Math.hypot(of.upper.re, of.upper.im);
  const s = (a: Complex | null, c: Complex = { re: 0, im: 0 }) =>
    Math.hypot((a?.re ?? 0) + c.re, (a?.im ?? 0) + c.im) / upper;
  return 100 * Math.hypot(s(of.plus, plus) + s(of.minus, minus), s(of.plus2) + s(of.minus2));
}
const swayed = (of: (by: number) => number) => ({
  slope: (of(1) - of(-1)) / 2,
  bend: of(1) + of(-1) - 2 * total(0, 0),
});
/** cm/s at 90 mm and 33⅓ */
const SPEED = (2 * Math.PI * (100 / 3) * 9) / 60;
const DEG = Math.PI / 180;
const steeper = 1 / Math.cos(20 * DEG) ** 2;
const expectSwayed = (of: { slope: number; bend: number } | undefined, by: { slope: number; bend: number }): void => {
  expect(of?.slope).toBeCloseTo(by.slope, 9);
  expect(of?.bend).toBeCloseTo(by.bend, 9);
};
const nothing = { slope: 0, bend: 0 };

describe('what a record not cut as stated adds to the intermodulation', () => {
  it('a degree of zenith or of the vertical angle, a per cent of bend, in the lines’ own phases', () => {
    const of = beside(lines);
    expectSwayed(
      of?.zenith,
      swayed((by) => total((by * DEG) / SPEED, 0)),
    );
    expectSwayed(of?.verticalAngle, nothing);
    expectSwayed(
      of?.secondHarmonic,
      swayed((by) => total(0, (by * 0.02) / 5)),
    );
    expect(of?.radiusMm).toBe(90);
    expect(Math.abs(of?.zenith.slope ?? 0)).toBeGreaterThan(0.1);
  });

  it('a vertical cut goes with the vertical angle alone, one wall with both', () => {
    const vertical = beside(lines, { ...cut, motion: 'vertical' });
    expectSwayed(vertical?.zenith, nothing);
    expectSwayed(
      vertical?.verticalAngle,
      swayed((by) => total((by * DEG * steeper) / SPEED, 0)),
    );
    const wall = beside(lines, { ...cut, motion: 'right' });
    expectSwayed(
      wall?.zenith,
      swayed((by) => total((by * DEG * Math.SQRT1_2) / SPEED, 0)),
    );
    expectSwayed(
      wall?.verticalAngle,
      swayed((by) => total((by * DEG * Math.SQRT1_2 * steeper) / SPEED, 0)),
    );
  });

  it('a share of level or radius by orders: the second once, the third twice, and twice that of the radius', () => {
    const of = beside(lines);
    const upper = 0.025;
    const second = (Math.hypot(4e-4, 1e-4) + Math.hypot(2e-4, 5e-4)) / upper;
    const third = 3e-4 / upper;
    const orders = (100 * (second ** 2 + 2 * third ** 2)) / Math.hypot(second, third);
    expect(of?.level).toBeCloseTo(orders, 9);
    expect(of?.radius).toBeCloseTo(2 * orders, 9);
  });

  it('of the channel that is asked for, and slower on a slower record', () => {
    const here = beside(lines);
    expect(beside(lines, cut, { channel: 'right' })).toEqual(here);
    const slow = beside(lines, { ...cut, radiusMm: 180 }, { rpm: 50 / 3 });
    expectSwayed(slow?.zenith, here?.zenith ?? nothing);
  });

  it('lines equalised in playback are undone for the law and put back for the figure', () => {
    const w = (hz: number): Complex => {
      const s = 2 * Math.PI * hz;
      const phase = Math.atan(s * 318e-6) - Math.atan(s * 3180e-6) - Math.atan(s * 75e-6);
      const raw = (f: number): number => {
        const x = 2 * Math.PI * f;
        return Math.hypot(1, x * 318e-6) / Math.hypot(1, x * 3180e-6) / Math.hypot(1, x * 75e-6);
      };
      const size = raw(hz) / raw(1000);
      return { re: size * Math.cos(phase), im: size * Math.sin(phase) };
    };
    const through = (of: Complex, hz: number) => ({ ...mul(of, w(hz)), variance: 0 });
    const played: ChannelLines = {
      lower: through(lines.lower, F1),
      upper: through(lines.upper, F2),
      plus: through(lines.plus as Complex, F2 + F1),
      minus: through(lines.minus as Complex, F2 - F1),
      plus2: null,
      minus2: null,
    };
    const of = beside(played, cut, { flat: false });
    // % as captured: the added parts pass the equalisation at their own frequencies
    const captured = (k: number, b: number): number => {
      const size = Math.hypot(lines.lower.re, lines.lower.im);
      const v1 = { re: (lines.lower.re / size) * 8, im: (lines.lower.im / size) * 8 };
      const add = (own: Complex, v: Complex, share: number): Complex => {
        const more = mul(mul(lines.upper, v), { re: share, im: 0 });
        return { re: own.re + more.re, im: own.im + more.im };
      };
      const plus = mul(add(lines.plus as Complex, v1, ((k / 2) * (F1 + F2) ** 2) / (F1 * F2) + b), w(F1 + F2));
      const minus = mul(
        add(lines.minus as Complex, { re: v1.re, im: -v1.im }, (-(k / 2) * (F2 - F1) ** 2) / (F1 * F2) + b),
        w(F2 - F1),
      );
      const up = mul(lines.upper, w(F2));
      return (100 * (Math.hypot(plus.re, plus.im) + Math.hypot(minus.re, minus.im))) / Math.hypot(up.re, up.im);
    };
    const k = DEG / SPEED;
    expect(of?.zenith.slope).toBeCloseTo((captured(k, 0) - captured(-k, 0)) / 2, 9);
    expect(of?.secondHarmonic.slope).toBeCloseTo((captured(0, 0.004) - captured(0, -0.004)) / 2, 9);
  });

  it('nothing without the record’s velocity or radius, without second order, or without any of it', () => {
    expect(beside(lines, null)).toBeNull();
    expect(beside(lines, { ...cut, peakVelocityCmS: undefined })).toBeNull();
    expect(beside(lines, { ...cut, radiusMm: undefined })).toBeNull();
    expect(beside({ ...lines, minus: null })).toBeNull();
    const none = line(0, 0);
    expect(beside({ ...lines, plus: none, minus: none, plus2: none, minus2: null })).toBeNull();
  });
});
