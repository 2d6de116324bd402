import { expect, test } from 'vitest';
import { OFFERED_RESISTANCES } from '../../../advise/matchLoading.ts';
import { deviationWithin } from '../../../electrics/flattestLoad.ts';
import { capacitancesAround, loadFieldOf, ohmText, pfText, resistancesAround } from './loadField.ts';

test('capacitances: what there is, two rounds below and three above it', () => {
  expect(capacitancesAround(220)).toEqual([150, 200, 220, 300, 400, 500]);
  expect(capacitancesAround(100)).toEqual([50, 70, 100, 150, 200, 300]);
  expect(capacitancesAround(5)).toEqual([5, 10, 15, 20]);
  expect(capacitancesAround(12)).toEqual([10, 12, 15, 20, 30]);
  expect(capacitancesAround(90_000)).toEqual([50_000, 70_000, 90_000]);
});

test('a round that stands too close to tell apart, within 7 %, is left out', () => {
  expect(capacitancesAround(214.9)).not.toContain(200);
  expect(capacitancesAround(215.2)).toContain(200);
  expect(capacitancesAround(281)).not.toContain(300);
  expect(capacitancesAround(280)).toContain(300);
});

test('resistances: rounds around a low load, what is offered around a high one, itself in its place', () => {
  expect(resistancesAround(120)).toEqual([70, 100, 120, 150, 200]);
  expect(resistancesAround(9999)).toEqual([5000, 7000, 9999, 15_000, 20_000]);
  expect(resistancesAround(47_000)).toEqual([...OFFERED_RESISTANCES].sort((a, b) => a - b));
  expect(resistancesAround(10_000)).toEqual([...OFFERED_RESISTANCES, 10_000].sort((a, b) => a - b));
  const odd = resistancesAround(51_000);
  expect(odd).toHaveLength(OFFERED_RESISTANCES.length + 1);
  expect(odd).toEqual([...odd].sort((a, b) => a - b));
});

test('a row a resistance, a column a capacitance, each with how far from flat it is', () => {
  const network = {
    coilResistance: 800,
    coilInductance: 0.5,
    loadResistance: 47_000,
    loadCapacitance: 220e-12,
  };
  const field = loadFieldOf(network);
  expect(field.map((row) => row[0].resistance)).toEqual(resistancesAround(47_000));
  for (const row of field) {
    expect(row.map(({ capacitancePf }) => capacitancePf)).toEqual([150, 200, expect.closeTo(220, 9), 300, 400, 500]);
    for (const { resistance, capacitancePf, deviationDb } of row) {
      const load = { loadResistance: resistance, loadCapacitance: capacitancePf * 1e-12 };
      expect(deviationDb).toBe(deviationWithin({ ...network, ...load }));
    }
  }
});

test('three digits on the axes', () => {
  expect([ohmText(47_123), ohmText(120.4), pfText(221.7), pfText(1500)]).toEqual([
    '47.1 kΩ',
    '120 Ω',
    '222 pF',
    '1500 pF',
  ]);
});
