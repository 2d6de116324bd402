import { describe, expect, it } from 'vitest';
import { DEFAULT_LIMITS, judge, verdictOn } from './limits.ts';

const finding = (quantity: string, value: number | string, uncertainty: number | null = 0.01) => ({
  quantity,
  value,
  unit: 'dB',
  uncertainty,
  bands: [0],
  notes: [],
});

describe('verdicts', () => {
  it('judges size, not sign, and higher is better for separation', () => {
    expect(verdictOn(finding('azimuth-error', -0.9))).toBe('adjust');
    expect(verdictOn(finding('azimuth-error', 0.1))).toBe('good');
    expect(verdictOn(finding('azimuth-error', -3.5))).toBe('bad');
    expect(verdictOn(finding('separation-left-to-right', 27))).toBe('good');
    expect(verdictOn(finding('separation-left-to-right', 22))).toBe('adjust');
    expect(verdictOn(finding('separation-left-to-right', 15))).toBe('bad');
  });

  it('reads the words, and has no opinion where there is no limit', () => {
    expect(verdictOn(finding('polarity', 'antiphase'))).toBe('bad');
    expect(verdictOn(finding('channel-order', 'normal'))).toBe('good');
    expect(verdictOn(finding('once-per-turn', 0.1))).toBe('info');
    expect(verdictOn(finding('constructor', 1))).toBe('info');
  });

  it('says so where the limit lies within the uncertainty', () => {
    expect(judge(finding('channel-balance', 1.05, 0.1)).note).toContain(
      'The limit of 1 dB lies within the uncertainty',
    );
    expect(judge(finding('channel-balance', 0.5, 0.1)).note).toBe('');
  });

  it('has a source for every limit', () => {
    for (const limit of Object.values(DEFAULT_LIMITS)) expect(limit.source).toMatch(/common practice|DIN|IEC|ČSN/);
  });
});
