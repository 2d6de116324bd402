/** Wow and flutter as figures of segments written down by hand. */
import { describe, expect, it } from 'vitest';
import { withheld } from '../capture/problem.ts';
import { quantile } from '../signal/robust.ts';
import { statement } from '../words/statement.ts';
import { assumedInTests } from './assumed.fixture.ts';
import type { Finding } from './finding.ts';
import { weightedGain } from './flutterWeighting.ts';
import { madeTone } from './handMade.fixture.ts';
import type { SideHole } from './hole.ts';
import type { HoleFit } from './holeFit.ts';
import type { ToneBand } from './sideReadings.ts';
import type { SegmentFlutter } from './toneEstimator.ts';
import { flutterFigures, flutterLineFigures } from './wowFlutter.ts';

const RATE_HZ = 50;
const TURN_HZ = 0.5;
const figure = (peak2Sigma: number, spread: number, noiseShare: number, quasiPeak = 0) => ({
  peak2Sigma,
  spread,
  noiseShare,
  quasiPeak,
});
const segment = (lengthS: number, startS: number, of: (t: number) => number, more: Partial<SegmentFlutter> = {}) =>
  ({
    weighted: figure(1e-3, 1e-4, 0.02, 1.5e-3),
    unweighted: figure(4e-3, 3e-4, 0.3),
    weightedTrace: {
      rateHz: RATE_HZ,
      startS,
      deviation: Float32Array.from({ length: lengthS * RATE_HZ }, (_, n) => of(startS + n / RATE_HZ)),
    },
    spectrum: null,
    lines: [],
    lengthS,
    sway: null,
    ...more,
  }) as SegmentFlutter;
const tone = (index: number, usedS: number, ...segments: (SegmentFlutter | null)[]): ToneBand =>
  madeTone({ band: { index, frequencyHz: 3150 }, segments: segments.map((flutter) => ({ flutter })), usedS });
const flat = (t: number): number => 1e-3 * Math.sin(2 * Math.PI * 4 * t);
const none = () => null;
const named = (findings: readonly Finding[], quantity: string) => findings.find((f) => f.quantity === quantity)!;
const NAMES = [
  'wow-flutter-weighted',
  'wow-flutter-weighted-rms',
  'wow-flutter-weighted-quasi-peak',
  'wow-flutter-unweighted',
];

