/** Each way to the arm's resonance, the fits themselves given: what is asked of them, and what is made of their answers. */
import { beforeEach, describe, expect, it, vi } from 'vitest';
import type { SheetBand } from '../record/sheet.ts';
import { statement } from '../words/statement.ts';
import { assumedInTests } from './assumed.fixture.ts';
import { expectedDb, highPass7950Db } from './chainLevel.ts';
import { madeCut, madePassage, madeSide } from './handMade.fixture.ts';
import type { LowSweepReading } from './lowSweepEstimator.ts';
import { type SweptLevels, sweptResonance } from './lowSweepFit.ts';
import { type FoundWays, type ResonanceWay, resonanceWays } from './resonanceWays.ts';
import type { RingDown } from './ringDown.ts';
import type { FittedResonance, LevelPoint, ResonanceFit } from './secondOrder.ts';
import type { SideReadings } from './sideReadings.ts';
import { byNoise, bySpeed } from './swayWays.ts';
import { sweptLevel } from './sweptArm.ts';

vi.mock('./lowSweepFit.ts', () => ({ sweptResonance: vi.fn() }));
vi.mock('./swayWays.ts', () => ({ bySpeed: vi.fn(() => null), byNoise: vi.fn(() => null) }));

const rings = (hz: number): RingDown => ({
  hz,
  q: 3,
  hzSpread: 0.01,
  qSpread: 0.03,
  hzApart: 0.02,
  qApart: 0.05,
  left: 0.1,
});

describe('where the tip drops', () => {
  const ways = (inverted: boolean, inPhase: RingDown | null, antiphase: RingDown | null) =>
    resonanceWays(
      madeSide({ passages: [madePassage(null, { ringDown: { inPhase, antiphase } }, { startS: 4.5 })] }),
      true,
      inverted,
    ).ways;

  it('what rings in phase is lateral, unless a channel is upside down', () => {
    const [lateral, vertical] = ways(false, rings(9), rings(12));
    const doubt = (value: number, share: number) => [{ of: assumedInTests.ringDown.of, size: value * share * 0.0125 }];
    expect(lateral).toEqual({
      way: 'ring-down',
      direction: 'lateral',
      hz: {
        value: 9,
        own: expect.closeTo(9 * Math.hypot(0.02, 0.02), 12),
        doubts: doubt(9, 1).map(({ of, size }) => ({ of, size: expect.closeTo(size, 12) })),
      },
      q: {
        value: 3,
        own: expect.closeTo(3 * Math.hypot(0.06, 0.05), 12),
        doubts: doubt(3, 4).map(({ of, size }) => ({ of, size: expect.closeTo(size, 12) })),
      },
      bands: [],
      notes: [statement('resonance-by-ring-down', { atS: 4.5 })],
    });
    expect(vertical).toMatchObject({ direction: 'vertical', hz: { value: 12 } });
    expect(ways(true, rings(9), rings(12)).map(({ hz }) => hz.value)).toEqual([12, 9]);
    expect(ways(false, null, rings(12)).map(({ direction }) => direction)).toEqual(['vertical']);
    expect(ways(false, rings(9), null).map(({ direction }) => direction)).toEqual(['lateral']);
    expect(ways(false, null, null)).toEqual([]);
  });
});

const fitOf = (more: Partial<ResonanceFit> = {}): ResonanceFit => ({
  hz: 9.5,
  q: 2.6,
  gainDb: -40,
  hzSpread: 0.01,
  qSpread: 0.03,
  hzBeside: { ofSlope: 0.002, ofCorner: 0.004 },
  qBeside: { ofSlope: 0.006, ofCorner: 0.008 },
  besideDb: (hz) => hz / 100,
  leftDb: 0.07,
  strainDb: 0.1,
  ...more,
});
const POINTS: LevelPoint[] = [12, 6, 9].map((hz, i) => ({ hz, hzPerS: 0.4, windowS: 1, db: -40 + i, spread: 0.1 }));
const level = (fit: FittedResonance, points = POINTS): SweptLevels => ({ fit, points, seconds: [] });
const READING = { sheetBand: 0, place: { startS: 1.5, lengthS: 26 } } as LowSweepReading;

const swept = vi.mocked(sweptResonance);
beforeEach(() => {
  swept.mockReset();
  vi.mocked(bySpeed).mockReturnValue(null);
  vi.mocked(byNoise).mockReturnValue(null);
});

