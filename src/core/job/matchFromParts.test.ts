import { describe, expect, test } from 'vitest';
import { matchDocument } from '../advise/match.ts';
import { demoArm, demoDeck, demoParts } from './demoParts.ts';
import { type ChosenParts, cableCapacitancePf, matchInputOf } from './matchFromParts.ts';
import type { Part, PartOf } from './parts.ts';

const named = <Kind extends Part['kind']>(kind: Kind, name: string): PartOf<Kind> =>
  demoParts.find((part) => part.kind === kind && part.name === name) as unknown as PartOf<Kind>;

const bench: ChosenParts = {
  deck: demoDeck,
  arm: demoArm,
  cartridge: named('cartridge', 'bench moving magnet'),
  preamp: named('preamp', 'bench preamp, moving-magnet input'),
  cable: named('cable', 'bench cable, with the arm’s wiring'),
  hardware: named('hardware', 'light screws and nuts'),
};

describe('parts to Match', () => {
  test('the practice bench goes together, nothing withheld', () => {
    const { findings, problems } = matchDocument(matchInputOf(bench));
    expect(problems).toEqual([]);
    expect(findings.filter((f) => f.verdict === 'bad')).toEqual([]);
    expect(findings.find((f) => f.quantity === 'arm-resonance')?.verdict).toBe('good');
    expect(findings.find((f) => f.quantity === 'counterweight-position')?.verdict).toBe('good');
  });

  test('cable and input add up; by the metre too; a cable that is not chosen is not guessed', () => {
    expect(matchInputOf(bench).loadCapacitancePf).toBe(220);
    expect(cableCapacitancePf(named('cable', 'long bench cable'))).toBe(300);
    expect(matchInputOf({ ...bench, cable: undefined }).loadCapacitancePf).toBeUndefined();
    expect(matchInputOf(bench).coilResistanceOhm).toBe(801);
  });

  test('an output without its velocity stays unknown; an rms velocity is turned into a peak', () => {
    const cartridge = bench.cartridge!;
    expect(matchInputOf({ cartridge: { ...cartridge, outputVelocityIs: 'rms' } }).outputMv).toBeCloseTo(
      5 / Math.SQRT2,
      12,
    );
    expect(matchInputOf({ cartridge: { ...cartridge, outputAtCmS: undefined } }).outputMv).toBeUndefined();
  });

  test('a bare arm takes the shell’s mass, one quoted with its shell does not', () => {
    const headshell = named('headshell', 'bench headshell');
    expect(matchInputOf({ ...bench, headshell }).headshellMassG).toBeUndefined();
    const bare = matchInputOf({ ...bench, arm: { ...demoArm, effectiveMassIncludes: 'bare' }, headshell });
    expect(bare.headshellMassG).toBe(8);
  });

  test('the deck’s own distance goes over the arm’s; a length can come from distance and overhang', () => {
    const deck = { ...demoDeck, spindleToPivotMm: 223 };
    expect(matchInputOf({ ...bench, deck }).spindleToPivotMm).toBe(223);
    const { effectiveLengthMm: _, ...arm } = demoArm;
    expect(matchInputOf({ arm }).effectiveLengthMm).toBeCloseTo(243.48, 9);
  });

  test('no parts, no figures', () => {
    expect(matchInputOf({})).toEqual({});
  });
});

