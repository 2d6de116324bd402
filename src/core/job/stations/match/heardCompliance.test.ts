import { expect, it } from 'vitest';
import { recordingFacts } from '../../recording.fixture.ts';
import { heardCompliance } from './heardCompliance.ts';

const capture = (quantity: string, value: number, uncertainty: number) =>
  ({
    ...recordingFacts,
    findings: [{ quantity, value, unit: 'Hz', uncertainty, bands: [], verdict: 'good' }],
  }) as never;
const job = (...captures: never[]) => ({ practice: false, fittings: [], captures });
const masses = { effectiveMassG: 12, cartridgeMassG: 6, hardwareMassG: 1, effectiveMassIs: 'with-headshell' } as never;

it('18 g and 12 µm/mN resonate at 10.83 Hz: heard there, 19 g imply 11.37', () => {
  // 159.155² / (10.829² · 19)
  const heard = heardCompliance(job(capture('arm-resonance-vertical', 10.829, 0.4)), masses)!;
  expect(heard.massG).toBe(19);
  expect(heard.complianceUmPerMn).toBeCloseTo(159.155 ** 2 / (10.829 ** 2 * 19), 2);
  // twice 0.4/10.829 of it, and the mass's own
  expect(heard.uncertainty).toBeGreaterThan(2 * (0.4 / 10.829) * heard.complianceUmPerMn * 0.99);
  expect(heard.calculatedHz).toBeNull();
});

it('says whether what is calculated agrees', () => {
  const input = { ...(masses as object), complianceUmPerMn: 12, complianceAt: '10hz' } as never;
  expect(heardCompliance(job(capture('arm-resonance-vertical', 10.5, 0.3)), input)?.agrees).toBe(true);
  expect(heardCompliance(job(capture('arm-resonance-vertical', 7, 0.3)), input)?.agrees).toBe(false);
});

it('without a resonance that was heard, or a mass, there is none', () => {
  expect(heardCompliance(job(capture('speed-error', 0.1, 0.1)), masses)).toBeNull();
  expect(heardCompliance(job(capture('arm-resonance-vertical', 10, 0.3)), {} as never)).toBeNull();
});
