import { describe, expect, it } from 'vitest';
import { statement } from '../../words/statement.ts';
import { chainOf } from './bench.ts';
import type { LearnedRecord } from './learnedRecord.ts';
import { recordError } from './recordError.ts';

const DEG = Math.PI / 180;
const zero = { leftIntoRight: { re: 0, im: 0 }, rightIntoLeft: { re: 0, im: 0 } };
const learned: LearnedRecord = {
  schema: 1,
  kind: 'learned-record',
  record: { name: 'invented', key: 'k' },
  decks: 25,
  leaks: {
    mean: { leftIntoRight: { re: 0.01, im: 0.002 }, rightIntoLeft: { re: 0.02, im: -0.003 } },
    variance: { tilt: 1e-6, common: 2e-6, quadrature: 3e-6 },
  },
  balanceDb: { mean: 0.4, uncertainty: 0.1, spread: 0.25, decks: 25 },
  speedPercent: { mean: 0.15, uncertainty: 0.05, spread: 0.12, decks: 25 },
};
const byShop = statement('record-learned', { decks: 25 });
/** of one real part: half of all cuts leak less than −35 dB, Rayleigh's median over its spread is √(2 ln 2) */
const PART = (10 ** (-35 / 20) / Math.sqrt(2 * Math.LN2)) ** 2;

