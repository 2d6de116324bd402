import { describe, expect, it } from 'vitest';
import type { TiltReading } from '../../measure/figuresOfSide.ts';
import type { Finding } from '../../measure/finding.ts';
import { statement } from '../../words/statement.ts';
import { DEFAULT_LIMITS } from '../limits.ts';
import type { BenchKnown } from './bench.ts';
import { deckFigures, deckLeaks, fromLateral, leakFigure } from './deckFigures.ts';
import { type RecordError, recordError } from './recordError.ts';
import { sizeInterval } from './rice.ts';

const DB = 20 / Math.LN10;
const DEG = Math.PI / 180;
const zero = { re: 0, im: 0 };
const own = statement('resonance-both-ways');
const finding = (quantity: string, value: number | string, unit = 'dB', more: Partial<Finding> = {}): Finding => ({
  quantity,
  value,
  unit,
  // 0.4 of method beside 0.3 of the signal
  uncertainty: 0.5,
  repeatability: 0.3,
  bands: [1],
  notes: [own],
  ...more,
});
const bands = [
  { index: 0, motion: 'left' },
  { index: 1, motion: 'lateral' },
  { index: 2, motion: 'right' },
] as const;
const one = (
  of: Finding,
  record: RecordError = recordError(undefined),
  tilt: TiltReading | null = null,
  on: Parameters<typeof deckFigures>[3] = bands,
) => deckFigures([of], tilt, record, on)[0];
const sizes = ({ budget = [] }: Finding) => Object.fromEntries(budget.map(({ of, size }) => [of.code, size]));
const close = (of: Record<string, number>) =>
  Object.fromEntries(Object.entries(of).map(([code, size]) => [code, expect.closeTo(size, 9)]));
const BASE = { signal: 0.3, method: 0.4 };
const cut = {
  levelUncertaintyDb: 0.8,
  radiusUncertaintyMm: 0.5,
  zenithUncertaintyDeg: 0.2,
  speedUncertaintyPercent: 0.07,
};
const bench: BenchKnown = { equalisationDb: 0.6, clockPercent: 0.02 };
const record = recordError(cut, null, bench);
/** of a level that is off by so many dB, as a share of the figure */
const velocity = 10 ** (0.8 / 20) - 1;

