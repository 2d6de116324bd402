import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { say } from '../words/statement.ts';
import { DEFAULT_LIMITS } from './limits.ts';
import { matchDocument } from './match.ts';
import { counterweightReach } from './matchBalance.ts';
import { type MatchFigure, type MatchInput, matchFigures } from './matchInput.ts';
import { stepUpChoices } from './matchLevels.ts';
import { loadChoices, networkOf } from './matchLoading.ts';
import { massComplianceMap, pairOf, resonanceOptions } from './matchResonance.ts';

const seed = 60098;
const whole: MatchInput = {
  effectiveMassG: 10,
  cartridgeMassG: 7,
  hardwareMassG: 1,
  complianceUmPerMn: 12,
  complianceAt: '10hz',
  trackingForceMn: 19.6133,
  effectiveLengthMm: 239.296,
  spindleToPivotMm: 222,
  coilResistanceOhm: 1000,
  coilInductanceMh: 500,
  outputMv: 5,
  loadResistanceOhm: 47000,
  loadCapacitancePf: 250,
  gainDb: 40,
  maxOutputV: 8,
};
const find = (input: MatchInput, quantity: string) =>
  matchDocument(input).findings.find((f) => f.quantity === quantity);
const value = (input: MatchInput, quantity: string) => find(input, quantity)?.value as number;
const reasons = (input: MatchInput) =>
  Object.fromEntries(matchDocument(input).problems.map((p) => [p.quantity ?? '', p.message]));

const CONTRACT = [
  'arm-resonance',
  'load-peak',
  'load-peak-frequency',
  'load-deviation-20khz',
  'thermal-noise',
  'noise-under-reference',
  'headroom',
  'skating-force-inner',
  'skating-force-outer',
];

