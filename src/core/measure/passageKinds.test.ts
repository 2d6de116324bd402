/** Which passages are heard by which estimator, and as what. */
import { describe, expect, it } from 'vitest';
import type { Band } from '../record/band.ts';
import type { RecordSheet, SheetBand } from '../record/sheet.ts';
import type { Passage, SideKnown } from './bandEstimator.ts';
import { madeBand, madeCut } from './handMade.fixture.ts';
import { QuietEstimator } from './quietEstimator.ts';
import { quietKind } from './quietKind.ts';
import { ringDownKind } from './ringDownKind.ts';
import { SweepEstimator } from './sweepEstimator.ts';
import { sweepKind } from './sweepKind.ts';
import { ToneEstimator } from './toneEstimator.ts';
import { toneKind } from './toneKind.ts';
import { TwoToneEstimator } from './twoToneEstimator.ts';
import { twoToneKind } from './twoToneKind.ts';

const sheetOf = (...bands: SheetBand[]): RecordSheet => ({ schema: 1, name: 'x', rpm: 100 / 3, bands });
const known = (more: Partial<SideKnown> = {}): SideKnown => ({
  sampleRateHz: 48_000,
  bands: [],
  sheet: null,
  nominalSpeedToneHz: null,
  rpm: 100 / 3,
  withSpectra: false,
  ...more,
});
const passage = (of: Partial<Band> | null, lengthS = 10, more: Partial<Passage> = {}): Passage => {
  const band = of === null ? null : madeBand({ startS: 5, endS: 5 + lengthS, ...of });
  return { signal: band?.signal ?? 'tip-drop', startS: 5, endS: 5 + lengthS, band, ...more };
};

describe('quiet', () => {
  const quiet = (signal: Passage['signal'], lengthS: number, sampleRateHz = 48_000) =>
    quietKind.settings({ signal, startS: 1, endS: 1 + lengthS, band: null }, known({ sampleRateHz }));

  it('is unmodulated groove of two seconds, or a tip in the air for 0.8', () => {
    expect(quiet('silent-groove', 2)).toEqual({ state: 'groove' });
    expect(quiet('silent-groove', 1.99)).toBeNull();
    expect(quiet('tip-up', 0.81)).toEqual({ state: 'tip-up' });
    expect(quiet('tip-up', 0.79)).toBeNull();
    expect(quiet('tone', 20)).toBeNull();
  });

  it('is not heard below 8 kHz', () => {
    expect(quiet('silent-groove', 9, 8000)).toEqual({ state: 'groove' });
    expect(quiet('silent-groove', 9, 7999)).toBeNull();
    expect(quietKind.begin(8000, { state: 'groove' })).toBeInstanceOf(QuietEstimator);
  });
});

it('an arm rings down where the tip drops', () => {
  expect(ringDownKind.settings(passage(null), known())).toEqual({});
  expect(ringDownKind.settings(passage({}), known())).toBeNull();
});

