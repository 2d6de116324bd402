import { expect, test } from 'vitest';
import { armResonance } from '../../../mechanics/resonance.ts';
import type { CaptureEntry } from '../../api.ts';
import { recordingFacts } from '../../recording.fixture.ts';
import { heardCompliance } from './heardCompliance.ts';

const figure = (direction: string, value: number | string, uncertainty: number | null = 0.4) => ({
  quantity: `arm-resonance-${direction}`,
  value,
  unit: 'Hz',
  uncertainty,
  bands: [],
  verdict: 'good',
});
const heard = (...findings: ReturnType<typeof figure>[]) =>
  ({ ...recordingFacts, findings }) as unknown as CaptureEntry;
const job = (...captures: CaptureEntry[]) => ({ practice: false, fittings: [], captures });
const masses = { effectiveMassG: 12, cartridgeMassG: 6, hardwareMassG: 1 };
/** C = 1/((2πf)² M), µm/mN on g. */
const compliance = (hz: number, massG: number) => 1e6 / ((2 * Math.PI * hz) ** 2 * massG);

test('the whole answer without a compliance: what it is, on which mass, with what frequency and mass leave open', () => {
  const found = heardCompliance(job(heard(figure('vertical', 10))), masses);
  const value = compliance(10, 19);
  expect(found).toEqual({
    direction: 'vertical',
    hz: 10,
    hzUncertainty: 0.4,
    massG: 19,
    complianceUmPerMn: expect.closeTo(value, 6),
    // masses together are good to 0.5 g (k = 1)
    uncertainty: expect.closeTo(2 * value * Math.hypot((2 * 0.2) / 10, 0.5 / 19), 3),
    calculatedHz: null,
    agrees: null,
  });
});

test('the last recording counts, vertical before lateral; lateral on the lateral mass', () => {
  const hz = (...captures: CaptureEntry[]) => {
    const found = heardCompliance(job(...captures), { ...masses, effectiveMassLateralG: 20 });
    return found === null ? null : [found.direction, found.hz, found.massG];
  };
  expect(hz(heard(figure('vertical', 9)), heard(figure('vertical', 10)))).toEqual(['vertical', 10, 19]);
  expect(hz(heard(figure('vertical', 9)), heard(figure('lateral', 10)))).toEqual(['vertical', 9, 19]);
  expect(hz(heard(figure('lateral', 8), figure('vertical', 9)))).toEqual(['vertical', 9, 19]);
  expect(hz(heard(figure('lateral', 8)))).toEqual(['lateral', 8, 27]);
  expect(hz(heard(figure('vertical', 9, null), figure('lateral', 8)))).toEqual(['lateral', 8, 27]);
  expect(hz(heard(figure('vertical', 'open'), figure('lateral', 8)))).toEqual(['lateral', 8, 27]);
  expect(hz(heard())).toBeNull();
});

test('what Match calculates stands beside it only where it has a compliance and what it is quoted at', () => {
  const known = { ...masses, complianceUmPerMn: 12, complianceAt: '10hz' } as const;
  const at = (hz: number, uncertainty = 0.1, input: Parameters<typeof heardCompliance>[1] = known) =>
    heardCompliance(job(heard(figure('vertical', hz, uncertainty))), input);
  const calculated = armResonance(19e-3, 12e-3);
  expect(at(10)?.calculatedHz).toBeCloseTo(calculated, 9);
  // a tenth of the compliance and 0.5 g (k = 1) move it by this much
  const open = 2 * calculated * Math.hypot(0.05, 0.25 / 19);
  for (const side of [1, -1]) {
    expect(at(calculated + side * (open - 0.02))?.agrees).toBe(true);
    expect(at(calculated + side * (open + 0.1))?.agrees).toBe(false);
    expect(at(calculated + side * (open + 0.1), 1)?.agrees).toBe(true);
  }
  const { complianceAt: _, ...unquoted } = known;
  expect(at(10, 0.1, unquoted)).toMatchObject({ calculatedHz: null, agrees: null });
  expect(at(10, 0.1, { ...masses, complianceAt: '10hz' })).toMatchObject({ calculatedHz: null, agrees: null });
});
