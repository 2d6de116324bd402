import { describe, expect, it } from 'vitest';
import { coverageFactor } from '../signal/robust.ts';
import { madeSide, madeTone } from './handMade.fixture.ts';
import { speedDriftFigure, speedLine } from './speedDrift.ts';

/** Tones of 1 kHz too short for a turn, so that their mean is as written: `ratio` off at a time. */
const tone = (index: number, atS: number, ratio: number, usedS = 4) => {
  const meanHz = 1000 * (1 + ratio);
  return madeTone({
    band: { index, frequencyHz: meanHz },
    usedS,
    startS: atS - 3,
    endS: atS + 3,
    segments: [{ trace: { rateHz: 20, startS: atS, meanHz, deviation: new Float64Array(20), groupS: 0.05 } }],
  });
};
const drift = (...tones: ReturnType<typeof tone>[]) => speedDriftFigure(madeSide({ tones }));

describe('the line through the means', () => {
  const at = (atS: number, value: number, spread = 1e-4) => ({ atS, value, variance: spread ** 2 });

  it('weighs each by its variance', () => {
    const line = speedLine([at(0, 0), at(100, 1e-3), at(300, 0, 2e-4)])!;
    // weights 4, 4, 1 by hand: means 700/9 s and 4e-3/9
    expect(line.middleS).toBeCloseTo(700 / 9, 1);
    expect(line.level).toBeCloseTo(4e-3 / 9, 7);
    const [sxx, sxy] = [
      4 * (700 / 9) ** 2 + 4 * (200 / 9) ** 2 + (2000 / 9) ** 2,
      4 * (-700 / 9) * (-4e-3 / 9) + 4 * (200 / 9) * (5e-3 / 9) + (2000 / 9) * (-4e-3 / 9),
    ];
    expect(line.slope).toBeCloseTo(sxy / sxx, 8);
  });

  it('what scatters about it by more widens it, by Student’s t of what is left', () => {
    const means = [at(0, 0), at(100, 1e-3), at(200, -1e-3), at(300, 0)];
    const line = speedLine(means)!;
    const weight = 1 / (1e-8 + 4e-12);
    const slope = (50 * -2e-3) / 50_000;
    const chi2 = means.reduce((sum, { atS, value }) => sum + weight * (value - slope * (atS - 150)) ** 2, 0);
    expect(line.slope).toBeCloseTo(slope, 12);
    expect(line.spread).toBeCloseTo((coverageFactor(2) / 2) * Math.sqrt(chi2 / 2 / (weight * 50_000)), 12);
    // two are on their line whatever they allow
    expect(speedLine([at(0, 0), at(100, 1)])!.spread).toBeCloseTo(Math.sqrt((1e-8 + 4e-12) / 5000), 12);
  });

  it('a minute apart is enough', () => {
    expect(speedLine([at(70, 0), at(10, 0)])?.overS).toBe(60);
    expect(speedLine([at(69.9, 0), at(10, 0)])).toBeNull();
    expect(speedLine([])).toBeNull();
  });
});

describe('as a figure', () => {
  it('is the slope a minute, with what lathe and inward path may do over the side', () => {
    const { findings, curves } = drift(tone(1, 30, 0), tone(0, 150, 2e-3), tone(2, 90, 1e-3));
    expect(findings).toHaveLength(1);
    const [{ budget, uncertainty, repeatability, ...figure }] = findings;
    expect(figure).toEqual({
      quantity: 'speed-drift',
      value: expect.closeTo(0.1, 9),
      unit: '%/min',
      bands: [1, 0, 2],
      notes: [
        { code: 'speed-drift-over', values: { minutes: 2, percent: expect.closeTo(0.2, 9) } },
        { code: 'speed-drift-do', values: {} },
      ],
    });
    const size = (code: string) => budget?.find(({ of }) => of.code === code)?.size;
    expect(size('cut-speed')).toBeCloseTo(0.005, 12);
    expect(size('inward-path')).toBeCloseTo(0.006, 12);
    expect(size('signal')).toBe(repeatability);
    // a tone of a second says as little as 0.1 % of wow in 0.556 turns: each 1e-3/(√2 · 0.556 π)
    const each = 1e-3 / (Math.SQRT2 * Math.PI * (20 / 20) * (100 / 180));
    const own = (2 * 6000 * Math.sqrt(each ** 2 + 4e-12)) / Math.sqrt(7200);
    expect(repeatability).toBeCloseTo(own, 4);
    expect(uncertainty).toBeCloseTo(Math.hypot(own, 0.005, 0.006), 4);
    const x = [30, 90, 150];
    const of = { quantity: 'speed-over-side', x, xUnit: 's', yUnit: '%' };
    const near = (...y: number[]) => y.map((v) => expect.closeTo(v, 9));
    expect(curves).toEqual([
      { ...of, name: 'mean of each tone', y: near(0, 0.1, 0.2) },
      { ...of, name: 'the line that fits', y: near(0, 0.1, 0.2) },
    ]);
  });

  it('is worth a word where it stands out of what the means leave open, and is five in ten thousand', () => {
    const said = (end: number, lengthS: number) => {
      const long = (index: number, atS: number, ratio: number) => {
        const one = tone(index, atS, ratio);
        const [segment] = one.reading.segments;
        const trace = { ...segment.trace, deviation: new Float64Array(20 * lengthS) };
        return { ...one, reading: { ...one.reading, segments: [{ ...segment, trace }] } };
      };
      return drift(long(0, 0, 0), long(1, 300, end)).findings[0].notes.map(({ code }) => code);
    };
    expect(said(5.1e-4, 36)).toEqual(['speed-drift-over', 'speed-drift-do']);
    expect(said(-5.1e-4, 36)).toEqual(['speed-drift-over', 'speed-drift-do']);
    expect(said(4.9e-4, 36)).toEqual(['speed-drift-over']);
    // of short tones it may be wow
    expect(said(5.1e-4, 1)).toEqual(['speed-drift-over']);
  });

  it('tones of three seconds count, of less do not', () => {
    expect(drift(tone(0, 0, 0, 3), tone(1, 100, 0, 3)).findings).toHaveLength(1);
    expect(drift(tone(0, 0, 0, 3), tone(1, 100, 0, 2.99))).toEqual({ findings: [], curves: [] });
    expect(drift(tone(0, 0, 0), tone(1, 59, 0))).toEqual({ findings: [], curves: [] });
    expect(drift()).toEqual({ findings: [], curves: [] });
    expect(drift(tone(0, 0, 0), tone(1, 100, 0.3))).toEqual({ findings: [], curves: [] });
  });

  it('a tone half a percent off the middle one has another nominal', () => {
    const bands = (ratio: number) =>
      drift(tone(0, 0, 0), tone(1, 100, 0), tone(2, 200, ratio), tone(3, 300, 1e-4)).findings[0].bands;
    expect(bands(0.00509)).toEqual([0, 1, 2, 3]);
    expect(bands(0.00511)).toEqual([0, 1, 3]);
    expect(bands(-0.0051)).toEqual([0, 1, 3]);
  });
});