describe('as heard', () => {
  it('mean squares of the segments, each by its length; what one shows of noise is said over 5 %', () => {
    const one = segment(4, 0, flat);
    const two = segment(12, 0, flat, {
      weighted: figure(2e-3, 2e-4, 0.06, 1.2e-3),
      unweighted: figure(1e-3, 1e-4, 0.1),
    });
    const { findings, problems } = flutterFigures([tone(2, 16, one, null, two)], null, none);
    const square = (a: number, b: number): number => Math.sqrt((4 * a * a + 12 * b * b) / 16);
    const sigma = 100 * square(1e-3, 2e-3);
    const spread = (200 * square(1e-4, 2e-4)) / Math.SQRT2;
    const heard = statement('flutter-read', { seconds: 16, hz: 3150 });
    expect(named(findings, 'wow-flutter-weighted')).toEqual({
      quantity: 'wow-flutter-weighted',
      value: expect.closeTo(sigma, 12),
      unit: '%',
      uncertainty: expect.closeTo(spread, 12),
      repeatability: expect.closeTo(spread, 12),
      bands: [2],
      notes: [heard, statement('deck-judged-without-hole'), statement('flutter-weighting')],
    });
    expect(named(findings, 'wow-flutter-unweighted')).toMatchObject({
      value: expect.closeTo(100 * square(4e-3, 1e-3), 12),
      uncertainty: expect.closeTo((200 * square(3e-4, 1e-4)) / Math.SQRT2, 12),
    });
    // (4 · 0.3 + 12 · 0.1)/16
    const percent = expect.closeTo(15, 9);
    expect(named(findings, 'wow-flutter-unweighted').notes).toEqual([
      heard,
      statement('flutter-flat'),
      { code: 'noise-subtracted', values: { percent } },
    ]);
    // (4 · 0.02 + 12 · 0.06)/16 = 5 %: no word
    expect(problems).toEqual([withheld('wow-flutter-weighted-deck', statement('no-two-turns'))]);
    expect(findings.map(({ quantity }) => quantity)).toEqual(NAMES);
    // rms and the needle of the loudest segment, each with 2σ's own share
    const share = spread / sigma;
    const rms = 100 * 1e-3 * Math.SQRT1_2;
    expect(named(findings, NAMES[1])).toMatchObject({
      value: expect.closeTo(rms, 7),
      uncertainty: expect.closeTo(rms * share, 7),
      repeatability: expect.closeTo(rms * share, 7),
      bands: [2],
      notes: [statement('flutter-rms')],
    });
    expect(named(findings, NAMES[2])).toMatchObject({
      value: expect.closeTo(0.15, 12),
      uncertainty: expect.closeTo(0.15 * Math.hypot(share, 0.06), 12),
      repeatability: expect.closeTo(0.15 * share, 12),
      notes: [statement('flutter-quasi-peak')],
    });
  });

  it('of the tone that lasts longest, the first of two alike', () => {
    const bands = (...tones: ToneBand[]) => flutterFigures(tones, null, none).findings.map((f) => f.bands[0]);
    const one = segment(4, 0, flat);
    expect(bands(tone(0, 8, one), tone(1, 9, one), tone(2, 30, null))).toEqual([1, 1, 1, 1]);
    expect(bands(tone(0, 8, one), tone(1, 8, one))).toEqual([0, 0, 0, 0]);
  });

  it('is withheld without a speed tone, or with none that is long enough', () => {
    const why = (tones: ToneBand[]) => flutterFigures(tones, null, none);
    const both = (reason: ReturnType<typeof statement>) => ({
      findings: [],
      problems: [withheld('wow-flutter-weighted', reason), withheld('wow-flutter-unweighted', reason)],
    });
    expect(why([])).toEqual(both(statement('no-measurable-speed-tone')));
    expect(why([tone(0, 3, null)])).toEqual(both(statement('no-long-speed-tone', { leastS: 4 })));
  });
});

