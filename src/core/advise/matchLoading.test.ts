import { describe, expect, test } from 'vitest';
import { deviationWithin, flattestCapacitance, flattestLoads } from '../electrics/flattestLoad.ts';
import { type CoilAndLoad, loadCorner, loadPeak, loadResponseDb } from '../electrics/loading.ts';
import type { MatchInput } from './matchInput.ts';
import {
  loadChoices,
  loadFamily,
  matchLoading,
  networkOf,
  OFFERED_RESISTANCES,
  uncertainNetwork,
} from './matchLoading.ts';
import { moves, told, verdicts } from './told.fixture.ts';

const coil: MatchInput = {
  coilResistanceOhm: 1000,
  coilInductanceMh: 500,
  loadResistanceOhm: 47000,
  loadCapacitancePf: 250,
};
const network: CoilAndLoad = {
  coilResistance: 1000,
  coilInductance: 0.5,
  loadResistance: 47000,
  loadCapacitance: 250e-12,
};
/** relative, standard, of each part */
const PARTS = { coilResistance: 0.025, coilInductance: 0.05, loadResistance: 0.01, loadCapacitance: 0.05 };
/** k = 2, by central differences */
const doubt = (model: (n: CoilAndLoad) => number, n: CoilAndLoad = network): number =>
  2 *
  Math.hypot(
    ...Object.entries(PARTS).map(([part, share]) => {
      const at = (by: number) => model({ ...n, [part]: n[part as keyof CoilAndLoad] * (1 + by) });
      return ((at(1e-4) - at(-1e-4)) / 2e-4) * share;
    }),
  );
const peakOf = (part: 'level' | 'frequency') => (n: CoilAndLoad) => {
  const peak = loadPeak(n);
  return peak.found ? peak.value[part] : Number.NaN;
};
const cornerOf = (n: CoilAndLoad) => {
  const corner = loadCorner(n);
  return corner.found ? corner.value : Number.NaN;
};
const at20k = (n: CoilAndLoad) => loadResponseDb(n, 20000);

describe('the network', () => {
  test('in Ω, H and F; a step-up makes the coil n² larger', () => {
    const close = (n: CoilAndLoad) =>
      Object.fromEntries(Object.entries(n).map(([key, value]) => [key, expect.closeTo(value, 15)]));
    expect(networkOf(coil)).toEqual({ found: true, network: close(network) });
    expect(networkOf({ ...coil, stepUp: 2 })).toEqual({
      found: true,
      network: close({ ...network, coilResistance: 4000, coilInductance: 2 }),
    });
    const uncertain = uncertainNetwork(network);
    for (const [part, share] of Object.entries(PARTS)) {
      const { value, standard } = uncertain[part as keyof CoilAndLoad];
      expect(standard / value).toBeCloseTo(share, 12);
    }
  });

  test.each([
    ['coilResistanceOhm', 'the coil’s resistance'],
    ['coilInductanceMh', 'the coil’s inductance'],
    ['loadResistanceOhm', 'the load resistance'],
    ['loadCapacitancePf', 'the load capacitance'],
  ] as const)('without %s nothing of it is told', (name, what) => {
    expect(networkOf({ ...coil, [name]: undefined })).toEqual({
      found: false,
      why: { code: 'not-known', values: { what, count: 1 } },
    });
    const answer = matchLoading({ ...coil, principle: 'moving-coil', [name]: undefined });
    expect(answer.problems.map(({ quantity }) => quantity)).toEqual([
      'load-peak',
      'load-peak-frequency',
      'load-deviation-20khz',
    ]);
    expect(answer).toMatchObject({ advice: [], curves: [] });
    // what the coil sees is told all the same, as far as it can be
    expect(answer.findings.map(({ quantity }) => quantity)).toEqual(
      name === 'loadResistanceOhm' ? [] : ['load-at-coil', ...(name === 'coilResistanceOhm' ? [] : ['load-over-coil'])],
    );
  });
});

