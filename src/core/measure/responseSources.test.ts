import { describe, expect, it } from 'vitest';
import type { Band } from '../record/band.ts';
import type { SheetBand } from '../record/sheet.ts';
import { type ChainKnown, expectedDb, riaaDb } from './chainLevel.ts';
import { madeCut, madePassage, madeSide } from './handMade.fixture.ts';
import { channelResponse, type ResponseSource, responseSources } from './responseSources.ts';
import { pointsWithin, spansCovered, WHOLE } from './responseSpans.ts';
import type { SweepPoint } from './sweepEstimator.ts';

const FLAT: ChainKnown = { flat: true, preamp: null, record: null };
const RIAA: ChainKnown = { ...FLAT, flat: false };
const point = (hz: number, db: number, rightDb = db, more: Partial<SweepPoint> = {}): SweepPoint => ({
  hz,
  left: 10 ** (db / 10),
  right: 10 ** (rightDb / 10),
  re: 1,
  im: 0.5,
  spreadDb: 0.1,
  noise: 0,
  spectra: 3,
  ...more,
});
const hzAt = (i: number): number => 100 * 2 ** (i / 2);
const sweep = (db: (hz: number) => number, rightDb = db, count = 12): SweepPoint[] =>
  Array.from({ length: count }, (_, i) => point(hzAt(i), db(hzAt(i)), rightDb(hzAt(i))));

interface Made {
  readonly points?: SweepPoint[];
  readonly band?: Partial<Band>;
  readonly cut?: Partial<SheetBand>;
  readonly order?: 'swapped' | 'normal';
  readonly chain?: ChainKnown;
  readonly noise?: boolean;
}
function sources({ points = sweep(() => -20), band, cut, order = 'normal', chain = FLAT, noise }: Made) {
  const readings = noise === true ? { noiseResponse: points } : { sweep: { law: null, points } };
  const of = {
    index: 6,
    signal: 'sweep',
    motion: 'lateral',
    sheetBand: cut === undefined ? null : 0,
    ...band,
  } as const;
  const sheet = cut === undefined ? null : ({ schema: 1, name: 'x', rpm: 33, bands: [madeCut(cut)] } as const);
  return responseSources(madeSide({ order, sheet, passages: [madePassage(of, readings)] }), chain);
}
const one = (made: Made): ResponseSource => sources(made)[0];

describe('what tells a response', () => {
  it('is a sweep, or noise, with what the record file says of it', () => {
    const points = sweep(() => -20);
    const cut = { cut: 'constant-velocity', peakVelocityCmS: 5, levelCorrectionDb: -2 } as const;
    const source = {
      band: 6,
      kind: 'sweep',
      driven: 'both',
      antiphase: false,
      law: 'constant-velocity',
      lawStated: true,
      cutDb: expect.closeTo(20 * Math.log10(5) - 2, 12),
      seconds: 8,
      points,
    };
    expect(sources({ points, cut })).toEqual([source]);
    expect(sources({ points, cut, noise: true })).toEqual([{ ...source, kind: 'noise' }]);
    expect(one({ cut: {} })).toMatchObject({ law: 'riaa', lawStated: false, cutDb: 0 });
    expect(one({ cut: {}, band: { sheetBand: 5 } })).toMatchObject({ lawStated: false, cutDb: 0 });
  });

  it('has ten points at least, and is a band', () => {
    expect(sources({ points: sweep(() => 0, undefined, 10) })).toHaveLength(1);
    expect(sources({ points: sweep(() => 0, undefined, 9) })).toHaveLength(0);
    expect(responseSources(madeSide(), FLAT)).toEqual([]);
    const lost = [madePassage(null, { noiseResponse: sweep(() => 0) }), madePassage({}, {})];
    expect(responseSources(madeSide({ passages: lost }), FLAT)).toEqual([]);
  });

  it('is cut in the walls that the band moves, or in the one that is louder by 8 dB', () => {
    for (const motion of ['left', 'right'] as const) expect(one({ band: { motion } }).driven).toBe(motion);
    for (const motion of ['lateral', 'vertical'] as const) expect(one({ band: { motion } }).driven).toBe('both');
    const by = (db: number) =>
      one({
        band: { motion: 'unknown' },
        points: sweep(
          () => -20,
          () => -20 - db,
        ),
      }).driven;
    expect([by(7.9), by(8.1), by(-7.9), by(-8.1)]).toEqual(['both', 'left', 'both', 'right']);
    // the middle point tells, not the mean
    const mixed = sweep(
      (hz) => (hz < 500 ? -60 : -20),
      () => -40,
    );
    expect(one({ band: { motion: 'unknown' }, points: mixed }).driven).toBe('left');
  });

  it('with the channels exchanged has right for left, walls and phase as well', () => {
    const points = sweep(
      () => -20,
      () => -30,
    );
    const swapped = points.map((p) => ({ ...p, left: p.right, right: p.left, im: -0.5 }));
    expect(one({ points, order: 'swapped', band: { motion: 'left' } })).toMatchObject({
      driven: 'right',
      points: swapped,
    });
    expect(one({ points, order: 'swapped', band: { motion: 'right' } }).driven).toBe('left');
    expect(one({ points, order: 'swapped', band: { motion: 'vertical' } }).driven).toBe('both');
    expect(
      one({
        points: sweep(
          () => 0,
          () => -20,
        ),
        order: 'swapped',
        band: { motion: 'unknown' },
      }).driven,
    ).toBe('right');
  });

  it('is in antiphase where most of it is, each point by its own level', () => {
    const turned = (count: number, quiet = -20) =>
      one({
        points: sweep(() => -20).map((p, i) =>
          point(p.hz, i < count ? quiet : -20, undefined, { re: i < count ? -1 : 1 }),
        ),
      }).antiphase;
    expect([turned(5), turned(7)]).toEqual([false, true]);
    // as ratios quiet points count more than loud ones with the same product
    expect(turned(5, -30)).toBe(true);
  });

  it('without a record file follows the law under which it is flatter', () => {
    const likely = (chain: ChainKnown, db: (hz: number) => number, motion: Band['motion'] = 'lateral', right = db) =>
      one({ chain, points: sweep(db, right), band: { motion } }).law;
    // a cut of constant velocity through an equalisation falls; one by RIAA through it is flat
    expect(likely(RIAA, (hz) => riaaDb(hz))).toBe('constant-velocity');
    expect(likely(RIAA, () => 0)).toBe('riaa');
    expect(likely(FLAT, () => 0)).toBe('constant-velocity');
    expect(likely(FLAT, (hz) => -riaaDb(hz))).toBe('riaa');
    // by the wall that is cut
    const rises = (hz: number) => -riaaDb(hz);
    expect(likely(FLAT, () => 0, 'right', rises)).toBe('riaa');
    expect(likely(FLAT, rises, 'right', () => 0)).toBe('constant-velocity');
    expect(likely(FLAT, rises, 'left', () => 0)).toBe('riaa');
  });
});