describe('the deck’s own, the hole taken out', () => {
  /** once per turn as the hole makes it, weighted, over some wow of the deck's */
  const gain = weightedGain(TURN_HZ);
  const [re, im] = [8e-4, -6e-4];
  const ofDeck = (t: number): number => 2e-4 * Math.sin(2 * Math.PI * 4.3 * t);
  const heard = (t: number): number =>
    ofDeck(t) + gain * (re * Math.cos(2 * Math.PI * TURN_HZ * t) - im * Math.sin(2 * Math.PI * TURN_HZ * t));
  const segments = [segment(8, 3.1, heard), segment(4, 20, heard)];
  const one = tone(3, 12, ...segments);
  const fitOf = (more: Partial<HoleFit> = {}): HoleFit => ({
    hole: { size: 0.5, spread: 0, signal: 0 },
    bearing: 0,
    bearingSpread: 0,
    platter: { size: 2e-4, spread: 1e-4, signal: 0 },
    ofWarp: { hole: 0.4, platter: 0.03 },
    misfit: 10,
    ofHole: [{ re, im, variance: 1e-8 }],
    ...more,
  });
  const holeOf = (more: Partial<SideHole> = {}): SideHole => ({
    fit: fitOf(),
    phasors: [{ tone: one, arm: { hole: { re: 1, im: 0 }, warp: { re: 0.03, im: 0.04 } } }] as never,
    assumed: assumedInTests,
    parted: true,
    broken: null,
    rotationHz: TURN_HZ,
    armKnown: true,
    tangential: false,
    radiiKnown: true,
    others: [],
    k: 2,
    ...more,
  });
  const deckOf = (hole: SideHole | null, holeAlone: (tone: ToneBand) => SideHole | null = none, of = one) =>
    flutterFigures([of], hole, holeAlone);
  const deck = (hole: SideHole) => deckOf(hole).findings[1];
  /** 2σ of both segments when these are taken out, by a plain sum. */
  const without = (...taken: readonly [number, number, number][]): number => {
    const square = (from: number, lengthS: number): number => {
      const left = Array.from({ length: lengthS * RATE_HZ }, (_, n) => {
        const t = from + n / RATE_HZ;
        return Math.abs(
          taken.reduce(
            (v, [a, b, times]) => {
              const angle = 2 * Math.PI * times * TURN_HZ * t;
              return v - weightedGain(times * TURN_HZ) * (a * Math.cos(angle) - b * Math.sin(angle));
            },
            Math.fround(heard(t)),
          ),
        );
      });
      return quantile(left, 0.95) ** 2;
    };
    return Math.sqrt((8 * square(3.1, 8) + 4 * square(20, 4)) / 12);
  };
  const changed = (by: number, times = 1): number => {
    const value = without([re, im, 1]);
    const steps = [
      [by, 0],
      [0, by],
      [-by, 0],
      [0, -by],
    ];
    return 2 * Math.sqrt(steps.reduce((s, [a, b]) => s + (without([re, im, 1], [a, b, times]) - value) ** 2 / 2, 0));
  };

  it('is what the weighted deviation is without it, with what is left open of hole and warp', () => {
    const found = deck(holeOf());
    const value = without([re, im, 1]);
    expect(found).toMatchObject({
      quantity: 'wow-flutter-weighted-deck',
      value: expect.closeTo(100 * value, 6),
      unit: '%',
      bands: [3],
      notes: [{ code: 'hole-taken-out', values: { percent: expect.closeTo(0.1, 9) } }],
    });
    const sizes = Object.fromEntries(found.budget!.map((line) => [line.of.code, line.size]));
    const warp = Math.hypot(changed((0.012 * 0.03) / 2), changed((0.012 * 2 * 0.05) / 2, 2));
    expect(sizes).toEqual({
      signal: expect.closeTo((200 * (1e-4 / Math.SQRT2) * value) / without(), 6),
      'record-hole': expect.closeTo(100 * changed(1e-4), 6),
      warp: expect.closeTo(100 * warp, 6),
    });
    for (const size of Object.values(sizes)) expect(size).toBeGreaterThan(1e-3);
  });

  it('stands behind the weighted figure, before the same in other ways', () => {
    expect(deckOf(holeOf()).findings.map(({ quantity }) => quantity)).toEqual([
      NAMES[0],
      'wow-flutter-weighted-deck',
      ...NAMES.slice(1),
    ]);
  });

  it('where more is left than was heard, its noise does not grow', () => {
    const ofHole = [{ re: -re, im: -im, variance: 0 }];
    const { repeatability } = deck(holeOf({ fit: fitOf({ ofHole }) }));
    expect(repeatability).toBeCloseTo((200 * 1e-4) / Math.SQRT2, 9);
  });

  it('on other arms the hole takes out another part', () => {
    const other = { re: 5e-4, im: -6e-4, variance: 0 };
    const found = deck(holeOf({ others: [fitOf({ ofHole: [other] })] }));
    const line = found.budget!.find(({ of }) => of.code === 'arm-not-given')!;
    const apart = Math.abs(without([5e-4, -6e-4, 1]) - without([re, im, 1]));
    expect(line.size).toBeCloseTo(100 * Math.SQRT2 * apart, 6);
  });

  it('of a recording that was paused it is the tone’s own hole that is taken out', () => {
    const alone = holeOf({ fit: fitOf({ ofHole: [{ re: re / 2, im: im / 2, variance: 1e-8 }] }) });
    const broken = { afterS: 10, beforeS: 30 };
    const value = deckOf(alone).findings[1].value;
    expect(deckOf(holeOf({ broken }), () => alone).findings[1].value).toBe(value);
    expect(deckOf(holeOf(), () => alone).findings[1].value).not.toBe(value);
  });

  it('of unknown radii it is the tone’s own hole that is taken out, and said so', () => {
    const alone = holeOf({ radiiKnown: false });
    const asked: ToneBand[] = [];
    const { findings } = deckOf(holeOf({ radiiKnown: false, fit: fitOf({ ofHole: [] }) }), (of) => {
      asked.push(of);
      return alone;
    });
    expect(asked).toEqual([one]);
    expect(findings[1].notes[0].code).toBe('hole-taken-out-unparted');
    expect(deckOf(null, () => alone).findings[1].value).toBe(findings[1].value);
    expect(deckOf(holeOf(), () => null).findings[1].notes[0].code).toBe('hole-taken-out');
  });

  it('of a tone of unknown radius among known ones all of its own swing is taken out, the platter’s part open', () => {
    const trace = {
      rateHz: 20,
      startS: 3,
      meanHz: 3150,
      groupS: 0.05,
      deviation: Float64Array.from({ length: 240 }, (_, n) => {
        const angle = 2 * Math.PI * TURN_HZ * (3 + n / 20);
        return re * Math.cos(angle) - im * Math.sin(angle);
      }),
    };
    const segmentsOf = one.reading.segments.map((s) => ({ ...s, trace }));
    const elsewhere: ToneBand = {
      ...one,
      band: { ...one.band, index: 7 },
      reading: { ...one.reading, segments: segmentsOf },
    };
    const found = deckOf(holeOf({ others: [fitOf({ ofHole: [{ re: 0, im: 0, variance: 0 }] })] }), none, elsewhere)
      .findings[1];
    const back = (Math.PI * TURN_HZ * 0.05) / Math.sin(Math.PI * TURN_HZ * 0.05);
    expect(found.value).toBeCloseTo(100 * without([re * back, im * back, 1]), 5);
    const sizes = Object.fromEntries(found.budget!.map((line) => [line.of.code, line.size]));
    // variance w²/2 + u²; the warp's way along the groove at 100 mm; other arms do not matter
    expect(sizes['record-hole']).toBeCloseTo(100 * changed(Math.sqrt(4e-8 / 2 + 1e-8)), 3);
    expect(sizes.warp).toBeCloseTo(100 * Math.hypot(changed((0.012 * 0.03) / 2), changed((0.012 * 2) / 100 / 2, 2)), 3);
    expect(sizes).not.toHaveProperty('arm-not-given');
    // nor is there a deck's figure where it does not last two turns
    const short = { ...one, band: { ...one.band, index: 7 } };
    expect(deckOf(holeOf(), none, short).problems).toEqual([
      withheld('wow-flutter-weighted-deck', statement('no-two-turns')),
    ]);
  });
});