interface Made {
  readonly of?: LowSweepReading;
  readonly cut?: Partial<SheetBand>;
  readonly flat?: boolean;
  readonly inverted?: boolean;
  readonly side?: Partial<SideReadings>;
  /** what is fitted, first without and then with the 7950 µs high pass */
  readonly fits?: FittedResonance[];
  readonly points?: LevelPoint[][];
}
function found({ of = READING, cut, flat = true, inverted = false, side, fits = [fitOf()], points = [] }: Made = {}) {
  swept.mockReset();
  for (const [i, fit] of fits.entries()) swept.mockReturnValueOnce(level(fit, points[i]));
  const bands = [madeCut({ motion: 'lateral', fromHz: 5, toHz: 18, cut: 'constant-velocity', ...cut })];
  return resonanceWays(
    madeSide({
      sheet: { schema: 1, name: 'x', rpm: 33, bands },
      passages: [madePassage(null, { lowSweep: of }, { startS: 100, endS: 140 })],
      ...side,
    }),
    flat,
    inverted,
  );
}
/** How the fit was asked for: direction, whether both channels move in it alone, level at some frequencies, what may be askew. */
const asked = (call = 0) => {
  const [reading, direction, whole, off, askew] = swept.mock.calls[call];
  return { reading, direction, whole, levels: [5, 10, 50].map(off), askew };
};
const codes = ({ notes }: ResonanceWay) => notes.map(({ code }) => code);
const sizes = (figure: ResonanceWay['hz']) => Object.fromEntries(figure.doubts.map((d) => [d.of.code, d.size]));
const WHY = { why: 'resonance-no-fit' } as const;

