/** Type A figures and control charts against published numbers and the distribution that their constants follow from. */
import { expect, it } from 'vitest';
import { controlChart } from '../../src/core/advise/repeat/controlChart.ts';
import { typeA } from '../../src/core/measure/typeA.ts';
import { gaussian } from '../../src/core/signal/gaussian.fixture.ts';

/** Twenty temperatures, °C: JCGM 100, table 1 (from memory; its own mean, spread and uncertainty of the mean are what it is held to) */
const GUM_TABLE_1 = [
  96.9, 98.18, 98.25, 98.61, 99.03, 99.49, 99.56, 99.74, 99.89, 100.07, 100.33, 100.42, 100.68, 100.95, 101.11, 101.2,
  101.57, 101.84, 102.36, 102.72,
];

it('the GUM’s twenty temperatures: 100.145 °C, s 1.489, s of the mean 0.333', () => {
  const of = typeA(GUM_TABLE_1)!;
  expect(of.mean).toBeCloseTo(100.145, 3);
  expect(of.scatter).toBeCloseTo(1.489, 3);
  // Student's t for 95.45 % and 19 degrees of freedom: 2.14 (JCGM 100, table G.2)
  expect(of.uncertainty).toBeCloseTo(2.14 * 0.333, 2);
  expect(typeA([1])).toBeNull();
});

it('limits lie 2.66 mean ranges off the centre, the range’s at 3.267', () => {
  // ranges 1, 2, 1, 2, 1: mean 1.4
  const of = controlChart([10, 11, 9, 10, 12, 11])!;
  expect(of.centre).toBeCloseTo(10.5, 9);
  expect(of.meanRange).toBeCloseTo(1.4, 9);
  expect(of.high - of.centre).toBeCloseTo(2.66 * 1.4, 2);
  expect(of.rangeLimit).toBeCloseTo(3.267 * 1.4, 2);
  expect(of.signals.flat()).toEqual([]);
  expect(controlChart([1, 2, 3, 4])).toBeNull();
});

it('a reading beyond, a jump, eight on one side and a steady rise are told', () => {
  const calm = [0, 1, -1, 0.5, -0.5, 1, -1, 0, 0.5, -0.5];
  const out = controlChart([...calm, 9])!;
  expect(out.signals[10]).toContain('beyond');
  expect(out.signals[10]).toContain('jump');
  expect(controlChart([...calm.map((v) => v - 1), ...calm.slice(0, 8).map((v) => v + 2)])!.signals[17]).toContain(
    'run',
  );
  const rise = controlChart(calm.map((v, i) => 0.2 * v + i))!;
  expect(rise.slope / rise.slopeSpread).toBeGreaterThan(3);
});

it('of a process at rest the limits hold 99 to 99.9 of a hundred readings', () => {
  const draw = gaussian(8);
  let beyond = 0;
  for (let round = 0; round < 200; round++) {
    const of = controlChart(Array.from({ length: 50 }, () => draw()))!;
    beyond += of.signals.filter((one) => one.includes('beyond')).length;
  }
  expect(beyond / 10_000).toBeGreaterThan(0.001);
  expect(beyond / 10_000).toBeLessThan(0.01);
});
