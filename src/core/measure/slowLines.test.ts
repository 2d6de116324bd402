import { describe, expect, it } from 'vitest';
import { atOnce } from '../signal/steps.ts';
import { type SlowLine, slowLinesInSteps } from './slowLines.ts';

const RATE_HZ = 20;
const trace = (lengthS: number, of: (t: number) => number) => {
  const count = Math.round(lengthS * RATE_HZ);
  return {
    rateHz: RATE_HZ,
    startS: 5,
    meanHz: 3150,
    groupS: 1 / RATE_HZ,
    // from the middle
    deviation: Float64Array.from({ length: count }, (_, n) => of((n - (count - 1) / 2) / RATE_HZ)),
  };
};
const lines = (lengthS: number, of: (t: number) => number): SlowLine[] => atOnce(slowLinesInSteps(trace(lengthS, of)));
const wave = (hz: number, cos: number, sin: number) => (t: number) =>
  cos * Math.cos(2 * Math.PI * hz * t) + sin * Math.sin(2 * Math.PI * hz * t);
const sum =
  (...of: ((t: number) => number)[]) =>
  (t: number) =>
    of.reduce((s, one) => s + one(t), 0);
const size = ({ cos, sin }: SlowLine): number => Math.hypot(cos, sin);

describe('the slow lines of a trace', () => {
  it('have frequency, size and phase, whole turns or not', () => {
    for (const hz of [0.5, 0.5556, 1.3, 2.7]) {
      const [one] = lines(
        20,
        sum(wave(hz, 0.3e-3, -0.8e-3), () => 2e-4),
      );
      expect(one.hz).toBeCloseTo(hz, 2);
      expect(one.cos).toBeCloseTo(0.3e-3, 5);
      expect(one.sin).toBeCloseTo(-0.8e-3, 5);
    }
  });

  it('are told one after the other, the strongest first, fitted together', () => {
    const found = lines(30, sum(wave(0.55, 1e-3, 0), wave(1.1, 0, 5e-4), wave(2.4, 2.5e-4, 0)));
    expect(found.slice(0, 3).map(({ hz }) => Math.round(100 * hz) / 100)).toEqual([0.55, 1.1, 2.4]);
    expect(size(found[0])).toBeCloseTo(1e-3, 5);
    expect(found[1].sin).toBeCloseTo(5e-4, 5);
    expect(found[2].cos).toBeCloseTo(2.5e-4, 5);
  });

  it('are six at most', () => {
    const seven = [0.4, 0.8, 1.2, 1.6, 2, 2.4, 2.8].map((hz, i) => wave(hz, 1e-3 * 0.8 ** i, 0));
    expect(lines(40, sum(...seven))).toHaveLength(6);
  });

  it('end at 3 Hz; of less than one whole period there is none', () => {
    expect(lines(20, wave(3.4, 1e-3, 0)).every(({ hz }) => hz <= 3.05)).toBe(true);
    const [one] = lines(20, wave(2.95, 1e-3, 0));
    expect(one.hz).toBeCloseTo(2.95, 2);
    expect(lines(20, wave(0.02, 1e-3, 0)).every(({ hz }) => hz > 0.045)).toBe(true);
  });

  it('a line that takes away less than a twentieth is none', () => {
    // noise over 200 values: each line of it is some hundredth
    const noise = (t: number) => {
      const x = Math.sin((t + 77) * 12.9898) * 43_758.5453;
      return 1e-3 * (x - Math.floor(x) - 0.5);
    };
    expect(lines(60, noise)).toEqual([]);
    const [strong, ...rest] = lines(60, sum(noise, wave(1, 1e-3, 0)));
    expect(strong.hz).toBeCloseTo(1, 2);
    expect(rest).toEqual([]);
    expect(lines(60, sum(noise, wave(1, 0.09e-3, 0)))).toEqual([]);
    expect(lines(60, sum(noise, wave(1, 0.14e-3, 0)))).toHaveLength(1);
  });

  it('nothing moves in a trace that stands still, or lasts less than two seconds', () => {
    expect(lines(1.9, wave(1, 1e-3, 0))).toEqual([]);
    expect(lines(2, wave(1, 1e-3, 0))).not.toEqual([]);
    expect(lines(20, () => 0).every((one) => size(one) === 0)).toBe(true);
  });

  it('two lines lie four fifths of a resolvable distance apart at least', () => {
    const found = lines(20, sum(wave(1, 1e-3, 0), wave(1.07, 0, 1e-3), wave(0.96, 5e-4, 5e-4)));
    found.forEach(({ hz }, i) => {
      for (const other of found.slice(i + 1)) expect(Math.abs(other.hz - hz) * 20).toBeGreaterThan(0.75);
    });
  });

  it('come in a step each', () => {
    const steps = slowLinesInSteps(trace(20, wave(1, 1e-3, 0)));
    let count = 0;
    for (let step = steps.next(); step.done !== true; step = steps.next()) count += 1;
    // the line, and one more that is none
    expect(count).toBeGreaterThanOrEqual(2);
    expect(count).toBeLessThanOrEqual(6);
  });
});