describe('figures of the response', () => {
  test('whole, with what the parts leave open', () => {
    const { findings, curves, problems } = matchLoading(coil);
    expect(problems).toEqual([]);
    const table: [string, number, string, number][] = [
      ['load-peak', peakOf('level')(network), 'dB', doubt(peakOf('level'))],
      ['load-peak-frequency', peakOf('frequency')(network), 'Hz', doubt(peakOf('frequency'))],
      ['load-deviation-20khz', at20k(network), 'dB', doubt(at20k)],
      ['load-corner', cornerOf(network), 'Hz', doubt(cornerOf)],
    ];
    expect(findings.map(({ quantity, unit, bands }) => [quantity, unit, bands])).toEqual(
      table.map(([quantity, , unit]) => [quantity, unit, []]),
    );
    table.forEach(([, value, , u], i) => {
      expect((findings[i].value as number) / value).toBeCloseTo(1, 9);
      expect((findings[i].uncertainty as number) / u).toBeCloseTo(1, 4);
    });
    expect(verdicts(findings)).toEqual([
      'load-peak info: peak-re-1khz',
      'load-peak-frequency info: peak-place',
      'load-deviation-20khz info: response-re-1khz electrical-only',
      'load-corner info: corner-3db',
    ]);
    const [curve, ...more] = curves;
    expect(more).toEqual([]);
    expect(curve).toMatchObject({ quantity: 'load-response', xUnit: 'Hz', yUnit: 'dB' });
    expect([curve.x.length, curve.x[0], curve.x[120]]).toEqual([121, 20, 50000]);
    expect(curve.x[60]).toBeCloseTo(1000, 9);
    curve.y.forEach((db, i) => {
      expect(db).toBeCloseTo(loadResponseDb(network, curve.x[i]), 9);
    });
  });

  test('a load without a maximum says why; one that is about to lose it says that tolerance hides its doubt', () => {
    const damped = { ...coil, loadResistanceOhm: 10000 };
    expect(verdicts(matchLoading(damped).findings)).toEqual([
      'load-deviation-20khz info: response-re-1khz electrical-only no-electrical-peak',
      'load-corner info: corner-3db',
    ]);
    expect(matchLoading(damped).findings[0].notes?.[2]).toMatchObject({ values: { why: { code: 'load-damped' } } });
    // 2 A LC = B² within a part's tolerance
    const edge = (loadResistanceOhm: number) => matchLoading({ ...coil, loadResistanceOhm }).findings[0];
    const ohm = 0.5 / Math.sqrt(2 * 0.5 * 250e-12 - (1000 * 250e-12) ** 2);
    expect(edge(ohm * 0.9999).quantity).toBe('load-deviation-20khz');
    expect(verdicts([edge(ohm * 1.00005)])).toEqual(['load-peak info: peak-re-1khz tolerance-hides-it']);
    expect(edge(ohm * 1.00005).uncertainty).toBeNull();
  });

  test('a maximum above hearing is told and never judged; at 20 kHz it still is', () => {
    const wish = { ...coil, loadResistanceOhm: 1e6, wantedCapacitanceMaxPf: 1000 };
    const of = (pf: number) => verdicts(matchLoading({ ...wish, loadCapacitancePf: pf }).findings)[0];
    expect(of(250)).toBe('load-peak good: peak-re-1khz judged-by-maker-most');
    expect(of(30)).toBe('load-peak info: peak-re-1khz peak-above-hearing');
  });
});

describe('the maker’s range of capacitance', () => {
  test.each([
    [undefined, undefined, 'info', null],
    [250, undefined, 'good', 'judged-by-maker-least leastPf=250 nowPf=250'],
    [251, undefined, 'adjust', 'judged-by-maker-least leastPf=251 nowPf=250'],
    [undefined, 250, 'good', 'judged-by-maker-most mostPf=250 nowPf=250'],
    [undefined, 249, 'adjust', 'judged-by-maker-most mostPf=249 nowPf=250'],
    [200, 300, 'good', 'judged-by-maker-range leastPf=200 mostPf=300 nowPf=250'],
    [260, 300, 'adjust', 'judged-by-maker-range leastPf=260 mostPf=300 nowPf=250'],
    [200, 240, 'adjust', 'judged-by-maker-range leastPf=200 mostPf=240 nowPf=250'],
  ])('%d to %d pF with 250 pF is %s', (wantedCapacitanceMinPf, wantedCapacitanceMaxPf, verdict, note) => {
    for (const { verdict: is, notes = [] } of matchLoading({ ...coil, wantedCapacitanceMinPf, wantedCapacitanceMaxPf })
      .findings) {
      expect(is).toBe(verdict);
      expect(notes.map((one) => told(one)).filter((one) => one.startsWith('judged'))).toEqual(
        note === null ? [] : [note],
      );
    }
  });

  test.each([
    [300, 400, 'add 50 pF', 'add-capacitance', 300, 'add-capacitance nowPf=250 leastPf=300'],
    [100, 200, 'remove 50 pF', 'remove-capacitance', 200, 'remove-capacitance nowPf=250 mostPf=200'],
  ])('%d to %d pF asks to %s', (wantedCapacitanceMinPf, wantedCapacitanceMaxPf, move, code, target, words) => {
    const { advice } = matchLoading({ ...coil, wantedCapacitanceMinPf, wantedCapacitanceMaxPf });
    expect(moves(advice)).toEqual([`set-load-capacitance ${move}: ${code} / caution-leads`]);
    expect(advice[0].reasons?.map((one) => told(one))).toEqual([words]);
    expect(advice[0].predicts).toEqual([
      {
        quantity: 'load-deviation-20khz',
        value: expect.closeTo(at20k({ ...network, loadCapacitance: target * 1e-12 }), 9),
        unit: 'dB',
      },
    ]);
  });

  test('nothing is moved on its ends, or without it', () => {
    const of = (least?: number, most?: number) =>
      matchLoading({ ...coil, wantedCapacitanceMinPf: least, wantedCapacitanceMaxPf: most }).advice;
    for (const [least, most] of [[249.9, 250.1], [200], [undefined, 300], []]) expect(of(least, most)).toEqual([]);
  });
});