describe('the document', () => {
  test('a whole input gives every quantity of the contract, each with unit, uncertainty and note', () => {
    const { findings, problems, schema } = matchDocument(whole);
    expect(schema).toBe(1);
    expect(problems).toEqual([]);
    for (const quantity of CONTRACT) expect(findings.map((f) => f.quantity)).toContain(quantity);
    for (const finding of findings) {
      expect(finding.uncertainty, finding.quantity).toBeGreaterThan(0);
      expect(finding.note.length, finding.quantity).toBeGreaterThan(5);
    }
  });

  test('the worked values', () => {
    expect(value(whole, 'arm-resonance')).toBeCloseTo(10.82912, 5);
    expect(value(whole, 'load-peak')).toBeCloseTo(1.285817 + 0.160429, 5);
    expect(value(whole, 'load-peak-frequency')).toBeCloseTo(10528.86, 1);
    expect(value(whole, 'load-deviation-20khz')).toBeCloseTo(-4.439944 + 0.160429, 5);
    // 2.863759 µV at 300.15 K
    expect(value(whole, 'thermal-noise')).toBeCloseTo(2.863759 * Math.sqrt(300 / 300.15), 5);
    expect(value(whole, 'noise-under-reference')).toBeCloseTo(
      20 * Math.log10(5000 / (2.863759 * Math.sqrt(300 / 300.15))),
      4,
    );
    expect(value(whole, 'headroom')).toBeCloseTo(24.0824, 4);
    expect(value({ ...whole, friction: 0.25 }, 'skating-force-inner')).toBeCloseTo(0.2198 * 9.80665, 2);
    expect(value({ ...whole, friction: 0.25 }, 'skating-force-outer')).toBeCloseTo(0.2309 * 9.80665, 2);
  });

  test('nothing given withholds the whole contract, each with what is missing', () => {
    const { findings, problems } = matchDocument({});
    expect(findings).toEqual([]);
    expect(problems.map((p) => p.quantity).sort()).toEqual([...CONTRACT].sort());
    expect(problems.every((p) => p.code === 'withheld' && p.message.includes('not known'))).toBe(true);
  });

  test.each([
    ['complianceAt', ['arm-resonance'], 'how the compliance is quoted'],
    ['cartridgeMassG', ['arm-resonance'], 'the cartridge’s mass is not known'],
    ['outputMv', ['headroom', 'noise-under-reference'], 'the output is not known'],
    [
      'loadCapacitancePf',
      ['load-deviation-20khz', 'load-peak', 'load-peak-frequency', 'noise-under-reference', 'thermal-noise'],
      'the load capacitance is not known',
    ],
    ['spindleToPivotMm', ['skating-force-inner', 'skating-force-outer'], 'the distance from spindle to pivot'],
    ['gainDb', ['headroom'], 'the gain is not known'],
  ] as const)('without %s exactly what needs it is withheld', (name, quantities, why) => {
    const { [name]: _, ...rest } = whole;
    const withheld = reasons(rest);
    expect(Object.keys(withheld).sort()).toEqual([...quantities]);
    for (const message of Object.values(withheld)) expect(message).toContain(why);
    for (const quantity of CONTRACT) {
      expect(find(rest, quantity) === undefined, quantity).toBe((quantities as readonly string[]).includes(quantity));
    }
  });

  test('a load without a maximum has no load-peak, and it is not withheld: there is none', () => {
    const coil: MatchInput = {
      coilResistanceOhm: 10,
      coilInductanceMh: 0.03,
      loadResistanceOhm: 100,
      loadCapacitancePf: 1000,
    };
    expect(find(coil, 'load-peak')).toBeUndefined();
    expect(reasons(coil)['load-peak']).toBeUndefined();
    expect(find(coil, 'load-deviation-20khz')?.note).toContain('no electrical maximum');
  });

  test('bounds are told by name', () => {
    expect(() => matchDocument({ ...whole, cartridgeMassG: Number.NaN })).toThrow('the cartridge’s mass is NaN g');
    expect(() => matchDocument({ ...whole, grooveInnerMm: 146, grooveOuterMm: 60 })).toThrow(
      /inner groove radius is 146 mm, over/,
    );
  });

  test(`no NaN and no Infinity leaves, whatever lies within bounds (seed ${seed})`, () => {
    const names = Object.keys(matchFigures) as MatchFigure[];
    const figures = fc.record(
      Object.fromEntries(
        names.map((name) => {
          const { low, high } = matchFigures[name];
          return [name, fc.oneof(fc.constant(low), fc.constant(high), fc.double({ min: low, max: high, noNaN: true }))];
        }),
      ) as Record<MatchFigure, fc.Arbitrary<number>>,
      { requiredKeys: [] },
    );
    const allFinite = (node: unknown, path: string): void => {
      if (typeof node === 'number') expect(Number.isFinite(node), `${path} is ${node}`).toBe(true);
      else if (typeof node === 'object' && node !== null) {
        for (const [key, item] of Object.entries(node)) allFinite(item, `${path}.${key}`);
      }
    };
    fc.assert(
      fc.property(figures, fc.constantFrom('static', '10hz', '100hz' as const), (input, complianceAt) => {
        let document: ReturnType<typeof matchDocument>;
        try {
          document = matchDocument({ ...input, complianceAt } as MatchInput);
        } catch (error) {
          // only figures in the wrong order may be refused here
          expect((error as Error).message).toContain('the first must be the lower');
          return;
        }
        allFinite(document, 'document');
        for (const curve of document.curves) expect(curve.x).toHaveLength(curve.y.length);
        for (const { message } of document.problems) expect(message).not.toMatch(/NaN|Infinity|undefined/);
        for (const { note } of document.findings) expect(note).not.toMatch(/NaN|Infinity|undefined/);
        for (const { why } of document.advice) expect(why).not.toMatch(/NaN|Infinity|undefined/);
      }),
      { seed, numRuns: 200 },
    );
  });
});

describe('limits of the job', () => {
  const other = (name: string, good: number, bad: number) => ({
    ...DEFAULT_LIMITS,
    [name]: { ...DEFAULT_LIMITS[name], good, bad },
  });

  test.each([
    ['arm-resonance', 'arm-resonance-to', 9, 10],
    ['arm-resonance', 'arm-resonance-from', 13, 12],
    ['noise-under-reference', 'noise-under-reference', 200, 190],
    ['headroom', 'headroom', 90, 80],
    ['line-level', 'line-level', 1000, 900],
  ])('%s is judged by %s', (quantity, name, good, bad) => {
    expect(find(whole, quantity)?.verdict).toBe('good');
    expect(find({ ...whole, limits: other(name, good, bad) }, quantity)?.verdict).toBe('bad');
  });

  test('a resonance is brought to where these want it', () => {
    const limits = other('arm-resonance-to', 9, 10);
    const [move] = matchDocument({ ...whole, limits }).advice;
    expect(move).toMatchObject({ action: 'add-mass' });
    expect(value({ ...whole, hardwareMassG: 1 + (move.amount as number) }, 'arm-resonance')).toBeCloseTo(8.5, 6);
  });

  test('a load over the coil is raised to what these want', () => {
    const coil = { ...whole, principle: 'moving-coil', coilResistanceOhm: 12, loadResistanceOhm: 100 } as const;
    const asked = (good: number) =>
      matchDocument({ ...coil, limits: other('load-over-coil', good, good - 1) }).advice.find(
        ({ action }) => action === 'raise-load',
      )?.amount;
    expect(asked(8)).toBeUndefined();
    expect(asked(20)).toBeCloseTo(240, 6);
  });
});