describe('what record and chain add to a figure', () => {
  it.each([
    ['second-harmonic', 2, { 'cut-second-harmonic': 0.3, equalisation: 1.2 / DB }],
    ['third-harmonic', 2, { 'cut-second-harmonic': 0.3, equalisation: 1.2 / DB }],
    ['fourth-harmonic', 2, { 'cut-second-harmonic': 0.3, equalisation: 1.2 / DB }],
    ['fifth-harmonic', 2, { 'cut-second-harmonic': 0.3, equalisation: 1.2 / DB }],
    ['total-harmonic-distortion', 2, { 'cut-second-harmonic': 0.3, equalisation: 1.2 / DB }],
    ['tracking-limit', 12, { 'cut-velocity': 12 * velocity }],
    [
      'effective-tip-radius',
      8,
      { 'cut-velocity': 8 * velocity, 'band-radius': (2 * 8 * 0.5) / 62, equalisation: 4.8 / DB },
    ],
    ['hum', 50, { 'cut-velocity': 0.8, equalisation: 0.6 }],
    ['hum-tip-up', 50, { 'cut-velocity': 0.8, equalisation: 0.6 }],
    ['hum-motor-off', 50, { 'cut-velocity': 0.8, equalisation: 0.6 }],
    ['noise-a-weighted', 50, { 'cut-velocity': 0.8, equalisation: 0.6 }],
    ['noise-a-weighted-tip-up', 50, { 'cut-velocity': 0.8, equalisation: 0.6 }],
    ['noise-a-weighted-motor-off', 50, { 'cut-velocity': 0.8, equalisation: 0.6 }],
    ['reference-level', -20, { 'cut-velocity': 0.8, equalisation: 0.6 }],
    ['rumble-weighted', 50, { 'cut-velocity': 0.8, equalisation: 0.6 }],
    ['rumble-unweighted', 50, { 'cut-velocity': 0.8, equalisation: 0.6 }],
    ['intermodulation', 3, {}],
    ['frequency-response-deviation', 2, {}],
  ] as [string, number, Record<string, number>][])('%s', (quantity, value, more) => {
    const of = one(finding(quantity, value), record);
    const all = { ...BASE, ...more };
    expect(sizes(of)).toEqual(close(all));
    expect(of).toMatchObject({
      quantity,
      value,
      repeatability: 0.3,
      uncertainty: expect.closeTo(Math.hypot(...Object.values(all)), 9),
      bands: [1],
      notes: [own],
    });
  });

  it('a figure without a repeatability is all signal; one of less doubt than that has no method', () => {
    const plain = one(finding('x', 2, 'dB', { repeatability: undefined }));
    expect([sizes(plain), plain.repeatability]).toEqual([close({ signal: 0.5 }), 0.5]);
    expect(sizes(one(finding('x', 2, 'dB', { uncertainty: 0.2 })))).toEqual(close({ signal: 0.3 }));
    expect(sizes(one(finding('x', 2, 'dB', { uncertainty: null })))).toEqual(close({ signal: 0.3 }));
    const none = one(finding('x', 2, 'dB', { uncertainty: null, repeatability: null }));
    expect(none).toMatchObject({ uncertainty: null, repeatability: null });
    expect(none).not.toHaveProperty('budget');
    expect(one(finding('x', 'word'))).not.toHaveProperty('budget');
    const budget = [{ of: own, size: 1, unit: 'dB', share: 1 }];
    expect(one(finding('hum', 2, 'dB', { budget }))).toMatchObject({ uncertainty: 0.5, budget });
  });

  it('rumble’s interval grows on both sides; an end that is not told is the value', () => {
    const beside = Math.hypot(0.8, 0.6);
    for (const quantity of ['rumble-weighted', 'rumble-unweighted']) {
      const of = (more: Partial<Finding>) => one(finding(quantity, 50, 'dB', more), record);
      expect(of({ low: 47, high: 50.5 })).toMatchObject({
        low: expect.closeTo(50 - Math.hypot(3, beside), 9),
        high: expect.closeTo(50 + Math.hypot(0.5, beside), 9),
      });
      for (const high of [undefined, null]) {
        expect(of({ high })).toMatchObject({
          low: expect.closeTo(50 - beside, 9),
          high: expect.closeTo(50 + beside, 9),
        });
      }
    }
  });

  it('intermodulation: what a record not cut as stated would add, and nothing of it is passed on', () => {
    const swayed = (slope: number, bend: number) => ({ slope, bend });
    const beside = {
      level: 2,
      radius: 6,
      radiusMm: 80,
      zenith: swayed(0.5, 0.2),
      verticalAngle: swayed(0.1, 0.04),
      secondHarmonic: swayed(2, 1),
    } as unknown as Finding['beside'];
    const of = one(finding('intermodulation', 3, '%', { beside }), record);
    const sway = (size: number, slope: number, bend: number) =>
      2 * Math.hypot((slope * size) / 2, (Math.sqrt(3) / 2) * bend * (size / 2) ** 2);
    expect(sizes(of)).toEqual(
      close({
        ...BASE,
        'cut-velocity': 2 * velocity,
        'band-radius': (6 * 0.5) / 80,
        'cut-zenith': sway(0.2, 0.5, 0.2),
        'cut-vertical-angle': sway(3, 0.1, 0.04),
        'cut-second-harmonic': sway(0.3, 2, 1),
      }),
    );
    expect(of).not.toHaveProperty('beside');
  });

  it.each([
    [7.9, 'resonance-low'],
    [8, 'resonance-in-range'],
    [12, 'resonance-in-range'],
    [12.1, 'resonance-high'],
  ])('an arm that resonates at %d Hz: %s', (hz, code) => {
    for (const quantity of ['arm-resonance-lateral', 'arm-resonance-vertical']) {
      expect(one(finding(quantity, hz, 'Hz')).notes.map((note) => note.code)).toEqual([own.code, code]);
      expect(one(finding(quantity, 'x', 'Hz')).notes).toEqual([own]);
    }
    for (const quantity of ['arm-resonance-lateral-q', 'an-arm-resonance-vertical', 'hum']) {
      expect(one(finding(quantity, hz)).notes).toEqual([own]);
    }
    const limits = { ...DEFAULT_LIMITS, 'arm-resonance-to': { ...DEFAULT_LIMITS['arm-resonance-to'], good: 7 } };
    const [of] = deckFigures([finding('arm-resonance-lateral', hz, 'Hz')], null, record, [], limits);
    expect(of.notes.at(-1)?.code).toBe(hz < 8 ? 'resonance-low' : 'resonance-high');
  });
});

