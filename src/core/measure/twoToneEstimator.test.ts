/** A two-tone band as it is heard: its lines by the tones' own phases, whatever the speed does meanwhile. */
import { describe, expect, it } from 'vitest';
import type { Complex } from '../units/complex.ts';
import { TwoToneEstimator, type TwoToneReading } from './twoToneEstimator.ts';

const RATE_HZ = 10_000;
const [F1, F2] = [310, 2500];
const TURN_S = 0.6;
type Found = Extract<TwoToneReading, { found: true }>;

interface Channel {
  readonly lower: Complex;
  readonly upper: Complex;
  /** by their order m of f2 + m f1 */
  readonly sides: Readonly<Record<number, Complex>>;
}
const LEFT: Channel = {
  lower: { re: 0.3, im: 0 },
  upper: { re: 0.08, im: 0 },
  sides: {
    1: { re: 2e-3, im: -1e-3 },
    [-1]: { re: -1e-3, im: 3e-3 },
    2: { re: 5e-4, im: 2e-4 },
    [-2]: { re: -3e-4, im: 4e-4 },
  },
};
const RIGHT: Channel = {
  lower: { re: 0.25, im: 0.02 },
  upper: { re: 0.07, im: -0.01 },
  sides: {
    1: { re: -1e-3, im: 1e-3 },
    [-1]: { re: 2e-3, im: 1e-3 },
    2: { re: 1e-4, im: -2e-4 },
    [-2]: { re: 2e-4, im: 1e-4 },
  },
};
interface Made {
  readonly lengthS?: number;
  readonly left?: Channel;
  readonly right?: Channel;
  /** s of the groove passed, of s gone by */
  readonly passed?: (t: number) => number;
  readonly f1?: number;
  readonly f2?: number;
  readonly noise?: number;
  readonly gap?: readonly [number, number];
  readonly block?: number;
  readonly turnS?: number;
  readonly rateHz?: number;
}
function read({
  lengthS = 2.2,
  left = LEFT,
  right = RIGHT,
  passed = (t) => t,
  f1 = F1,
  f2 = F2,
  noise = 0,
  gap = [0, 0],
  block = 1700,
  turnS = TURN_S,
  rateHz = RATE_HZ,
}: Made): TwoToneReading {
  const frames = Math.round(lengthS * rateHz);
  let state = 4;
  const next = (): number => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 31 - 1;
  };
  const of = ({ lower, upper, sides }: Channel) =>
    Float64Array.from({ length: frames }, (_, n) => {
      const t = n / rateHz;
      if (t >= gap[0] && t < gap[1]) return 0;
      const [p1, p2] = [2 * Math.PI * f1 * passed(t), 2 * Math.PI * f2 * passed(t)];
      const line = (z: Complex, phase: number): number => z.re * Math.cos(phase) - z.im * Math.sin(phase);
      const beside = Object.entries(sides).reduce((s, [m, z]) => s + line(z, p2 + Number(m) * p1), 0);
      return line(lower, p1) + line(upper, p2) + beside + noise * next();
    });
  const [l, r] = [of(left), of(right)];
  const listening = new TwoToneEstimator(rateHz, { frequenciesHz: [F1, F2], turnS });
  for (let at = 0; at < frames; at += block) {
    const one = l.subarray(at, at + block);
    listening.push({ startFrame: at, frames: one.length, left: one, right: r.subarray(at, at + block) });
  }
  const reading = listening.result();
  listening.end();
  return reading;
}
const found = (made: Made): Found => {
  const reading = read(made);
  if (!reading.found) throw new Error('not found');
  return reading;
};
const times = (a: Complex, b: Complex): Complex => ({ re: a.re * b.re - a.im * b.im, im: a.re * b.im + a.im * b.re });
const turned = (z: Complex, rad: number): Complex => times(z, { re: Math.cos(rad), im: Math.sin(rad) });
/** The phase that both channels' tone has: right turned onto left, half their sum. */
function phaseOf(l: Complex, r: Complex): number {
  const cross = times(l, { re: r.re, im: -r.im });
  const both = turned(r, Math.atan2(cross.im, cross.re));
  return Math.atan2(l.im + both.im, l.re + both.re);
}
function expected(of: Channel, left = LEFT, right = RIGHT) {
  const [one, two] = [phaseOf(left.lower, right.lower), phaseOf(left.upper, right.upper)];
  return {
    lower: turned(of.lower, -one),
    upper: turned(of.upper, -two),
    plus: turned(of.sides[1], -two - one),
    minus: turned(of.sides[-1], one - two),
    plus2: turned(of.sides[2], -two - 2 * one),
    minus2: turned(of.sides[-2], 2 * one - two),
  };
}
const agrees = (reading: Found, digits: number, left = LEFT, right = RIGHT): void => {
  for (const [told, of] of [
    [reading.left, expected(left, left, right)],
    [reading.right, expected(right, left, right)],
  ] as const)
    for (const [name, { re, im }] of Object.entries(of)) {
      const line = told[name as keyof typeof told]!;
      expect(line.re, name).toBeCloseTo(re, digits);
      expect(line.im, name).toBeCloseTo(im, digits);
    }
};