describe('a sweep', () => {
  const sweep = (of: Partial<Band>, lengthS = 10, more: Partial<Passage> = {}, sheet: RecordSheet | null = null) =>
    sweepKind.settings(passage({ signal: 'sweep', ...of }, lengthS, more), known({ sheet }));
  const usual = { perHz: Math.log(1000) / 40, perS: 0 };

  it('lasts two seconds at least, and is a band', () => {
    expect(sweep({}, 2)).not.toBeNull();
    expect(sweep({}, 1.99)).toBeNull();
    expect(sweep({ signal: 'noise' })).toBeNull();
    expect(sweepKind.settings(passage(null, 10, { signal: 'sweep' }), known())).toBeNull();
  });

  it('goes as its ends as heard tell, up or down', () => {
    const log = { perHz: Math.log(10) / 10, perS: 0 };
    expect(sweep({ fromHz: 100, toHz: 1000 })).toEqual({ rising: true, pace: log });
    expect(sweep({ fromHz: 1000, toHz: 100 })).toEqual({
      rising: false,
      pace: { perHz: expect.closeTo(log.perHz, 12), perS: 0 },
    });
    expect(sweep({ fromHz: 100, toHz: 100 })?.rising).toBe(false);
  });

  it('of unknown ends, or still playing, is taken for three decades in 40 s upwards', () => {
    expect(sweep({})).toEqual({ rising: true, pace: usual });
    expect(sweep({ fromHz: 100 })).toEqual({ rising: true, pace: usual });
    expect(sweep({ toHz: 100 })).toEqual({ rising: true, pace: usual });
    const open = { fromHz: 100, toHz: 50 };
    expect(sweep(open, 10, { endS: Number.POSITIVE_INFINITY })).toEqual({ rising: false, pace: usual });
  });

  it('goes as the record file says', () => {
    const band = { sheetBand: 1, fromHz: 1, toHz: 2 };
    const cut = (more: Partial<SheetBand>) => sheetOf(madeCut(), madeCut({ fromHz: 2000, toHz: 200, ...more }));
    expect(sweep(band, 10, {}, cut({ durationS: 20 }))).toEqual({
      rising: false,
      pace: { perHz: expect.closeTo(Math.log(10) / 20, 12), perS: 0 },
    });
    expect(sweep(band, 10, {}, cut({ law: 'linear' }))).toEqual({ rising: false, pace: { perHz: 0, perS: 180 } });
    expect(sweep({ ...band, sheetBand: null }, 10, {}, cut({}))?.rising).toBe(true);
    expect(sweep({ ...band, sheetBand: 7 }, 10, {}, cut({}))?.rising).toBe(true);
    expect(sweep(band, 10)?.rising).toBe(true);
    expect(sweepKind.begin(48_000, { rising: true, pace: usual })).toBeInstanceOf(SweepEstimator);
  });
});

describe('two tones', () => {
  const two = (frequenciesHz: [number, number] | undefined, lengthS = 10, more: Partial<Band> = {}) =>
    twoToneKind.settings(
      passage({ signal: 'two-tone', ...(frequenciesHz === undefined ? {} : { frequenciesHz }), ...more }, lengthS),
      known({ rpm: 45 }),
    );

  it('are heard for a second at least, the lower from 20 Hz, the upper above twice that and below 0.45 of the rate', () => {
    expect(two([400, 4000])).toEqual({ frequenciesHz: [400, 4000], turnS: 60 / 45 });
    expect(two([400, 4000], 1)).not.toBeNull();
    expect(two([400, 4000], 0.99)).toBeNull();
    expect(two([20, 4000])).not.toBeNull();
    expect(two([19.9, 4000])).toBeNull();
    expect(two([400, 801])).not.toBeNull();
    expect(two([400, 800])).toBeNull();
    expect(two([400, 21_599])).not.toBeNull();
    expect(two([400, 21_600])).toBeNull();
    expect(two(undefined)).toBeNull();
    expect(two([400, 4000], 10, { signal: 'tone' })).toBeNull();
    expect(twoToneKind.settings(passage(null), known())).toBeNull();
  });

  it('are read by an estimator that refuses others', () => {
    const begin = (a: number, b: number) => twoToneKind.begin(48_000, { frequenciesHz: [a, b], turnS: 1.8 });
    const one = begin(400, 4000);
    expect(one).toBeInstanceOf(TwoToneEstimator);
    expect(one.result()).toEqual({ found: false });
    one.end();
    for (const [a, b] of [
      [19.9, 4000],
      [400, 800],
      [400, 21_600],
    ])
      expect(() => begin(a, b), `${a} ${b}`).toThrow('must be 20 or more');
    for (const [a, b] of [
      [20, 4000],
      [400, 801],
      [400, 21_599],
    ])
      begin(a, b).end();
  });
});