describe('speed', () => {
  it('whole: cut, clock, inward path; what is known of the cut taken off', () => {
    const known = { ...record, speedPercent: 0.1 };
    const of = one(finding('speed-error', 0.25, '%'), known);
    const all = { ...BASE, 'cut-speed': 0.07, 'converter-clock': 0.02, 'inward-path': 0.012 };
    expect(of).toMatchObject({
      value: expect.closeTo(0.15, 12),
      uncertainty: expect.closeTo(Math.hypot(...Object.values(all)), 9),
      notes: [own],
    });
    expect(sizes(of)).toEqual(close(all));
  });

  it('a strobe that is far from it is told with both', () => {
    const chain = recordError(cut, null, { strobe: { percent: -2, uncertainty: 0.02 } });
    expect(one(finding('speed-error', 0.25, '%'), chain).notes).toEqual([
      own,
      statement('strobe-apart', { heard: 0.25, read: -2 }),
    ]);
  });
});

describe('balance', () => {
  const t = 0.01;
  const tilted: RecordError = {
    ...recordError(undefined),
    leaks: { leftIntoRight: { re: 0.004 - t, im: 0 }, rightIntoLeft: { re: 0.004 + t, im: 0 } },
    balanceDb: 0.15,
  };

  it('on a lateral tone: what the record leaks and its own balance are taken off, both doubts stay', () => {
    const of = one(finding('channel-balance', 0.5), tilted);
    expect(of.value).toBeCloseTo(0.5 - 0.15 - 2 * DB * t, 9);
    expect(sizes(of)).toEqual(
      close({ ...BASE, 'cut-balance': 0.3, 'record-leak': 4 * DB * Math.sqrt(tilted.leakDoubt.tilt) }),
    );
  });

  it('on a one-sided tone, or learned as a whole, no leak stands in it', () => {
    for (const band of [0, 2]) {
      const of = one(finding('channel-balance', 0.5, 'dB', { bands: [band] }), tilted);
      expect(of.value).toBeCloseTo(0.35, 9);
      expect(sizes(of)).toEqual(close({ ...BASE, 'cut-balance': 0.3 }));
    }
    const whole = one(finding('channel-balance', 0.5), { ...tilted, balanceApart: false });
    expect(whole.value).toBeCloseTo(0.35, 9);
    expect(sizes(whole)).toEqual(close({ ...BASE, 'cut-balance': 0.3 }));
  });

  it('which bands are lateral', () => {
    const on = (...indices: number[]) => fromLateral(finding('channel-balance', 0, 'dB', { bands: indices }), bands);
    expect([on(1), on(), on(7)]).toEqual([true, true, true]);
    expect([on(0), on(2), on(1, 2)]).toEqual([false, false, false]);
  });
});

