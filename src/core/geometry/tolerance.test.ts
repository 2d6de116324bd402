import { expect, test } from 'vitest';
import { degToRad } from '../units/units.ts';
import { pivotedArm, type TangentialArm } from './arm.ts';
import { errorTangents, peakOfTangents, peakWeighted, spreadRadii } from './distortion.ts';
import { errorWithinReach } from './law.ts';
import { normalNumbers, quantile } from './random.ts';
import { grooveSpan, ownSpan } from './span.ts';
import { toleranceBand } from './tolerance.ts';

const tangentialArm = (o: number, offset: number): TangentialArm => ({ kind: 'tangential', overhang: o, offset });

const span = grooveSpan('12in');
const arm = pivotedArm(222, 239.296, 0.401173);

test('small tolerances: Monte Carlo agrees with first order within its own noise', () => {
  const tolerances = { overhang: 0.1, twist: degToRad(0.1), spindleToPivot: 0.1 };
  const band = toleranceBand(arm, span, { tolerances, draws: 20_000, points: 9, seed: 5 });
  if (!band.found) throw new Error(band.why.code);
  let worst = 0;
  band.value.linear.forEach((point, i) => {
    const width = point.trackingErrorHighDeg - point.trackingErrorLowDeg;
    const drawn = band.value.monteCarlo[i];
    // ±1.96 of the draws against ±2 of the slope
    const ratio = (drawn.trackingErrorHighDeg - drawn.trackingErrorLowDeg) / (width * 0.98);
    worst = Math.max(worst, Math.abs(ratio - 1));
  });
  console.log(`Monte Carlo against first order: widths agree within ${(100 * worst).toFixed(2)} % (seed 5)`);
  expect(worst).toBeLessThan(0.03);
});

test('the same seed gives the same band, another seed another', () => {
  const once = toleranceBand(arm, span, { seed: 9 });
  expect(toleranceBand(arm, span, { seed: 9 })).toEqual(once);
  expect(toleranceBand(arm, span, { seed: 10 })).not.toEqual(once);
});

test('what matters most follows the tolerances', () => {
  const most = (overhang: number, twistDeg: number, spindleToPivot: number): string => {
    const band = toleranceBand(arm, span, { tolerances: { overhang, twist: degToRad(twistDeg), spindleToPivot } });
    if (!band.found) throw new Error(band.why.code);
    const rises = band.value.effects.map(({ risePercent }) => risePercent);
    expect([...rises].sort((a, b) => b - a)).toEqual(rises);
    return band.value.mattersMost;
  };
  expect(most(0.5, 0.5, 1)).toBe('spindle-to-pivot');
  expect(most(0.2, 1, 0.2)).toBe('twist');
  expect(most(2, 0.2, 0.5)).toBe('overhang');
});

test('no tolerance, no band', () => {
  const band = toleranceBand(arm, span, { tolerances: { overhang: 0, twist: 0, spindleToPivot: 0 } });
  if (!band.found) throw new Error(band.why.code);
  for (const point of band.value.linear) expect(point.trackingErrorHighDeg).toBe(point.trackingErrorLowDeg);
  expect(band.value.peakDistortionPercent.low).toBeCloseTo(band.value.peakDistortionPercent.high, 12);
});

test('a tangential arm has no pivot to be off', () => {
  const band = toleranceBand(tangentialArm(0, 0), span);
  if (!band.found) throw new Error(band.why.code);
  expect(band.value.effects.map(({ setting }) => setting).sort()).toEqual(['overhang', 'twist']);
});

test('tangents without an angle, and the peak from 25 radii: against the law and the exact peak', () => {
  const radii = spreadRadii(span, 25);
  const normal = normalNumbers(3);
  let [worstTangent, worstPeak] = [0, 0];
  for (let k = 0; k < 300; k++) {
    const drawn = pivotedArm(222 + normal(), 239.296 + normal(), 0.401173 + 0.02 * normal());
    const tangents = errorTangents(drawn, radii, new Float64Array(25));
    radii.forEach((r, i) => {
      worstTangent = Math.max(worstTangent, Math.abs(tangents[i] - Math.tan(errorWithinReach(drawn, r))));
    });
    worstPeak = Math.max(worstPeak, Math.abs(peakOfTangents(tangents, radii) / peakWeighted(drawn, span) - 1));
  }
  console.log(
    `tangents within ${worstTangent.toExponential(1)}, peaks within ${(100 * worstPeak).toFixed(4)} % (seed 3)`,
  );
  expect(worstTangent).toBeLessThan(1e-12);
  expect(worstPeak).toBeLessThan(1e-3);
});

test('a tangent stays a number where the cartridge would stand across the groove', () => {
  const across = errorTangents(tangentialArm(60, -Math.PI / 3), [60.001, 70], new Float64Array(2));
  for (const tangent of across) expect(Math.abs(tangent)).toBeLessThanOrEqual(1e6);
});

test('refusals name value and bounds; out of reach has its reason', () => {
  expect(() => toleranceBand(arm, span, { draws: 1 })).toThrow('draws is 1;');
  expect(() => toleranceBand(arm, span, { draws: 150.5 })).toThrow(
    'draws is 150.5; a whole number from 100 to 100000 was expected',
  );
  expect(() => toleranceBand(arm, span, { draws: Number.NaN })).toThrow('draws is NaN');
  expect(() => toleranceBand(arm, span, { seed: 1.5 })).toThrow('seed is 1.5');
  expect(() => toleranceBand(arm, span, { tolerances: { overhang: Number.NaN, twist: 0, spindleToPivot: 0 } })).toThrow(
    'tolerance of overhang is NaN mm',
  );
  expect(toleranceBand(pivotedArm(222, 300, 0.4), ownSpan(60, 146)).found).toBe(false);
});

test('normal numbers: mean 0, spread 1, and a twentieth beyond ±1.96', () => {
  const normal = normalNumbers(12);
  const drawn = Array.from({ length: 40_000 }, normal).sort((a, b) => a - b);
  const mean = drawn.reduce((sum, x) => sum + x, 0) / drawn.length;
  const variance = drawn.reduce((sum, x) => sum + x * x, 0) / drawn.length;
  expect(Math.abs(mean)).toBeLessThan(0.02);
  expect(Math.abs(variance - 1)).toBeLessThan(0.03);
  expect(quantile(drawn, 0.975)).toBeGreaterThan(1.92);
  expect(quantile(drawn, 0.975)).toBeLessThan(2);
});
