import { describe, expect, it } from 'vitest';
import { type Complex, magnitude, ONE, times } from '../units/complex.ts';
import { playbackResponse } from './playbackEqualisation.ts';
import type { AxisLines } from './twoToneAxes.ts';
import { solveTwoTone, type Undo } from './twoToneSolve.ts';
import { undoing } from './twoTones.ts';

const [F1, F2, V1] = [300, 3000, 5];
const [w1, w2] = [2 * Math.PI * F1, 2 * Math.PI * F2];
const [sum, difference, p] = [w2 + w1, w2 - w1, w1 * w2];
const LOWER: Complex = { re: 0.3, im: -0.4 };
const UPPER: Complex = { re: -0.06, im: 0.08 };
const VARIANCE = 1e-10;

interface Bends {
  readonly k?: number;
  readonly b?: number;
  readonly a?: number;
  readonly rho?: number;
}
/** J₁(β)/J₀(β) by their power series. */
function bessel(beta: number): number {
  let [j0, j1, term] = [0, 0, 1];
  for (let n = 0; n < 30; n++) {
    j0 += term;
    j1 += (term * (beta / 2)) / (n + 1);
    term *= -((beta / 2) ** 2) / (n + 1) ** 2;
  }
  return j1 / j0;
}

/** Side lines by the formulas, through a chain H that is put on each line at its own frequency. */
function lines(along: Bends, across: Bends, h: (hz: number) => Complex): AxisLines {
  const unit = { re: LOWER.re / magnitude(LOWER), im: LOWER.im / magnitude(LOWER) };
  const of = ({ k = 0, b = 0, a = 0, rho = 0 }: Bends) => {
    const scale = times(UPPER, { re: V1, im: 0 });
    const plus = { re: (k / 2) * (sum ** 2 / p) + b, im: (-a * sum) / p + rho * sum };
    const minus = { re: -(k / 2) * (difference ** 2 / p) + b, im: (a * difference) / p + rho * difference };
    return {
      lower: times(LOWER, h(F1)),
      upper: times(UPPER, h(F2)),
      plus: times(times(times(plus, scale), unit), h(F2 + F1)),
      minus: times(times(times(minus, scale), { re: unit.re, im: -unit.im }), h(F2 - F1)),
    };
  };
  return { along: of(along), across: of(across), variance: VARIANCE };
}
const plain: Undo = (line) => line;
const solve = (along: Bends, across: Bends, traced: 'along' | 'across', h: (hz: number) => Complex = () => ONE) =>
  solveTwoTone(lines(along, across, h), [F1, F2], V1, traced, h(F1) === ONE ? plain : undoing(false))!;

// so little that J₁/J₀ is β/2
const SMALL = 1e-8;
const lean = (sum ** 2 + difference ** 2) / (2 * p);

describe('the bends of the picture come back', () => {
  it.each([1, -1])('of a vertical band, the tip’s radius along it, with sign %d', (sign) => {
    const [k, b, a, rho] = [sign * SMALL, 3e-4, sign * -0.7, 2e-8];
    const told = solve({ k, b, a, rho }, {}, 'along');
    expect(told.k / k).toBeCloseTo(1, 6);
    expect(told.b).toBeCloseTo(b, 12);
    expect(told.a / a).toBeCloseTo(1, 9);
    expect(told.rho / rho).toBeCloseTo(1, 9);
    expect(told.spare).toBeNull();
  });

  it('of a lateral band the radius is across it, and one equation to spare tells what is left', () => {
    const told = solve({ k: SMALL, b: -2e-4, a: 0.3, rho: 5e-9 }, { k: 1e-3, rho: -3e-8 }, 'across');
    expect(told.k / SMALL).toBeCloseTo(1, 6);
    expect(told.rho / -3e-8).toBeCloseTo(1, 9);
    expect(told.spare! / ((5e-9 * (sum + difference)) / lean)).toBeCloseTo(1, 9);
  });

  it('through the playback equalisation, each line at its own frequency', () => {
    const told = solve({ k: SMALL, b: 3e-4, a: -0.7 }, { rho: 2e-8 }, 'across', playbackResponse);
    expect(told.k / SMALL).toBeCloseTo(1, 6);
    expect(told.b).toBeCloseTo(3e-4, 12);
    expect(told.a).toBeCloseTo(-0.7, 9);
    expect(told.rho / 2e-8).toBeCloseTo(1, 9);
  });

  it('a large swing of the upper tone’s phase has J₁/J₀ of its side lines', () => {
    for (const beta of [-1, -0.6, 0.05, 0.6, 1]) {
      const k = (beta * w1) / (V1 * w2);
      // what stands for k/2 in the lines is J₁/J₀ over β/2 of it
      const seen = (k * bessel(beta)) / (beta / 2);
      const told = solve({ k: seen }, {}, 'along');
      expect(told.k / k, `${beta}`).toBeGreaterThan(0.999);
      expect(told.k / k, `${beta}`).toBeLessThan(1.001);
    }
    expect(solve({}, {}, 'along').k).toBe(0);
  });

  it('the inverse of β + β³/8 + β⁵/48 + 11 β⁷/3072, to nine places', () => {
    const beta = 0.9;
    const x = beta + beta ** 3 / 8 + beta ** 5 / 48 + (11 * beta ** 7) / 3072;
    const told = solve({ k: (x * w1) / (V1 * w2) }, {}, 'along');
    expect((told.k * V1 * w2) / w1).toBeCloseTo(beta, 6);
  });
});

describe('how sure they are', () => {
  it('follows the noise of the side lines, against the upper tone and the velocity', () => {
    const told = solve({ k: SMALL, b: 2e-4, a: 0.4 }, {}, 'along');
    const variance = VARIANCE / (magnitude(UPPER) * V1) ** 2;
    expect(told.kVariance / ((2 * variance) / lean ** 2)).toBeCloseTo(1, 9);
    expect(told.rhoVariance / ((variance / 4) * (1 / sum ** 2 + 1 / difference ** 2))).toBeCloseTo(1, 9);
    const heard = solve({}, {}, 'along', playbackResponse);
    expect(heard.kVariance / ((2 * variance) / magnitude(playbackResponse(F2)) ** 2 / lean ** 2)).toBeCloseTo(1, 9);
  });

  it.each([
    ['a generator that bends', { k: SMALL, b: 2e-5, a: 0.04 }],
    ['a round tip', { k: SMALL, b: -1e-5, rho: 3e-8 }],
  ])('the lower tone’s phase moves k by what stands in quadrature: with %s', (_, bends) => {
    const told = solve(bends, {}, 'along');
    const turned = lines(bends, {}, () => ONE);
    for (const by of [1e-6, -1e-6]) {
      const lower = times(turned.along.lower, { re: Math.cos(by), im: Math.sin(by) });
      const off = solveTwoTone({ ...turned, along: { ...turned.along, lower } }, [F1, F2], V1, 'along', plain)!;
      expect((off.k - told.k) / by / told.kPerRadian).toBeCloseTo(1, 3);
    }
  });
});

it('nothing is told of a tone that is dead, or not cut', () => {
  const good = lines({ k: SMALL }, {}, () => ONE);
  const none = { re: 0, im: 0 };
  const of = (more: Partial<AxisLines['along']>, v1 = V1) =>
    solveTwoTone({ ...good, along: { ...good.along, ...more } }, [F1, F2], v1, 'along', plain);
  expect(of({})).not.toBeNull();
  expect(of({ lower: none })).toBeNull();
  expect(of({ upper: none })).toBeNull();
  expect(of({}, 0)).toBeNull();
});