describe('tilt and separations', () => {
  const reading = (a: { re: number; im: number }, b: { re: number; im: number }): TiltReading => ({
    leftIntoRight: a,
    rightIntoLeft: b,
    spread: { leftIntoRight: zero, rightIntoLeft: zero },
    tilt: 0,
    tiltSpread: 0,
  });
  const known: RecordError = {
    ...recordError({ separationDb: 45 }),
    leaks: { leftIntoRight: { re: -0.002, im: 0.001 }, rightIntoLeft: { re: 0.004, im: -0.003 } },
  };
  const heard = reading({ re: 0.03, im: 0.02 }, { re: 0.05, im: -0.01 });

  it('what is known of the record is taken off each part', () => {
    const of = deckLeaks(heard, known);
    expect(of.leftIntoRight.re).toBeCloseTo(0.032, 12);
    expect(of.leftIntoRight.im).toBeCloseTo(0.019, 12);
    expect(of.rightIntoLeft.re).toBeCloseTo(0.046, 12);
    expect(of.rightIntoLeft.im).toBeCloseTo(-0.007, 12);
  });

  it('the tilt, whole: by certificate or not', () => {
    const of = one(finding('azimuth-error', 0.5, 'deg'), known, heard);
    // what 0.3 dB of gain makes of the in-phase leak that both have in common, as it was heard
    const common = (0.03 + 0.05) / 2;
    expect(of.value).toBeCloseTo(0.5 - Math.atan(0.003) / DEG, 9);
    expect(sizes(of)).toEqual(
      close({
        ...BASE,
        'record-leak': (2 * Math.sqrt(known.leakDoubt.tilt)) / DEG,
        'cut-balance': (common * 0.3) / DB / DEG,
      }),
    );
    expect(of.notes.map(({ code }) => code)).toEqual([own.code]);
    const bare = one(finding('azimuth-error', 0.5, 'deg'), recordError(undefined), heard);
    expect(bare.notes).toHaveLength(2);
    expect(one(finding('azimuth-error', 0.5, 'deg'), known, null)).not.toHaveProperty('budget');
  });

  it.each([
    ['separation-left-to-right', { re: 0.032, im: 0.019 }, Math.hypot(0.03, 0.02)],
    ['separation-right-to-left', { re: 0.046, im: -0.007 }, Math.hypot(0.05, 0.01)],
  ])('%s, whole', (quantity, leak, size) => {
    const value = -20 * Math.log10(size);
    const of = one(finding(quantity, value), known, heard);
    const { budget: _, ...figure } = leakFigure(leak, known, (size * (1 - 10 ** (-0.5 / 20))) / 2);
    for (const [key, is] of Object.entries(figure)) expect(of[key as keyof typeof figure]).toBeCloseTo(is as number, 9);
    expect(sizes(of)).toEqual(close(sizes(leakFigure(leak, known, (size * (1 - 10 ** (-0.5 / 20))) / 2) as never)));
    expect(of.value).toBeCloseTo(-20 * Math.log10(Math.hypot(leak.re, leak.im)), 9);
    expect(of.notes).toEqual([own]);
    // a size from which noise was taken keeps it out
    const quieter = one(finding(quantity, value + 1), known, heard);
    expect((quieter.value as number) - (of.value as number)).toBeCloseTo(1, 9);
    // and is never made larger than it was heard
    expect(one(finding(quantity, value - 1), known, heard).value).toBeCloseTo(of.value as number, 9);
    expect(one(finding(quantity, value), known, null)).not.toHaveProperty('budget');
    const open = one(finding(quantity, value), recordError({ separationDb: 20 }), heard);
    expect(open.high).toBeNull();
    expect(open.notes).toEqual([own, statement('separation-open', { low: open.low as number })]);
  });

  it('a leak’s figure: the record by how much of it is in phase, gain, signal, as an interval', () => {
    const doubt = { tilt: 1e-6, common: 3e-6, quadrature: 9e-6 };
    const of = { ...known, leakDoubt: doubt };
    for (const [leak, along] of [
      [{ re: 0.1, im: 0 }, 1],
      [{ re: -0.06, im: 0.08 }, 0.36],
      [{ re: 0, im: -0.1 }, 0],
    ] as const) {
      const ofRecord = Math.sqrt(along * 4e-6 + (1 - along) * 9e-6);
      const ofGain = (0.1 * 0.3) / (2 * DB);
      const { low, high } = sizeInterval(0.1, Math.hypot(ofRecord, ofGain, 5e-4));
      const figure = leakFigure(leak, of, 5e-4);
      expect(figure).toMatchObject({
        value: expect.closeTo(20, 9),
        low: expect.closeTo(-20 * Math.log10(high), 9),
        high: expect.closeTo(-20 * Math.log10(low), 9),
      });
      expect(figure.uncertainty).toBeCloseTo(Math.max(20 - figure.low, figure.high! - 20), 9);
      const perDb = (2 * DB) / 0.1;
      expect(sizes(figure as unknown as Finding)).toEqual(
        close({ signal: 5e-4 * perDb, 'record-leak': ofRecord * perDb, 'cut-balance': ofGain * perDb }),
      );
      expect(figure.budget.every(({ unit }) => unit === 'dB')).toBe(true);
    }
  });

  it('no leak at all is 120 dB, its record half in phase', () => {
    const figure = leakFigure(zero, { ...known, leakDoubt: { tilt: 2e-6, common: 4e-6, quadrature: 8e-6 } }, 0);
    expect(figure).toMatchObject({ value: 120, high: null, uncertainty: null });
    expect(figure.low).toBeCloseTo(-20 * Math.log10(sizeInterval(0, Math.sqrt(7e-6)).high), 9);
    const still = leakFigure({ re: 1e-8, im: 0 }, { ...known, leakDoubt: { tilt: 0, common: 0, quadrature: 0 } }, 0);
    expect(still).toMatchObject({ value: 120, low: 120, high: 120, uncertainty: 0 });
  });
});
