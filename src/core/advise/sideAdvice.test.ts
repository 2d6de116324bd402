import { describe, expect, it } from 'vitest';
import type { Finding } from '../measure/finding.ts';
import { adviseSide } from './sideAdvice.ts';

const finding = (quantity: string, value: number | string, uncertainty: number | null): Finding => ({
  quantity,
  value,
  unit: typeof value === 'number' ? '%' : '',
  uncertainty,
  bands: [0],
  notes: [],
});
const actions = (...findings: Finding[]): string[] => adviseSide(findings, null).map(({ action }) => action);
const speed = (value: number, uncertainty = 0.2) => adviseSide([finding('speed-error', value, uncertainty)], null)[0];

describe('advice for a side', () => {
  it('a fast record asks for slower, a slow one for faster, by as much', () => {
    expect(speed(0.8)).toMatchObject({ action: 'speed', direction: 'slower', amount: 0.8 });
    expect(speed(-0.8)).toMatchObject({ action: 'speed', direction: 'faster', amount: 0.8 });
  });

  it('moves no speed that the record itself may explain', () => {
    expect(speed(0.45)).toBeUndefined();
    expect(speed(-0.1)).toBeUndefined();
    expect(speed(0.45, 0.02)).toMatchObject({ direction: 'slower' });
  });

  it('a deck at another speed is told to look at its switch, one that is off by a few percent to be set', () => {
    const switched = speed(35).why;
    expect(speed(-26).why.replace(/[\d.]+ %.*slow/, '')).toBe(switched.replace(/[\d.]+ %.*fast/, ''));
    expect(speed(7.5).why).not.toContain('switched');
    expect(switched).toContain('switched');
  });

  it('exchanges what is swapped and what is reversed, and nothing that is in order', () => {
    expect(actions(finding('channel-order', 'swapped', null))).toEqual(['swap-channels']);
    expect(actions(finding('channel-order', 'normal', null))).toEqual([]);
    expect(actions(finding('polarity', 'antiphase', null))).toEqual(['reverse-one-channel']);
    expect(actions(finding('polarity', 'in-phase', null))).toEqual([]);
  });

  it('wiring comes first, with its caution', () => {
    const advice = adviseSide([finding('speed-error', 2, 0.1), finding('channel-order', 'swapped', null)], null);
    expect(advice.map(({ action }) => action)).toEqual(['swap-channels', 'speed']);
    expect(advice[0].caution).toMatch(/amplifier/);
  });
});
