import { describe, expect, it } from 'vitest';
import type { Finding } from '../measure/finding.ts';
import { statement } from '../words/statement.ts';
import { adviseHum } from './humAdvice.ts';
import { DEFAULT_LIMITS } from './limits.ts';
import { told } from './told.fixture.ts';

const hum = (quantity: string, channel: 'left' | 'right', value: number, more: Partial<Finding> = {}): Finding => ({
  quantity,
  channel,
  value,
  unit: 'dB',
  uncertainty: 1,
  bands: [],
  notes: [],
  ...more,
});
const both = (quantity: string, value: number, other = value): Finding[] => [
  hum(quantity, 'left', value),
  hum(quantity, 'right', other),
];
const said = (...findings: Finding[][]) =>
  adviseHum(findings.flat(), DEFAULT_LIMITS).flatMap(({ reasons = [] }) => reasons.map((one) => told(one)));

describe('hum under the reference level', () => {
  it('is spoken of where its limit is passed for certain, in the groove or above it', () => {
    // good from 55 dB on
    expect(said(both('hum', 53.9), both('hum-tip-up', 70))).not.toEqual([]);
    expect(said(both('hum', 54.5), both('hum-tip-up', 54.5))).toEqual([]);
    expect(said(both('hum', 70), both('hum-tip-up', 40))[0]).toBe('hum-loud level=40');
    expect(said(both('hum-motor-off', 20))).toEqual([]);
    expect(said()).toEqual([]);
  });

  it('the move whole', () => {
    const [advice, ...more] = adviseHum(both('hum', 40), DEFAULT_LIMITS);
    expect(more).toEqual([]);
    expect(advice).toMatchObject({
      action: 'hum',
      amount: null,
      unit: '',
      direction: null,
      predicts: [],
      cautions: [{ code: 'hum-caution' }],
    });
  });

  it('the louder channel of the louder place is the one that is told', () => {
    expect(said(both('hum', 45, 41), both('hum-tip-up', 43, 44))).toEqual(['hum-loud level=41', 'hum-both']);
    expect(said(both('hum', 43, 44), both('hum-tip-up', 45, 41))[0]).toBe('hum-loud level=41');
    expect(said(both('hum', 41, 45))[0]).toBe('hum-loud level=41');
  });

  it('a level that nothing bounds is no level', () => {
    const open = hum('hum', 'left', 30, { high: null });
    expect(said([open, hum('hum', 'right', 40)])[0]).toBe('hum-loud level=40');
    expect(said([open])).toEqual([]);
  });

  it('through the groove where the tip up is quieter by more than 3 dB', () => {
    expect(said(both('hum', 40), both('hum-tip-up', 43.1))).toEqual(['hum-loud level=40', 'hum-through-groove']);
    expect(said(both('hum', 40), both('hum-tip-up', 43))).toEqual(['hum-loud level=40', 'hum-both']);
    // and where nothing at all is heard there
    const silent = hum('hum-tip-up', 'left', 90, { high: null });
    expect(said(both('hum', 40), [silent])).toEqual(['hum-loud level=40', 'hum-through-groove']);
  });

  it('of the motor where it is quieter with the motor off by more than 3 dB, in both channels', () => {
    const of = (off: Finding[]) => said(both('hum', 40), both('hum-tip-up', 40), off);
    expect(of(both('hum-motor-off', 43.1))).toEqual(['hum-loud level=40', 'hum-of-motor', 'hum-both']);
    expect(of(both('hum-motor-off', 43))).toEqual(['hum-loud level=40', 'hum-both']);
    expect(of(both('hum-motor-off', 60, 41))).toEqual(['hum-loud level=40', 'hum-both']);
    expect(said(both('hum', 40), both('hum-motor-off', 60))).toEqual([
      'hum-loud level=40',
      'hum-both',
      'hum-try-tip-up',
    ]);
  });

  it('one channel alone from more than 10 dB on, named by the louder one', () => {
    const of = (left: number, right: number) => said(both('hum-tip-up', left, right))[1];
    expect(of(40, 50.1)).toBe('hum-one-channel channel=left');
    expect(of(50.1, 40)).toBe('hum-one-channel channel=right');
    expect(of(40, 50)).toBe('hum-both');
    expect(of(50, 40)).toBe('hum-both');
    expect(said([hum('hum-tip-up', 'left', 40)])[1]).toBe('hum-both');
    expect(said([hum('hum-tip-up', 'right', 40)])[1]).toBe('hum-both');
  });

  it('a buzz by its strongest line or by the fundamental’s share', () => {
    const of = (strongestHz: number, percent: number) => {
      const notes = [statement('hum-family', { hz: 50, strongestHz, percent })];
      return said([hum('hum-tip-up', 'left', 40, { notes })])[1];
    };
    expect(of(50, 40)).toBe('hum-both');
    expect(of(75, 90)).toBe('hum-both');
    expect(of(76, 90)).toBe('hum-buzz');
    expect(of(50, 39.9)).toBe('hum-buzz');
    expect(said([hum('hum-tip-up', 'left', 40, { notes: [statement('hum-caution')] })])[1]).toBe('hum-both');
  });
});
