/**
 * Intermodulation's value against a closed form: two tones through y = x + a x² + b x³, written into samples here.
 *
 *   f2 ± f1   a A B each            d₂ = 2 a A / g
 *   f2 ± 2f1  ¾ b A² B each         d₃ = 1.5 b A² / g      g = 1 + ¾ b B² + 1.5 b A², of the upper tone itself
 *
 * @source the binomial products of cosines; the figure as IEC 60268-3 defines it (from memory)
 */
import { describe, expect, it } from 'vitest';
import { TwoToneEstimator } from './twoToneEstimator.ts';
import { intermodulationOf } from './twoTones.ts';

const RATE_HZ = 48_000;
const SECONDS = 4;

function heard(a: number, b: number, [low, high]: [number, number], noise = 0, hz: [number, number] = [400, 4000]) {
  const estimator = new TwoToneEstimator(RATE_HZ, { frequenciesHz: hz, turnS: 1.8 });
  let state = 7;
  const random = (): number => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 31 - 1;
  };
  const frames = SECONDS * RATE_HZ;
  const [left, right] = [new Float64Array(frames), new Float64Array(frames)];
  for (let n = 0; n < frames; n++) {
    const t = n / RATE_HZ;
    const x = low * Math.cos(2 * Math.PI * hz[0] * t + 0.4) + high * Math.cos(2 * Math.PI * hz[1] * t - 1.1);
    left[n] = x + a * x * x + b * x ** 3 + noise * (random() + random() + random());
    right[n] = x + noise * (random() + random() + random());
  }
  estimator.push({ startFrame: 0, frames, left, right });
  const reading = estimator.result();
  if (!reading.found) throw new Error('the band was not read');
  return { bent: intermodulationOf(reading.left), straight: intermodulationOf(reading.right) };
}

describe('intermodulation', () => {
  it.each([
    [0.1, 0],
    [0, 0.4],
    [0.1, 0.4],
    [-0.05, -0.2],
  ])('of y = x + %s x² + %s x³ is the closed form’s', (a, b) => {
    const [low, high] = [0.4, 0.1];
    const { bent, straight } = heard(a, b, [low, high]);
    const own = 1 + 0.75 * b * high ** 2 + 1.5 * b * low ** 2;
    const [second, third] = [Math.abs(2 * a * low) / own, Math.abs(1.5 * b * low ** 2) / own];
    expect(Math.abs((bent?.second ?? 0) - second)).toBeLessThan(1e-4);
    expect(Math.abs((bent?.third ?? 0) - third)).toBeLessThan(1e-4);
    expect(Math.abs((bent?.total ?? 0) - Math.hypot(second, third))).toBeLessThan(1e-4);
    expect(straight?.total).toBeLessThan(1e-4);
  });

  it('in noise its spread holds the closed form, and noise adds nothing on average', () => {
    const { bent, straight } = heard(0.02, 0, [0.4, 0.1], 0.003);
    expect(Math.abs((bent?.total ?? 0) - 0.016)).toBeLessThan(3 * (bent?.spread ?? 0));
    expect(bent?.spread).toBeLessThan(0.001);
    expect(straight?.total).toBeLessThan(0.001);
  });
});
