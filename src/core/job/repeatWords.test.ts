import { describe, expect, it } from 'vitest';
import { controlChart } from '../advise/repeat/controlChart.ts';
import { typeA } from '../measure/typeA.ts';
import { said } from '../words/said.fixture.ts';
import type { RepeatedFigure } from './repeats.ts';
import { repeatWords } from './repeatWords.ts';

const figure = (values: readonly number[], more: Partial<RepeatedFigure> = {}): RepeatedFigure => ({
  quantity: 'channel-balance',
  unit: 'dB',
  points: values.map((value, i) => ({ at: `2026-03-0${i + 1}`, value, job: 1 })),
  typeA: null,
  repeatability: null,
  chart: controlChart(values),
  ...more,
});
const codes = (values: readonly number[], more: Partial<RepeatedFigure> = {}) =>
  repeatWords(figure(values, more)).map(({ code }) => code);
const fewer = (list: readonly string[]) => list.filter((code) => code !== 'repeat-trend');

const rest = [1, 1.2, 0.9, 1.1, 1];

it('readings at rest are said as such, with how many; too few for limits as well', () => {
  expect(said(repeatWords(figure(rest)))).toEqual([
    'The last of 5 readings lies where the others lead one to expect it.',
  ]);
  expect(said(repeatWords(figure([1, 1.1])))).toEqual(['2 readings of this deck and record; limits need 5.']);
});

describe('what was read since the last move', () => {
  const since = { typeA: typeA([10, 11, 12]) };

  it('is said as mean and scatter, before anything else', () => {
    // t for 95.45 % and two degrees of freedom, 4.53 (JCGM 100, table G.2): 4.53 · 1/√3 = 2.6
    expect(said(repeatWords(figure([10, 11, 12], since)))).toEqual([
      '3 readings since anything was moved: mean 11.0 ± 2.7 dB (Type A, k for 95 %), one reading scatters by ± 1.0 dB (1 σ).',
      '3 readings of this deck and record; limits need 5.',
    ]);
  });

  it('scatters more than the signal allows from twice as much on, told by how much', () => {
    const scatters = (repeatability: number | null, of = since) =>
      repeatWords(figure([10, 11, 12], { ...of, repeatability })).find(({ code }) => code === 'repeat-scatters');
    expect(scatters(1)).toBeUndefined();
    expect(scatters(0.5)?.values).toEqual({ times: 4 });
    expect(scatters(0.99)?.values.times).toBeCloseTo(2 / 0.99, 12);
    expect(scatters(null)).toBeUndefined();
    expect(scatters(0)?.values.times).toBe(2e12);
    // two readings may lie apart by chance
    expect(scatters(0.01, { typeA: typeA([10, 12]) })).toBeUndefined();
  });
});

describe('the last reading of the chart', () => {
  it('is beyond its limits, or jumped, never both', () => {
    expect(fewer(codes([...rest, ...rest, 9]))).toEqual(['repeat-beyond']);
    const chart = controlChart(rest)!;
    const told = (...last: ('beyond' | 'jump' | 'run')[]) =>
      fewer(codes(rest, { chart: { ...chart, slope: 0, signals: [...chart.signals.slice(0, -1), last] } }));
    expect(told('jump')).toEqual(['repeat-jump']);
    expect(told('beyond', 'jump')).toEqual(['repeat-beyond']);
    expect(told('run')).toEqual(['repeat-run']);
    expect(told('jump', 'run')).toEqual(['repeat-jump', 'repeat-run']);
    expect(told()).toEqual(['repeat-in-control']);
  });

  it('is the last alone: what lay out before is past', () => {
    const chart = controlChart(rest)!;
    expect(
      codes(rest, { chart: { ...chart, signals: [['beyond', 'run', 'jump'], ...chart.signals.slice(1)] } }),
    ).toEqual(['repeat-in-control']);
  });
});

describe('a steady change', () => {
  const sloped = (slope: number, quantity = 'channel-balance') => {
    const chart = { ...controlChart(rest)!, slope, slopeSpread: 0.25 };
    return said(repeatWords(figure(rest, { quantity, chart })).slice(1));
  };

  it('is one of more than three of its uncertainties, told over all readings', () => {
    expect(sloped(0.75)).toEqual([]);
    expect(sloped(-0.75)).toEqual([]);
    // four steps
    expect(sloped(1)).toEqual(['It moves steadily, by +4.0 ± 2.0 dB over these readings.']);
    expect(sloped(-1)).toEqual(['It moves steadily, by −4.0 ± 2.0 dB over these readings.']);
  });

  it('is wear where the tip’s radius grows, and none where it shrinks', () => {
    expect(sloped(1, 'effective-tip-radius')).toEqual([
      'The radius rises steadily, by +4.0 ± 2.0 dB over these readings of one record: the tip wears. Look at it under a microscope.',
    ]);
    expect(sloped(-1, 'effective-tip-radius')).toEqual(['It moves steadily, by −4.0 ± 2.0 dB over these readings.']);
  });
});
