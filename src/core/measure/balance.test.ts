import { describe, expect, it } from 'vitest';
import { coverageFactor } from '../signal/robust.ts';
import { statement } from '../words/statement.ts';
import { balanceFigure } from './balance.ts';
import type { CrosstalkPair } from './crosstalkPair.ts';
import { type HandMade, sheetOf, sideOf, toneOf } from './toneBands.fixture.ts';

const plain = { inverted: false, bands: [], unsure: false, note: null };
const DB = 20 / Math.LN10;
const lateral = (hz: number, ratio: readonly [number, number], more: Partial<HandMade> = {}) =>
  toneOf({ hz, driven: 'both', ratio, variance: 1e-6, ...more });

const pair = {
  left: [toneOf({ hz: 1000, driven: 'left', band: { index: 7 } })],
  right: [toneOf({ hz: 1000, driven: 'right', band: { index: 5 } })],
  both: [],
  crosstalk: { gain: { value: -0.05, spread: 0.002, own: 0.001, k: 2.2 } },
} as unknown as CrosstalkPair;

describe('channel balance', () => {
  it('is left over right of the lateral tone, its ± along the ratio', () => {
    // 3 and 4: along the ratio counts 9/25 of the one variance and 16/25 of the other
    const tone = lateral(1000, [0.6, 0.8], { variance: 4e-6, varIm: 1e-6, freedom: 9, band: { index: 4 } });
    const half = DB * coverageFactor(9) * Math.sqrt(0.36 * 4e-6 + 0.64 * 1e-6);
    expect(balanceFigure(sideOf([tone]), plain, null)).toEqual({
      quantity: 'channel-balance',
      value: expect.closeTo(0, 12),
      asHeard: expect.closeTo(0, 12),
      unit: 'dB',
      uncertainty: expect.closeTo(half, 12),
      repeatability: expect.closeTo(half, 12),
      bands: [4],
      notes: [statement('balance-as-recorded')],
    });
    const loud = balanceFigure(sideOf([lateral(1000, [2, 0], { freedom: 9 })]), plain, null);
    expect(loud?.value).toBeCloseTo(20 * Math.log10(2), 12);
    expect(loud?.uncertainty).toBeCloseTo((DB * coverageFactor(9) * 1e-3) / 2, 12);
    const few = balanceFigure(sideOf([lateral(1000, [1, 0], { freedom: 0.2 })]), plain, null);
    expect(few?.uncertainty).toBeCloseTo(DB * coverageFactor(1) * 1e-3, 12);
  });

  it('takes the lateral tones nearest to 1 kHz, all of that frequency, in whatever order they play', () => {
    const tones = [
      lateral(3150, [3, 0], { band: { index: 0 } }),
      lateral(1010, [1.2, 0], { band: { index: 3 } }),
      lateral(995, [1, 0], { band: { index: 2 } }),
      lateral(300, [4, 0], { band: { index: 1 } }),
      toneOf({ hz: 1000, driven: 'left', ratio: [5, 0] }),
      lateral(1000, [-7, 0], { band: { index: 6 } }),
    ];
    for (const order of [tones, [...tones].reverse()]) {
      const of = balanceFigure(sideOf(order), plain, null);
      expect(of?.bands).toEqual([2, 3]);
      expect(of?.value).toBeCloseTo(20 * Math.log10(1.1), 9);
    }
  });

  it('counts a tone off 1 kHz for less sure by 0.012 dB an octave, and beyond 8 % says where it was read instead', () => {
    const at = (hz: number) => balanceFigure(sideOf([lateral(hz, [1, 0], { variance: 1e-12 })]), plain, null);
    for (const hz of [1079, 921]) {
      expect(at(hz)?.uncertainty).toBeCloseTo(
        Math.hypot(at(hz)?.repeatability ?? 0, 2 * 0.002 * DB * Math.log(hz / 1000)),
        9,
      );
      expect(at(hz)?.notes).toHaveLength(1);
    }
    const far = at(315);
    expect(far?.uncertainty).toBe(far?.repeatability);
    expect(far?.notes).toEqual([statement('balance-as-recorded'), statement('lateral-read-at', { hz: 315 })]);
  });

  it('tells the gains without the tilt beside it where one-sided tones do', () => {
    expect(balanceFigure(sideOf([lateral(1000, [1, 0])]), plain, pair)?.notes).toEqual([
      statement('balance-as-recorded'),
      statement('gains-without-tilt', { db: -0.05 * DB, spread: 2.2 * 0.002 * DB }),
    ]);
  });

  it('is of the one-sided tones where no lateral one plays, and nothing without either', () => {
    expect(balanceFigure(sideOf([toneOf({ hz: 1000, driven: 'left' })]), plain, null)).toBeNull();
    expect(balanceFigure(sideOf([]), plain, pair)).toEqual({
      quantity: 'channel-balance',
      value: expect.closeTo(-0.05 * DB, 12),
      asHeard: expect.closeTo(-0.05 * DB, 12),
      unit: 'dB',
      uncertainty: expect.closeTo(2.2 * 0.002 * DB, 12),
      repeatability: expect.closeTo(2.2 * 0.001 * DB, 12),
      bands: [5, 7],
      notes: [statement('balance-from-one-sided')],
    });
  });

  it.each([0.5, -0.5])(
    'a cut tilted by %f° drives one wall harder: that is put back, 20 lg (1 + t)/(1 − t)',
    (tiltDeg) => {
      const side = sideOf([lateral(1000, [1, 0])], { sheet: sheetOf([], { cut: { tiltDeg } }) });
      const of = balanceFigure(side, plain, null);
      const t = Math.tan((tiltDeg * Math.PI) / 180);
      expect(of?.asHeard).toBeCloseTo(0, 12);
      expect(of?.value).toBeCloseTo(20 * Math.log10((1 + t) / (1 - t)), 9);
      expect(of?.notes).toEqual([statement('balance-as-recorded'), statement('record-tilt-removed-here')]);
      const level = sideOf([lateral(1000, [1, 0])], { sheet: sheetOf([], { cut: { tiltDeg: 0 } }) });
      expect(balanceFigure(level, plain, null)?.notes).toHaveLength(1);
    },
  );
});
