import { expect, it } from 'vitest';
import type { Finding } from '../../measure/finding.ts';
import { statement } from '../../words/statement.ts';
import { chainOf } from '../budget/bench.ts';
import { voltsAndVu } from './voltsAndVu.ts';

const DB = 20 / Math.LN10;
const level = (value: number, more: Partial<Finding> = {}): Finding => ({
  quantity: 'reference-level',
  value,
  unit: 'dBFS',
  channel: 'left',
  uncertainty: 0.5,
  repeatability: 0.1,
  bands: [2],
  budget: [
    { of: statement('signal'), size: 0.3, unit: 'dBFS', share: 0.36 },
    { of: statement('cut-velocity'), size: 0.4, unit: 'dBFS', share: 0.64 },
  ],
  notes: [statement('resonance-both-ways')],
  ...more,
});
const fullScaleV = { left: 2, right: null };

it('−20 dBFS of 2 V are 200 mV; each doubt of the level in mV, and the voltmeter’s hundredth beside them', () => {
  const [volts, ...more] = voltsAndVu([level(-20)], chainOf({ fullScaleV }));
  const [signal, cut, meter] = [(200 * 0.3) / DB, (200 * 0.4) / DB, 2];
  const total = Math.hypot(signal, cut, meter);
  expect(more).toEqual([]);
  expect(volts).toEqual({
    quantity: 'reference-output',
    value: expect.closeTo(200, 9),
    unit: 'mV',
    channel: 'left',
    uncertainty: expect.closeTo(total, 9),
    repeatability: expect.closeTo(20 / DB, 9),
    bands: [2],
    budget: [
      ['cut-velocity', cut],
      ['signal', signal],
      ['generator-voltage', meter],
    ].map(([code, size]) => ({
      of: { code, values: {} },
      size: expect.closeTo(size as number, 9),
      unit: 'mV',
      share: expect.closeTo(((size as number) / total) ** 2, 9),
    })),
    notes: [{ code: 'output-as', values: { volts: 2 } }],
  });
});

it('against the house’s 0 VU, either side of it, with the level’s own doubt', () => {
  for (const [value, over] of [
    [-14, 4],
    [-22, -4],
  ]) {
    const [vu, ...more] = voltsAndVu([level(value)], chainOf({ zeroVuDbfs: -18 }));
    expect(more).toEqual([]);
    expect(vu).toEqual({
      ...level(value),
      quantity: 'reference-over-vu',
      value: over,
      unit: 'dB',
      budget: level(value).budget?.map((line) => ({ ...line, unit: 'dB' })),
      notes: [{ code: 'vu-as', values: { dbfs: -18 } }],
    });
  }
});

it('both where both are known; a channel that was not calibrated has no volts, words and other figures neither', () => {
  const chain = chainOf({ fullScaleV, zeroVuDbfs: -18 });
  const names = (finding: Finding, of = chain) => voltsAndVu([finding], of).map(({ quantity }) => quantity);
  expect(names(level(-20))).toEqual(['reference-output', 'reference-over-vu']);
  expect(names(level(-20, { channel: 'right' }))).toEqual(['reference-over-vu']);
  expect(names(level(-20, { channel: undefined }))).toEqual(['reference-over-vu']);
  expect(names({ ...level(0), value: 'in-phase' })).toEqual([]);
  expect(names(level(-20, { quantity: 'hum' }))).toEqual([]);
  expect(names(level(-20), chainOf())).toEqual([]);
  expect(voltsAndVu([], chain)).toEqual([]);
});

it('a level without budget or repeatability of its own', () => {
  const bare = level(-20, { budget: undefined, repeatability: null });
  const [volts, vu] = voltsAndVu([bare], chainOf({ fullScaleV, zeroVuDbfs: -18 }));
  expect(volts.repeatability).toBe(0);
  expect(volts.uncertainty).toBeCloseTo(2, 9);
  expect(vu.budget).toBeUndefined();
});
