import { describe, expect, it } from 'vitest';
import {
  smoothWeightingDb,
  straightWeightingDb,
  unweightedGain,
  weightedGain,
  weightingDb,
  weightingDoubt,
} from './flutterWeighting.ts';

/** IEC 60386, from memory: Hz and dB */
const TABLE = [
  [0.1, -48],
  [0.2, -30.6],
  [0.315, -19.7],
  [0.4, -15],
  [0.63, -8.4],
  [0.8, -6],
  [1, -4.2],
  [1.6, -1.8],
  [2, -0.9],
  [4, 0],
  [6.3, -0.9],
  [10, -2.1],
  [20, -5.9],
  [40, -10.4],
  [63, -14.2],
  [100, -17.3],
  [200, -23],
] as const;
const x = TABLE.map(([hz]) => Math.log10(hz));
const y = TABLE.map(([, db]) => db);
const secant = (i: number): number => (y[i + 1] - y[i]) / (x[i + 1] - x[i]);
/** Fritsch and Carlson's weighted harmonic mean; nothing at a turn */
function slope(i: number): number {
  if (i === 0) return secant(0);
  if (i === 16) return secant(15);
  if (secant(i - 1) * secant(i) <= 0) return 0;
  const [before, after] = [x[i] - x[i - 1], x[i + 1] - x[i]];
  const [w1, w2] = [2 * after + before, after + 2 * before];
  return (w1 + w2) / (w1 / secant(i - 1) + w2 / secant(i));
}

describe('the weighting of wow and flutter', () => {
  it('passes through every point of the table, smooth, straight and as used', () => {
    for (const [hz, db] of TABLE) {
      for (const of of [smoothWeightingDb, straightWeightingDb, weightingDb]) expect(of(hz)).toBeCloseTo(db, 9);
      expect(weightingDoubt(hz)).toBeCloseTo(0, 9);
    }
  });

  it('between them: a cubic of the points’ slopes, straight lines, and a third of the way from one to the other', () => {
    for (let i = 0; i < 16; i++) {
      for (const u of [0.1, 0.35, 0.5, 0.8]) {
        const h = x[i + 1] - x[i];
        const hz = 10 ** (x[i] + u * h);
        // as a polynomial in u
        const [a, b] = [h * slope(i), h * slope(i + 1)];
        const d = y[i + 1] - y[i];
        const cubic = y[i] + a * u + (3 * d - 2 * a - b) * u ** 2 + (a + b - 2 * d) * u ** 3;
        const line = y[i] + u * d;
        expect(smoothWeightingDb(hz)).toBeCloseTo(cubic, 9);
        expect(straightWeightingDb(hz)).toBeCloseTo(line, 9);
        expect(weightingDb(hz)).toBeCloseTo((2 * cubic + line) / 3, 9);
        expect(weightingDoubt(hz)).toBeCloseTo(((2 / 3) * Math.abs(cubic - line) * Math.LN10) / 20, 9);
      }
    }
  });

  it('goes on outside the table with its end slopes, and refuses what is no frequency', () => {
    for (const of of [smoothWeightingDb, straightWeightingDb]) {
      expect(of(0.05)).toBeCloseTo(-48 - Math.log10(2) * secant(0), 9);
      expect(of(300)).toBeCloseTo(-23 + Math.log10(1.5) * secant(15), 9);
      for (const hz of [0, -1, Number.NaN, Number.POSITIVE_INFINITY])
        expect(() => of(hz)).toThrow(`hz ${hz} must be above 0`);
    }
  });

  it('as a gain ends in half a cosine over the logarithm from 200 to 215 Hz; unweighted from 0.1 down to 0.05 Hz as well', () => {
    const edge = (hz: number, start: number, end: number): number =>
      0.5 + 0.5 * Math.cos((Math.PI * Math.log(hz / start)) / Math.log(end / start));
    for (const hz of [203, 207.4, 214]) {
      expect(weightedGain(hz)).toBeCloseTo(10 ** (weightingDb(hz) / 20) * edge(hz, 200, 215), 12);
      expect(unweightedGain(hz)).toBeCloseTo(edge(hz, 200, 215), 12);
    }
    for (const hz of [0.055, 0.07, 0.095]) {
      expect(unweightedGain(hz)).toBeCloseTo(edge(hz, 0.1, 0.05), 12);
      expect(weightedGain(hz)).toBeCloseTo(10 ** (weightingDb(hz) / 20), 12);
    }
    for (const hz of [0.1, 0.11, 4, 199]) expect(unweightedGain(hz)).toBeCloseTo(1, 12);
    expect(weightedGain(4)).toBeCloseTo(1, 12);
    expect(weightedGain(200)).toBeCloseTo(10 ** (-23 / 20), 12);
    for (const hz of [215, 216, 1000]) expect([weightedGain(hz), unweightedGain(hz)]).toEqual([0, 0]);
    for (const hz of [0.05, 0.04]) expect(unweightedGain(hz)).toBe(0);
    for (const hz of [0, -3, Number.NaN]) expect([weightedGain(hz), unweightedGain(hz)]).toEqual([0, 0]);
  });
});