describe('what a record may hide', () => {
  it('of which nothing is known, whole', () => {
    expect(recordError(undefined)).toEqual({
      leaks: zero,
      leakDoubt: {
        tilt: expect.closeTo(PART / 2, 12),
        common: expect.closeTo(PART / 2, 12),
        quadrature: expect.closeTo(PART, 12),
      },
      leakSource: statement('record-leak'),
      tiltSource: statement('record-leak'),
      balanceDb: 0,
      balance: { of: statement('cut-balance'), size: 0.3 },
      balanceApart: true,
      speedPercent: 0,
      speed: { of: statement('cut-speed'), size: 0.2 },
      velocity: { of: statement('cut-velocity'), size: 1 },
      radius: { of: statement('band-radius'), size: 1 },
      warp: { of: statement('warp'), size: 0.025 },
      zenith: { of: statement('cut-zenith'), size: 0.5 },
      verticalAngle: { of: statement('cut-vertical-angle'), size: 3 },
      uncertified: true,
      chain: chainOf(),
    });
    expect(recordError({})).toEqual(recordError(undefined));
    expect(recordError(undefined, null, { setByMirror: true }).chain).toEqual(chainOf({ setByMirror: true }));
  });

  it('that a file certifies, whole', () => {
    const cut = {
      tiltDeg: 0.3,
      tiltUncertaintyDeg: 0.2,
      leakDb: -46,
      speedUncertaintyPercent: 0.02,
      levelUncertaintyDb: 0.1,
      radiusUncertaintyMm: 0.2,
      warpMm: 0.2,
      zenithUncertaintyDeg: 0.1,
      verticalAngleDeg: 20,
      verticalAngleKind: 'effective',
    } as const;
    const part = 10 ** -4.6 / 2;
    expect(recordError(cut)).toMatchObject({
      leaks: zero,
      leakDoubt: {
        tilt: expect.closeTo(Math.tan(0.1 * DEG) ** 2, 12),
        common: expect.closeTo(part / 2, 12),
        quadrature: expect.closeTo(part, 12),
      },
      leakSource: statement('record-leak'),
      tiltSource: statement('record-tilt'),
      balanceDb: 0,
      balance: { of: statement('cut-balance'), size: expect.closeTo(0.1 * Math.SQRT2, 12) },
      balanceApart: true,
      speed: { of: statement('cut-speed'), size: 0.02 },
      velocity: { size: 0.1 },
      radius: { size: 0.2 },
      warp: { size: expect.closeTo(0.01, 12) },
      zenith: { size: 0.1 },
      verticalAngle: { size: 1 },
      uncertified: false,
    });
  });

  it('a tilt that is stated counts with the usual half degree, one of no uncertainty is no doubt; either is a certificate', () => {
    expect(recordError({ tiltDeg: 0 }).leakDoubt.tilt).toBeCloseTo(Math.tan(0.25 * DEG) ** 2, 12);
    expect(recordError({ tiltUncertaintyDeg: 0 }).leakDoubt.tilt).toBe(0);
    for (const cut of [{ tiltDeg: 0 }, { tiltUncertaintyDeg: 1 }, { leakDb: -30 }, { separationDb: 30 }]) {
      expect(recordError(cut).uncertified).toBe(false);
    }
    expect(recordError({ speedUncertaintyPercent: 0.01 }).uncertified).toBe(true);
  });

  it('of leak and separation the worse one counts, whatever sign they are stated with', () => {
    const part = (cut: Parameters<typeof recordError>[0]) => recordError(cut).leakDoubt.quadrature;
    for (const [leakDb, separationDb] of [
      [-40, 30],
      [-30, 40],
      [40, -30],
      [30, 40],
    ]) {
      expect(part({ leakDb, separationDb })).toBeCloseTo(10 ** -3 / 2, 12);
    }
  });

  it('that a shop has learned, whole', () => {
    expect(recordError(undefined, learned)).toMatchObject({
      leaks: learned.leaks!.mean,
      leakDoubt: learned.leaks!.variance,
      leakSource: byShop,
      tiltSource: byShop,
      balanceDb: 0.4,
      balance: { of: byShop, size: 0.1 },
      balanceApart: false,
      speedPercent: 0.15,
      speed: { of: byShop, size: 0.05 },
      uncertified: false,
    });
  });

  it('a certificate goes before what was learned, each for itself', () => {
    const tilted = recordError({ tiltDeg: 1, tiltUncertaintyDeg: 0.2 }, learned);
    // the tilt learned, 0.005, is taken back out: the common part stays
    expect(tilted.leaks).toEqual({
      leftIntoRight: { re: expect.closeTo(0.015, 12), im: 0.002 },
      rightIntoLeft: { re: expect.closeTo(0.015, 12), im: -0.003 },
    });
    expect(tilted).toMatchObject({ leakSource: byShop, tiltSource: statement('record-tilt'), balanceDb: 0.4 });
    expect(tilted.leakDoubt).toEqual({
      ...learned.leaks!.variance,
      tilt: expect.closeTo(Math.tan(0.1 * DEG) ** 2, 12),
    });
    const leaked = recordError({ leakDb: -40 }, learned);
    expect(leaked).toMatchObject({
      leaks: zero,
      leakSource: statement('record-leak'),
      tiltSource: statement('record-leak'),
    });
    expect(leaked.leakDoubt.common).toBeCloseTo(10 ** -4 / 4, 12);
    expect(recordError({ levelUncertaintyDb: 0.01 }, learned)).toMatchObject({
      balanceDb: 0,
      balanceApart: true,
      balance: { of: statement('cut-balance') },
      speedPercent: 0.15,
    });
    expect(recordError({ speedUncertaintyPercent: 0.01 }, learned)).toMatchObject({
      speedPercent: 0,
      speed: { of: statement('cut-speed'), size: 0.01 },
      balanceDb: 0.4,
    });
  });

  it('what was learned no better than the table, or not at all, leaves the table', () => {
    const figure = { mean: 0.4, spread: 1, decks: 12 };
    const of = (balance: number, speed: number) =>
      recordError(undefined, {
        ...learned,
        balanceDb: { ...figure, uncertainty: balance },
        speedPercent: { ...figure, uncertainty: speed },
      });
    expect(of(0.299, 0.199)).toMatchObject({ balanceDb: 0.4, balanceApart: false, speedPercent: 0.4 });
    expect(of(0.3, 0.2)).toMatchObject({ balanceDb: 0, balanceApart: true, speedPercent: 0, speed: { size: 0.2 } });
    const { leaks: _, balanceDb: __, speedPercent: ___, ...none } = learned;
    expect(recordError(undefined, none)).toEqual(recordError(undefined));
  });
});
