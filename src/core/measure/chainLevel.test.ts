import { describe, expect, it } from 'vitest';
import { type ChainKnown, expectedDb, highPass7950Db, holdsEqualisation, responseDb, riaaDb } from './chainLevel.ts';
import { riaaOf } from './toneBands.fixture.ts';

const bare: ChainKnown = { flat: false, preamp: null, record: null };
const response = {
  hz: [100, 1000, 10_000],
  leftDb: [3, 1, -5],
  rightDb: [-2, 0.5, 4],
};

describe('what cut and chain make of a level', () => {
  it('RIAA and the older amendment’s rise are what their time constants give', () => {
    for (const hz of [20, 50, 500, 1000, 2122, 20_000]) expect(riaaDb(hz)).toBeCloseTo(riaaOf(hz), 9);
    for (const hz of [5, 20, 100]) {
      const x2 = (2 * Math.PI * hz * 0.00795) ** 2;
      expect(highPass7950Db(hz)).toBeCloseTo(10 * Math.log10(x2 / (1 + x2)), 9);
    }
  });

  it('a measured response runs straight over the logarithm between its points and stays at its ends', () => {
    const left = (hz: number): number => responseDb(response, 'left', hz);
    expect(left(20)).toBe(3);
    expect(left(100)).toBe(3);
    expect(left(10 ** 2.5)).toBeCloseTo(2, 9);
    expect(left(1000)).toBeCloseTo(1, 12);
    expect(left(10 ** 3.25)).toBeCloseTo(-0.5, 9);
    expect(left(10_000)).toBeCloseTo(-5, 12);
    expect(left(20_000)).toBe(-5);
    expect(responseDb(response, 'right', 10 ** 2.5)).toBeCloseTo(-0.75, 9);
    expect(responseDb(response, 'right', 20_000)).toBe(4);
  });

  it('a response holds RIAA where it falls by more than half of what RIAA does between its ends, and by more than 12 dB', () => {
    const falling = (from: number, to: number, db: number) => ({
      hz: [from, 1000, to],
      leftDb: [db, 0, 0],
      rightDb: [db, 0, 0],
    });
    // from 20 Hz to 20 kHz the ends at 50 Hz and 10 kHz count
    const wide = riaaOf(50) - riaaOf(10_000);
    const share = Math.log(1000 / 50) / Math.log(1000 / 20);
    expect(holdsEqualisation(falling(20, 20_000, (0.5 * wide) / share + 0.1))).toBe(true);
    expect(holdsEqualisation(falling(20, 20_000, (0.5 * wide) / share - 0.1))).toBe(false);
    // 500 Hz to 2 kHz: RIAA falls by 5 dB alone, so 12 dB decide
    expect(holdsEqualisation(falling(500, 2000, 12.1))).toBe(true);
    expect(holdsEqualisation(falling(500, 2000, 11.9))).toBe(false);
    expect(holdsEqualisation(falling(20, 20_000, -40))).toBe(false);
    // both channels together
    expect(holdsEqualisation({ hz: [50, 1000, 10_000], leftDb: [40, 0, 0], rightDb: [0, 0, 0] })).toBe(true);
    expect(holdsEqualisation({ hz: [50, 1000, 10_000], leftDb: [0, 0, 0], rightDb: [28, 0, 0] })).toBe(false);
  });

  it('cut and standard playback cancel; a flat capture shows the cut, a constant velocity the playback', () => {
    for (const hz of [40, 315, 8000]) {
      expect(expectedDb('riaa', bare, null, hz)).toBeCloseTo(0, 12);
      expect(expectedDb('riaa', { ...bare, flat: true }, 'left', hz)).toBeCloseTo(-riaaOf(hz), 9);
      expect(expectedDb('constant-velocity', bare, 'right', hz)).toBeCloseTo(riaaOf(hz), 9);
      expect(expectedDb('constant-velocity', { ...bare, flat: true }, null, hz)).toBe(0);
    }
  });

  it('a record’s calibration counts re 1 kHz in each channel, and as the mean for both', () => {
    const chain = { ...bare, record: response };
    expect(expectedDb('riaa', chain, 'left', 100)).toBeCloseTo(2, 9);
    expect(expectedDb('riaa', chain, 'right', 100)).toBeCloseTo(-2.5, 9);
    expect(expectedDb('riaa', chain, null, 100)).toBeCloseTo(-0.25, 9);
    expect(expectedDb('riaa', chain, null, 1000)).toBeCloseTo(0, 9);
  });

  it('a preamplifier’s own response takes the standard’s place where it holds it, and stands beside it where not', () => {
    const hz = [20, 50, 100, 315, 1000, 3150, 10_000, 20_000];
    const whole = hz.map(riaaOf);
    const preamp = { hz, leftDb: whole.map((v) => v + 0.3), rightDb: whole };
    expect(expectedDb('constant-velocity', { ...bare, preamp }, 'left', 100)).toBeCloseTo(riaaOf(100), 9);
    expect(expectedDb('riaa', { ...bare, preamp }, null, 100)).toBeCloseTo(0, 9);
    const rest = { ...bare, preamp: response };
    expect(expectedDb('riaa', rest, 'left', 100)).toBeCloseTo(2, 9);
    expect(expectedDb('constant-velocity', rest, 'right', 100)).toBeCloseTo(-2.5 + riaaOf(100), 9);
    expect(expectedDb('constant-velocity', { ...rest, flat: true }, 'right', 100)).toBeCloseTo(-2.5, 9);
  });
});
