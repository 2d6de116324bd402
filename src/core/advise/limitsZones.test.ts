import { describe, expect, it } from 'vitest';
import type { BudgetLine, Finding } from '../measure/finding.ts';
import type { Statement } from '../words/statement.ts';
import type { JudgedFinding } from './document.ts';
import {
  DEFAULT_LIMITS,
  judge,
  judgeForecast,
  type Limits,
  limitsOn,
  verdictOn,
  whatDecides,
  withVerdict,
} from './limits.ts';

const finding = (
  quantity: string,
  value: number | string,
  uncertainty: number | null = null,
  more: Partial<Finding> = {},
): Finding => ({
  quantity,
  value,
  unit: 'dB',
  uncertainty,
  bands: [],
  notes: [],
  ...more,
});
const limits: Limits = {
  size: { good: 2, bad: 5, sense: 'below', source: '' },
  room: { good: 20, bad: 10, sense: 'above', source: '' },
  'arm-resonance-from': { good: 8, bad: 6, sense: 'above', source: '' },
  'arm-resonance-to': { good: 12, bad: 15, sense: 'below', source: '' },
};

describe('the zones of a limit', () => {
  it.each([
    [1.9, 0.1, 'good'],
    [2, 0, 'good'],
    [1.95, 0.1, 'undecided'],
    [2.05, 0.1, 'undecided'],
    [2.15, 0.1, 'adjust'],
    [5, 0.1, 'adjust'],
    [5, 0, 'adjust'],
    [5.15, 0.1, 'bad'],
    [0, 2, 'good'],
    [0, 2.1, 'undecided'],
    [0, 99, 'undecided'],
    [1, null, 'good'],
    [3, null, 'adjust'],
    [6, null, 'bad'],
  ] as const)('a size of %d ± %d under 2 and 5 is %s, either sign', (value, u, verdict) => {
    for (const sign of [1, -1]) expect(verdictOn(finding('size', sign * value, u), limits)).toBe(verdict);
  });

  it.each([
    [20.1, 0.1, 'good'],
    [20, 0, 'good'],
    [20.05, 0.1, 'undecided'],
    [19.85, 0.1, 'adjust'],
    [10, 0.1, 'adjust'],
    [10, 0, 'adjust'],
    [9.85, 0.1, 'bad'],
    [-30, 0.1, 'bad'],
  ] as const)('room of %d ± %d over 20 and 10 is %s', (value, u, verdict) => {
    expect(verdictOn(finding('room', value, u), limits)).toBe(verdict);
  });

  it('an interval of its own goes before its ±; an open end counts as any better figure, half an interval as none', () => {
    const of = (quantity: string, more: Partial<Finding>) => verdictOn(finding(quantity, 21, 5, more), limits);
    expect(of('room', { low: 20.1, high: 40 })).toBe('good');
    expect(of('room', { low: 20.1, high: null })).toBe('good');
    expect(of('room', { low: 19, high: null })).toBe('undecided');
    expect(of('room', { low: 20.1 })).toBe('undecided');
    expect(of('size', { low: -1, high: 1.9 })).toBe('good');
    expect(of('size', { low: -2.1, high: 1 })).toBe('undecided');
    expect(of('size', { low: -4, high: -2.1 })).toBe('adjust');
    expect(of('size', { low: -9, high: -5.1 })).toBe('bad');
    expect(of('size', { low: 3, high: null })).toBe('adjust');
  });

  it('of a range with two ends the graver verdict counts', () => {
    const of = (value: number, u: number) => verdictOn(finding('arm-resonance', value, u), limits);
    expect(of(10, 1)).toBe('good');
    expect([of(8.5, 1), of(11.5, 1)]).toEqual(['undecided', 'undecided']);
    expect([of(7, 0.5), of(13, 0.5)]).toEqual(['adjust', 'adjust']);
    expect([of(5, 0.5), of(16, 0.5)]).toEqual(['bad', 'bad']);
    expect(of(10, 9)).toBe('undecided');
  });

  it.each([
    ['in-phase', 'good'],
    ['normal', 'good'],
    ['antiphase', 'bad'],
    ['swapped', 'bad'],
    ['unknown', 'info'],
  ])('%s is %s', (word, verdict) => {
    expect(verdictOn(finding('size', word), limits)).toBe(verdict);
  });

  it('which limits a figure has', () => {
    expect(limitsOn('size', limits)).toEqual([limits.size]);
    expect(limitsOn('arm-resonance', limits)).toEqual([limits['arm-resonance-from'], limits['arm-resonance-to']]);
    expect(limitsOn('arm-resonance', { 'arm-resonance-to': limits.size })).toEqual([limits.size]);
    // as heard it is for information; the deck's own goes by the same limit
    expect(limitsOn('wow-flutter-weighted', DEFAULT_LIMITS)).toEqual([]);
    expect(limitsOn('wow-flutter-weighted-deck', DEFAULT_LIMITS)).toEqual([DEFAULT_LIMITS['wow-flutter-weighted']]);
    for (const none of ['constructor', 'nothing']) expect(limitsOn(none, limits)).toEqual([]);
    expect(verdictOn(finding('nothing', 3), limits)).toBe('info');
  });
});

