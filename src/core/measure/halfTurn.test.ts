import { describe, expect, it } from 'vitest';
import { coverageFactor } from '../signal/robust.ts';
import { statement } from '../words/statement.ts';
import { halfTurn, type TurnAtStart } from './halfTurn.ts';

const assumed = {
  seating: { of: { code: 'seating', values: {} }, size: 0.1 },
  toneStart: { of: { code: 'start', values: {} }, size: 0.06 },
};
const turn = (re: number, im: number, more: Partial<TurnAtStart> = {}): TurnAtStart => ({
  band: 0,
  re,
  im,
  variance: 1e-10,
  degreesOfFreedom: 10,
  rotationHz: 0.5,
  frequencyHz: 3150,
  radiusMm: 80,
  sheetBand: null,
  ...more,
});
const of = (first: TurnAtStart[], second: TurnAtStart[]) => {
  const told = halfTurn(first, second, assumed);
  if (!told.found) throw new Error(told.why.code);
  return told.finding;
};
const bands = (first: TurnAtStart[], second: TurnAtStart[]) => of(first, second).bands;

describe('what stays when the record is turned by half a turn', () => {
  it('is the platter’s: half of the difference, noise’s own share taken off', () => {
    // record 3e-4 at 90°, platter 4e-4 at 0
    const told = of([turn(4e-4, 3e-4, { band: 2 })], [turn(-4e-4, 3e-4, { variance: 3e-10, degreesOfFreedom: 6 })]);
    const variance = 1e-10;
    const signal = 100 * coverageFactor(16) * Math.sqrt(variance);
    const start = 100 * Math.PI * 0.5 * 0.06 * 3e-4;
    const seat = (100 * 0.1) / 160;
    const whole = Math.hypot(signal, start, seat);
    expect(told).toEqual({
      quantity: 'once-per-turn-platter',
      value: expect.closeTo(100 * Math.sqrt(16e-8 - variance), 12),
      unit: '%',
      bands: [2],
      notes: [statement('platter-by-half-turn', { bands: 1 })],
      uncertainty: expect.closeTo(whole, 12),
      repeatability: expect.closeTo(signal, 12),
      budget: [
        {
          of: assumed.seating.of,
          size: expect.closeTo(seat, 12),
          unit: '%',
          share: expect.closeTo((seat / whole) ** 2, 9),
        },
        {
          of: assumed.toneStart.of,
          size: expect.closeTo(start, 12),
          unit: '%',
          share: expect.closeTo((start / whole) ** 2, 9),
        },
        {
          of: statement('signal'),
          size: expect.closeTo(signal, 12),
          unit: '%',
          share: expect.closeTo((signal / whole) ** 2, 9),
        },
      ],
    });
  });

  it('several bands: their squares are averaged; starts and noise count the less, the seating is one for all', () => {
    const first = [turn(5e-4, 1e-4, { radiusMm: 50 }), turn(1e-4, 7e-4, { radiusMm: null, rotationHz: 0.75 })];
    const second = [turn(-1e-4, 1e-4), turn(1e-4, -3e-4)];
    const told = of(first, second);
    const [w1, w2] = [3e-4, 5e-4];
    const [r1, r2] = [Math.hypot(2e-4, 1e-4), Math.hypot(1e-4, 2e-4)];
    expect(told.value).toBeCloseTo(100 * Math.sqrt((w1 ** 2 + w2 ** 2) / 2 - 5e-11), 12);
    expect(told.repeatability).toBeCloseTo((100 * coverageFactor(40) * Math.sqrt(5e-11)) / Math.SQRT2, 12);
    const size = (code: string) => told.budget?.find((line) => line.of.code === code)?.size;
    expect(size('start')).toBeCloseTo((100 * Math.PI * 0.06 * (0.5 * r1 + 0.75 * r2)) / 2 / Math.SQRT2, 12);
    expect(size('seating')).toBeCloseTo((100 * (0.1 / 100 + 0.1 / 200)) / 2, 12);
    expect(told.notes).toEqual([statement('platter-by-half-turn', { bands: 2 })]);
  });

  it('noise alone is nothing, not less', () => {
    expect(of([turn(1e-6, 0)], [turn(1e-6, 0)]).value).toBe(0);
  });
});

describe('which tones are the same in both', () => {
  it('within 1 % of frequency either way', () => {
    const other = (hz: number) => halfTurn([turn(1e-4, 0)], [turn(0, 0, { frequencyHz: hz })], assumed).found;
    expect([3120, 3180, 3118, 3182].map(other)).toEqual([true, true, false, false]);
  });
  it('in the record file’s place, where both have one', () => {
    const pair = (a: number | null, b: number | null) =>
      halfTurn([turn(1e-4, 0, { sheetBand: a })], [turn(0, 0, { sheetBand: b })], assumed).found;
    expect(pair(1, 1)).toBe(true);
    expect(pair(1, 2)).toBe(false);
    expect(pair(null, 2)).toBe(true);
    expect(pair(1, null)).toBe(true);
  });
  it('in the order in which they play: what was passed over is not taken again', () => {
    const [a, b, c] = [1, 2, 3].map((band) => turn(1e-4, 0, { band, frequencyHz: 1000 * band }));
    expect(bands([a, b, c], [a, b, c])).toEqual([1, 2, 3]);
    expect(bands([a, c], [a, b, c])).toEqual([1, 3]);
    expect(bands([b, a, c], [a, b, c])).toEqual([2, 3]);
    expect(bands([a, a], [a])).toEqual([1]);
    expect(bands([a, b], [c, b])).toEqual([2]);
  });
  it('or none', () => {
    const why = { found: false, why: statement('no-tone-in-both') };
    expect(halfTurn([], [turn(1, 0)], assumed)).toEqual(why);
    expect(halfTurn([turn(1, 0)], [], assumed)).toEqual(why);
  });
});