describe('resonance', () => {
  test('a figure quoted at 10 Hz is used as it is; others carry their band', () => {
    expect(find(whole, 'arm-resonance')).toMatchObject({ verdict: 'good' });
    const quoted = find(whole, 'arm-resonance');
    expect([quoted?.low, quoted?.high]).toEqual([quoted?.value, quoted?.value]);
    const fromStatic = find({ ...whole, complianceUmPerMn: 24, complianceAt: 'static' }, 'arm-resonance');
    expect(fromStatic?.value).toBeCloseTo(10.82912, 5);
    expect(fromStatic?.low).toBeCloseTo(10.82912 / Math.sqrt(1.3), 5);
    expect(fromStatic?.high).toBeCloseTo(10.82912 / Math.sqrt(0.7), 5);
    expect(fromStatic?.uncertainty).toBeGreaterThan(quoted?.uncertainty as number);
  });

  test('lateral figures of their own come out apart', () => {
    const apart = { ...whole, effectiveMassLateralG: 30, complianceLateralUmPerMn: 15 };
    expect(value(apart, 'arm-resonance-vertical')).toBeCloseTo(value(whole, 'arm-resonance'), 9);
    expect(value(apart, 'arm-resonance-lateral')).toBeCloseTo(159.154943 / Math.sqrt(38 * 15), 5);
    expect(find(whole, 'arm-resonance-lateral')).toBeUndefined();
  });

  test('too high: mass is added, and what is predicted comes', () => {
    const light = { ...whole, effectiveMassG: 4, complianceUmPerMn: 10 };
    const advice = matchDocument(light).advice.find((a) => a.action === 'add-mass');
    expect(advice?.direction).toBe('at-the-headshell');
    const after = value({ ...light, hardwareMassG: 1 + (advice?.amount as number) }, 'arm-resonance');
    expect(after).toBeCloseTo(advice?.predicts[0].value as number, 9);
    expect(find({ ...light, hardwareMassG: 1 + (advice?.amount as number) }, 'arm-resonance')?.verdict).toBe('good');
  });

  test('too low: mass is taken off where there is some, else another arm is named', () => {
    const heavy = { ...whole, hardwareMassG: 6, complianceUmPerMn: 18 };
    const remove = matchDocument(heavy).advice.find((a) => a.action === 'remove-mass');
    const after = value({ ...heavy, hardwareMassG: 6 - (remove?.amount as number) }, 'arm-resonance');
    expect(after).toBeCloseTo(remove?.predicts[0].value as number, 9);
    const hopeless = matchDocument({ ...whole, effectiveMassG: 25, complianceUmPerMn: 25 }).advice;
    expect(hopeless.map((a) => a.action)).toContain('other-arm');
  });

  test('options are ranked by how near they bring it to the middle', () => {
    const ranked = resonanceOptions({ ...whole, effectiveMassG: 5, headshellMassG: 6 }, [
      { name: 'light shell', kind: 'headshell', massG: 4 },
      { name: 'heavy shell', kind: 'headshell', massG: 14 },
      { name: 'brass plate', kind: 'hardware', massG: 4 },
    ]);
    // 22 g: 9.8 Hz, 17 g: 11.1 Hz, 27 g: 8.8 Hz
    expect(ranked.map((o) => o.name)).toEqual(['brass plate', 'light shell', 'heavy shell']);
    expect(ranked[0].resonance.value).toBeCloseTo(159.154943 / Math.sqrt(22 * 12), 5);
    expect(ranked[0].totalG).toBeCloseTo(22, 12);
    // a shell inside the arm's effective mass cannot be exchanged
    expect(resonanceOptions(whole, [{ name: 'shell', kind: 'headshell', massG: 14 }])).toEqual([]);
  });

  test('the map: every contour point resonates at its frequency and lies on the map; the pair is a region', () => {
    const { contours, pair } = massComplianceMap({ ...whole, complianceUmPerMn: 24, complianceAt: 'static' });
    expect(contours.map((c) => c.hz)).toEqual([7, 8, 10, 12]);
    for (const { hz, compliance, massG } of contours) {
      expect(compliance.length).toBeGreaterThan(10);
      compliance.forEach((c, i) => {
        expect(159.154943 / Math.sqrt(c * massG[i])).toBeCloseTo(hz, 5);
        expect(massG[i]).toBeLessThanOrEqual(60 + 1e-9);
        expect(massG[i]).toBeGreaterThanOrEqual(4 - 1e-9);
      });
    }
    expect(pair?.compliance).toMatchObject({ value: 12 });
    expect(pair!.mass.low).toBeLessThan(18);
    expect(massComplianceMap({}).pair).toBeNull();
  });

  test('hardware that is not known is said, and widens the uncertainty', () => {
    const { hardwareMassG: _, ...rest } = whole;
    const finding = find({ ...rest, cartridgeMassG: 8 }, 'arm-resonance');
    expect(finding?.value).toBeCloseTo(10.82912, 5);
    expect(finding?.note).toContain('hardware’s mass is not known');
    expect(finding?.uncertainty).toBeGreaterThan(find(whole, 'arm-resonance')?.uncertainty as number);
  });

  test('an arm quoted without its shell needs the shell’s mass', () => {
    expect(pairOf({ ...whole, effectiveMassIs: 'bare' })).toMatchObject({
      found: false,
      why: { code: 'not-known', values: { what: 'the headshell’s mass', count: 1 } },
    });
    expect(pairOf({ ...whole, effectiveMassIs: 'bare', headshellMassG: 8 })).toMatchObject({ found: true });
  });
});

