import { describe, expect, it } from 'vitest';
import type { SheetBand } from '../record/sheet.ts';
import { times } from '../units/complex.ts';
import { madeCut, madePassage, madeSide } from './handMade.fixture.ts';
import { oneWallPairs } from './oneWallPairs.ts';
import { playbackResponse } from './playbackEqualisation.ts';
import { twoToneAxes } from './twoToneAxes.ts';
import type { ChannelLines, HeardLine, TwoToneReading } from './twoToneEstimator.ts';
import { solveTwoTone, type Undo } from './twoToneSolve.ts';
import { grooveSpeed, intermodulationOf, lowerVelocity, solvedTwoTones, twoToneBands, undoing } from './twoTones.ts';

type Found = Extract<TwoToneReading, { found: true }>;
const line = (re: number, im: number, variance = 1e-10): HeardLine => ({ re, im, variance });
const channel = (by: number): ChannelLines => ({
  lower: line(0.3 * by, 0.1),
  upper: line(0.1, 0.05 * by),
  plus: line(0.004, 0.001 * by, 1e-10 * by),
  minus: line(-0.003 * by, 0.002, 3e-10),
  plus2: null,
  minus2: null,
});
const reading = (more: Partial<Found> = {}): Found => ({
  found: true,
  frequenciesHz: [300, 3000],
  left: channel(1),
  right: channel(0.8),
  usedS: 5,
  turns: 2,
  ...more,
});
const cutOf = (more: Partial<SheetBand> = {}): SheetBand =>
  madeCut({ signal: 'two-tone', motion: 'lateral', radiusMm: 120, peakVelocityCmS: 8, ...more });
const sideOf = (cuts: SheetBand[], readings: (Found | TwoToneReading)[] = cuts.map(() => reading()), more = {}) =>
  madeSide({
    sheet: { schema: 1, name: 'x', rpm: 33, bands: cuts },
    passages: readings.map((twoTone, index) =>
      madePassage(
        { index, signal: 'two-tone', motion: cuts[index]?.motion ?? 'lateral', sheetBand: index },
        { twoTone },
      ),
    ),
    ...more,
  });

it('of a band’s stated peak the lower tone has ratio/(1 + ratio), 4 : 1 where nobody says', () => {
  expect(lowerVelocity(cutOf())).toBeCloseTo(6.4, 12);
  expect(lowerVelocity(cutOf({ ratio: 1 }))).toBeCloseTo(4, 12);
  expect(lowerVelocity(cutOf({ levelCorrectionDb: -6 }))).toBeCloseTo(6.4 * 10 ** -0.3, 12);
  expect(lowerVelocity(madeCut())).toBeNull();
});

it('a groove of 100 mm passes at 2πr a turn', () => {
  expect(grooveSpeed(45, 100)).toBeCloseTo(2 * Math.PI * 10 * 0.75, 12);
});

it('undone, a line stands for the groove’s velocity; a flat capture needs nothing', () => {
  const one = { re: 0.3, im: -0.7 };
  expect(undoing(true)(one, 400)).toBe(one);
  const { re, im } = undoing(false)(times(one, playbackResponse(400)), 400);
  expect(re).toBeCloseTo(0.3, 12);
  expect(im).toBeCloseTo(-0.7, 12);
});

