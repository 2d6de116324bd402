import { describe, expect, it } from 'vitest';
import { coverageFactor } from '../signal/robust.ts';
import { shownSpread } from '../words/figure.ts';
import { statement } from '../words/statement.ts';
import type { Finding } from './finding.ts';
import { madeBand, madePassage, madeSide, madeTone } from './handMade.fixture.ts';
import type { SideReadings } from './sideReadings.ts';
import { typeA } from './typeA.ts';
import { withTypeA } from './typeAWithin.ts';

it('two readings and more have a scatter: mean, s and k·s/√n', () => {
  expect(typeA([])).toBeNull();
  expect(typeA([3])).toBeNull();
  // s of 1, 2, 6 about 3 is √(14/2)
  expect(typeA([1, 2, 6])).toEqual({
    count: 3,
    mean: 3,
    scatter: expect.closeTo(Math.sqrt(7), 12),
    uncertainty: expect.closeTo((coverageFactor(2) * Math.sqrt(7)) / Math.sqrt(3), 12),
  });
  expect(typeA([4, 6])).toMatchObject({ count: 2, mean: 5, scatter: expect.closeTo(Math.SQRT2, 12) });
});

/** Bands by their place in the record file, in the order in which they play. */
const played = (...places: (number | null)[]): SideReadings => {
  const bands = places.map((sheetBand, index) => ({ index, sheetBand }));
  return madeSide({
    tones: bands.map((band) => madeTone({ band })),
    passages: [madePassage(null, {}), ...bands.map((band) => madePassage(band, {}))],
    untoned: bands.map((band) => madeBand(band)),
  });
};
const finding = (quantity: string, value: number | string, bands: number[], more: Partial<Finding> = {}): Finding => ({
  quantity,
  value,
  unit: 'dB',
  uncertainty: 1,
  bands,
  notes: [statement('method')],
  ...more,
});
/** What is added to a finding by these readings of it. */
const repeated = (of: Finding, ...values: number[]): Finding => {
  const { count, mean, scatter, uncertainty } = typeA(values)!;
  return {
    ...of,
    repeats: { count, fromMean: mean - (of.value as number), scatter, uncertainty },
    notes: [...of.notes, statement('played-again', { count, scatter: shownSpread(scatter, 'dB') })],
  };
};

describe('figures of single bands', () => {
  const none = () => [];

  it('stay as they are where nothing was played again', () => {
    const findings = [finding('level', 1, [0]), finding('level', 2, [1])];
    expect(withTypeA(findings, played(0, 1, null, null), none)).toEqual(findings);
    expect(withTypeA(findings, madeSide(), none)).toEqual(findings);
  });

  it('are compared with those of the same place, quantity, channel and unit', () => {
    const findings = [
      finding('level', 1, [0]),
      finding('level', 2, [1]),
      finding('level', 1.5, [2]),
      finding('level', 9, [0], { channel: 'left' }),
      finding('level', 8, [1], { channel: 'left' }),
      finding('level', 7, [2], { unit: '%' }),
      finding('other', 6, [2]),
      finding('other', 5, [2]),
    ];
    const told = withTypeA(findings, played(0, 1, 0), none);
    expect(told[0]).toEqual(repeated(findings[0], 1, 1.5));
    expect(told[2]).toEqual(repeated(findings[2], 1, 1.5));
    for (const i of [1, 3, 4, 5]) expect(told[i], `${i}`).toEqual(findings[i]);
  });

  it('those at one frequency of many, of several bands, and words are not', () => {
    const findings = [
      finding('line', 1, [0], { atHz: 25 }),
      finding('line', 2, [1], { atHz: 25 }),
      finding('wide', 1, [0, 1]),
      finding('wide', 2, [0, 1]),
      finding('word', 'yes', [0]),
      finding('word', 'no', [1]),
      finding('half', 1, [0]),
      finding('half', 'no', [1]),
      finding('half', 2, [0, 1]),
      finding('half', 3, [3]),
    ];
    expect(withTypeA(findings, played(0, 0, 1, 1), none)).toEqual(findings);
  });
});

describe('figures of several bands', () => {
  const tilt = (side: SideReadings): Finding[] => {
    const bands = side.tones.map(({ band }) => band.index);
    // what a part of the side holds is the same throughout
    expect(side.passages?.map(({ passage }) => passage.band?.index)).toEqual(bands);
    expect(side.untoned?.map(({ index }) => index)).toEqual(bands);
    return [finding('tilt', 10 + bands.reduce((sum, b) => sum + b, 0), bands)];
  };

  it('are worked out anew from each play alone', () => {
    const whole = finding('tilt', 12, [0, 1, 2, 3]);
    // 0 and 1, then 2 and 3
    expect(withTypeA([whole], played(5, 6, 5, 6), tilt)).toEqual([repeated(whole, 11, 15)]);
  });

  it('of bands that were played most often first', () => {
    const whole = finding('tilt', 12, [0, 1, 2, 3, 4]);
    expect(withTypeA([whole], played(5, 6, 5, 6, 5), tilt)).toEqual([repeated(whole, 10, 12, 14)]);
  });

  it('a figure that one play does not give, or that the fewer bands of it do not, has what the others tell', () => {
    const whole = finding('tilt', 12, [0, 1, 2, 3, 4]);
    const pairOnly = (side: SideReadings) => (side.tones.length === 2 ? tilt(side) : []);
    expect(withTypeA([whole], played(5, 6, 5, 6, 5), pairOnly)).toEqual([repeated(whole, 11, 15)]);
    const notSecond = (side: SideReadings) => (side.tones[0].band.index === 2 ? [] : tilt(side));
    expect(withTypeA([whole], played(5, 6, 5, 6), notSecond)).toEqual([whole]);
  });

  it('one that is there twice on the side, or in a play, is none of the side’s', () => {
    const twice = [finding('tilt', 12, [0, 1]), finding('tilt', 13, [2, 3])];
    expect(withTypeA(twice, played(5, 6, 5, 6), tilt)).toEqual(twice);
    const whole = finding('tilt', 12, [0, 1, 2, 3]);
    expect(withTypeA([whole], played(5, 6, 5, 6), (side) => [...tilt(side), ...tilt(side)])).toEqual([whole]);
    expect(withTypeA([whole], played(5, 6, 5, 6), () => [finding('tilt', 'none', [])])).toEqual([whole]);
  });
});

it('a side without bands between keeps none', () => {
  const { passages: _, untoned: __, ...bare } = played(0, 0);
  const findings = [finding('level', 1, [0])];
  expect(withTypeA(findings, bare, () => [])).toEqual(findings);
});
