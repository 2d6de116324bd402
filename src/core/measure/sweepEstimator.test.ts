/** A sweep fed in blocks: levels of both channels and their product over frequency, with what noise lies there. */
import { beforeAll, describe, expect, it } from 'vitest';
import { SweepEstimator, type SweepPoint, type SweepReading } from './sweepEstimator.ts';

const RATE_HZ = 8000;
function chance(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 31 - 1;
  };
}
interface Made {
  readonly from?: number;
  readonly to?: number;
  readonly lengthS?: number;
  readonly law?: 'log' | 'linear';
  /** of left at a frequency; right is half of it, a quarter turn ahead */
  readonly size?: (hz: number) => number;
  readonly noise?: number;
  readonly hum?: number;
  readonly block?: number;
  readonly quietS?: number;
}
function read({
  from = 60,
  to = 3000,
  lengthS = 6,
  law = 'log',
  size = () => 0.1,
  noise = 1e-4,
  hum = 0,
  block = 1000,
  quietS = 0,
}: Made): SweepReading {
  const frames = Math.round((lengthS + quietS) * RATE_HZ);
  const k = Math.log(to / from) / lengthS;
  const slope = (to - from) / lengthS;
  const [l, r] = [chance(1), chance(2)];
  const [left, right] = [new Float64Array(frames), new Float64Array(frames)];
  for (let n = 0; n < frames; n++) {
    const t = n / RATE_HZ - quietS;
    const hz = law === 'log' ? from * Math.exp(k * t) : from + slope * t;
    const phase = 2 * Math.PI * (law === 'log' ? (hz - from) / k : from * t + (slope * t * t) / 2);
    const a = t < 0 ? 0 : size(hz);
    const line = hum * Math.cos(2 * Math.PI * 150 * t);
    left[n] = a * Math.cos(phase) + noise * l() + line;
    right[n] = (a / 2) * Math.cos(phase + Math.PI / 2) + noise * r() + line;
  }
  const pace = law === 'log' ? { perHz: Math.abs(k), perS: 0 } : { perHz: 0, perS: Math.abs(slope) };
  const listening = new SweepEstimator(RATE_HZ, { pace, rising: to > from });
  for (let at = 0; at < frames; at += block) {
    const one = left.subarray(at, at + block);
    listening.push({ startFrame: at, frames: one.length, left: one, right: right.subarray(at, at + block) });
  }
  const reading = listening.result();
  listening.end();
  return reading;
}
const dB = (power: number): number => 10 * Math.log10(power);
const inside = (points: readonly SweepPoint[], from: number, to: number) =>
  points.filter(({ hz }) => hz > from && hz < to);

describe.each([
  ['log upwards', { from: 60, to: 3000 }],
  ['log downwards', { from: 3000, to: 60 }],
  ['linear upwards', { from: 200, to: 3400, law: 'linear' }],
  ['linear downwards', { from: 3400, to: 200, law: 'linear' }],
] as const)('%s', (_, made) => {
  let { law, points }: SweepReading = { law: null, points: [] };
  let clear: readonly SweepPoint[] = [];
  const [low, high] = [Math.min(made.from, made.to), Math.max(made.from, made.to)];
  beforeAll(() => {
    ({ law, points } = read(made));
    clear = inside(points, low * 1.3, high / 1.15);
  });

  it('the law is told, and points go from end to end', () => {
    const { from, to } = made;
    const isLinear = 'law' in made;
    expect(law!.law).toBe(isLinear ? 'linear' : 'log');
    const [a, b] = isLinear ? [from, (to - from) / 6] : [Math.log(from), Math.log(to / from) / 6];
    expect(law!.a / a).toBeCloseTo(1, 2);
    expect(law!.b / b).toBeCloseTo(1, 2);
    expect(clear.length).toBeGreaterThan(0.7 * 24 * Math.log2(high / 1.15 / (low * 1.3)));
  });

  it('both levels and the product of the channels do not depend on frequency or pace', () => {
    for (const { hz, left, right, re, im } of clear) {
      expect(Math.abs(dB(left) + 20), `${hz} Hz`).toBeLessThan(0.15);
      expect(Math.abs(dB(right) + 26.02), `${hz} Hz`).toBeLessThan(0.15);
      // right is ahead by a quarter: + i
      expect(Math.abs(re / im), `${hz} Hz`).toBeLessThan(0.03);
      expect(Math.abs(dB(Math.abs(im)) + 23.01), `${hz} Hz`).toBeLessThan(0.15);
      expect(im).toBeGreaterThan(0);
    }
  });
});