describe('two-tone bands of a side', () => {
  it('are those that were heard, with their entry; swapped channels put right', () => {
    const cuts = [cutOf(), cutOf({ radiusMm: 90 })];
    const of = reading();
    const [one, two] = twoToneBands(sideOf(cuts));
    expect(one).toMatchObject({ cut: cuts[0], heard: of, band: { index: 0 } });
    expect(two.cut).toBe(cuts[1]);
    const [swapped] = twoToneBands(sideOf(cuts, undefined, { order: 'swapped' }));
    expect(swapped.heard).toEqual({ ...of, left: of.right, right: of.left });
    expect(twoToneBands(sideOf(cuts, undefined, { order: 'normal' }))[0].heard).toEqual(of);
    expect(twoToneBands(sideOf(cuts, [{ found: false }]))).toEqual([]);
    expect(twoToneBands(madeSide())).toEqual([]);
    expect(twoToneBands(madeSide({ passages: [madePassage(null, { twoTone: of }), madePassage({}, {})] }))).toEqual([]);
    const unmatched = { ...sideOf(cuts), passages: [madePassage({ sheetBand: null }, { twoTone: of })] };
    expect(twoToneBands(unmatched)[0].cut).toBeNull();
    expect(twoToneBands({ ...sideOf(cuts), sheet: null })[0].cut).toBeNull();
    expect(
      twoToneBands({ ...unmatched, passages: [madePassage({ sheetBand: 9 }, { twoTone: of })] })[0].cut,
    ).toBeNull();
  });

  it.each(['lateral', 'vertical'] as const)('a %s one is solved with its radius and velocity', (motion) => {
    const cut = cutOf({ motion });
    const leaks = { leftIntoRight: { re: 0.02, im: 0 }, rightIntoLeft: { re: 0, im: 0.01 } };
    const of = reading();
    const vertical = motion === 'vertical';
    for (const known of [leaks, null]) {
      const axes = twoToneAxes(of, vertical, known)!;
      expect(solvedTwoTones(sideOf([cut]), known, false)).toEqual([
        {
          ...twoToneBands(sideOf([cut]))[0],
          vertical,
          radiusMm: 120,
          speed: grooveSpeed(100 / 3, 120),
          velocity: expect.closeTo(6.4, 12),
          solution: solveTwoTone(axes, [300, 3000], lowerVelocity(cut)!, vertical ? 'along' : 'across', undoing(false)),
          leaksKnown: known !== null,
        },
      ]);
    }
  });

  it('none is solved in one wall, without radius or velocity, in less than a turn, or with a line missing', () => {
    const count = (cut: SheetBand, of = reading()) => solvedTwoTones(sideOf([cut], [of]), null, false).length;
    expect(count(cutOf())).toBe(1);
    expect(count(cutOf(), reading({ turns: 1 }))).toBe(1);
    expect(count(cutOf(), reading({ turns: 0 }))).toBe(0);
    expect(count(cutOf({ motion: 'left' }))).toBe(0);
    expect(count(madeCut({ signal: 'two-tone', radiusMm: 120 }))).toBe(0);
    expect(count(madeCut({ signal: 'two-tone', peakVelocityCmS: 8 }))).toBe(0);
    expect(count(cutOf(), reading({ left: { ...channel(1), plus: null } }))).toBe(0);
    expect(count(cutOf({ peakVelocityCmS: 0 }))).toBe(0);
    expect(count(cutOf({ peakVelocityCmS: Number.POSITIVE_INFINITY }))).toBe(0);
    expect(solvedTwoTones({ ...sideOf([cutOf()]), sheet: null }, null, false)).toEqual([]);
  });
});

describe('intermodulation', () => {
  const lines = (more: Partial<ChannelLines> = {}): ChannelLines => ({
    lower: line(1, 0),
    upper: line(0.06, 0.08),
    plus: line(0.003, 0.004, 4e-8),
    minus: line(0, 0.002, 9e-8),
    plus2: line(0.001, 0, 1e-8),
    minus2: line(0, -0.0005, 2e-8),
    ...more,
  });
  const clean = (size: number, variance: number): number => Math.sqrt(size ** 2 - 2 * variance) / 0.1;

  it('is the sum of either order’s lines over the upper tone, noise taken off, the orders by squares', () => {
    const second = clean(0.005, 4e-8) + clean(0.002, 9e-8);
    const third = clean(0.001, 1e-8) + clean(0.0005, 2e-8);
    const total = Math.hypot(second, third);
    expect(intermodulationOf(lines())).toEqual({
      second: expect.closeTo(second, 12),
      third: expect.closeTo(third, 12),
      total: expect.closeTo(total, 12),
      spread: expect.closeTo(Math.sqrt(second ** 2 * 13e-6 + third ** 2 * 3e-6) / total, 12),
    });
  });

  it('lines out of reach count for nothing of the third order; without the second there is none', () => {
    const told = intermodulationOf(lines({ plus2: null, minus2: null }))!;
    expect(told.third).toBe(0);
    expect(told.total).toBe(told.second);
    expect(told.spread).toBeCloseTo(Math.sqrt(13e-6), 12);
    expect(intermodulationOf(lines({ plus: null }))).toBeNull();
    expect(intermodulationOf(lines({ minus: null }))).toBeNull();
    expect(intermodulationOf(lines({ upper: line(0, 0) }))).toBeNull();
  });

  it('in noise is nothing, as unsure as its lines together', () => {
    const noise = line(1e-4, 0, 1e-6);
    expect(intermodulationOf(lines({ plus: noise, minus: noise, plus2: noise, minus2: noise }))).toEqual({
      second: 0,
      third: 0,
      total: 0,
      spread: expect.closeTo(Math.sqrt(4e-4), 12),
    });
  });
});

