import { describe, expect, it } from 'vitest';
import { problem } from '../capture/problem.ts';
import type { Band } from '../record/band.ts';
import { trustedBands, withoutFalsePairs } from './trusted.ts';

const band = (index: number, startS: number, endS: number): Band => ({
  index,
  startS,
  endS,
  signal: 'tone',
  motion: 'left',
  frequencyHz: 1000,
  radiusMm: null,
  sheetBand: null,
});
const finding = (quantity: string) => ({ quantity, value: 1, unit: 'dB', uncertainty: 0.1, bands: [0], notes: [] });

describe('what may be measured', () => {
  it('keeps a clean band as it is', () => {
    const bands = [band(0, 1, 9)];
    expect(trustedBands(bands, [{ startS: 9.5, endS: 10 }])).toEqual({ bands, problems: [] });
  });

  it('keeps the longest clean part, clear of the spoiled stretch', () => {
    const { bands } = trustedBands([band(3, 1, 9)], [{ startS: 6, endS: 6.1 }]);
    expect(bands[0].index).toBe(3);
    expect(bands[0].startS).toBe(1);
    expect(bands[0].endS).toBeCloseTo(5.9, 9);
  });

  it('does not mind the order of overlapping stretches', () => {
    const spoiled = [
      { startS: 5, endS: 6 },
      { startS: 2, endS: 5.5 },
      { startS: 2.5, endS: 3 },
    ];
    const { bands } = trustedBands([band(0, 1, 9)], spoiled);
    expect(bands[0].startS).toBeCloseTo(6.1, 9);
    expect(bands[0].endS).toBe(9);
  });

  it('leaves a band out that is spoiled throughout, and says so', () => {
    const { bands, problems } = trustedBands([band(0, 1, 9), band(1, 10, 20)], [{ startS: 0, endS: 8 }]);
    expect(bands.map((b) => b.index)).toEqual([1]);
    expect(problems.map((p) => p.code)).toEqual(['band-spoiled']);
    // counted from one, as in all sentences
    expect(problems[0].message).toMatch(/^Band 1 is not measured/);
  });

  it('says nothing of each band in a stretch that has a line of its own', () => {
    const spoiled = [{ startS: 0, endS: 8 }, { startS: 12, endS: 40, isTold: true } as const];
    const { bands, problems } = trustedBands([band(0, 1, 9), band(1, 10.5, 12.5), band(2, 14, 20)], spoiled);
    expect(bands).toEqual([]);
    expect(problems.map((p) => p.message.slice(0, 6))).toEqual(['Band 1']);
  });

  it('gives no figure between channels where there are no two', () => {
    const findings = [finding('speed-error'), finding('azimuth-error'), finding('channel-balance')];
    const mono = withoutFalsePairs(findings, [problem('mono')]);
    expect(mono.findings.map((f) => f.quantity)).toEqual(['speed-error']);
    expect(mono.problems.map((p) => p.quantity)).toContain('azimuth-error');
    expect(mono.pair).toBe(false);
    expect(withoutFalsePairs(findings, [])).toEqual({ findings, problems: [], pair: true });
  });
});
