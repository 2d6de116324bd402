/** A-weighting against its printed table. IEC 61672-1 table 2 as printed in GOST 17187-2010, table 2 (seen there, not in the IEC text). */
import { describe, expect, it } from 'vitest';
import { A_WEIGHTING_POLES_HZ, aWeightingGain } from '../../src/core/signal/aWeighting.ts';
import { ratioToDb } from '../../src/core/units/units.ts';

const aWeightingDb = (hz: number): number => ratioToDb(aWeightingGain(hz));

/** dB at 1000 · 10^(k/10) Hz, k = −20 (10 Hz) to 13 (20 kHz) */
const printed = [
  -70.4, -63.4, -56.7, -50.5, -44.7, -39.4, -34.6, -30.2, -26.2, -22.5, -19.1, -16.1, -13.4, -10.9, -8.6, -6.6, -4.8,
  -3.2, -1.9, -0.8, 0, 0.6, 1.0, 1.2, 1.3, 1.2, 1.0, 0.5, -0.1, -1.1, -2.5, -4.3, -6.6, -9.3,
];

describe('A-weighting', () => {
  it.each(printed.map((db, i) => ({ hz: 1000 * 10 ** ((i - 20) / 10), db })))(
    '$hz Hz rounds to $db dB',
    ({ hz, db }) => {
      expect(Math.round(aWeightingDb(hz) * 10) / 10 + 0).toBe(db);
    },
  );

  it('is a table of exact third octaves: at the rounded names it would miss', () => {
    expect(printed).toHaveLength(34);
    expect(aWeightingDb(16) - aWeightingDb(1000 * 10 ** -1.8)).toBeCloseTo(0.27, 2);
  });

  it('has the pole frequencies that are quoted from Annex E (second-hand)', () => {
    [20.598997058, 107.652648643, 737.862230736, 12194.217148].forEach((hz, i) => {
      expect(A_WEIGHTING_POLES_HZ[i]).toBeCloseTo(hz, 6);
    });
    // the constant that is usually added: 1.99966 dB
    const [f1, f2, f3, f4] = A_WEIGHTING_POLES_HZ;
    const raw = (f4 ** 2 * 1e12) / ((1e6 + f1 ** 2) * Math.sqrt((1e6 + f2 ** 2) * (1e6 + f3 ** 2)) * (1e6 + f4 ** 2));
    expect(-20 * Math.log10(raw)).toBeCloseTo(1.99966, 4);
  });

  it('refuses what is no frequency, and is 0 at 0 Hz', () => {
    for (const hz of [-1, Number.NaN, Number.POSITIVE_INFINITY]) expect(() => aWeightingGain(hz)).toThrow(/hz/);
    expect(aWeightingGain(0)).toBe(0);
  });
});
