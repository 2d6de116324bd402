import { describe, expect, it } from 'vitest';
import { statement } from '../words/statement.ts';
import { azimuthFigure } from './azimuth.ts';
import type { Crosstalk } from './crosstalk.ts';
import type { CrosstalkPair } from './crosstalkPair.ts';
import { sheetOf, sideOf, toneOf } from './toneBands.fixture.ts';

const deg = Math.PI / 180;
const leak = (value: number) => ({ value, spread: 1e-4, own: 1e-4, k: 2 });

function pairOf(more: Partial<Crosstalk> = {}): CrosstalkPair {
  const crosstalk: Crosstalk = {
    found: true,
    leaks: { leftIntoRight: { re: 0.01, im: 0 }, rightIntoLeft: { re: 0.05, im: 0 } },
    asHeard: { leftIntoRight: { re: 0.02, im: 0 }, rightIntoLeft: { re: 0.09, im: 0 } },
    leakSpread: { leftIntoRight: { re: 1e-4, im: 1e-4 }, rightIntoLeft: { re: 1e-4, im: 1e-4 } },
    tilt: { value: 1 * deg, spread: 0.05 * deg, own: 0.03 * deg, k: 2.5 },
    equalTilt: null,
    leftIntoRight: leak(0.01),
    rightIntoLeft: leak(0.05),
    gain: leak(0),
    phase: null,
    disagreement: null,
    believesLateral: false,
    ...more,
  };
  const tone = (index: number, driven: 'left' | 'right' | 'both') => toneOf({ hz: 1000, driven, band: { index } });
  return {
    found: true,
    left: [tone(3, 'left')],
    right: [tone(1, 'right')],
    both: [tone(2, 'both')],
    crosstalk,
    notes: [statement('reversal-undone')],
  };
}
const notesOf = (side: Parameters<typeof azimuthFigure>[0], pair: CrosstalkPair) => {
  const of = azimuthFigure(side, pair);
  if (!of.found) throw new Error(of.why.code);
  return of.finding.notes;
};
const codes = (side: Parameters<typeof azimuthFigure>[0], pair: CrosstalkPair) =>
  notesOf(side, pair).map(({ code }) => code);
const side = sideOf([]);
const tiltOf = (value: number, spread = 0.05) => ({ tilt: { value: value * deg, spread: spread * deg, own: 0, k: 2 } });

describe('azimuth error', () => {
  it('is the tilt in degrees, its ± by its own coverage factor, with the tilt as heard beside it', () => {
    const of = azimuthFigure(side, pairOf());
    expect(of).toEqual({
      found: true,
      finding: {
        quantity: 'azimuth-error',
        value: expect.closeTo(1, 12),
        asHeard: expect.closeTo(Math.atan(0.035) / deg, 12),
        unit: 'deg',
        uncertainty: expect.closeTo(0.125, 12),
        repeatability: expect.closeTo(0.075, 12),
        bands: [1, 2, 3],
        notes: [statement('least-total-leak'), statement('reversal-undone')],
      },
    });
  });

  it('is withheld from 5° of uncertainty on, with the degrees', () => {
    expect(azimuthFigure(side, pairOf(tiltOf(1, 2.501)))).toEqual({
      found: false,
      why: statement('leaks-too-noisy', { degrees: 2 * ((2.501 * deg * 180) / Math.PI) }),
    });
    expect(azimuthFigure(side, pairOf(tiltOf(1, 2.499))).found).toBe(true);
  });

  it('names where equal separations would be only where that lies beyond both uncertainties and 0.05°', () => {
    const equal = (value: number, spread: number) => ({
      equalTilt: { value: value * deg, spread: spread * deg, own: 0, k: 3 },
    });
    const told = (own: object) => codes(side, pairOf(own)).includes('equal-separations-at');
    // √(0.1² + 0.3²) = 0.316
    expect(told({ ...tiltOf(1), ...equal(1.32, 0.1) })).toBe(true);
    expect(told({ ...tiltOf(1), ...equal(1.31, 0.1) })).toBe(false);
    expect(told({ ...tiltOf(1), ...equal(0.68, 0.1) })).toBe(true);
    expect(told({ ...tiltOf(1), ...equal(0.69, 0.1) })).toBe(false);
    expect(told({ ...tiltOf(1, 0.001), ...equal(1.051, 0.001) })).toBe(true);
    expect(told({ ...tiltOf(1, 0.001), ...equal(1.049, 0.001) })).toBe(false);
    const [, note] = notesOf(side, pairOf({ ...tiltOf(1), ...equal(-2, 0.1) }));
    expect(note).toEqual({
      code: 'equal-separations-at',
      values: { other: expect.closeTo(-2, 9), noise: expect.closeTo(0.3, 9) },
    });
  });

  it('says that alike separations hide a tilt only where they are within 1 dB and the tilt stands out', () => {
    const apart = (db: number) => ({ leftIntoRight: leak(0.02 * 10 ** (db / 20)), rightIntoLeft: leak(0.02) });
    const told = (own: object) => codes(side, pairOf(own)).includes('separations-hide-tilt');
    for (const sign of [1, -1]) {
      expect(told({ ...tiltOf(sign * 0.21, 0.01), ...apart(sign * 0.99) })).toBe(true);
      expect(told({ ...tiltOf(sign * 0.21, 0.01), ...apart(sign * 1.01) })).toBe(false);
      expect(told({ ...tiltOf(sign * 0.19, 0.01), ...apart(0) })).toBe(false);
      expect(told({ ...tiltOf(sign * 0.9, 0.46), ...apart(0) })).toBe(false);
      expect(told({ ...tiltOf(sign * 0.9, 0.44), ...apart(0) })).toBe(true);
    }
  });

  it('says what is taken off for the record, and what is assumed of left and right', () => {
    const tilted = sideOf([], { sheet: sheetOf([], { cut: { tiltDeg: -0.4 } }) });
    expect(notesOf(tilted, pairOf())).toContainEqual(statement('record-tilt-removed', { degrees: -0.4 }));
    expect(codes(sideOf([], { sheet: sheetOf([], { cut: {} }) }), pairOf())).not.toContain('record-tilt-removed');
    expect(codes(sideOf([], { sheet: sheetOf() }), pairOf())).not.toContain('record-tilt-removed');
    expect(codes(sideOf([], { order: 'unknown' }), pairOf())).toEqual([
      'least-total-leak',
      'left-assumed-left',
      'reversal-undone',
    ]);
  });
});