describe('what a coil sees', () => {
  const low: MatchInput = { principle: 'moving-coil', coilResistanceOhm: 10, loadResistanceOhm: 100, outputMv: 0.4 };
  const findings = (more: Partial<MatchInput>) => matchLoading({ ...low, ...more }).findings;

  test('whole', () => {
    const [at, over] = findings({ loadCapacitancePf: 500, stepUp: 2, wantedLoadOhm: 100 });
    expect(at).toMatchObject({
      quantity: 'load-at-coil',
      value: 25,
      unit: 'Ω',
      uncertainty: 0.5,
      bands: [],
      verdict: 'info',
    });
    expect(at.notes?.map((one) => told(one))).toEqual([
      'coil-sees-through load=25 Ω and 2.00 nF ratio=2',
      'maker-asks-load ohm=100',
    ]);
    expect(over).toMatchObject({
      quantity: 'load-over-coil',
      value: 2.5,
      unit: '',
      uncertainty: expect.closeTo(5 * Math.hypot(0.01, 0.025), 12),
      bands: [],
      verdict: 'adjust',
    });
    expect(told(over.notes![0])).toBe(`load-loss lossDb=${(20 * Math.log10(1.4)).toFixed(4)}`);
  });

  test('the capacitance stands in pF under a nanofarad, in nF from one on', () => {
    const load = (loadCapacitancePf?: number) => told(findings({ loadCapacitancePf })[0].notes![0]);
    expect(load()).toBe('coil-sees load=100 Ω');
    expect(load(0)).toBe('coil-sees load=100 Ω and 0 pF');
    expect(load(999)).toBe('coil-sees load=100 Ω and 999 pF');
    expect(load(1000)).toBe('coil-sees load=100 Ω and 1.00 nF');
  });

  test('is told of moving coils and through a step-up, and of nothing else', () => {
    const told = (more: Partial<MatchInput>) => findings(more).map(({ quantity }) => quantity);
    expect(told({})).toEqual(['load-at-coil', 'load-over-coil']);
    for (const principle of ['moving-magnet', 'moving-iron', undefined] as const) {
      expect(told({ principle })).toEqual([]);
      expect(told({ principle, stepUp: 10 })).toEqual(['load-at-coil', 'load-over-coil']);
    }
    expect(told({ loadResistanceOhm: undefined })).toEqual([]);
    expect(told({ coilResistanceOhm: undefined })).toEqual(['load-at-coil']);
  });

  test('a load that takes a tenth of a decibel or more says what the output is taken for, where there is one', () => {
    const codes = (more: Partial<MatchInput>) => findings(more)[1].notes?.map(({ code }) => code);
    // 20 lg (1 + 1/x) = 0.1 dB at x = 86.36
    expect(codes({ loadResistanceOhm: 863 })).toEqual(['load-loss', 'output-under-load']);
    expect(codes({ loadResistanceOhm: 864 })).toEqual(['load-loss']);
    expect(codes({ outputMv: undefined })).toEqual(['load-loss']);
  });

  test('comes behind the response where the whole network is known', () => {
    const all = matchLoading({ ...low, coilInductanceMh: 0.1, loadCapacitancePf: 200 }).findings;
    expect(all.map(({ quantity }) => quantity).slice(-2)).toEqual(['load-at-coil', 'load-over-coil']);
  });
});

test('the picture’s family: every resistance with every capacitance', () => {
  const family = loadFamily(network, [33000, 68000], [100, 300]);
  expect(family.map(({ resistance, capacitancePf }) => [resistance, capacitancePf])).toEqual([
    [33000, 100],
    [33000, 300],
    [68000, 100],
    [68000, 300],
  ]);
  for (const { resistance, capacitancePf, curve } of family) {
    const as = { ...network, loadResistance: resistance, loadCapacitance: capacitancePf * 1e-12 };
    expect(curve.quantity).toBe('load-response');
    expect(curve.y[100]).toBeCloseTo(loadResponseDb(as, curve.x[100]), 9);
  }
});

test('what a bench may choose: with this cable from what is there, free from nothing', () => {
  const few = [33000, 100000];
  expect(loadChoices(network, few)).toEqual({
    nowDb: deviationWithin(network),
    withThisCable: flattestCapacitance(network, 250e-12),
    free: flattestCapacitance(network, 0),
    resistances: flattestLoads(network, 250e-12, few),
  });
  expect(OFFERED_RESISTANCES).toEqual([33000, 47000, 68000, 100000]);
});