describe('a sweep through the resonance', () => {
  it('tells it with what cut and chain may add, and draws both curves from the lowest frequency up', () => {
    const { ways, failed, curves, lowSweeps } = found();
    expect(failed).toEqual([]);
    const figure = (value: number, own: number, slope: number, corner: number, method: number) => ({
      value,
      own: expect.closeTo(own, 12),
      doubts: [
        { of: assumedInTests.cutSlope.of, size: expect.closeTo(slope, 12) },
        { of: assumedInTests.lowCorner.of, size: expect.closeTo(corner, 12) },
        { of: statement('method'), size: expect.closeTo(method, 12) },
      ],
    });
    expect(ways).toEqual([
      {
        way: 'sweep',
        direction: 'lateral',
        hz: figure(9.5, 9.5 * 0.02, 9.5 * 0.004, 9.5 * 0.008, 9.5 * 0.0015),
        q: figure(2.6, 2.6 * 0.06, 2.6 * 0.012, 2.6 * 0.016, 2.6 * 0.006),
        bands: [],
        notes: [statement('resonance-by-sweep', { fromHz: 5, toHz: 18, leftDb: 0.07 })],
      },
    ]);
    const of = { quantity: 'resonance-lateral', x: [6, 9, 12], xUnit: 'Hz', yUnit: 'dB' };
    expect(curves).toEqual([
      { ...of, name: 'heard', y: [1 - 0.06, 2 - 0.09, 0 - 0.12].map((v) => expect.closeTo(v, 12)) },
      { ...of, name: 'fitted', y: [1, 2, 0].map((i) => sweptLevel(POINTS[i], 9.5, 2.6)) },
    ]);
    expect(lowSweeps).toEqual([
      {
        sheetBand: 0,
        startS: 101.5,
        endS: 127.5,
        quantities: ['arm-resonance-lateral', 'arm-resonance-lateral-q'],
      },
    ]);
    expect(swept).toHaveBeenCalledTimes(1);
    expect(asked()).toEqual({
      reading: READING,
      direction: 'lateral',
      whole: true,
      levels: [0, 0, 0],
      askew: { slope: 0.15, cornerHz: 2 },
    });
  });

  it('whose ends nobody states has none to say', () => {
    const [{ notes }] = found({ cut: { fromHz: undefined, toHz: undefined } }).ways;
    expect(notes).toEqual([statement('resonance-by-sweep', { fromHz: 0, toHz: 0, leftDb: 0.07 })]);
  });

  it('in one wall tells both directions, by what is in phase and what in antiphase', () => {
    const two = { cut: { motion: 'left' }, fits: [fitOf(), fitOf({ hz: 11 })] } as const;
    const { ways, lowSweeps } = found({ ...two, fits: [...two.fits] });
    expect(ways.map(({ direction, hz }) => [direction, hz.value])).toEqual([
      ['lateral', 9.5],
      ['vertical', 11],
    ]);
    expect([0, 1].map((i) => [asked(i).direction, asked(i).whole])).toEqual([
      ['lateral', false],
      ['vertical', false],
    ]);
    expect(lowSweeps[0].quantities).toEqual([
      'arm-resonance-lateral',
      'arm-resonance-lateral-q',
      'arm-resonance-vertical',
      'arm-resonance-vertical-q',
    ]);
  });

  it('with a channel upside down in phase and antiphase change places; not where both move in one direction alone', () => {
    found({ cut: { motion: 'right' }, inverted: true, fits: [fitOf(), fitOf()] });
    expect([asked(0).direction, asked(1).direction]).toEqual(['vertical', 'lateral']);
    const { ways } = found({ cut: { motion: 'vertical' }, inverted: true });
    expect([asked().direction, asked().whole, ways[0].direction]).toEqual(['vertical', true, 'vertical']);
    expect(swept).toHaveBeenCalledTimes(1);
  });

  it('has the cut’s law taken off, RIAA where nobody says, and the record’s own response', () => {
    found({ cut: { cut: undefined } });
    const flat = { flat: true, preamp: null, record: null };
    expect(asked().levels).toEqual([5, 10, 50].map((hz) => expectedDb('riaa', flat, null, hz)));
    const recordResponse = { hz: [5, 20, 1000], leftDb: [0, 6, 0], rightDb: [0, 2, 0] };
    found({ side: { recordResponse } });
    const chain = { ...flat, record: recordResponse };
    expect(asked().levels).toEqual([5, 10, 50].map((hz) => expectedDb('constant-velocity', chain, null, hz)));
  });

  it('fails where it is not found, or lies in a spoiled stretch, or the fit does', () => {
    const why = (made: Made) => {
      const { ways, failed, lowSweeps, curves } = found(made);
      expect([ways, curves]).toEqual([[], []]);
      return [failed, lowSweeps.map(({ quantities }) => quantities)];
    };
    const of = (code: 'low-sweep-not-found' | 'low-sweep-spoiled' | 'resonance-no-fit') => ({
      direction: 'lateral',
      why: statement(code),
    });
    expect(why({ of: { ...READING, place: null } })).toEqual([[of('low-sweep-not-found')], []]);
    expect(why({ fits: [WHY] })).toEqual([[of('resonance-no-fit')], [[]]]);
    const spoiled = (startS: number, endS: number) => ({ side: { spoiled: [{ startS, endS }] } });
    expect(why(spoiled(101, 101.6))).toEqual([[of('low-sweep-spoiled')], [[]]]);
    expect(why(spoiled(127.4, 128))).toEqual([[of('low-sweep-spoiled')], [[]]]);
    expect(found(spoiled(90, 101.5)).ways).toHaveLength(1);
    expect(found(spoiled(127.5, 140)).ways).toHaveLength(1);
    const nothing = { ways: [], failed: [], curves: [], lowSweeps: [] };
    expect(found({ side: { sheet: null } })).toEqual(nothing);
    expect(found({ of: { ...READING, sheetBand: 4 } })).toEqual(nothing);
    const { passages: _, ...none } = madeSide();
    expect(resonanceWays(none, true, false)).toEqual(nothing);
  });

  it('is listed no longer than its passage', () => {
    const of = { ...READING, place: { startS: -2, lengthS: 50 } };
    expect(found({ of }).lowSweeps).toMatchObject([{ startS: 100, endS: 140 }]);
  });
});