describe('lines of flutter', () => {
  const lines = [{ hz: 25, peak: 1e-4, spread: 1e-5 }] as never;
  const withLines = segment(4, 0, flat, { lines });

  it('are those of the first segment of the longest tone that has any flutter', () => {
    const found = flutterLineFigures([tone(0, 5, segment(4, 0, flat)), tone(1, 9, null, withLines), tone(2, 9, null)]);
    expect(found).toEqual([
      {
        quantity: 'flutter-line',
        value: expect.closeTo(0.01, 12),
        unit: '%',
        uncertainty: expect.closeTo(2e-3, 12),
        repeatability: expect.closeTo(2e-3, 12),
        bands: [1],
        atHz: 25,
        notes: [statement('flutter-line-at', { hz: 25 })],
      },
    ]);
    expect(flutterLineFigures([tone(1, 9, null, withLines), tone(0, 10, segment(4, 0, flat))])).toEqual([]);
    expect(flutterLineFigures([])).toEqual([]);
    expect(flutterLineFigures([tone(0, 9, null)])).toEqual([]);
  });

  it('one of twice its own spread is none', () => {
    const at = (spread: number) => [{ hz: 25, peak: 1e-4, spread }] as never;
    const count = (spread: number) =>
      flutterLineFigures([tone(0, 9, segment(4, 0, flat, { lines: at(spread) }))]).length;
    expect([count(4.9e-5), count(5e-5)]).toEqual([1, 0]);
  });
});
