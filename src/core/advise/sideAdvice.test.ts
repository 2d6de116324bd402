import { describe, expect, it } from 'vitest';
import type { Finding } from '../measure/finding.ts';
import { recordError } from './budget/recordError.ts';
import { upright } from './heardTilt.fixture.ts';
import { adviseSide, type TiltGround, tiltGround } from './sideAdvice.ts';

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
    expect(advice[0]).toMatchObject({ amount: null, direction: null, predicts: [] });
    expect(advice[0].reasons?.map(({ code }) => code)).toEqual(['channels-swapped-move']);
    expect(advice[1].caution).toMatch(/mains/);
  });

  it('a turn asks for both the tilt and the leaks; a balance foretold for a lateral tone', () => {
    const tilt = { ...finding('azimuth-error', 1, 0.2), unit: 'deg' };
    const worth = { action: 'tilt', turn: 0.017, expectedGainDb: 3, harmProbability: 0.01 } as const;
    const ground: TiltGround = {
      leaks: upright,
      noise: { leftIntoRight: 1e-4, rightIntoLeft: 1e-4 },
      record: recordError(undefined),
      worth: { ...worth, gainIfKnownDb: 0, tilt: 0.017, tiltSpread: 0.001 },
    };
    const balance = { ...finding('channel-balance', 0.5, 0.1), unit: 'dB', bands: [1] };
    const foretold = (findings: Finding[], of: TiltGround | null, motion: 'lateral' | 'left' = 'lateral') =>
      adviseSide(findings, of, undefined, [{ index: 1, motion }])[0]?.predicts.map(({ quantity }) => quantity);
    const both = ['separation-left-to-right', 'separation-right-to-left'];
    expect(foretold([tilt], null)).toBeUndefined();
    expect(foretold([balance], ground)).toBeUndefined();
    expect(foretold([tilt], ground)).toEqual(both);
    expect(foretold([tilt, balance], ground)).toEqual([...both, 'channel-balance']);
    expect(foretold([tilt, balance], ground, 'left')).toEqual(both);
    expect(foretold([tilt, { ...balance, value: 'unknown' }], ground)).toEqual(both);
    expect(tiltGround(undefined, recordError(undefined))).toBeNull();
  });

  it('of the signal, a leak is unsure along itself by its spread over √2', () => {
    const spread = { leftIntoRight: { re: 3e-4, im: 4e-4 }, rightIntoLeft: { re: 0, im: 2e-4 } };
    const { noise } = tiltGround(
      { ...upright, spread, tilt: 0, tiltSpread: 1e-3 },
      recordError(undefined),
    ) as TiltGround;
    expect(noise.leftIntoRight).toBeCloseTo(5e-4 / Math.SQRT2, 12);
    expect(noise.rightIntoLeft).toBeCloseTo(2e-4 / Math.SQRT2, 12);
  });
});