describe('counterweight and force', () => {
  const balance: MatchInput = { ...whole, armMomentGMm: 3000, counterweightMassG: 100, stubFromMm: 25, stubToMm: 60 };

  test('by hand: 8 g at 239.296 mm and 3000 g·mm against 100 g, less 2 g', () => {
    const reach = counterweightReach(balance);
    if (!reach.found) throw new Error(say(reach.why));
    expect(reach.place.floatingMm).toBeCloseTo((8 * 239.296 + 3000) / 100, 9);
    expect(reach.place.atForceMm).toBeCloseTo((6 * 239.296 + 3000) / 100, 9);
    expect(reach.place.onStub).toBe(true);
    expect(find(balance, 'counterweight-position')).toMatchObject({ verdict: 'good', unit: 'mm' });
  });

  test('off the stub: bad, and the weight that is advised stands on it', () => {
    const far = { ...balance, stubToMm: 40 };
    expect(find(far, 'counterweight-position')?.verdict).toBe('bad');
    const advice = matchDocument(far).advice.find((a) => a.action === 'change-counterweight');
    expect(advice).toMatchObject({ direction: 'heavier' });
    const mended = counterweightReach({ ...far, counterweightMassG: advice?.amount as number });
    expect(mended.found && mended.place.onStub).toBe(true);
    const near = matchDocument({ ...balance, stubFromMm: 55, stubToMm: 80 }).advice;
    expect(near.find((a) => a.action === 'change-counterweight')).toMatchObject({ direction: 'lighter' });
  });

  test('a force outside the cartridge’s range is bad both ways', () => {
    const ranged = { ...whole, trackingForceMinMn: 15, trackingForceMaxMn: 18 };
    expect(find(ranged, 'tracking-force')?.verdict).toBe('bad');
    expect(matchDocument(ranged).advice.find((a) => a.action === 'set-force')?.amount).toBeCloseTo(17, 9);
    expect(find({ ...ranged, trackingForceMn: 16 }, 'tracking-force')?.verdict).toBe('good');
  });

  test('an arm that does not carry such a cartridge', () => {
    expect(find({ ...whole, cartridgeMassMinG: 4, cartridgeMassMaxG: 7 }, 'carried-mass')?.verdict).toBe('bad');
    expect(find({ ...whole, cartridgeMassMinG: 4, cartridgeMassMaxG: 12 }, 'carried-mass')?.verdict).toBe('good');
  });
});

