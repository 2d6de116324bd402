import { describe, expect, it } from 'vitest';
import type { Band, BandMotion } from '../record/band.ts';
import { assumedInTests } from './assumed.fixture.ts';
import { madeCut, madePassage, madeSegment } from './handMade.fixture.ts';
import type { ChannelHarmonics } from './harmonics.ts';
import { sideReadings } from './readingsOfSide.ts';
import { exactRpm, meanOf, type PassageReading } from './sideReadings.ts';
import type { SegmentFigures, ToneReading } from './toneEstimator.ts';
import type { Driven } from './toneSegment.ts';

const assumed = assumedInTests;
const sheet = {
  schema: 1,
  name: 'x',
  rpm: 45,
  bands: [madeCut(), madeCut({ frequencyHz: 300 })],
} as const;
const segment = (startS: number, usedS: number, meanHz: number): SegmentFigures =>
  madeSegment({
    startS,
    endS: startS + 10,
    usedS,
    ratio: { re: 3, im: 4, varRe: 0.02, varIm: 0.04, degreesOfFreedom: 7 },
    trace: { rateHz: 20, startS, meanHz, deviation: new Float64Array(2), groupS: 0.05 },
  });
const harmonics = (channel: 'left' | 'right'): ChannelHarmonics => ({ channel, orders: [] }) as never;
const passage = (band: Partial<Band>, driven: Driven, more: Partial<ToneReading> = {}): PassageReading =>
  madePassage(band, { tone: { driven, segments: [segment(2, 6, 1000), segment(12, 3, 1003)], ...more } });
const tonesOf = (passages: PassageReading[], more = {}) => sideReadings(passages, [], { assumed, ...more }).tones;

describe('a tone', () => {
  it('lasts from its first segment to its last, with the mean frequency of all by their length', () => {
    const one = passage({ index: 2, sheetBand: 1 }, 'both');
    expect(tonesOf([one], { sheet })).toEqual([
      {
        band: one.passage.band,
        cut: sheet.bands[1],
        driven: 'both',
        reading: one.readings.tone,
        meanHz: expect.closeTo(1001, 9),
        usedS: 9,
        startS: 2,
        endS: 22,
      },
    ]);
  });

  it('has no entry where it was not matched, nobody gave a record file, or that has none there', () => {
    const cutOf = (band: Partial<Band>, more = {}) => tonesOf([passage(band, 'both')], more)[0].cut;
    expect(cutOf({ sheetBand: null }, { sheet })).toBeNull();
    expect(cutOf({ sheetBand: 1 })).toBeNull();
    expect(cutOf({ sheetBand: 5 }, { sheet })).toBeNull();
  });

  it('that could not be followed, or lies in no band, is none', () => {
    expect(tonesOf([passage({}, 'both', { segments: [] })])).toEqual([]);
    expect(tonesOf([madePassage(null, passage({}, 'both').readings), madePassage({}, {})])).toEqual([]);
  });
});

describe('channels that are exchanged', () => {
  const swapped = (driven: Driven, more: Partial<ToneReading> = {}) =>
    tonesOf([passage({}, driven, more)], { order: 'swapped' })[0];

  it('a wall’s tone is the other wall’s, its ratio stays undriven over driven', () => {
    for (const [from, to] of [
      ['left', 'right'],
      ['right', 'left'],
    ] as const) {
      const { driven, reading } = swapped(from);
      expect(driven).toBe(to);
      expect(reading).toEqual({ ...passage({}, from).readings.tone, driven: to, harmonics: undefined });
    }
  });

  it('a tone of both walls has left over right turned over, with what it is unsure by', () => {
    const { driven, reading } = swapped('both');
    expect(driven).toBe('both');
    // 1/(3 + 4i); the mean of both variances over |q|⁴
    const ratio = {
      re: expect.closeTo(3 / 25, 12),
      im: expect.closeTo(-4 / 25, 12),
      varRe: expect.closeTo(0.03 / 625, 15),
      varIm: expect.closeTo(0.03 / 625, 15),
      degreesOfFreedom: 7,
    };
    expect(reading.segments).toEqual([
      { ...segment(2, 6, 1000), ratio },
      { ...segment(12, 3, 1003), ratio },
    ]);
  });

  it.each(['left', 'both'] as const)('the harmonics of a tone in %s change sides', (driven) => {
    const { reading } = swapped(driven, { harmonics: [harmonics('left'), harmonics('right')] });
    expect(reading.harmonics).toEqual([harmonics('right'), harmonics('left')]);
  });

  it('in order, or of unknown order, they stay', () => {
    for (const order of ['normal', 'unknown']) {
      expect(tonesOf([passage({}, 'left')], { order })[0].driven).toBe('left');
    }
  });
});

it('what nobody said is not known', () => {
  const bands = (['tone', 'sweep'] as const).map((signal, index) => ({
    ...passage({}, 'both').passage.band!,
    signal,
    index,
    motion: 'lateral' as BandMotion,
  }));
  expect(sideReadings([], bands, { assumed })).toEqual({
    tones: [],
    passages: [],
    untoned: [bands[1]],
    sheet: null,
    order: 'unknown',
    rpm: 100 / 3,
    rpmStated: false,
    nominalSpeedToneHz: null,
    arm: null,
    assumed,
    preamp: null,
    recordResponse: null,
    spoiled: [],
  });
});

it('what somebody said stands: turns a minute before the record file’s', () => {
  const response = { hz: [20, 20_000], leftDb: [0, 0], rightDb: [0, 0] };
  const said = {
    sheet,
    order: 'normal',
    nominalSpeedToneHz: 3000,
    arm: 'tangential',
    preamp: response,
    recordResponse: { ...response },
    spoiled: [{ startS: 1, endS: 2 }],
  } as const;
  expect(sideReadings([], [], { assumed, ...said })).toEqual({
    ...said,
    tones: [],
    passages: [],
    untoned: [],
    rpm: 45,
    rpmStated: true,
    assumed,
  });
  expect(sideReadings([], [], { assumed, sheet, rpm: 78 })).toMatchObject({ rpm: 78, rpmStated: true });
});

it('33.333 turns a minute are 33⅓, as 33.33 are; 33.3 are not', () => {
  for (const rpm of [33.333, 33.33, 33.338]) expect(exactRpm(rpm)).toBe(100 / 3);
  for (const rpm of [33.3, 33.328, 33.339, 45]) expect(exactRpm(rpm)).toBe(rpm);
});

it('a mean weighs each value', () => {
  expect(
    meanOf([
      { weight: 1, value: 4 },
      { weight: 3, value: 8 },
    ]),
  ).toBe(7);
});
