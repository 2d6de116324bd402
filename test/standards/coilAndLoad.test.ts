/**
 * Coil, cable and load, and their thermal noise: computed values [C] and a circuit simulator's outputs, recorded in
 * checks/ngspice and made again here where ngspice is installed. Tolerances: 0.01 dB, 0.1 %.
 */

import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type CoilAndLoad,
  loadCorner,
  loadPeak,
  loadResponse,
  loadResponseDb,
  nodeImpedance,
} from '../../src/core/electrics/loading.ts';
import { reflectedLoad, seenFromInput } from '../../src/core/electrics/stepUp.ts';
import { noiseBudget, thermalNoise, thermalNoiseDensity } from '../../src/core/electrics/thermalNoise.ts';
import { magnitude, phaseOf } from '../../src/core/units/complex.ts';
import { BOLTZMANN, radToDeg, ratioToDb } from '../../src/core/units/units.ts';

const seed = 90125;
const network = (Rs: number, henry: number, pf: number, RL: number): CoilAndLoad => ({
  coilResistance: Rs,
  coilInductance: henry,
  loadCapacitance: pf * 1e-12,
  loadResistance: RL,
});
const example = network(1000, 0.5, 250, 47000);
const level = (n: CoilAndLoad, hz: number) => ratioToDb(magnitude(loadResponse(n, hz)));

describe('the worked network: 1 kΩ and 0.5 H into 47 kΩ and 250 pF', () => {
  test.each([
    [20, -0.182859, -0.0768],
    [100, -0.182643, -0.3838],
    [1000, -0.160429, -3.851],
    [2000, -0.093653, -7.7794],
    [5000, 0.346829, -20.8548],
    [8000, 0.984316, -37.8052],
    [10000, 1.269088, -52.3504],
    [12500, 1.002266, -73.691],
    [14000, 0.360831, -86.7698],
    [15000, -0.257206, -94.9597],
    [16000, -0.9925, -102.4682],
    [18000, -2.671856, -115.1287],
    [20000, -4.439944, -124.8473],
    [50000, -21.453414, -163.1803],
  ])('%d Hz', (hz, db, degrees) => {
    expect(Math.abs(level(example, hz) - db)).toBeLessThanOrEqual(0.0000006);
    expect(Math.abs(radToDeg(phaseOf(loadResponse(example, hz))) - degrees)).toBeLessThanOrEqual(0.00006);
  });

  test('peak and corner', () => {
    const peak = loadPeak(example);
    if (!peak.found) throw new Error(peak.why.code);
    expect(peak.value.frequency).toBeCloseTo(10528.86, 2);
    expect(peak.value.level + level(example, 1000)).toBeCloseTo(1.285817, 6);
    const corner = loadCorner(example);
    expect(corner.found && corner.value).toBeCloseTo(18565.8, 1);
    expect(level(example, 0)).toBeCloseTo(-0.182868, 6);
  });

  test.each([
    [network(1000, 0.5, 150, 47000), [0.1244, 0.2408, -0.4674, -2.5288]],
    [network(1000, 0.5, 450, 47000), [1.3189, 3.1111, -2.9843, -9.0901]],
    [network(500, 0.35, 200, 47000), [0.3339, 1.2466, 1.9013, 0.4951]],
  ])('other loads re 1 kHz at 5, 10, 15 and 20 kHz', (n, levels) => {
    [5000, 10000, 15000, 20000].forEach((hz, i) => {
      expect(Math.abs(loadResponseDb(n, hz) - levels[i])).toBeLessThanOrEqual(0.00006);
    });
  });

  test('thermal noise at 300.15 K, and of bare resistors', () => {
    const volts = thermalNoise(example, { fromHz: 20, toHz: 20000 }, 300.15);
    expect(Math.abs(volts * 1e6 - 2.863759)).toBeLessThanOrEqual(0.0000006);
    const bare = network(1e7, 0, 0, 47000);
    const parallel = 1 / (1 / 1e7 + 1 / 47000);
    expect(thermalNoiseDensity(bare, 1000)).toBeCloseTo(Math.sqrt(4 * BOLTZMANN * 300 * parallel), 18);
    // 27.90495 nV/√Hz for 47 kΩ and 4.07035 for 1 kΩ at 300 K
    expect(1e9 * Math.sqrt(4 * BOLTZMANN * 300 * 47000)).toBeCloseTo(27.90495, 5);
    expect(1e9 * thermalNoiseDensity(network(1000, 0, 0, 1e8), 1000)).toBeCloseTo(4.07035, 4);
  });
});