describe('noise', () => {
  it('of a point is that of the bins that are summed, and taken off the level', () => {
    // as much in every bin: a level that is 20 dB over the noise in it would read 0.04 dB high
    const { points } = read({ noise: 0.01 });
    const clear = inside(points, 200, 2500);
    expect(clear.length).toBeGreaterThan(50);
    const off = clear.map(({ left }) => dB(left) + 20);
    expect(off.reduce((a, b) => a + b, 0) / off.length).toBeCloseTo(0, 1);
    for (const { noise, spreadDb } of clear) {
      // 2 a²/3 · 2/N over some bins of a window: well under the sweep, well over nothing
      expect(dB(noise) + 20).toBeLessThan(-20);
      expect(dB(noise) + 20).toBeGreaterThan(-55);
      expect(spreadDb).toBeLessThan(0.61);
    }
    const tenth = read({ noise: 0.001 }).points;
    const at = (of: readonly SweepPoint[]) => {
      const all = inside(of, 400, 1600).map(({ noise }) => dB(noise));
      return all.reduce((a, b) => a + b, 0) / all.length;
    };
    expect(at(points) - at(tenth)).toBeCloseTo(20, -1);
  });

  it('alone tells no sweep', () => {
    expect(read({ size: () => 0 })).toEqual({ law: null, points: [] });
  });

  it('before the sweep counts as well as beside it', () => {
    const { points } = read({ quietS: 3, noise: 1e-3 });
    for (const { left } of inside(points, 200, 2500)) expect(Math.abs(dB(left) + 20)).toBeLessThan(0.2);
  });
});

it('what the response makes of the level is heard', () => {
  const size = (hz: number): number => 0.1 * 2 ** Math.sin(Math.log2(hz));
  const { points } = read({ size, lengthS: 12 });
  for (const { hz, left } of inside(points, 120, 2500))
    expect(Math.abs(dB(left) - 20 * Math.log10(size(hz))), `${hz} Hz`).toBeLessThan(0.3);
});

it('a line of hum is no part of it: only where the sweep passes it there is no point', () => {
  const { law, points } = read({ hum: 0.05, lengthS: 8 });
  expect(law!.law).toBe('log');
  for (const { hz, left } of inside(points, 300, 2500)) expect(Math.abs(dB(left) + 20), `${hz} Hz`).toBeLessThan(0.2);
  expect(inside(points, 147, 153)).toEqual([]);
});

it('blocks may be cut anywhere', () => {
  const [one, other] = [read({ lengthS: 3 }), read({ lengthS: 3, block: 7777 })];
  expect(other.law!.b).toBeCloseTo(one.law!.b, 9);
  expect(other.points.map(({ hz }) => hz)).toEqual(one.points.map(({ hz }) => expect.closeTo(hz, 6)));
  expect(other.points.map(({ left }) => left)).toEqual(one.points.map(({ left }) => expect.closeTo(left, 9)));
});

it('a slow one is heard down to 8 Hz', () => {
  const { points } = read({ from: 5, to: 60, lengthS: 20 });
  const [lowest] = points;
  expect(lowest.hz).toBeGreaterThan(6);
  expect(lowest.hz).toBeLessThan(11);
  for (const { hz, left } of inside(points, 14, 50)) expect(Math.abs(dB(left) + 20), `${hz} Hz`).toBeLessThan(0.3);
});
