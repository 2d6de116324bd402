import { describe, expect, it } from 'vitest';
import { withheld } from '../capture/problem.ts';
import type { SheetBand } from '../record/sheet.ts';
import { type Complex, scaled, times } from '../units/complex.ts';
import { statement } from '../words/statement.ts';
import { edgeLags } from './edgeLag.ts';
import type { Finding } from './finding.ts';
import { madeCut, madePassage, madeSide, madeTone } from './handMade.fixture.ts';
import { intermodulationBeside } from './intermodulationBeside.ts';
import { oneWallPairs } from './oneWallPairs.ts';
import { pinchTone, radiusOfTones, radiusOfTwoTone } from './pinch.ts';
import { secondHarmonics } from './secondHarmonic.ts';
import { soundFigures } from './soundFigures.ts';
import type { ChannelLines, HeardLine, TwoToneReading } from './twoToneEstimator.ts';
import { grooveSpeed, intermodulationOf, solvedTwoTones, twoToneBands, undoing } from './twoTones.ts';
import type { Polarity } from './wiring.ts';

const POLARITY: Polarity = { inverted: false, bands: [], unsure: false, note: null };
const [F1, F2] = [400, 4000];
type Motion = 'left' | 'right' | 'lateral' | 'vertical';
const cutOf = (motion: Motion, radiusMm: number): SheetBand =>
  madeCut({ signal: 'two-tone', motion, radiusMm, peakVelocityCmS: 8 });

/** A band in which a ball of so many µm is lifted, its lift in both channels with opposite signs; flat. */
function bandOf(motion: Motion, radiusMm: number, um: number, variance = 1e-14): TwoToneReading {
  const speed = grooveSpeed(100 / 3, radiusMm);
  const rho = (um * 1e-4) / (2 * Math.SQRT2 * speed ** 2);
  const line = (z: Complex): HeardLine => ({ ...z, variance });
  const [lower, upper] = [
    { re: 0.3, im: 0 },
    { re: 0.1, im: 0 },
  ];
  const lift = (hz: number): Complex => scaled(times({ re: 0, im: 2 * Math.PI * hz * rho }, upper), 6.4);
  const channel = (side: 'left' | 'right'): ChannelLines => {
    const s = motion === 'vertical' && side === 'right' ? -1 : 1;
    const tip = (side === 'right' ? -1 : 1) * (motion === 'left' || motion === 'right' ? Math.SQRT2 : 1);
    return {
      lower: line(scaled(lower, s)),
      upper: line(scaled(upper, s)),
      plus: line(scaled(lift(F2 + F1), tip)),
      minus: line(scaled(lift(F2 - F1), tip)),
      plus2: line({ re: 1e-4, im: 0 }),
      minus2: line({ re: 0, im: 2e-4 }),
    };
  };
  return {
    found: true,
    frequenciesHz: [F1, F2],
    left: channel('left'),
    right: channel('right'),
    usedS: 4,
    turns: 2,
  };
}
const sideOf = (bands: readonly [Motion, number, number, number?][], more = {}) =>
  madeSide({
    sheet: {
      schema: 1,
      name: 'x',
      rpm: 100 / 3,
      cut: { zenithDeg: 1 },
      bands: bands.map(([motion, radiusMm]) => cutOf(motion, radiusMm)),
    },
    passages: bands.map(([motion, radiusMm, um, variance], index) =>
      madePassage(
        { index, signal: 'two-tone', motion, sheetBand: index },
        { twoTone: bandOf(motion, radiusMm, um, variance) },
      ),
    ),
    ...more,
  });
const found = (side: ReturnType<typeof sideOf>, polarity = POLARITY) => soundFigures(side, polarity, null, true);
const named = (findings: readonly Finding[], quantity: string) => findings.filter((f) => f.quantity === quantity);

