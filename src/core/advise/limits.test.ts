import { describe, expect, it } from 'vitest';
import type { Finding } from '../measure/finding.ts';
import { statement } from '../words/statement.ts';
import { DECK_CLASSES } from './deckClasses.ts';
import { DEFAULT_LIMITS, judge, judgeForecast, verdictOn } from './limits.ts';

const finding = (quantity: string, value: number | string, uncertainty: number | null = 0.01): Finding => ({
  quantity,
  value,
  unit: 'dB',
  uncertainty,
  bands: [0],
  notes: [],
});

describe('verdicts', () => {
  it('judges size, not sign, and higher is better for separation', () => {
    expect(verdictOn(finding('channel-balance', -1.5))).toBe('adjust');
    expect(verdictOn(finding('channel-balance', 0.1))).toBe('good');
    expect(verdictOn(finding('channel-balance', -3.5))).toBe('bad');
    expect(verdictOn(finding('separation-left-to-right', 27))).toBe('good');
    expect(verdictOn(finding('separation-left-to-right', 22))).toBe('adjust');
    expect(verdictOn(finding('separation-left-to-right', 15))).toBe('bad');
  });

  it('is good or outside only by the whole uncertainty; astride of adjust and bad is adjust; else undecided', () => {
    // limits of the speed: 0.3 and 1 %
    const speed = (value: number, u: number) => verdictOn(finding('speed-error', value, u));
    expect(speed(0.09, 0.2)).toBe('good');
    expect(speed(-0.09, 0.2)).toBe('good');
    expect(speed(0.11, 0.2)).toBe('undecided');
    expect(speed(-0.49, 0.2)).toBe('undecided');
    expect(speed(-0.51, 0.2)).toBe('adjust');
    expect(speed(0.95, 0.2)).toBe('adjust');
    expect(speed(1.19, 0.2)).toBe('adjust');
    expect(speed(1.21, 0.2)).toBe('bad');
    expect(speed(0, 1.5)).toBe('undecided');
  });

  it('a separation is judged by its interval, an open end counting as any better figure', () => {
    const separation = (low: number, high: number | null): Finding => ({
      ...finding('separation-left-to-right', 26, null),
      low,
      high,
    });
    expect(verdictOn(separation(25.1, null))).toBe('good');
    expect(verdictOn(separation(24.9, null))).toBe('undecided');
    expect(verdictOn(separation(18, 24.9))).toBe('adjust');
    expect(verdictOn(separation(15, 19.9))).toBe('bad');
  });

  it('reads the words, and has no opinion where there is no limit; a tilt has none in degrees', () => {
    expect(verdictOn(finding('polarity', 'antiphase'))).toBe('bad');
    expect(verdictOn(finding('channel-order', 'normal'))).toBe('good');
    expect(verdictOn(finding('once-per-turn', 0.1))).toBe('info');
    expect(verdictOn(finding('azimuth-error', 5))).toBe('info');
    expect(verdictOn(finding('constructor', 1))).toBe('info');
  });

  it('says what would decide it: the largest part of the uncertainty, made smaller', () => {
    type Source =
      | 'cut-speed'
      | 'cut-balance'
      | 'record-leak'
      | 'cut-vertical-angle'
      | 'cut-response'
      | 'signal'
      | 'method'
      | 'equalisation'
      | 'cut-velocity';
    const part = (of: Source) => [{ of: statement(of), size: 0.2, unit: '%', share: 1 }];
    const speed = judge({ ...finding('speed-error', 0.3, 0.2), budget: part('cut-speed') });
    expect(speed).toMatchObject({
      verdict: 'undecided',
      decidedBy: expect.stringContaining('strobe'),
      decides: { code: 'decide-by-strobe' },
    });
    const balance = judge({ ...finding('channel-balance', 1, 0.4), budget: part('cut-balance') });
    // no record file can state the balance of its cut, whatever else it certifies
    expect(balance.decidedBy).toContain('second record');
    expect(balance.decidedBy).not.toContain('certified');
    const leak = judge({ ...finding('separation-left-to-right', 25, 2), budget: part('record-leak') });
    expect(leak).toMatchObject({ verdict: 'undecided', decides: { code: 'decide-by-record' } });
    const angle = judge({ ...finding('vertical-tracking-error', 3, 4), budget: part('cut-vertical-angle') });
    expect(angle).toMatchObject({ verdict: 'undecided', decides: { code: 'decide-by-cut-angle' } });
    const response = judge({
      ...finding('frequency-response-deviation-315-6300', 1, 0.6),
      budget: part('cut-response'),
    });
    expect(response).toMatchObject({ verdict: 'undecided', decides: { code: 'decide-by-cut-response' } });
    const rumble = judge({ ...finding('rumble-unweighted', 38, 4), budget: part('method') });
    expect(rumble).toMatchObject({ verdict: 'undecided', decides: { code: 'decide-by-rumble-meter' } });
    const noisy = judge({ ...finding('channel-balance', 1, 0.4), budget: part('signal') });
    expect(noisy.decidedBy).toContain('longer or quieter recording');
    expect(judge(finding('channel-balance', 0.5, 0.1)).decidedBy).toBeUndefined();
    // no record helps against a weighting, an equalisation or a level that nobody knows
    for (const [of, decides] of [
      ['method', 'decide-by-weighting'],
      ['equalisation', 'decide-by-equalisation'],
      ['cut-velocity', 'decide-by-level'],
      ['signal', 'decide-by-recording'],
    ] as const) {
      const rumble = judge({ ...finding('rumble-weighted', 50, 8), budget: part(of) });
      expect(rumble).toMatchObject({ verdict: 'undecided', decides: { code: decides } });
    }
  });

  it('a forecast is judged by its value, and says where the limit lies within the parts’ tolerances', () => {
    const limits = { 'load-over-coil': { good: 10, bad: 5, sense: 'above' as const, source: 'house rule' } };
    const near = judgeForecast(finding('load-over-coil', 10.5, 1), limits);
    expect(near.verdict).toBe('good');
    expect(near.note).toContain('The limit of 10 dB lies within the uncertainty');
    expect(judgeForecast(finding('load-over-coil', 20, 1), limits).note).toBe('');
  });

  it('the resonance’s band is judged by the whole interval too', () => {
    const at = (hz: number, u: number) => verdictOn(finding('arm-resonance-lateral', hz, u));
    expect(at(10, 1)).toBe('good');
    expect(at(8.5, 1)).toBe('undecided');
    expect(at(7, 0.5)).toBe('adjust');
    expect(at(5, 0.5)).toBe('bad');
    expect(at(16, 0.5)).toBe('bad');
    expect(at(9, 5)).toBe('undecided');
    const limits = {
      ...DEFAULT_LIMITS,
      'arm-resonance-to': { ...DEFAULT_LIMITS['arm-resonance-to'], good: 9, bad: 9.2 },
    };
    expect(verdictOn(finding('arm-resonance-vertical', 10, 0.5), limits)).toBe('bad');
    expect(verdictOn(finding('arm-resonance-vertical', 8.5, 0.1), limits)).toBe('good');
  });

  it('has a source for every limit of every class, and stricter classes are stricter', () => {
    for (const limits of Object.values(DECK_CLASSES)) {
      for (const limit of Object.values(limits)) expect(limit.source).toMatch(/common practice|DIN|IEC|ČSN|house rule/);
    }
    for (const [quantity, shop] of Object.entries(DECK_CLASSES.shop)) {
      const sign = shop.sense === 'below' ? 1 : -1;
      const edges = [DECK_CLASSES.shop, DECK_CLASSES.studio, DECK_CLASSES.archive].map((c) => sign * c[quantity].good);
      expect(edges, quantity).toEqual(edges.toSorted((a, b) => b - a));
    }
  });
});