describe('what must hold for any network', () => {
  const anyNetwork = fc.record({
    coilResistance: fc.double({ min: 1, max: 5000, noNaN: true }),
    coilInductance: fc.double({ min: 1e-6, max: 2, noNaN: true }),
    loadResistance: fc.double({ min: 50, max: 2e5, noNaN: true }),
    loadCapacitance: fc.double({ min: 1e-12, max: 2e-9, noNaN: true }),
  });

  test(`the peak is where the slope is nought, and nothing lies above it (seed ${seed})`, () => {
    fc.assert(
      fc.property(anyNetwork, (n) => {
        const peak = loadPeak(n);
        if (!peak.found) {
          expect(level(n, 3000)).toBeLessThanOrEqual(level(n, 100) + 1e-9);
          return;
        }
        if (peak.value.frequency > 5e6) return;
        const top = loadResponseDb(n, peak.value.frequency);
        expect(top).toBeCloseTo(peak.value.level, 7);
        for (const factor of [0.9, 0.99, 1.01, 1.1]) {
          expect(loadResponseDb(n, peak.value.frequency * factor)).toBeLessThanOrEqual(top + 1e-9);
        }
      }),
      { seed },
    );
  });

  test(`the corner lies 3 dB down (seed ${seed})`, () => {
    fc.assert(
      fc.property(anyNetwork, (n) => {
        const corner = loadCorner(n);
        if (corner.found && corner.value < 9e6) expect(loadResponseDb(n, corner.value)).toBeCloseTo(-3.0103, 4);
      }),
      { seed },
    );
  });

  test(`noise by Re Z is the sum of coil and load through their own paths (seed ${seed})`, () => {
    fc.assert(
      fc.property(anyNetwork, (n) => {
        const { coil, load, total } = noiseBudget(n);
        const whole = thermalNoise(n);
        expect(Math.abs(total / whole - 1)).toBeLessThan(1e-6);
        expect(Math.hypot(coil, load)).toBeCloseTo(total, 15);
      }),
      { seed, numRuns: 40 },
    );
  });

  test(`a transformer looks alike from either side (seed ${seed})`, () => {
    fc.assert(
      fc.property(
        anyNetwork,
        fc.integer({ min: 1, max: 40 }),
        fc.double({ min: 20, max: 5e4, noNaN: true }),
        (n, ratio, hz) => {
          const fromInput = seenFromInput(n, ratio);
          const reflected = reflectedLoad(n.loadResistance, n.loadCapacitance, ratio);
          const fromCoil = { ...n, loadResistance: reflected.resistance, loadCapacitance: reflected.capacitance };
          expect(level(fromInput, hz)).toBeCloseTo(level(fromCoil, hz), 8);
        },
      ),
      { seed },
    );
  });

  test(`all impedances scaled together leave the response alone (seed ${seed})`, () => {
    fc.assert(
      fc.property(anyNetwork, fc.double({ min: 0.1, max: 10, noNaN: true }), (n, k) => {
        const scaled = {
          coilResistance: n.coilResistance * k,
          coilInductance: n.coilInductance * k,
          loadResistance: n.loadResistance * k,
          loadCapacitance: n.loadCapacitance / k,
        };
        expect(level(scaled, 12345)).toBeCloseTo(level(n, 12345), 8);
        expect(nodeImpedance(scaled, 12345).re / nodeImpedance(n, 12345).re).toBeCloseTo(k, 8);
      }),
      { seed },
    );
  });

  test('refuses what is no network', () => {
    expect(() => loadResponse({ ...example, coilResistance: Number.NaN }, 1000)).toThrow(/coilResistance is NaN/);
    expect(() => loadResponse(example, -1)).toThrow(RangeError);
    expect(loadPeak(network(1000, 0, 250, 47000)).found).toBe(false);
    expect(loadCorner(network(1000, 0, 0, 47000)).found).toBe(false);
  });
});

