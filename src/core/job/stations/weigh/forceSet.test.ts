import { expect, test } from 'vitest';
import type { WeighTyped } from '../weigh.ts';
import { forceMove } from './forceMove.ts';
import { inForceUnit } from './forceUnit.ts';
import { setWords, weighLines } from './reportLines.ts';
import type { ForceSet } from './weighData.ts';

const at = '2026-03-04T09:20:00.000Z';
const set: ForceSet = {
  at,
  by: 'gauge',
  mn: 18,
  uncertaintyMn: 0.3,
  targetMn: 17.5,
  dialMn: 20,
  calibrated: true,
  left: false,
};
const before: ForceSet = { ...set, at: '2026-03-04T09:00:00.000Z', mn: 16.5, uncertaintyMn: null };
const force = (value: number, uncertainty: number | null) => ({
  quantity: 'tracking-force',
  value,
  unit: 'mN',
  uncertainty,
});

test('a force set by the gauge came as it shows; more or less than before', () => {
  expect(forceMove(set, before)).toEqual({
    at,
    station: 'weigh',
    move: 'set-force',
    amount: 1.5,
    unit: 'mN',
    direction: 'more',
    before: [force(16.5, null)],
    foretold: [force(17.5, null)],
    came: { at, figures: [force(18, 0.3)] },
  });
  expect(forceMove(set, { ...before, mn: 19 })).toMatchObject({ amount: 1, direction: 'less' });
  expect(forceMove(set, { ...before, mn: 18 })).toMatchObject({ amount: 0, direction: 'more' });
});

test('from a force that nobody knows, by the dial: no amount, and nothing came yet', () => {
  expect(forceMove({ ...set, by: 'dial', uncertaintyMn: null }, undefined)).toEqual({
    at,
    station: 'weigh',
    move: 'set-force',
    amount: null,
    unit: 'mN',
    direction: null,
    before: [],
    foretold: [force(17.5, null)],
    came: null,
  });
});

test('another unit for bare numbers leaves every force what it was, and every other figure as it was typed', () => {
  const data: WeighTyped = {
    facts: { trackingForceMinMn: '1.5', trackingForceMaxMn: '21 mN', cartridgeMassG: '6', dialPerTurnMn: '0.7' },
    target: '1.8',
    dial: '2',
  };
  expect(inForceUnit(data, 'mN')).toEqual({
    forceUnit: 'mN',
    facts: {
      trackingForceMinMn: '1.5 g',
      trackingForceMaxMn: '21 mN',
      cartridgeMassG: '6',
      dialPerTurnMn: '0.7 g',
    },
    target: '1.8 g',
    dial: '2 g',
  });
  expect(inForceUnit({ forceUnit: 'mN', target: '18' }, 'g')).toEqual({ forceUnit: 'g', facts: {}, target: '18 mN' });
  expect(inForceUnit({ forceUnit: 'mN', dial: '18' }, 'g')).toEqual({ forceUnit: 'g', facts: {}, dial: '18 mN' });
  const odd = { facts: { notAFact: '3' } } as unknown as WeighTyped;
  expect(inForceUnit(odd, 'g').facts).toEqual({ notAFact: '3' });
});

test('a force in words: by the dial as such, by the gauge with whether it was held against a mass', () => {
  expect(setWords({ ...set, by: 'dial' })).toBe('18.0 mN (1.84 g) by the dial, not weighed');
  expect(setWords(set)).toBe(
    '18.0 ± 0.3 mN (1.84 ± 0.04 g) at record height, weighed with a gauge held against known masses',
  );
  expect(setWords({ ...set, calibrated: false })).toBe(
    '18.0 ± 0.3 mN (1.84 ± 0.04 g) at record height, weighed with a gauge that was not held against a known mass',
  );
});

test('the sheet tells the force as it was left last, and what the dial showed then', () => {
  const text = `${setWords(set)}; aimed at 17.5 mN (1.78 g)`;
  expect(weighLines({})).toEqual([]);
  expect(weighLines({ sets: [before, set] })).toEqual([
    { label: 'Tracking force', text, at },
    { label: 'Dial then', text: '20.0 mN (2.04 g)' },
  ]);
  expect(weighLines({ sets: [{ ...set, dialMn: null }] })).toEqual([{ label: 'Tracking force', text, at }]);
  const dial = { ...set, by: 'dial' } as const;
  expect(weighLines({ sets: [dial] })).toHaveLength(1);
  const left = { ...set, left: true, dialMn: null };
  expect(weighLines({ sets: [left] })[0].text).toBe(`${text}; left as it came`);
  expect(weighLines({ sets: [before, left] })[0].text).toBe(`${text}; weighed again and left as it was`);
});

test('the sheet tells how the gauge reads, and nothing of one that was not held against a mass', () => {
  const row = (mass: string, within: string, reading: string) => ({ mass, within, reading });
  const told = (...masses: ReturnType<typeof row>[]) => weighLines({ masses, gauge: { digit: '0.01' } });
  // 200 · √(0.01² + 0.01²/12) / 5.05 · 5.05²/5² = 0.42
  expect(told(row('5', '0.02', '5.05'))).toEqual([
    {
      label: 'Force gauge',
      text: 'reads 1.0 ± 0.5 % high, from 1 weighing of known mass; readings were corrected',
    },
  ]);
  expect(told(row('5', '0.02', '4.9'), row('10', '0.02', '9.8'))[0].text).toMatch(
    /^reads 2\.0+ ± 0\.\d+ % low, from 2 weighings of known mass; readings were corrected$/,
  );
  expect(told(row('5', '0.02', '5'))[0].text).toMatch(/^reads 0\.0+ ± 0\.\d+ % high/);
  expect(told(row('5', '', '5.05'))).toEqual([]);
});

test('the sheet tells the anti-skating as it was set', () => {
  const setting = [{ code: 'skating-thread', values: { grams: 2.1, within: '0.7', lever: 12 } }] as const;
  expect(weighLines({ skatingSet: { at, setting } })).toEqual([
    {
      label: 'Anti-skating',
      text: 'Hang about 2.1 g (± 0.7 g: friction is known no closer) on the thread where it pulls square to a lever of 12 mm. (start value)',
      at,
    },
  ]);
  expect(weighLines({ skatingSet: null })).toEqual([]);
});