describe('what would decide it', () => {
  const line = (code: string): BudgetLine => ({ of: { code, values: {} } as Statement, size: 1, unit: '', share: 1 });
  const of = (quantity: string, ...codes: string[]) =>
    whatDecides({ quantity, budget: codes.map((code) => ({ source: code, ...line(code) })) }).decides.code;

  it.each([
    ['signal', 'decide-by-recording'],
    ['phase-of-leaks', 'decide-by-phase'],
    ['equalisation', 'decide-by-equalisation'],
    ['cut-velocity', 'decide-by-level'],
    ['cut-balance', 'decide-by-other-record'],
    ['cut-vertical-angle', 'decide-by-cut-angle'],
    ['cut-response', 'decide-by-cut-response'],
  ])('%s: %s, whatever the figure', (code, decides) => {
    for (const quantity of [
      'hum',
      'speed-error',
      'eccentricity',
      'rumble-weighted',
      'rumble-unweighted',
      'wow-flutter-weighted-deck',
    ]) {
      expect(of(quantity, code, 'method')).toBe(decides);
    }
  });

  it.each([
    ['rumble-weighted', 'method', 'decide-by-weighting'],
    ['rumble-unweighted', 'method', 'decide-by-rumble-meter'],
    ['hum', 'method', 'decide-by-record'],
    ['rumble-weighted', 'record-leak', 'decide-by-record'],
    ['rumble-unweighted', 'record-leak', 'decide-by-record'],
    ['eccentricity', 'band-radius', 'decide-by-exact-radii'],
    ['eccentricity', 'warp', 'decide-by-flat-record'],
    ['eccentricity', 'platter-own', 'decide-by-radii'],
    ['wow-flutter-weighted-deck', 'band-radius', 'decide-by-exact-radii'],
    ['wow-flutter-weighted-deck', 'warp', 'decide-by-flat-record'],
    ['wow-flutter-weighted-deck', 'tone-start', 'decide-by-radii'],
    ['hum', 'warp', 'decide-by-record'],
    ['speed-error', 'cut-speed', 'decide-by-strobe'],
    ['azimuth-error', 'record-leak', 'decide-by-record'],
  ])('%s, mostly of %s: %s', (quantity, code, decides) => {
    expect(of(quantity, code, 'signal')).toBe(decides);
  });

  it('without a budget it is the signal; a document of an earlier version names its sources in words', () => {
    for (const budget of [undefined, []])
      expect(whatDecides({ quantity: 'hum', budget }).decides.code).toBe('decide-by-recording');
    const older = (source: string) =>
      ({ quantity: 'eccentricity', budget: [{ source, size: 1, unit: '', share: 1 }] }) as unknown as JudgedFinding;
    expect(whatDecides(older('signal')).decides.code).toBe('decide-by-recording');
    expect(whatDecides(older('the cut')).decides.code).toBe('decide-by-radii');
    expect(whatDecides({ quantity: 'hum', budget: [] }).decidedBy).toMatch(/^Undecided: /);
  });

  it('stands beside a verdict that is open, and beside no other', () => {
    for (const verdict of ['good', 'adjust', 'bad', 'info'] as const) {
      const told = withVerdict(finding('hum', 40), verdict);
      expect(told.verdict).toBe(verdict);
      expect(told).not.toHaveProperty('decides');
    }
    expect(withVerdict(finding('hum', 40), 'undecided')).toMatchObject({
      verdict: 'undecided',
      decides: { code: 'decide-by-recording' },
    });
    expect(judge(finding('size', 2, 1), limits)).toMatchObject({ verdict: 'undecided', decides: expect.anything() });
    expect(judge(finding('size', 1, 1), limits)).not.toHaveProperty('decides');
  });
});

describe('a forecast', () => {
  const of = (value: number | string, uncertainty: number | null, quantity = 'size', more: Partial<Finding> = {}) => {
    const { verdict, notes = [] } = judgeForecast(finding(quantity, value, uncertainty, more), limits);
    return [verdict, ...notes.map(({ code, values }) => `${code} ${values.limit} ${values.unit}`)];
  };

  it('is judged by its value alone, the limit within its uncertainty told, of either sign', () => {
    for (const sign of [1, -1]) {
      expect(of(sign * 1.5, 0.49)).toEqual(['good']);
      expect(of(sign * 1.5, 0.5)).toEqual(['good']);
      expect(of(sign * 1.5, 0.51)).toEqual(['good', 'limit-within 2 dB']);
      expect(of(sign * 2.5, 0.51)).toEqual(['adjust', 'limit-within 2 dB']);
      expect(of(sign * 4.8, 0.3)).toEqual(['adjust', 'limit-within 5 dB']);
      expect(of(sign * 3.5, 9)).toEqual(['adjust', 'limit-within 2 dB']);
    }
    expect(of(1, 0.1, 'size', { low: 3, high: 9 })).toEqual(['good']);
    expect(of(12.5, 1, 'arm-resonance')).toEqual(['adjust', 'limit-within 12 dB']);
  });

  it('without a limit, a number or a figure of its doubt nothing is told', () => {
    expect(of(1.9, 5, 'nothing')).toEqual(['info']);
    expect(of(1.9, null)).toEqual(['good']);
    expect(of('in-phase', 5)).toEqual(['good']);
  });

  it('keeps its own notes first', () => {
    const own = { code: 'resonance-both-ways', values: {} };
    expect(judgeForecast(finding('size', 1.9, 1, { notes: [own] }), limits).notes?.map(({ code }) => code)).toEqual([
      'resonance-both-ways',
      'limit-within',
    ]);
  });
});
