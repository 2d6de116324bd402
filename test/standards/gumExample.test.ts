/**
 * Uncertainty: law of propagation of JCGM 100:2008 5.1.2 eq. (10) [P] on the worked case M = 18 ± 0.5 g, C = 12 ± 1.2:
 * f = 10.8291 ± 0.5620 Hz, 5.189 %; by Monte Carlo mean 10.8735, standard deviation 0.5753 [C].
 */
import { describe, expect, test } from 'vitest';
import { pairOf } from '../../src/core/advise/matchResonance.ts';
import { propagate } from '../../src/core/advise/propagate.ts';
import { armResonance } from '../../src/core/mechanics/resonance.ts';
import { umPerMnToMPerN } from '../../src/core/units/units.ts';

const seed = 7;

/** mulberry32, then Box and Muller */
function normals(from: number): () => number {
  let state = from;
  const uniform = () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  return () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
}

const hz = (x: { readonly mass: number; readonly compliance: number }) =>
  armResonance(x.mass * 1e-3, umPerMnToMPerN(x.compliance));

describe('propagation of uncertainty', () => {
  const { value, standard } = propagate<'mass' | 'compliance'>(hz, {
    mass: { value: 18, standard: 0.5 },
    compliance: { value: 12, standard: 1.2 },
  });

  test('the worked case', () => {
    expect(value).toBeCloseTo(10.8291, 4);
    expect(standard).toBeCloseTo(0.562, 4);
    expect((100 * standard!) / value).toBeCloseTo(5.189, 2);
  });

  test(`Monte Carlo of the same, 200 000 draws (seed ${seed})`, () => {
    const draw = normals(seed);
    const count = 200_000;
    let sum = 0;
    let squares = 0;
    for (let i = 0; i < count; i++) {
      const f = hz({ mass: 18 + 0.5 * draw(), compliance: Math.max(1, 12 + 1.2 * draw()) });
      sum += f;
      squares += f * f;
    }
    const mean = sum / count;
    const deviation = Math.sqrt(squares / count - mean * mean);
    expect(Math.abs(mean - 10.8735)).toBeLessThan(0.006);
    expect(Math.abs(deviation - 0.5753)).toBeLessThan(0.006);
    expect(Math.abs(standard! / deviation - 1)).toBeLessThan(0.03);
  });

  test('Match gives twice that for a pair quoted at 10 Hz', () => {
    const pair = pairOf({
      effectiveMassG: 10,
      cartridgeMassG: 7,
      hardwareMassG: 1,
      complianceUmPerMn: 12,
      complianceAt: '10hz',
    });
    expect(pair.found && pair.vertical.resonance.value).toBeCloseTo(10.8291, 4);
    expect(pair.found && pair.vertical.uncertainty).toBeCloseTo(2 * standard!, 9);
  });

  test('an exact linear model is exact, a missing neighbour is told', () => {
    const sum = propagate<'a' | 'b'>((x) => 3 * x.a - 4 * x.b, {
      a: { value: 1, standard: 0.1 },
      b: { value: 0, standard: 0.2 },
    });
    expect(sum.standard).toBeCloseTo(Math.hypot(0.3, 0.8), 12);
    expect(propagate((x) => (x.a > 1 ? Number.NaN : 1), { a: { value: 1, standard: 0.1 } }).standard).toBeNull();
    expect(() => propagate((x) => x.a, { a: { value: 1, standard: Number.NaN } })).toThrow(RangeError);
  });
});
