import fc from 'fast-check';
import { expect, test } from 'vitest';
import { deviationWithin, flattestCapacitance, flattestLoads, logFrequencies } from './flattestLoad.ts';
import { type CoilAndLoad, loadResponseDb } from './loading.ts';

const seed = 4711;
const anyCoil = fc.record({
  coilResistance: fc.double({ min: 100, max: 2000, noNaN: true }),
  coilInductance: fc.double({ min: 0.1, max: 1, noNaN: true }),
  loadResistance: fc.double({ min: 20000, max: 150000, noNaN: true }),
  loadCapacitance: fc.constant(0),
});

test(`no capacitance on a plain scan does better (seed ${seed})`, () => {
  fc.assert(
    fc.property(anyCoil, fc.double({ min: 0, max: 300e-12, noNaN: true }), (coil, least) => {
      const best = flattestCapacitance(coil, least);
      expect(best.capacitance).toBeGreaterThanOrEqual(least);
      for (let pf = 0; pf <= 1500; pf += 5) {
        const there = deviationWithin({ ...coil, loadCapacitance: least + pf * 1e-12 });
        expect(best.deviation).toBeLessThanOrEqual(there + 1e-6);
      }
    }),
    { seed, numRuns: 30 },
  );
});

test(`the deviation is that of a fine sweep (seed ${seed})`, () => {
  const sweep = logFrequencies({ fromHz: 20, toHz: 20000 }, 2000);
  fc.assert(
    fc.property(anyCoil, fc.double({ min: 0, max: 1e-9, noNaN: true }), (coil, loadCapacitance) => {
      const network: CoilAndLoad = { ...coil, loadCapacitance };
      const largest = Math.max(...sweep.map((f) => Math.abs(loadResponseDb(network, f))));
      expect(deviationWithin(network)).toBeGreaterThanOrEqual(largest - 1e-9);
      expect(deviationWithin(network) - largest).toBeLessThan(0.001);
    }),
    { seed, numRuns: 30 },
  );
});

test('several resistances, flattest first; where less capacitance would be flatter it says so', () => {
  const coil = { coilResistance: 1000, coilInductance: 0.5, loadResistance: 47000, loadCapacitance: 0 };
  const loads = flattestLoads(coil, 100e-12, [33000, 47000, 68000]);
  expect(loads.map((load) => load.deviation)).toEqual([...loads.map((load) => load.deviation)].sort((a, b) => a - b));
  const crowded = flattestCapacitance(coil, 400e-12);
  expect(crowded.atLeast).toBe(true);
  expect(crowded.capacitance).toBe(400e-12);
});

test('frequencies are spread evenly over the logarithm, ends included', () => {
  const frequencies = logFrequencies({ fromHz: 20, toHz: 20000 }, 4);
  [20, 200, 2000, 20000].forEach((hz, i) => {
    expect(frequencies[i]).toBeCloseTo(hz, 9);
  });
  expect(() => logFrequencies({ fromHz: 20, toHz: 10 }, 4)).toThrow(RangeError);
});
