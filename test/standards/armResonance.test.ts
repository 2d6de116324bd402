/**
 * Arm resonance: f = 159.154943/√(M[g]·C[µm/mN]) [C]; the band of 8 to 12 Hz and the conversion of compliance, and 1.5 to 2
 * from 100 Hz to 10 Hz, are common practice; no standard and no measurements seen.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { complianceAt10Hz } from '../../src/core/mechanics/compliance.ts';
import { armResonance, complianceForResonance, massForResonance } from '../../src/core/mechanics/resonance.ts';
import { umPerMnToMPerN } from '../../src/core/units/units.ts';

const seed = 20240817;
const hz = (grams: number, umPerMn: number) => armResonance(grams * 1e-3, umPerMnToMPerN(umPerMn));

describe('arm resonance', () => {
  test.each([
    [10, 10, 15.91549],
    [15, 12, 11.86271],
    [18, 12, 10.82912],
    [20, 15, 9.18881],
    [22, 18, 7.99784],
    [25, 5, 14.23525],
    [12, 30, 8.3882],
  ])('%d g on %d µm/mN', (grams, umPerMn, expected) => {
    expect(Math.abs(hz(grams, umPerMn) - expected)).toBeLessThanOrEqual(0.000006);
  });

  test.each([
    [7, 516.945],
    [8, 395.786],
    [10, 253.303],
    [12, 175.905],
  ])('mass times compliance for %d Hz', (f, product) => {
    expect(Math.abs(massForResonance(f, umPerMnToMPerN(10)) * 1e3 * 10 - product)).toBeLessThanOrEqual(0.0006);
    expect(Math.abs(complianceForResonance(f, 0.01) * 1e3 * 10 - product)).toBeLessThanOrEqual(0.0006);
  });

  test(`mass, compliance and resonance undo each other (seed ${seed})`, () => {
    fc.assert(
      fc.property(fc.double({ min: 1, max: 90, noNaN: true }), fc.double({ min: 2, max: 80, noNaN: true }), (m, c) => {
        const f = hz(m, c);
        expect(massForResonance(f, umPerMnToMPerN(c)) * 1e3).toBeCloseTo(m, 9);
        expect(complianceForResonance(f, m * 1e-3) * 1e3).toBeCloseTo(c, 9);
        // units and scale: four times the mass, or the compliance, halves the frequency
        if (m < 22) expect(hz(4 * m, c)).toBeCloseTo(f / 2, 9);
        expect(hz(m, 4 * c)).toBeCloseTo(f / 2, 9);
      }),
      { seed },
    );
  });

  test('energy: at resonance the mass holds at its fastest what the spring holds at its widest', () => {
    const mass = 0.018;
    const compliance = 0.012;
    const omega = 2 * Math.PI * armResonance(mass, compliance);
    const amplitude = 50e-6;
    expect((mass * (omega * amplitude) ** 2) / 2).toBeCloseTo(amplitude ** 2 / (2 * compliance), 15);
  });

  test('compliance taken to 10 Hz', () => {
    expect(complianceAt10Hz(12, '10hz')).toEqual({ value: 12, low: 12, high: 12 });
    const fromStatic = complianceAt10Hz(24, 'static');
    expect(fromStatic.value).toBe(12);
    expect([fromStatic.low, fromStatic.high].map((c) => Number(c.toFixed(9)))).toEqual([8.4, 15.6]);
    const from100 = complianceAt10Hz(6, '100hz');
    expect(from100.value).toBe(12);
    // the other rule in use, 1.5 to 2, lies inside the span
    expect(from100.low).toBeLessThanOrEqual(1.5 * 6);
    expect(from100.high).toBeGreaterThanOrEqual(2 * 6);
  });

  test('refuses what is no mass or compliance', () => {
    expect(() => armResonance(Number.NaN, 0.01)).toThrow('mass is NaN kg; from 0.0001 to 1 kg was expected');
    expect(() => armResonance(0.01, 0)).toThrow(/compliance is 0/);
    expect(() => complianceAt10Hz(-1, 'static')).toThrow(RangeError);
  });
});