describe('load and levels', () => {
  test('capacitance that can be added is advised, and what is predicted comes', () => {
    const low = { ...whole, loadCapacitancePf: 50, wantedCapacitanceMinPf: 200 };
    const advice = matchDocument(low).advice.find((a) => a.action === 'set-load-capacitance');
    expect(advice?.direction).toBe('add');
    const after = value({ ...low, loadCapacitancePf: 50 + (advice?.amount as number) }, 'load-deviation-20khz');
    expect(after).toBeCloseTo(advice?.predicts[0].value as number, 6);
  });

  test('without the maker’s range the electrical response is information: no verdict and no advice', () => {
    const steep = { ...whole, loadCapacitancePf: 900 };
    for (const quantity of ['load-peak', 'load-deviation-20khz']) expect(find(steep, quantity)?.verdict).toBe('info');
    expect(matchDocument(steep).advice.some((a) => a.action === 'set-load-capacitance')).toBe(false);
  });

  test('the maker’s range decides, and is what is advised', () => {
    const wish = { ...whole, wantedCapacitanceMinPf: 300, wantedCapacitanceMaxPf: 400 };
    const advice = matchDocument(wish).advice.find((a) => a.action === 'set-load-capacitance');
    expect(advice).toMatchObject({ direction: 'add' });
    expect(advice?.amount).toBeCloseTo(50, 9);
    const kept = { ...whole, wantedCapacitanceMinPf: 200, wantedCapacitanceMaxPf: 300 };
    expect(matchDocument(kept).advice.some((a) => a.action === 'set-load-capacitance')).toBe(false);
    expect(find(kept, 'load-deviation-20khz')?.verdict).toBe('good');
  });

  test('the choices: never worse than now with this cable, never worse than that with a free hand', () => {
    const known = networkOf(whole);
    if (!known.found) throw new Error(say(known.why));
    const { nowDb, withThisCable, free, resistances } = loadChoices(known.network);
    expect(withThisCable.deviation).toBeLessThanOrEqual(nowDb);
    expect(free.deviation).toBeLessThanOrEqual(withThisCable.deviation);
    expect(resistances.map((r) => r.resistance).sort()).toHaveLength(4);
  });

  test('step-up: the load goes by n², level and thermal noise as the input sees them', () => {
    const coil: MatchInput = {
      principle: 'moving-coil',
      coilResistanceOhm: 12,
      coilInductanceMh: 0.05,
      loadResistanceOhm: 47000,
      loadCapacitancePf: 250,
      outputMv: 0.4,
      gainDb: 40,
      maxOutputV: 8,
      stepUp: 10,
    };
    expect(value(coil, 'load-at-coil')).toBeCloseTo(470, 9);
    expect(value(coil, 'load-over-coil')).toBeCloseTo(470 / 12, 9);
    expect(value(coil, 'headroom')).toBeCloseTo(20 * Math.log10(8 / 0.4), 6);
    // µV, by ngspice: checks/ngspice/moving-coil-step-up-10.out
    expect(value(coil, 'thermal-noise')).toBeCloseTo(0.6268723, 4);
    expect(value(coil, 'noise-under-reference')).toBeCloseTo(20 * Math.log10(4000 / value(coil, 'thermal-noise')), 9);
    const choices = stepUpChoices(12, 0.4, 47000);
    expect(choices.find((c) => c.ratio === 10)).toMatchObject({ suits: true });
    expect(choices.find((c) => c.ratio === 30)).toMatchObject({ suits: true });
    expect(stepUpChoices(100, 0.4, 47000).find((c) => c.ratio === 30)?.suits).toBe(false);
    expect(() => stepUpChoices(Number.NaN, 0.4, 47000)).toThrow(/coil’s resistance is NaN/);
  });

  test('too little headroom: less gain, and what is predicted comes', () => {
    const loud = { ...whole, outputMv: 12, gainDb: 45, converterFullScaleV: 2 };
    const advice = matchDocument(loud).advice.find((a) => a.action === 'lower-gain');
    expect(advice?.why).toContain('converter');
    const after = { ...loud, gainDb: 45 - (advice?.amount as number) };
    expect(value(after, 'headroom-converter')).toBeCloseTo(18, 9);
    expect(value(after, 'headroom')).toBeCloseTo(
      advice?.predicts.find((p) => p.quantity === 'headroom')?.value ?? value(after, 'headroom'),
      9,
    );
  });

  test('the input’s noise adds as powers', () => {
    const noisy = { ...whole, inputNoiseNvPerRootHz: 5, inputNoisePaPerRootHz: 1 };
    const level = (quantity: string) => 10 ** (-value(noisy, quantity) / 10);
    expect(level('noise-with-input')).toBeCloseTo(
      level('noise-of-coil') + level('noise-of-load') + level('noise-of-input'),
      12,
    );
    expect(value(noisy, 'noise-with-input')).toBeLessThan(value(noisy, 'noise-under-reference'));
  });
});

test('a compliance converted from static or 100 Hz may be anything within ±30 %: standard by √3, k = 2', () => {
  const bench: MatchInput = { effectiveMassG: 12, cartridgeMassG: 6, complianceUmPerMn: 15 };
  const uncertain = (complianceAt: MatchInput['complianceAt']) => {
    const finding = matchDocument({ ...bench, complianceAt }).findings.find((f) => f.quantity === 'arm-resonance');
    return (finding?.uncertainty as number) / (finding?.value as number);
  };
  // f falls as the root of the compliance: half of each share; the table's own doubts beside it
  const [converted, plain] = [uncertain('100hz'), uncertain('10hz')];
  expect(Math.sqrt(converted ** 2 - plain ** 2)).toBeCloseTo(0.3 / Math.sqrt(3), 3);
});
