import { expect, it } from 'vitest';
import { radToDeg } from '../../units/units.ts';
import { recordError } from './recordError.ts';

const tiltDeg = (error: ReturnType<typeof recordError>): number => 2 * radToDeg(Math.sqrt(error.leakDoubt.tilt));

it('an uncertified record leaves 1.22° of tilt, k = 2: half of all cuts leak less than −35 dB', () => {
  const error = recordError(undefined);
  // Rayleigh: the median is σ √(2 ln 2), and t is the half difference of two parts of spread σ
  const sigma = 10 ** (-35 / 20) / Math.sqrt(2 * Math.log(2));
  expect(tiltDeg(error)).toBeCloseTo(radToDeg((2 * sigma) / Math.SQRT2), 6);
  expect(tiltDeg(error)).toBeCloseTo(1.22, 2);
  expect(error.leakDoubt.quadrature).toBeCloseTo(sigma ** 2, 12);
  expect(error.speed.size).toBe(0.2);
  expect(error.balance.size).toBe(0.3);
  expect(error.uncertified).toBe(true);
});

it('a certificate replaces what it states: tilt, separation, leak, speed and level, each as k = 2', () => {
  expect(tiltDeg(recordError({ tiltDeg: 0.5, tiltUncertaintyDeg: 0.2 }))).toBeCloseTo(0.2, 4);
  // 40 dB of unknown phase: one of two quadratures, k = 2
  expect(2 * Math.sqrt(recordError({ separationDb: 40 }).leakDoubt.quadrature)).toBeCloseTo(Math.SQRT2 * 0.01, 9);
  expect(recordError({ leakDb: -40 }).leakDoubt).toEqual(recordError({ separationDb: 40 }).leakDoubt);
  expect(recordError({ leakDb: -40, separationDb: 30 }).leakDoubt).toEqual(recordError({ separationDb: 30 }).leakDoubt);
  expect(recordError({ speedUncertaintyPercent: 0.02 }).speed.size).toBe(0.02);
  expect(recordError({ levelUncertaintyDb: 0.1 }).balance.size).toBeCloseTo(0.1414, 4);
  expect(recordError({ levelUncertaintyDb: 1 }).balance.size).toBe(0.3);
  expect(recordError({ levelUncertaintyDb: 0.1 }).velocity.size).toBe(0.1);
  expect(recordError({ separationDb: 40 }).uncertified).toBe(false);
});

it('a tilt that is stated without its uncertainty is believed to half a degree', () => {
  expect(tiltDeg(recordError({ tiltDeg: 0.3 }))).toBeCloseTo(0.5, 4);
});

const learned = {
  schema: 1,
  kind: 'learned-record',
  record: { name: 'House test side', key: 'k' },
  decks: 25,
  leaks: {
    mean: { leftIntoRight: { re: 0.01, im: 0.002 }, rightIntoLeft: { re: 0.02, im: -0.003 } },
    variance: { tilt: 1e-6, common: 2e-6, quadrature: 3e-6 },
  },
  balanceDb: { mean: 0.4, uncertainty: 0.1, spread: 0.25, decks: 25 },
  speedPercent: { mean: 0.15, uncertainty: 0.05, spread: 0.12, decks: 25 },
} as const;

it('what was learned stands in for the defaults and is taken off; a certificate goes before it', () => {
  const error = recordError(undefined, learned);
  expect(error.leaks.leftIntoRight).toEqual({ re: 0.01, im: 0.002 });
  expect(error.leakDoubt).toEqual(learned.leaks.variance);
  expect(error).toMatchObject({ balanceDb: 0.4, speedPercent: 0.15, balanceApart: false, uncertified: false });
  const stated = recordError({ tiltDeg: 0.2, tiltUncertaintyDeg: 0.1, speedUncertaintyPercent: 0.02 }, learned);
  // the stated tilt is taken off where the leaks are read: what was learned of it must not be taken off again
  expect(stated.leaks.leftIntoRight.re).toBeCloseTo(0.015, 12);
  expect(stated.leaks.rightIntoLeft.re).toBeCloseTo(0.015, 12);
  expect(tiltDeg(stated)).toBeCloseTo(0.1, 4);
  expect(stated.speed.size).toBe(0.02);
  expect(stated.speedPercent).toBe(0);
  expect(recordError({ separationDb: 45 }, learned).leaks.leftIntoRight.re).toBe(0);
});

it('what was learned no better than the default leaves the default', () => {
  const loose = { ...learned, balanceDb: { mean: 0.4, uncertainty: 0.5, spread: 1, decks: 12 } };
  expect(recordError(undefined, loose)).toMatchObject({ balanceDb: 0, balanceApart: true, balance: { size: 0.3 } });
});
