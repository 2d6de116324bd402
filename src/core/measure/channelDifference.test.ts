import { describe, expect, it } from 'vitest';
import { statement } from '../words/statement.ts';
import { channelDifference } from './channelDifference.ts';
import { largestAstray } from './largestAstray.ts';
import type { ResponseFigures } from './responseFigures.ts';
import type { ResponseSource } from './responseSources.ts';

const chain = { flat: true, preamp: null, record: null };
const steps = (fromHz: number, toHz: number): number[] => {
  const hz: number[] = [];
  for (let k = Math.ceil(24 * Math.log2(fromHz / 1000)); 1000 * 2 ** (k / 24) <= toHz; k++)
    hz.push(1000 * 2 ** (k / 24));
  return hz;
};
/** Left over right in dB; flat otherwise. */
function source(
  driven: ResponseSource['driven'],
  hz: readonly number[],
  apart: (hz: number) => number,
  spreadDb = 1e-4,
  band = 3,
): ResponseSource {
  const points = hz.map((f) => ({
    hz: f,
    left: 10 ** (apart(f) / 20),
    right: 10 ** (-apart(f) / 20),
    re: 0,
    im: 0,
    spreadDb,
    noise: 0,
    spectra: 1,
  }));
  return {
    band,
    kind: 'sweep',
    driven,
    antiphase: false,
    law: 'constant-velocity',
    lawStated: true,
    cutDb: 0,
    seconds: 30,
    points,
  };
}
function told(...sources: ResponseSource[]) {
  const into: ResponseFigures = { findings: [], curves: [], problems: [] };
  channelDifference(sources, chain, into);
  return into;
}
const wide = steps(20, 20_000);
const slope = (perOctave: number) => (hz: number) => perOctave * Math.log2(hz / 1000);

describe('difference of the channels', () => {
  it('left over right against 1 kHz; the largest of the whole and of each span that is reached', () => {
    const { findings, curves } = told(source('both', wide, slope(0.3)));
    expect(curves).toHaveLength(1);
    expect(curves[0]).toMatchObject({ quantity: 'channel-difference', xUnit: 'Hz', yUnit: 'dB' });
    curves[0].x.forEach((hz, i) => {
      expect(Math.abs(curves[0].y[i] - slope(0.3)(hz))).toBeLessThan(0.01);
    });
    expect(findings.map(({ quantity }) => quantity)).toEqual([
      'channel-difference',
      'channel-difference-40-12500',
      'channel-difference-100-10000',
      'channel-difference-315-6300',
    ]);
    const [whole, din] = findings;
    const [x] = curves.map((curve) => curve.x);
    expect(whole).toEqual({
      quantity: 'channel-difference',
      value: expect.closeTo(0.3 * Math.log2(1000 / x[0]), 2),
      unit: 'dB',
      uncertainty: expect.closeTo(0.04, 3),
      bands: [3],
      notes: [
        statement('difference-span', { fromHz: x[0], toHz: x[x.length - 1], db: curves[0].y[0], hz: x[0] }),
        statement('difference-below'),
      ],
    });
    expect(din.notes[1]).toEqual(statement('span-by-din'));
    expect(din.value).toBeCloseTo(0.3 * Math.log2(25), 1);
  });

  it('what lies above 5 kHz is said to be the top', () => {
    const top = (hz: number) =>
      told(source('both', wide, (f) => (Math.abs(Math.log2(f / hz)) < 0.1 ? -2 : 0))).findings[0];
    expect(top(5400).notes.at(-1)).toEqual(statement('difference-at-top'));
    expect(top(4600).notes.at(-1)).toEqual(statement('difference-below'));
    expect(top(5400).value).toBeCloseTo(2, 2);
  });

  it('noise of both channels is in it, what it adds to the largest taken off and said', () => {
    const { findings, curves } = told(source('both', wide, slope(0), 0.3));
    // the anchor is the mean of the points within a sixth of an octave about 1 kHz
    const about = curves[0].x.filter((hz) => Math.abs(Math.log2(hz / 1000)) <= 1 / 6).length;
    const spread = Math.SQRT2 * Math.hypot(0.3, 0.3 / Math.sqrt(about));
    const astray = largestAstray(
      curves[0].y,
      curves[0].x.map(() => spread),
      curves[0].x.map((_, i) => i),
      3,
    );
    expect(findings[0].value).toBeCloseTo(astray.size, 9);
    expect(findings[0].uncertainty).toBeCloseTo(Math.hypot(2 * spread, 0.04, astray.excess), 6);
  });

  it('a sweep of both walls comes before a pair of one-sided ones; of a pair each tells its own channel', () => {
    const pair = [source('left', wide, slope(0.2), 1e-4, 5), source('right', wide, slope(-0.4), 1e-4, 6)];
    const apart = told(...pair);
    expect(apart.findings[0].bands).toEqual([5, 6]);
    // half from the left's own, half from the right's
    apart.curves[0].x.forEach((hz, i) => {
      expect(Math.abs(apart.curves[0].y[i] - slope(-0.1)(hz))).toBeLessThan(0.02);
    });
    expect(told(...pair, source('both', wide, slope(0), 1e-4, 7)).findings[0].bands).toEqual([7]);
    expect(told(pair[0]).findings).toEqual([]);
    expect(told()).toEqual({ findings: [], curves: [], problems: [] });
  });

  it('fewer than ten points, or less than two octaves, say nothing', () => {
    const count = (hz: readonly number[]): number => told(source('both', hz, slope(0))).findings.length;
    expect(count(steps(480, 1950))).toBeGreaterThan(0);
    expect(count(steps(520, 1950))).toBe(0);
    const sparse = (n: number): number[] => Array.from({ length: n }, (_, i) => 250 * 2 ** (i / 2)).slice(0, n);
    expect(count([...sparse(9)])).toBe(0);
    expect(count([...sparse(10)])).toBeGreaterThan(0);
    // what lies beyond what is heard does not count
    expect(count([5, 8, 10, 12, ...sparse(6)])).toBe(0);
  });
});
