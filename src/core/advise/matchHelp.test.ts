import { describe, expect, test } from 'vitest';
import { matchDocument } from './match.ts';
import type { MatchInput } from './matchInput.ts';

const adviceOf = (input: MatchInput, action: string) =>
  matchDocument(input).advice.filter((advice) => advice.action === action);
const figureOf = (input: MatchInput, quantity: string) =>
  matchDocument(input).findings.find((finding) => finding.quantity === quantity)?.value as number;

const coil: MatchInput = {
  principle: 'moving-coil',
  coilResistanceOhm: 40,
  coilInductanceMh: 0.1,
  outputMv: 0.3,
  loadResistanceOhm: 47000,
  loadCapacitancePf: 200,
  stepUp: 20,
};

describe('what would help where a verdict is not good', () => {
  test('a mass over what the arm carries: the grams that must go bring it to the bound', () => {
    const input = { cartridgeMassG: 9, hardwareMassG: 4, cartridgeMassMinG: 4, cartridgeMassMaxG: 12 };
    const [advice] = adviceOf(input, 'remove-mass');
    expect(advice.amount).toBeCloseTo(1, 12);
    expect(figureOf({ ...input, hardwareMassG: 4 - (advice.amount as number) }, 'carried-mass')).toBeCloseTo(12, 12);
    expect(adviceOf({ ...input, hardwareMassG: 3 }, 'remove-mass')).toEqual([]);
  });

  test('a mass that the hardware cannot give up is told as the cartridge’s; a light one asks for more', () => {
    const [heavy] = adviceOf({ cartridgeMassG: 15, hardwareMassG: 1, cartridgeMassMaxG: 12 }, 'remove-mass');
    expect(heavy.why).toContain('more than the hardware holds');
    const [light] = adviceOf({ cartridgeMassG: 3, hardwareMassG: 0.5, cartridgeMassMinG: 5 }, 'add-mass');
    expect(light.amount).toBeCloseTo(1.5, 12);
  });

  test('a load near the coil’s resistance: the input advised gives eight times', () => {
    const [advice] = adviceOf(coil, 'raise-load');
    expect(advice.amount).toBeCloseTo(8 * 40 * 400, 6);
    expect(figureOf({ ...coil, loadResistanceOhm: advice.amount as number }, 'load-over-coil')).toBeCloseTo(8, 9);
    expect(advice.why).toContain('at most 1:12.1');
    expect(figureOf({ ...coil, stepUp: 12.1 }, 'load-over-coil')).toBeGreaterThan(8);
  });

  test('noise names its largest share, once', () => {
    const bare = { ...coil, stepUp: 1, inputNoiseNvPerRootHz: 8 };
    const [advice, more] = adviceOf(bare, 'lower-noise');
    expect(more).toBeUndefined();
    expect(advice.why).toContain('the input’s own: use a quieter input, or a step-up transformer');
    expect(figureOf(bare, 'noise-of-input')).toBeLessThan(figureOf(bare, 'noise-of-coil'));
    expect(adviceOf({ ...bare, outputMv: 5, inputNoiseNvPerRootHz: 1 }, 'lower-noise')).toEqual([]);
  });

  test('a maximum above hearing is shown and not judged', () => {
    const peak = matchDocument({ ...coil, coilResistanceOhm: 12, coilInductanceMh: 0.05, stepUp: 10 }).findings.find(
      (finding) => finding.quantity === 'load-peak',
    );
    expect(peak?.value).toBeGreaterThan(6);
    expect(peak?.verdict).toBe('info');
    expect(peak?.note).toContain('above hearing');
  });

  test('too little at line level: the missing gain brings it there, a moving coil is told the step-up that does it', () => {
    const low: MatchInput = { principle: 'moving-coil', outputMv: 0.4, gainDb: 40, maxOutputV: 8 };
    expect(matchDocument(low).findings.find((one) => one.quantity === 'line-level')?.verdict).toBe('adjust');
    const [advice] = adviceOf(low, 'raise-gain');
    expect(figureOf({ ...low, gainDb: 40 + (advice.amount as number) }, 'line-level')).toBeCloseTo(316.228, 6);
    expect(advice.why).toContain('1:8');
    expect(figureOf({ ...low, stepUp: 8 }, 'line-level')).toBeCloseTo(320, 9);
    expect(adviceOf({ ...low, outputMv: 5 }, 'raise-gain')).toEqual([]);
  });

  test('no more gain is advised than the loudest passages leave room for', () => {
    const tight: MatchInput = { outputMv: 0.9, gainDb: 40, maxOutputV: 1 };
    const [advice] = adviceOf(tight, 'raise-gain');
    expect(figureOf({ ...tight, gainDb: 40 + (advice.amount as number) }, 'headroom')).toBeCloseTo(18, 9);
    const [none] = adviceOf({ ...tight, maxOutputV: 0.5 }, 'raise-gain');
    expect(none.amount).toBeNull();
    expect(none.why).toContain('no room for more gain');
  });

  test('a lateral resonance alone outside its band brings its own advice, and what that makes of the vertical one', () => {
    const pair: MatchInput = {
      effectiveMassG: 10,
      effectiveMassLateralG: 21,
      cartridgeMassG: 6,
      hardwareMassG: 4,
      complianceUmPerMn: 12,
      complianceAt: '10hz',
    };
    expect(figureOf(pair, 'arm-resonance-lateral')).toBeLessThan(8.5);
    const [advice] = adviceOf({ ...pair, effectiveMassLateralG: 26 }, 'remove-mass');
    expect(advice.why).toContain('The lateral resonance');
    const after = { ...pair, effectiveMassLateralG: 26, hardwareMassG: 4 - (advice.amount as number) };
    for (const { quantity, value } of advice.predicts) expect(figureOf(after, quantity)).toBeCloseTo(value, 9);
    // lateral springs so stiff that far over a kilogram stands at the end are answered too
    const stiff: MatchInput = {
      ...pair,
      effectiveMassG: 300,
      headshellMassG: 100,
      hardwareMassG: 50,
      complianceAt: 'static',
    };
    const heavy = { ...stiff, effectiveMassLateralG: 1, complianceUmPerMn: 1.45, complianceLateralUmPerMn: 0.5 };
    expect(adviceOf(heavy, 'add-mass')).toHaveLength(1);
    expect(advice.predicts.map(({ quantity }) => quantity)).toEqual([
      'arm-resonance-lateral',
      'arm-resonance-vertical',
    ]);
  });
});
