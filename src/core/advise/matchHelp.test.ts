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
    expect(advice.why).toContain('the input’s own: a quieter input, or a step-up transformer');
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
});
