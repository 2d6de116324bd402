import { describe, expect, it } from 'vitest';
import type { Advice, JudgedFinding } from '../document.ts';
import { guidePitchHz, soundGuideRefused } from './soundGuide.ts';
import { guideTilt, hasSettled, type SettledTilt, tiltReading } from './tiltGuide.ts';

const finding = (quantity: string, value: number | string, more: Partial<JudgedFinding> = {}): JudgedFinding => ({
  quantity,
  value,
  unit: 'deg',
  uncertainty: 1.3,
  repeatability: 0.05,
  bands: [],
  note: '',
  verdict: 'info',
  ...more,
});
const predicts = [{ quantity: 'separation-left-to-right', value: 30, unit: 'dB' }];
const move = (action: string, amount: number | null, direction: string | null): Advice => ({
  action,
  amount,
  unit: 'deg',
  direction,
  predicts,
  why: '',
});

describe('what the figures tell of the tilt', () => {
  it.each([
    ['tilt', 'clockwise-from-front', 0.7],
    ['trial-tilt', 'clockwise-from-front', 0.7],
    ['tilt', 'anticlockwise-from-front', -0.7],
    ['trial-tilt', 'anticlockwise-from-front', -0.7],
  ])('%s %s turns by %d°', (action, direction, turnDeg) => {
    const findings = [finding('hum', 40), finding('azimuth-error', -0.9)];
    expect(tiltReading({ findings, advice: [move('speed', 1, 'slower'), move(action, 0.7, direction)] })).toEqual({
      tiltDeg: -0.9,
      uncertaintyDeg: 1.3,
      spreadDeg: 0.05,
      inside: false,
      turnDeg,
      predicts,
    });
  });

  it('without a turn it is inside; without a spread of its own it has none; without a figure there is none', () => {
    const bare = finding('azimuth-error', 0.2, { uncertainty: null, repeatability: undefined });
    expect(tiltReading({ findings: [bare], advice: [move('leave-tilt', null, null)] })).toEqual({
      tiltDeg: 0.2,
      uncertaintyDeg: null,
      spreadDeg: null,
      inside: true,
      turnDeg: 0,
      predicts: [],
    });
    expect(tiltReading({ findings: [], advice: [] })).toBeNull();
    expect(tiltReading({ findings: [finding('azimuth-error', 'x')], advice: [] })).toBeNull();
  });
});

describe('the guide’s words', () => {
  const settled = (more: Partial<SettledTilt>): SettledTilt => ({
    bands: ['a'],
    tiltDeg: 0,
    uncertaintyDeg: null,
    spreadDeg: 0.05,
    inside: true,
    turnDeg: 0,
    predicts: [],
    ...more,
  });

  it('whole', () => {
    const says = (...of: Parameters<typeof guideTilt>) => guideTilt(...of);
    expect(says(null, [])).toEqual({ state: 'waiting', says: { code: 'guide-both-bands', values: {} } });
    expect(says(settled({ spreadDeg: 0.2 }), [])).toEqual({
      state: 'settling',
      says: { code: 'guide-wait', values: {} },
    });
    for (const [turnDeg, way] of [
      [0.4, 'clockwise'],
      [-0.4, 'anticlockwise'],
    ] as const) {
      expect(says(settled({ inside: false, turnDeg }), [])).toEqual({
        state: 'turn',
        says: { code: 'guide-turn', values: { way, by: 0.4 } },
      });
    }
    expect(says(null, [settled({})])).toEqual({ state: 'good-once', says: { code: 'guide-good-once', values: {} } });
    expect(says(null, [settled({}), settled({ bands: ['b'] })])).toEqual({
      state: 'good-enough',
      says: { code: 'guide-good-enough', values: {} },
    });
    // the newest goes before the one that plays no more
    expect(says(null, [settled({ inside: false }), settled({ spreadDeg: 0.2 })]).state).toBe('settling');
  });

  it('has settled at 0.15°, not beyond', () => {
    expect([0.15, 0.151, null].map((spreadDeg) => hasSettled(settled({ spreadDeg })))).toEqual([true, false, false]);
  });
});

describe('the guide by ear', () => {
  it('two octaves over 2° of tilt, either way, and no higher', () => {
    const pitches = [0, 0.5, 1, 2, 5].map(guidePitchHz);
    expect(pitches.map((hz) => Number(hz.toFixed(6)))).toEqual([220, 311.126984, 440, 880, 880]);
    expect([-0.5, -2, -5].map(guidePitchHz)).toEqual([pitches[1], 880, 880]);
  });

  it('sounds on another device alone, both of them known', () => {
    const code = (deviceId: string, groupId: string, input = 'box') =>
      soundGuideRefused({ deviceId, groupId }, { deviceId: 'in', groupId: input })?.code ?? null;
    expect(code('out', 'phones')).toBeNull();
    expect(code('out', 'box')).toBe('sound-guide-same-device');
    for (const [device, group, input] of [
      ['default', 'phones', 'box'],
      ['communications', 'phones', 'box'],
      ['', 'phones', 'box'],
      ['out', '', 'box'],
      ['out', 'phones', ''],
      ['', '', ''],
    ]) {
      expect(code(device, group, input)).toBe('sound-guide-unknown-device');
    }
  });
});