describe('a channel’s response', () => {
  const source = (points: SweepPoint[], law: ResponseSource['law'] = 'constant-velocity'): ResponseSource => ({
    band: 0,
    kind: 'sweep',
    driven: 'both',
    antiphase: false,
    law,
    lawStated: true,
    cutDb: 0,
    seconds: 9,
    points,
  });
  const edge = 1000 * 2 ** (1 / 6);

  it('stands against the mean about 1 kHz, a sixth of an octave to either side', () => {
    const points = [
      point(500, -10),
      point(1000, -20, -21, { spreadDb: 0.3 }),
      point(edge * 0.9999, -24, -25, { spreadDb: 0.4 }),
      point(edge * 1.001, 6),
      point(1000 / edge / 1.001, 6),
    ];
    const told = channelResponse(source(points), 'right', FLAT);
    const anchor = 0.5 / 2;
    expect(told).toEqual({
      hz: points.map(({ hz }) => hz),
      db: [13, 2, -2, 29, 29].map((v) => expect.closeTo(v, 9)),
      spreadDb: [0.1, 0.3, 0.4, 0.1, 0.1].map((s) => expect.closeTo(Math.hypot(s, anchor), 9)),
      levelDb: expect.closeTo(-23, 9),
      anchored: true,
    });
    const below = channelResponse(source([point((1000 * 1000) / edge + 0.01, -5), point(5000, 0)]), 'left', FLAT);
    expect(below.anchored).toBe(true);
  });

  it('that does not reach 1 kHz stands against its own middle', () => {
    const told = channelResponse(source([point(100, -10), point(200, -30), point(300, -14)]), 'left', FLAT);
    expect(told).toMatchObject({ anchored: false, levelDb: expect.closeTo(-14, 9), spreadDb: [0.1, 0.1, 0.1] });
    expect(told.db).toEqual([4, -16, 0].map((v) => expect.closeTo(v, 9)));
  });

  it('has cut and chain taken off, and no point without power', () => {
    const points = [point(100, -10), point(1000, -20), { ...point(5000, -3), left: 0 }];
    const told = channelResponse(source(points, 'riaa'), 'left', FLAT);
    expect(told.hz).toEqual([100, 1000]);
    expect(told.db[0]).toBeCloseTo(10 - expectedDb('riaa', FLAT, 'left', 100), 9);
    expect(channelResponse(source(points), 'right', FLAT).hz).toHaveLength(3);
  });
});

describe('spans', () => {
  it('hold what lies within 2 % of their ends', () => {
    const hz = [19.6, 19.61, 100, 20_399, 20_401];
    expect(pointsWithin(hz, WHOLE)).toEqual([1, 2, 3]);
    expect(pointsWithin([], WHOLE)).toEqual([]);
  });

  it('are those that a response reaches from end to end, a twelfth of an octave short at most', () => {
    const names = (...hz: number[]) => spansCovered(hz).map(({ name }) => name);
    const [all, house, middle] = ['40-12500', '100-10000', '315-6300'];
    expect(names(20, 20_000)).toEqual([all, house, middle]);
    expect(names(42.3, 11_799)).toEqual([all, house, middle]);
    expect(names(42.4, 12_500)).toEqual([house, middle]);
    expect(names(40, 11_790)).toEqual([house, middle]);
    expect(names(106, 9440)).toEqual([middle]);
    expect(names(333, 5947)).toEqual([middle]);
    expect(names(334, 5947)).toEqual([]);
    expect(names(333, 5946)).toEqual([]);
    expect(names()).toEqual([]);
    expect(spansCovered([20, 20_000]).map(({ by }) => by.code)).toEqual([
      'span-by-din',
      'span-by-house',
      'span-by-house',
    ]);
  });
});
