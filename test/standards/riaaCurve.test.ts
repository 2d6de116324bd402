/**
 * Playback equalisation against the table computed from the time constants [C] and against a printed table [P]:
 * GOST 11157-87 amendment 1, table 7 (stated conformity with IEC 98). Time constants: DIN 45544 and 45547 (second-hand), BS 1928:1955.
 */

import { describe, expect, test } from 'vitest';
import { RIAA_TIME_CONSTANTS, riaaPlayback, riaaPlaybackDb } from '../../src/core/electrics/riaa.ts';
import { magnitude, phaseOf } from '../../src/core/units/complex.ts';
import { radToDeg, ratioToDb } from '../../src/core/units/units.ts';

/** Hz, dB re 1 kHz, the same with the 7950 µs high pass */
const table = [
  [2, 19.9042, -0.1457],
  [10, 19.7426, 12.7479],
  [16, 19.4926, 15.4025],
  [20, 19.2741, 16.2614],
  [25, 18.9538, 16.8038],
  [30, 18.5926, 16.9947],
  [31.5, 18.478, 17.0063],
  [40, 17.792, 16.8229],
  [50, 16.9457, 16.3017],
  [60, 16.1006, 15.6439],
  [63, 15.8517, 15.4356],
  [80, 14.506, 14.244],
  [100, 13.0885, 12.9195],
  [125, 11.5627, 11.4544],
  [150, 10.2706, 10.1956],
  [200, 8.2195, 8.1779],
  [250, 6.677, 6.6509],
  [300, 5.4844, 5.4669],
  [315, 5.179, 5.1632],
  [400, 3.7837, 3.7746],
  [500, 2.6476, 2.6424],
  [600, 1.8406, 1.8375],
  [700, 1.2335, 1.2317],
  [800, 0.7514, 0.7504],
  [1000, 0, 0],
  [1500, -1.3953, -1.3943],
  [2000, -2.5885, -2.5872],
  [2500, -3.7002, -3.6988],
  [3150, -5.038, -5.0364],
  [4000, -6.6052, -6.6036],
  [5000, -8.2096, -8.208],
  [6300, -9.9803, -9.9786],
  [7000, -10.8157, -10.814],
  [8000, -11.8941, -11.8924],
  [9000, -12.8604, -12.8586],
  [10000, -13.7343, -13.7326],
  [12000, -15.2637, -15.262],
  [12500, -15.6085, -15.6068],
  [15000, -17.1569, -17.1552],
  [16000, -17.7077, -17.706],
  [18000, -18.7159, -18.7141],
  [20000, -19.6203, -19.6186],
] as const;

/** GOST 11157-87 amendment 1, table 7 [P] */
const printed = [
  [20, 19.3],
  [25, 19.0],
  [31.5, 18.5],
  [40, 17.8],
  [50, 16.9],
  [63, 15.9],
  [80, 14.5],
  [100, 13.1],
] as const;

describe('playback equalisation', () => {
  test.each(table)('%d Hz', (hz, plain, amended) => {
    expect(Math.abs(riaaPlaybackDb(hz) - plain)).toBeLessThanOrEqual(0.00006);
    expect(Math.abs(riaaPlaybackDb(hz, { iecAmendment: true }) - amended)).toBeLessThanOrEqual(0.00006);
  });

  test.each(printed)('%d Hz as printed to 0.1 dB', (hz, level) => {
    expect(Math.abs(riaaPlaybackDb(hz) - level)).toBeLessThanOrEqual(0.05);
  });

  test('level, phase and corners as computed', () => {
    const at1k = riaaPlayback(1000);
    expect(ratioToDb(magnitude(at1k) / magnitude(riaaPlayback(0)))).toBeCloseTo(-19.911, 4);
    expect(radToDeg(phaseOf(at1k))).toBeCloseTo(-48.954, 3);
    const corner = (seconds: number) => 1 / (2 * Math.PI * seconds);
    expect(corner(RIAA_TIME_CONSTANTS.bass)).toBeCloseTo(50.049, 3);
    expect(corner(RIAA_TIME_CONSTANTS.middle)).toBeCloseTo(500.487, 3);
    expect(corner(RIAA_TIME_CONSTANTS.treble)).toBeCloseTo(2122.066, 3);
    expect(corner(RIAA_TIME_CONSTANTS.amendment)).toBeCloseTo(20.0195, 4);
  });

  test('refuses what is no frequency', () => {
    expect(() => riaaPlayback(Number.NaN)).toThrow(/frequency is NaN/);
    expect(() => riaaPlaybackDb(0)).toThrow(RangeError);
  });
});