describe('a tone', () => {
  const tone = (of: Partial<Band>, lengthS = 10, side: Partial<SideKnown> = {}) => {
    const one = passage(of, lengthS);
    return toneKind.settings(one, known({ bands: [one.band!], ...side }));
  };

  it('is a band of half a second with a frequency, that moves', () => {
    expect(tone({ frequencyHz: 1000, motion: 'left' })).toEqual({
      frequencyHz: 1000,
      driven: 'left',
      withFlutter: true,
      withHarmonics: true,
    });
    for (const [motion, driven] of [
      ['right', 'right'],
      ['lateral', 'both'],
      ['vertical', 'both'],
    ] as const)
      expect(tone({ motion })?.driven).toBe(driven);
    expect(tone({}, 0.5)).not.toBeNull();
    expect(tone({}, 0.49)).toBeNull();
    for (const none of [{ motion: 'none' }, { motion: 'unknown' }, { signal: 'sweep' }, { frequencyHz: null }] as const)
      expect(tone(none)).toBeNull();
    expect(toneKind.settings(passage(null), known())).toBeNull();
  });

  it('lies from 20 Hz to below 0.48 of the sample rate', () => {
    expect([20, 19.9, 23_039, 23_040].map((frequencyHz) => tone({ frequencyHz }) !== null)).toEqual([
      true,
      false,
      true,
      false,
    ]);
  });

  it('has harmonics from 250 Hz to 5 kHz, where it lasts long enough for them', () => {
    const has = (frequencyHz: number, lengthS = 10) => tone({ frequencyHz }, lengthS)?.withHarmonics;
    expect([249, 250, 5000, 5001].map((hz) => has(hz))).toEqual([false, true, true, false]);
    // as long as a mean over some turns asks for
    let lengthS = 0.5;
    while (has(1000, lengthS) === false) lengthS += 0.25;
    expect(lengthS).toBeGreaterThan(0.5);
    expect(lengthS).toBeLessThan(4);
  });

  it('is read by an estimator of its own', () => {
    const settings = tone({})!;
    const of = toneKind.begin(48_000, settings);
    expect(of).toBeInstanceOf(ToneEstimator);
    of.end();
  });

  describe('tells wow and flutter', () => {
    const flutter = (bands: Partial<Band>[], side: Partial<SideKnown> = {}) => {
      const all = bands.map((band, index) => madeBand({ startS: 0, endS: 10, ...band, index }));
      return all
        .filter((band) => {
          const one = { signal: band.signal, startS: band.startS, endS: band.endS, band };
          return toneKind.settings(one, known({ bands: all, ...side }))?.withFlutter;
        })
        .map(({ index }) => index);
    };
    const at = (...hz: number[]) => hz.map((frequencyHz) => ({ frequencyHz }));

    it('where it is a speed tone, or any where there is none', () => {
      expect(flutter(at(1000, 3150, 3000, 400))).toEqual([1, 2]);
      expect(flutter(at(1000, 400))).toEqual([0, 1]);
      // within 15 % of either
      expect(flutter(at(1000, 2551, 3621))).toEqual([1, 2]);
      expect(flutter(at(1000, 2549, 3624))).toEqual([0, 1, 2]);
      expect(flutter(at(1000, 3150), { nominalSpeedToneHz: 1000 })).toEqual([0]);
    });

    it('that lasts more than 4.5 s', () => {
      expect(flutter([{ frequencyHz: 3150, endS: 4.51 }, { frequencyHz: 400 }])).toEqual([0]);
      expect(flutter([{ frequencyHz: 3150, endS: 4.5 }, { frequencyHz: 400 }])).toEqual([0, 1]);
    });

    it('that the record file cuts within 1 % of one, where it is matched', () => {
      const sheet = sheetOf(madeCut({ frequencyHz: 3150 * 1.0099 }), madeCut({ frequencyHz: 3150 * 1.011 }), madeCut());
      const matched = (sheetBand: number, frequencyHz: number | null = 3150) => ({ sheetBand, frequencyHz });
      expect(flutter([matched(0), matched(1)], { sheet })).toEqual([0]);
      expect(flutter([matched(2), ...at(400)], { sheet })).toEqual([0, 1]);
      expect(flutter([matched(9), ...at(400)], { sheet })).toEqual([0, 1]);
      expect(flutter([matched(0), ...at(400)])).toEqual([0, 1]);
      // heard as another tone that nobody reads
      expect(flutter([{ ...matched(0), motion: 'none' }, ...at(400)], { sheet })).toEqual([1]);
    });
  });
});