describe('a preamp’s 7950 µs high pass', () => {
  const OTHER = [{ ...POINTS[0], hz: 30 }];
  const [PLAIN, THROUGH] = [fitOf(), fitOf({ hz: 9.1, q: 2.4 })];
  const of = (plain: Partial<ResonanceFit>, through: Partial<ResonanceFit>, more: Made = {}) =>
    found({
      flat: false,
      fits: [
        { ...PLAIN, ...plain },
        { ...THROUGH, ...through },
      ],
      points: [POINTS, OTHER],
      ...more,
    });

  it('is tried where nobody knows the chain’s low end', () => {
    of({}, {});
    const riaa = { flat: false, preamp: null, record: null };
    const plain = [5, 10, 50].map((hz) => expectedDb('constant-velocity', riaa, null, hz));
    expect(asked(0).levels).toEqual(plain);
    expect(asked(1)).toEqual({
      ...asked(0),
      levels: [5, 10, 50].map((hz, i) => plain[i] + highPass7950Db(hz)),
    });
  });

  it('is heard where that leaves 1.5 times less, and taken off', () => {
    const { ways, curves } = of({ strainDb: 0.151 }, { strainDb: 0.1 });
    expect(codes(ways[0])).toEqual(['resonance-by-sweep', 'low-end-7950-heard']);
    expect(ways[0].hz.value).toBe(9.1);
    expect(sizes(ways[0].hz)).toMatchObject({ method: 0.002 * 9.1 });
    expect(sizes(ways[0].q)).toMatchObject({ method: 0.006 * 2.4 });
    expect(curves[0].x).toEqual([30]);
  });

  it('is not there where that leaves 1.5 times more', () => {
    const { ways, curves } = of({ strainDb: 0.1 }, { strainDb: 0.151 });
    expect(codes(ways[0])).toEqual(['resonance-by-sweep']);
    expect(ways[0].hz.value).toBe(9.5);
    expect(sizes(ways[0].hz)).toEqual({
      slope: expect.any(Number),
      corner: expect.any(Number),
      method: expect.closeTo(0.0015 * 9.5, 12),
    });
    expect(curves[0].x).toEqual([6, 9, 12]);
  });

  it('between the two it is left open, and what it would change is a doubt; also where both leave next to nothing', () => {
    for (const [plain, through] of [
      [0.149, 0.1],
      [0.1, 0.149],
      [0.029, 0.001],
      [0.001, 0.029],
    ]) {
      const { ways, curves } = of({ strainDb: plain }, { strainDb: through });
      expect(codes(ways[0])).toEqual(['resonance-by-sweep', 'low-end-open']);
      expect(sizes(ways[0].hz)).toMatchObject({ 'low-end-7950': expect.closeTo(0.4, 12) });
      expect(sizes(ways[0].q)).toMatchObject({ 'low-end-7950': expect.closeTo(0.2, 12) });
      expect(ways[0].hz.value).toBe(9.5);
      expect(curves[0].x).toEqual([6, 9, 12]);
    }
    expect(codes(of({ strainDb: 0.031 }, { strainDb: 0.001 }).ways[0])).toContain('low-end-7950-heard');
    expect(codes(of({ strainDb: 0.001 }, { strainDb: 0.031 }).ways[0])).toEqual(['resonance-by-sweep']);
  });

  it('is heard where without it there is no fit at all; where with it there is none it counts for nothing', () => {
    const heard = found({ flat: false, fits: [WHY, THROUGH], points: [POINTS, OTHER] });
    expect(codes(heard.ways[0])).toContain('low-end-7950-heard');
    expect(heard.ways[0].hz.value).toBe(9.1);
    const without = found({ flat: false, fits: [PLAIN, WHY] });
    expect(codes(without.ways[0])).toEqual(['resonance-by-sweep']);
    expect(found({ flat: false, fits: [WHY, WHY] }).failed).toHaveLength(1);
  });

  it('nobody asks of a flat capture or a measured preamp', () => {
    const preamp = { hz: [8, 1000], leftDb: [0, 0], rightDb: [0, 0] };
    found({ flat: false, side: { preamp } });
    expect(swept).toHaveBeenCalledTimes(1);
    // measured from 8 Hz down, nothing is left open at the low end
    expect(asked().askew).toEqual({ slope: 0.15, cornerHz: 0 });
    found({ flat: false, side: { preamp: { ...preamp, hz: [8.1, 1000] } } });
    expect(asked().askew).toEqual({ slope: 0.15, cornerHz: 2 });
  });
});

describe('a tone’s wavering, and the groove’s noise', () => {
  const way = (name: ResonanceWay['way']) => ({ way: name }) as ResonanceWay;
  const curve = { quantity: 'x', x: [], y: [], xUnit: '', yUnit: '' };

  it('are asked for both directions, the record’s response left out', () => {
    vi.mocked(bySpeed).mockImplementation((_, direction) =>
      direction === 'lateral' ? { way: way('speed'), curves: [curve, curve] } : null,
    );
    vi.mocked(byNoise).mockImplementation((_, direction) => (direction === 'vertical' ? way('noise') : null));
    const preamp = { hz: [5, 1000], leftDb: [0, 0], rightDb: [0, 0] };
    const side = madeSide({ preamp, recordResponse: preamp });
    const told: FoundWays = resonanceWays(side, false, true);
    expect(told).toEqual({ ways: [way('speed'), way('noise')], failed: [], curves: [curve, curve], lowSweeps: [] });
    for (const direction of ['lateral', 'vertical'] as const) {
      expect(bySpeed).toHaveBeenCalledWith(side, direction, true);
      expect(byNoise).toHaveBeenCalledWith(side, direction, true, { flat: false, preamp, record: null });
    }
  });
});