describe('bands cut in one wall each', () => {
  const wall = (motion: 'left' | 'right', radiusMm: number, more: Partial<SheetBand> = {}) =>
    cutOf({ motion, radiusMm, ...more });
  const undo: Undo = (of) => of;
  const pairs = (cuts: SheetBand[], rightSign: 1 | -1 = 1, readings?: Found[]) => {
    const side = sideOf(cuts, readings);
    return oneWallPairs(side, twoToneBands(side), rightSign, undo);
  };
  const own = (lines: ChannelLines, velocity: number) => {
    const along = { lower: lines.lower, upper: lines.upper, plus: lines.plus!, minus: lines.minus! };
    const variance = (lines.plus!.variance + lines.minus!.variance) / 2;
    return solveTwoTone({ along, across: along, variance }, [300, 3000], velocity, 'along', undo)!;
  };

  it.each([1, -1] as const)('tell both directions: sum and difference of the walls, right by its sign %d', (sign) => {
    const told = pairs([wall('left', 120), wall('right', 116, { peakVelocityCmS: 10 })], sign);
    const [l, r] = [own(channel(1), 6.4), own(channel(0.8), 8)];
    const of = (vertical: boolean) => {
      const s = (vertical ? -1 : 1) * sign;
      const both = (name: 'k' | 'b' | 'a' | 'kPerRadian') => expect.closeTo((l[name] + s * r[name]) / Math.SQRT2, 12);
      return {
        vertical,
        radiusMm: 118,
        speed: grooveSpeed(100 / 3, 118),
        velocity: expect.closeTo(7.2, 12),
        leaksKnown: true,
        band: expect.objectContaining({ index: 0 }),
        solution: {
          k: both('k'),
          kVariance: expect.closeTo((l.kVariance + r.kVariance) / 2, 18),
          b: both('b'),
          a: both('a'),
          rho: (l.rho - sign * r.rho) / (2 * Math.SQRT2),
          rhoVariance: (l.rhoVariance + r.rhoVariance) / 8,
          spare: null,
          kPerRadian: both('kPerRadian'),
        },
      };
    };
    expect(told).toMatchObject([of(false), of(true)]);
    expect(told[0].solution.kVariance / ((l.kVariance + r.kVariance) / 2)).toBeCloseTo(1, 9);
  });

  it('are paired with the nearest of the other wall, 8 mm off at most', () => {
    const radii = (...cuts: SheetBand[]) => pairs(cuts).map(({ radiusMm }) => radiusMm);
    expect(radii(wall('left', 120), wall('right', 112))).toEqual([116, 116]);
    expect(radii(wall('left', 120), wall('right', 128))).toEqual([124, 124]);
    expect(radii(wall('left', 120), wall('right', 111.9))).toEqual([]);
    expect(radii(wall('left', 120), wall('right', 114), wall('right', 122), wall('right', 118))).toEqual([121, 121]);
    expect(radii(wall('left', 120), wall('left', 119), wall('right', 121))).toEqual([120.5, 120.5, 120, 120]);
    expect(radii(wall('right', 120))).toEqual([]);
    expect(radii(wall('left', 120))).toEqual([]);
  });

  it('need radius and velocity, a turn, both side lines, and a solution that is a number', () => {
    const right = wall('right', 120);
    const count = (left: SheetBand, of = reading()) => pairs([left, right], 1, [of, reading()]).length;
    expect(count(wall('left', 120))).toBe(2);
    expect(count(wall('left', 120), reading({ turns: 1 }))).toBe(2);
    expect(count(wall('left', 120), reading({ turns: 0 }))).toBe(0);
    expect(count(madeCut({ motion: 'left', peakVelocityCmS: 8 }))).toBe(0);
    expect(count(madeCut({ motion: 'left', radiusMm: 120 }))).toBe(0);
    expect(count(wall('left', 120), reading({ left: { ...channel(1), plus: null } }))).toBe(0);
    expect(count(wall('left', 120), reading({ left: { ...channel(1), minus: null } }))).toBe(0);
    expect(count(wall('left', 120), reading({ left: { ...channel(1), upper: line(0, 0) } }))).toBe(0);
    expect(count(wall('left', 120), reading({ left: { ...channel(1), plus: line(Number.NaN, 0) } }))).toBe(0);
    expect(count(cutOf())).toBe(0);
    const side = { ...sideOf([wall('left', 120), right]), sheet: null };
    expect(oneWallPairs(side, twoToneBands(side), 1, undo)).toEqual([]);
  });
});