interface Listed {
  readonly name: string;
  readonly coilResistanceOhm: number;
  readonly coilInductanceMh: number;
  readonly loadCapacitancePf: number;
  readonly loadResistanceOhm: number;
  readonly stepUp: number;
}

const folder = resolve(import.meta.dirname, '../../checks/ngspice');
const { frequenciesHz, networks } = JSON.parse(readFileSync(join(folder, 'networks.json'), 'utf8')) as {
  frequenciesHz: readonly number[];
  networks: readonly Listed[];
};

function figures(text: string) {
  const all = (pattern: RegExp) => [...text.matchAll(pattern)].map((match) => Number(match[1]));
  const peak = /^pk\s*=\s*(\S+)\s*at=\s*(\S+)/m.exec(text);
  return {
    levels: all(/^vdb\(out\) = (\S+)/gm),
    phases: all(/^vp\(out\) = (\S+)/gm),
    peakDb: Number(peak?.[1]),
    peakHz: Number(peak?.[2]),
    noise: Number(/^onoise_total = (\S+)/m.exec(text)?.[1]),
  };
}

function agrees(listed: Listed, { levels, phases, peakDb, peakHz, noise }: ReturnType<typeof figures>): void {
  const coil = network(
    listed.coilResistanceOhm,
    listed.coilInductanceMh / 1e3,
    listed.loadCapacitancePf,
    listed.loadResistanceOhm,
  );
  const ours = seenFromInput(coil, listed.stepUp);
  const raised = ratioToDb(listed.stepUp);
  expect(levels).toHaveLength(frequenciesHz.length);
  expect(phases).toHaveLength(frequenciesHz.length);
  frequenciesHz.forEach((hz, i) => {
    expect(Math.abs(level(ours, hz) + raised - levels[i]), `${hz} Hz`).toBeLessThan(1e-6);
    expect(Math.abs(phaseOf(loadResponse(ours, hz)) - phases[i]), `${hz} Hz`).toBeLessThan(1e-6);
  });
  const peak = loadPeak(ours);
  if (peak.found && peak.value.frequency < 100000) {
    expect(Math.abs(peak.value.level + level(ours, 1000) + raised - peakDb)).toBeLessThan(0.01);
    expect(Math.abs(peak.value.frequency / peakHz - 1)).toBeLessThan(0.001);
  } else {
    // the simulator's largest value stands at an end of its sweep
    expect([100, 100000]).toContain(Math.round(peakHz));
  }
  expect(Math.abs(thermalNoise(ours) / noise - 1)).toBeLessThan(0.001);
}

describe('against a circuit simulator', () => {
  test.each(networks)('$name, as recorded', (listed) => {
    agrees(listed, figures(readFileSync(join(folder, `${listed.name}.out`), 'utf8')));
  });

  test('made again now by the ngspice installed here; npm test installs it', () => {
    expect(networks.length).toBeGreaterThanOrEqual(7);
    expect(spawnSync('ngspice', ['--version']).status).toBe(0);
    const scratch = mkdtempSync(join(tmpdir(), 'platterside-ngspice-'));
    try {
      for (const listed of networks) {
        const run = spawnSync('ngspice', ['-b', join(folder, `${listed.name}.cir`)], {
          encoding: 'utf8',
          cwd: scratch,
        });
        const fresh = figures(run.stdout);
        agrees(listed, fresh);
        const recorded = figures(readFileSync(join(folder, `${listed.name}.out`), 'utf8'));
        expect(Math.abs(fresh.noise / recorded.noise - 1)).toBeLessThan(1e-6);
        fresh.levels.forEach((db, i) => {
          expect(Math.abs(db - recorded.levels[i])).toBeLessThan(1e-6);
        });
      }
    } finally {
      rmSync(scratch, { recursive: true, force: true });
    }
  });
});
