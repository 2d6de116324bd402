import { describe, expect, test } from 'vitest';
import { matchDocument } from './match.ts';
import type { MatchInput } from './matchInput.ts';

const find = (input: MatchInput, quantity: string) =>
  matchDocument(input).findings.find((one) => one.quantity === quantity);
const reasons = (input: MatchInput) =>
  Object.fromEntries(matchDocument(input).problems.map((one) => [one.quantity ?? '', one.message]));

const levels: MatchInput = {
  coilResistanceOhm: 1000,
  coilInductanceMh: 500,
  outputMv: 5,
  loadResistanceOhm: 47000,
  loadCapacitancePf: 250,
  gainDb: 40,
  maxOutputV: 8,
};

describe('what is not known is never taken as nothing in silence', () => {
  const arm: MatchInput = {
    cartridgeMassG: 6.5,
    hardwareMassG: 0.6,
    effectiveLengthMm: 239.3,
    armMomentGMm: 3200,
    counterweightMassG: 110,
    trackingForceMn: 18,
    stubFromMm: 28,
    stubToMm: 58,
    cartridgeMassMinG: 4,
    cartridgeMassMaxG: 12,
  };

  test('hardware: said at the counterweight and the carried mass, and carried in their uncertainty', () => {
    const { hardwareMassG: _, ...rest } = arm;
    for (const quantity of ['counterweight-position', 'carried-mass']) {
      expect(find(rest, quantity)?.note, quantity).toContain('calculated with 0 g');
      expect(find(arm, quantity)?.note, quantity).not.toContain('calculated with 0 g');
      expect(find(rest, quantity)?.uncertainty as number).toBeGreaterThan(find(arm, quantity)?.uncertainty as number);
    }
  });

  test('a shell that the arm is quoted without: the counterweight’s place waits for its mass', () => {
    const bare: MatchInput = { ...arm, effectiveMassIs: 'bare' };
    expect(find(bare, 'counterweight-position')).toBeUndefined();
    expect(reasons(bare)['counterweight-position']).toContain('the headshell’s mass is not known');
    expect(find({ ...bare, headshellMassG: 8 }, 'counterweight-position')?.value).toBeCloseTo(
      ((6.5 + 0.6 + 8) * 239.3 + 3200 - (18 / 9.80665) * 239.3) / 110,
      9,
    );
  });

  test('the stub’s end within the uncertainty is said, on either side of it', () => {
    const near = (stubToMm: number) => find({ ...arm, stubToMm }, 'counterweight-position');
    expect(near(58)?.note).not.toContain('within the uncertainty');
    expect([near(45)?.verdict, near(44)?.verdict]).toEqual(['good', 'bad']);
    for (const end of [45, 44]) expect(near(end)?.note).toContain('try it on the arm');
  });

  test('a recommended force outside the stated range is told, not dropped', () => {
    const range: MatchInput = { trackingForceMinMn: 15, trackingForceMaxMn: 21 };
    expect(find({ ...range, trackingForceRecommendedMn: 40 }, 'tracking-force')?.note).toContain(
      '40.0 mN lies outside',
    );
    expect(find({ ...range, trackingForceRecommendedMn: 18 }, 'tracking-force')?.note).not.toContain('outside');
  });

  test('one end of the force’s range alone, a converter alone, an input’s noise alone: withheld with the reason', () => {
    expect(reasons({ ...arm, trackingForceMinMn: 15 })['tracking-force']).toContain(
      'the largest tracking force is not known',
    );
    expect(reasons({ converterFullScaleV: 8 })['headroom-converter']).toContain(
      'the output and the gain are not known',
    );
    expect(reasons({ inputNoiseNvPerRootHz: 5 })['noise-with-input']).toContain('not known');
    expect(reasons({ stubFromMm: 20 })['counterweight-position']).toContain('not known');
  });

  test('converter and preamp’s noise not known are said beside what rests without them', () => {
    expect(find(levels, 'headroom')?.note).toContain('full scale of the converter behind it is not known');
    expect(find({ ...levels, converterFullScaleV: 8 }, 'headroom')?.note).not.toContain('converter');
    expect(find(levels, 'noise-under-reference')?.note).toContain('comes on top');
    expect(find({ ...levels, inputNoiseNvPerRootHz: 5 }, 'noise-under-reference')?.note).not.toContain('comes on top');
  });

  test('a load that takes a part of the coil’s level says what the output is taken to be', () => {
    const coil: MatchInput = { ...levels, principle: 'moving-coil', coilResistanceOhm: 12, stepUp: 30, outputMv: 0.4 };
    expect(find(coil, 'load-over-coil')?.note).toContain('quotes it open');
    expect(find({ ...coil, stepUp: 5 }, 'load-over-coil')?.note).not.toContain('quotes it open');
  });
});