describe('every figure that Match asks for', () => {
  const whole: ChosenParts = {
    ...bench,
    headshell: named('headshell', 'bench headshell'),
    counterweight: named('counterweight', 'heavy bench counterweight'),
  };
  const figures = {
    effectiveMassG: 10,
    effectiveMassIs: 'with-headshell',
    cartridgeMassG: 6.5,
    hardwareMassG: 0.6,
    complianceUmPerMn: 13,
    complianceAt: '10hz',
    trackingForceMn: 17,
    trackingForceMinMn: 14,
    trackingForceMaxMn: 19,
    trackingForceRecommendedMn: 17,
    effectiveLengthMm: 243.48,
    spindleToPivotMm: 226.5,
    counterweightMassG: 150,
    armMomentGMm: 3200,
    stubFromMm: 28,
    stubToMm: 58,
    cartridgeMassMinG: 4,
    cartridgeMassMaxG: 12,
    principle: 'moving-magnet',
    coilResistanceOhm: 801,
    coilInductanceMh: 500,
    outputMv: expect.closeTo((5 / Math.SQRT2) * Math.SQRT2, 9),
    wantedLoadOhm: undefined as unknown,
    wantedCapacitanceMinPf: 120,
    wantedCapacitanceMaxPf: 260,
    loadResistanceOhm: 47_000,
    loadCapacitancePf: 220,
    gainDb: 40,
    maxOutputV: 8,
    inputNoiseNvPerRootHz: 5,
    inputNoisePaPerRootHz: 0.5,
    converterFullScaleV: 8.7,
  };

  test('comes from the part that has it', () => {
    expect(matchInputOf(whole)).toEqual({
      ...figures,
      wantedLoadOhm: 47_000,
      outputMv: expect.closeTo(matchInputOf(bench).outputMv!, 12),
    });
  });

  test('goes with its part: each is missing where the part is not chosen', () => {
    const without = (kind: keyof ChosenParts) => {
      const given = matchInputOf({ ...whole, [kind]: undefined });
      return Object.keys(figures).filter((name) => !(name in given));
    };
    expect(without('arm')).toEqual([
      'effectiveMassG',
      'effectiveMassIs',
      'effectiveLengthMm',
      'armMomentGMm',
      'cartridgeMassMinG',
      'cartridgeMassMaxG',
    ]);
    expect(without('cartridge')).toEqual([
      ...[
        'cartridgeMassG',
        'complianceUmPerMn',
        'complianceAt',
        'trackingForceMn',
        'trackingForceMinMn',
        'trackingForceMaxMn',
      ],
      ...['trackingForceRecommendedMn', 'principle', 'coilResistanceOhm', 'coilInductanceMh', 'outputMv'],
      ...['wantedLoadOhm', 'wantedCapacitanceMinPf', 'wantedCapacitanceMaxPf'],
    ]);
    expect(without('preamp')).toEqual([
      ...[
        'loadResistanceOhm',
        'loadCapacitancePf',
        'gainDb',
        'maxOutputV',
        'inputNoiseNvPerRootHz',
        'inputNoisePaPerRootHz',
        'converterFullScaleV',
      ],
    ]);
    expect(without('cable')).toEqual(['loadCapacitancePf']);
    expect(without('hardware')).toEqual(['hardwareMassG']);
    expect([without('deck'), without('headshell'), without('counterweight')]).toEqual([[], [], []]);
    // the arm's own weight, and its own distance, where none other is chosen
    expect(matchInputOf({ ...whole, counterweight: undefined }).counterweightMassG).toBe(110);
    expect(matchInputOf({ ...whole, cable: undefined }).coilResistanceOhm).toBe(800);
  });

  test('a length is stated, or distance and overhang; neither alone', () => {
    const { effectiveLengthMm: _, overhangMm: __, ...arm } = demoArm;
    expect(matchInputOf({ arm })).not.toHaveProperty('effectiveLengthMm');
    expect(
      matchInputOf({ arm: { ...arm, overhangMm: 17 }, deck: { ...demoDeck, spindleToPivotMm: 223 } }).effectiveLengthMm,
    ).toBe(240);
    const { spindleToPivotMm: ___, ...bare } = { ...arm, overhangMm: 17 };
    expect(matchInputOf({ arm: bare })).not.toHaveProperty('effectiveLengthMm');
  });

  test('a cable’s capacitance is stated, or by the metre where its length is', () => {
    const cable = { schema: 1, kind: 'cable', name: 'x' } as const;
    expect(cableCapacitancePf(undefined)).toBeUndefined();
    expect(cableCapacitancePf(cable)).toBeUndefined();
    expect(cableCapacitancePf({ ...cable, lengthM: 2 })).toBeUndefined();
    expect(cableCapacitancePf({ ...cable, capacitancePfPerM: 100 })).toBeUndefined();
    expect(cableCapacitancePf({ ...cable, capacitancePf: 0, capacitancePfPerM: 100, lengthM: 2 })).toBe(0);
  });

  test('an output is known with its velocity alone', () => {
    const cartridge = bench.cartridge!;
    for (const missing of ['outputMv', 'outputAtCmS', 'outputVelocityIs'])
      expect(matchInputOf({ cartridge: { ...cartridge, [missing]: undefined } }), missing).not.toHaveProperty(
        'outputMv',
      );
    // quoted at 10 cm/s, half of it at 5
    expect(matchInputOf({ cartridge: { ...cartridge, outputAtCmS: 10 } }).outputMv).toBeCloseTo(2.5, 12);
  });
});