describe('the tip’s radius and absolute polarity', () => {
  it('from a band: its sign, its size, with the signal’s own part', () => {
    for (const [um, value, code] of [
      [15, 'normal', 'polarity-right'],
      [-15, 'inverted', 'polarity-turned'],
    ] as const) {
      const side = sideOf([['lateral', 120, um]]);
      const [solved] = solvedTwoTones(side, null, true);
      const radius = radiusOfTwoTone(solved);
      expect(Math.sign(radius.um)).toBe(Math.sign(um));
      const { findings, problems, curves, geometry } = found(side);
      expect(named(findings, 'absolute-polarity')).toEqual([
        { quantity: 'absolute-polarity', value, unit: '', uncertainty: null, bands: [0], notes: [statement(code)] },
      ]);
      expect(named(findings, 'effective-tip-radius')).toEqual([
        {
          quantity: 'effective-tip-radius',
          value: Math.abs(radius.um),
          unit: 'µm',
          repeatability: 2 * radius.own,
          uncertainty: 2 * radius.spread,
          bands: [0],
          notes: [statement('tip-radius-trend')],
        },
      ]);
      expect(problems).toEqual([]);
      // one band alone draws no trend
      expect(curves).toEqual([]);
      expect(geometry).toEqual({
        twoTones: [solved],
        seconds: [],
        lags: [],
        polarity: { found: true, sign: Math.sign(um), radius, bands: [0] },
        cut: { zenithDeg: 1 },
      });
    }
  });

  it('several bands draw how it goes with their place, from the inside out', () => {
    const side = sideOf([
      ['lateral', 120, 14],
      ['vertical', 70, 15],
      ['lateral', 140, 16],
    ]);
    const of = solvedTwoTones(side, null, true);
    const um = (i: number) => Math.abs(radiusOfTwoTone(of[i]).um);
    expect(found(side).curves).toEqual([
      {
        quantity: 'tip-radius',
        name: 'heard',
        x: [70, 120, 140],
        y: [um(1), um(0), um(2)],
        xUnit: 'mm',
        yUnit: 'µm',
      },
    ]);
  });

  it('bands that contradict one another withhold it, with no trend; nothing to tell it is not worth a line', () => {
    const { findings, problems, curves } = found(
      sideOf([
        ['lateral', 120, 15],
        ['lateral', 80, -15],
      ]),
    );
    expect(problems).toEqual([withheld('absolute-polarity', statement('pinch-disagrees'))]);
    expect(named(findings, 'absolute-polarity')).toEqual([]);
    expect(curves).toEqual([]);
    expect(found(sideOf([['lateral', 120, 0.5]])).problems).toEqual([
      withheld('absolute-polarity', statement('pinch-weak')),
    ]);
    expect(found(sideOf([]))).toMatchObject({ findings: [], problems: [], curves: [] });
  });

  it('a pair of one-wall bands is one reading of it', () => {
    const side = sideOf([
      ['left', 120, 15],
      ['right', 118, 15],
    ]);
    const pairs = oneWallPairs(side, twoToneBands(side), 1, undoing(true));
    expect(pairs).toHaveLength(2);
    const { findings, curves, geometry } = found(side);
    expect(named(findings, 'effective-tip-radius')[0].value).toBeCloseTo(Math.abs(radiusOfTwoTone(pairs[0]).um), 9);
    expect(named(findings, 'absolute-polarity')[0].bands).toEqual([0]);
    expect(curves).toEqual([]);
    expect(geometry.twoTones).toEqual(pairs);
    const turned = { ...POLARITY, inverted: true };
    expect(found(side, turned).geometry.twoTones).toEqual(oneWallPairs(side, twoToneBands(side), -1, undoing(true)));
  });

  it('tones tell it by their second harmonics, and lags by their phase', () => {
    const tip = (index: number, radiusMm: number) => {
      const speed = grooveSpeed(100 / 3, radiusMm);
      const im = (15e-4 * 5 * 2 * Math.PI * 1000) / (2 * Math.SQRT2 * speed ** 2);
      return madeTone({
        band: { index },
        cut: madeCut({ radiusMm, peakVelocityCmS: 5 }),
        harmonics: ([1, -1] as const).map((s) => ({
          channel: s === 1 ? 'left' : 'right',
          orders: [{ order: 2, ratio: 0, spread: 1e-6, phasor: { re: 0, im: s * im } }],
        })),
      });
    };
    const high = madeTone({ band: { index: 9, frequencyHz: 8000 }, cut: madeCut({ radiusMm: 90 }) });
    const side = madeSide({ tones: [tip(3, 140), tip(5, 70), high] });
    const seconds = secondHarmonics(side, POLARITY, null, true);
    const radius = { ...radiusOfTones(seconds.map(pinchTone))!, way: 'tones', bands: [3, 5] };
    const { findings, geometry } = found(side);
    expect(geometry).toMatchObject({ seconds, lags: edgeLags(side, POLARITY), polarity: { radius } });
    expect(geometry.lags).toHaveLength(1);
    expect(geometry.cut).toBeUndefined();
    expect(named(findings, 'effective-tip-radius')[0]).toMatchObject({
      value: expect.closeTo(15, 6),
      bands: [3, 5],
    });
  });
});

describe('intermodulation', () => {
  const of = (motion: Motion, more = {}) => {
    const side = sideOf([[motion, 120, 15]], more);
    return { side, findings: named(found(side).findings, 'intermodulation') };
  };

  it('of each channel that is cut, with what the record may hide of it', () => {
    const { side, findings } = of('lateral');
    const [band] = twoToneBands(side);
    const known = { rpm: 100 / 3, referenceVelocityCmS: 5, undo: undoing(true) };
    expect(findings).toEqual(
      (['left', 'right'] as const).map((channel) => {
        const is = intermodulationOf(band.heard[channel])!;
        return {
          quantity: 'intermodulation',
          value: 100 * is.total,
          unit: '%',
          uncertainty: 200 * is.spread,
          bands: [0],
          channel,
          beside: intermodulationBeside(band, channel, known),
          notes: [
            statement('intermodulation-of', {
              lowHz: 400,
              highHz: 4000,
              second: 100 * is.second,
              third: 100 * is.third,
            }),
          ],
        };
      }),
    );
    expect(of('left').findings.map(({ channel }) => channel)).toEqual(['left']);
    expect(of('right').findings.map(({ channel }) => channel)).toEqual(['right']);
    expect(of('vertical').findings.map(({ channel }) => channel)).toEqual(['left', 'right']);
  });

  it('without a record file, or out of reach, has nothing beside it or is none', () => {
    const { findings } = of('lateral', { sheet: null });
    expect(findings).toHaveLength(2);
    expect(findings[0]).not.toHaveProperty('beside');
    const heard = bandOf('lateral', 120, 15) as Extract<TwoToneReading, { found: true }>;
    const short = { ...heard, left: { ...heard.left, plus: null } };
    const passages = [madePassage({ signal: 'two-tone', sheetBand: 0 }, { twoTone: short })];
    expect(of('lateral', { passages }).findings.map(({ channel }) => channel)).toEqual(['right']);
  });

  it('the velocity that the record file refers to counts', () => {
    const { side } = of('lateral');
    const sheet = { ...side.sheet!, referenceVelocityCmS: 8 };
    const [one] = of('lateral', { sheet }).findings;
    const known = { rpm: 100 / 3, referenceVelocityCmS: 8, undo: undoing(true) };
    expect(one.beside).toEqual(intermodulationBeside(twoToneBands(side)[0], 'left', known));
    expect(one.beside).not.toEqual(of('lateral').findings[0].beside);
  });
});