describe('the lines of both channels', () => {
  it('come back with their phases against the two tones, over whole turns', () => {
    const reading = found({});
    agrees(reading, 4);
    expect(reading.turns).toBe(3);
    expect(reading.usedS).toBeCloseTo(3 * TURN_S, 2);
    expect(reading.frequenciesHz[0]).toBeCloseTo(F1, 2);
    expect(reading.frequenciesHz[1]).toBeCloseTo(F2, 2);
  });

  it('whatever the speed does: off by 1 %, and with wow once per turn', () => {
    const passed = (t: number) => 1.01 * t + 0.0006 * Math.sin((2 * Math.PI * t) / TURN_S + 1);
    const reading = found({ passed });
    agrees(reading, 4);
    expect(reading.frequenciesHz[0] / F1).toBeCloseTo(1.01, 3);
    expect(reading.frequenciesHz[1] / F2).toBeCloseTo(1.01, 3);
  });

  it('where right is turned over, or carries nothing', () => {
    const over: Channel = { ...RIGHT, lower: { re: -0.25, im: 0.02 }, upper: { re: -0.07, im: -0.01 } };
    agrees(found({ right: over }), 4, LEFT, over);
    const none = { re: 0, im: 0 };
    const dead: Channel = { lower: none, upper: none, sides: {} };
    const { left, right } = found({ right: dead });
    expect(left.lower.re).toBeCloseTo(0.3, 4);
    expect(right.lower).toMatchObject({ re: 0, im: 0 });
  });

  it('come out the same wherever the blocks were cut', () => {
    const [one, other] = [found({ lengthS: 1 }), found({ lengthS: 1, block: 9999 })];
    expect(other.left.plus!.re).toBeCloseTo(one.left.plus!.re, 9);
    expect(other.usedS).toBe(one.usedS);
  });

  it('are as sure as the noise leaves their mean', () => {
    const noise = 0.01;
    const { left, right, usedS } = found({ noise });
    // of either part: 2 a²/3 over the samples of the time in use
    const plain = (2 * noise ** 2) / 3 / (usedS * RATE_HZ);
    for (const line of [left.plus!, left.minus!, right.plus2!, right.minus2!, left.upper]) {
      expect(line.variance / plain).toBeGreaterThan(0.3);
      expect(line.variance / plain).toBeLessThan(3);
    }
    expect(found({}).left.plus!.variance).toBeLessThan(0.01 * plain);
  });
});

describe('how much of a band is used', () => {
  it('whole turns, or all of it where there is none', () => {
    const { turns, usedS } = found({ lengthS: 1, turnS: 1.8 });
    expect(turns).toBe(0);
    expect(usedS).toBeGreaterThan(0.75);
    expect(usedS).toBeLessThan(1);
    expect(found({ lengthS: 1 }).turns).toBe(1);
    expect(found({ lengthS: 1 }).usedS).toBeCloseTo(TURN_S, 2);
  });

  it('what is too short, or holds one tone alone, or none, is not found', () => {
    expect(read({ lengthS: 0.45 })).toEqual({ found: false });
    const none = { re: 0, im: 0 };
    const without = (name: 'lower' | 'upper') =>
      read({ lengthS: 1, left: { ...LEFT, [name]: none, sides: {} }, right: { ...RIGHT, [name]: none, sides: {} } });
    expect(without('lower')).toEqual({ found: false });
    expect(without('upper')).toEqual({ found: false });
    expect(read({ lengthS: 0 })).toEqual({ found: false });
  });

  it('a hole counts for nothing, and does not spoil the rest', () => {
    const reading = found({ gap: [1, 1.05] });
    agrees(reading, 3);
    expect(reading.usedS).toBeLessThan(reading.turns * TURN_S - 0.05);
  });
});

it('a side line beyond the capture’s reach is none', () => {
  // 3500 + 400 = 3900 lies below 0.48 of 8 kHz no more, 3500 + 300 = 3800 does
  const heard = (lower: number, upper: number) => {
    const listening = new TwoToneEstimator(8000, { frequenciesHz: [lower, upper], turnS: 1.8 });
    const left = Float64Array.from({ length: 6400 }, (_, n) => {
      const turn = (2 * Math.PI * n) / 8000;
      return 0.3 * Math.cos(lower * turn) + 0.08 * Math.cos(upper * turn);
    });
    listening.push({ startFrame: 0, frames: left.length, left, right: left });
    const reading = listening.result();
    listening.end();
    if (!reading.found) throw new Error('not found');
    const { plus, minus, plus2, minus2 } = reading.left;
    return [plus, minus, plus2, minus2].map((line) => line !== null);
  };
  expect(heard(400, 3500)).toEqual([false, true, false, true]);
  expect(heard(300, 3500)).toEqual([true, true, false, true]);
  expect(heard(300, 3200)).toEqual([true, true, true, true]);
  // 700 − 2 · 345 = 10 Hz
  expect(heard(345, 700)).toEqual([true, true, true, false]);
});
