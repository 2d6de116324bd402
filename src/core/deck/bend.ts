/**
 * A generator that is not straight:
 *
 *   y = u + 2 h₂ u²/v₀ + β u ξ + h₃ (4 u³/v₀² − 3 u),   ξ = ∫ u dt,   β = 2 h_d · 2π·1 kHz / v₀
 *
 * h₂ bends with velocity (second harmonic in phase, growing as v), h_d with displacement (in quadrature, as v/f), both the share
 * of a wall moving with v₀, h_d at 1 kHz. What does not alternate is not induced.
 */
import { type Complex, over } from '../units/complex.ts';
import type { Deck } from './deck.ts';
import { highPassFirstOrder, type Run, runSection } from './filters.ts';

export type Generators = Deck['cartridge'];

/** β, 1/cm */
export const displacementBend = (of: Generators, channel: 'left' | 'right', referenceCmS: number): number =>
  ((2 * of.displacementBendPercent[channel]) / 100) * ((2 * Math.PI * 1000) / referenceCmS);

/** The spring that keeps the tip in its middle: below this displacement no longer grows, Hz. */
const CENTRING_HZ = 0.5;

/** Displacement of one unit of velocity at a frequency, s. */
export const displacementAt = (hz: number): Complex =>
  over({ re: 1, im: 0 }, { re: 2 * Math.PI * CENTRING_HZ, im: 2 * Math.PI * hz });

/**
 * ∫ u dt over the centring spring, in place: Adams and Moulton's fourth-order step, within 1e-5 at 1 kHz and 44.1 kHz.
 */
function integrator(sampleRateHz: number): Run {
  const h = 1 / sampleRateHz;
  const kept = Math.exp(-2 * Math.PI * CENTRING_HZ * h);
  const [b0, b1, b2, b3] = [9, 19, -5, 1].map((b) => (b * h) / 24);
  let [u1, u2, u3, y] = [0, 0, 0, 0];
  return (samples, count) => {
    for (let i = 0; i < count; i++) {
      const u = samples[i];
      y = kept * y + b0 * u + b1 * u1 + b2 * u2 + b3 * u3;
      u3 = u2;
      u2 = u1;
      u1 = u;
      samples[i] = y;
    }
  };
}

/** @returns bends a channel in place */
export function bendOf(of: Generators, channel: 'left' | 'right', referenceCmS: number, sampleRateHz: number): Run {
  const second = of.secondHarmonicPercent[channel] / 100;
  const third = of.thirdHarmonicPercent[channel] / 100;
  const beta = displacementBend(of, channel, referenceCmS);
  const cube = (4 * third) / referenceCmS ** 2;
  const integrate = integrator(sampleRateHz);
  const level = runSection(highPassFirstOrder(sampleRateHz, 2));
  let even = new Float64Array(0);
  return (u, count) => {
    if (even.length < count) even = new Float64Array(count);
    if (beta !== 0) {
      for (let i = 0; i < count; i++) even[i] = u[i];
      integrate(even, count);
      for (let i = 0; i < count; i++) even[i] *= beta * u[i];
    }
    if (second !== 0)
      for (let i = 0; i < count; i++)
        even[i] = (beta === 0 ? 0 : even[i]) + ((2 * second) / referenceCmS) * u[i] * u[i];
    if (second !== 0 || beta !== 0) level(even, count);
    for (let i = 0; i < count; i++) {
      const v = u[i];
      u[i] = v + even[i] + (cube * v * v - 3 * third) * v;
    }
  };
}
