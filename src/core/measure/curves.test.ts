import { describe, expect, it } from 'vitest';
import { traceCurves } from './curves.ts';
import { segmentOf, toneOf } from './toneBands.fixture.ts';
import type { SegmentFigures, SegmentFlutter } from './toneEstimator.ts';

const made = { hz: 3150, driven: 'both', band: { index: 4 } } as const;
const trace = (deviation: readonly number[], startS = 1, rateHz = 20, meanHz = 3150): Partial<SegmentFigures> => ({
  trace: { rateHz, startS, meanHz, deviation: Float64Array.from(deviation), groupS: 1 / rateHz },
});
const toneWith = (...segments: Partial<SegmentFigures>[]) =>
  toneOf({ ...made, segments: segments.map((more) => segmentOf(made, more)) });

describe('speed against time', () => {
  it('in per cent of the tone’s own mean, segment after segment', () => {
    const tone = toneWith(trace([0.01, -0.01]), trace([0.02], 5, 20, 3150 * 1.001));
    expect(traceCurves([tone], null)).toEqual([
      {
        quantity: 'speed-deviation',
        band: 4,
        x: [1, 1.05, 5],
        y: [expect.closeTo(1, 9), expect.closeTo(-1, 9), expect.closeTo(100 * (1.02 * 1.001 - 1), 9)],
        xUnit: 's',
        yUnit: '%',
      },
    ]);
  });

  it('neighbours are averaged so that at most 1500 points are left, a rest that fills no group is dropped', () => {
    const curve = (count: number) =>
      traceCurves([toneWith(trace(Array.from({ length: count }, (_, i) => i)))], null)[0];
    expect(curve(1500).y).toHaveLength(1500);
    const two = curve(1501);
    expect(two.y).toHaveLength(750);
    expect(two.y[0]).toBeCloseTo(50, 9);
    expect(two.y[749]).toBeCloseTo(149_850, 6);
    expect(two.x[1]).toBeCloseTo(1 + 2.5 / 20, 12);
    expect(curve(3001).y).toHaveLength(1000);
  });
});

describe('speed against the platter’s turning', () => {
  const turn = (tone: ReturnType<typeof toneOf>, rotationHz: number) =>
    traceCurves([tone], rotationHz).filter(({ quantity }) => quantity === 'speed-against-turn');

  it('36 points a turn, each the mean of what lies in its ten degrees, counted from the turn it starts in', () => {
    // 72 values a turn: two in each point; the trace starts a quarter into the third turn
    const deviation = Array.from({ length: 72 }, (_, n) => n / 1000);
    const [curve, ...others] = turn(toneWith(trace(deviation, 2.25 / 0.5 + 1e-6, 36)), 0.5);
    expect(others).toEqual([]);
    expect(curve).toMatchObject({ band: 4, xUnit: 'deg', yUnit: '%' });
    expect(curve.x).toHaveLength(36);
    expect(curve.x[0]).toBeCloseTo(95, 9);
    expect(curve.x[35]).toBeCloseTo(445, 9);
    expect(curve.y[0]).toBeCloseTo(0.05, 9);
    expect(curve.y[1]).toBeCloseTo(0.25, 9);
    expect(curve.y[35]).toBeCloseTo(7.05, 9);
  });

  it('goes on over segments, each by its own mean', () => {
    const [curve] = turn(toneWith(trace([0.01, 0.01], 0, 36), trace([0, 0], 2, 36, 3150 * 1.02)), 0.5);
    expect(curve.x.map((v) => Math.round(v))).toEqual([5, 365]);
    expect(curve.y[0]).toBeCloseTo(1, 9);
    expect(curve.y[1]).toBeCloseTo(2, 9);
  });

  it('ends after 24 turns, and is none of fewer than two points', () => {
    const [curve] = turn(toneWith(trace(new Array(1000).fill(0), 0.001, 36)), 1);
    expect(curve.x).toHaveLength(24 * 36);
    expect(turn(toneWith(trace([0.01], 0, 36)), 0.5)).toEqual([]);
    expect(turn(toneWith(trace([0.01, 0.02], 0, 360)), 0.5)).toEqual([]);
    expect(turn(toneWith(trace([])), 0.5)).toEqual([]);
    expect(turn(toneWith(trace([0.01, 0.02, 0.03], 0.001, 36)), 0.5)[0].x).toHaveLength(2);
  });
});

it('the spectrum of the first segment that has wow and flutter, in per cent; none where that keeps none', () => {
  const flutter = (spectrum: SegmentFlutter['spectrum']) => ({ flutter: { spectrum } as SegmentFlutter });
  const spectra = (...segments: Partial<SegmentFigures>[]) =>
    traceCurves([toneWith(...segments)], null).filter(({ quantity }) => quantity === 'speed-deviation-spectrum');
  const some = { hz: [1, 2], peak: [0.01, 0.002] };
  expect(spectra({}, flutter(some))).toEqual([
    { quantity: 'speed-deviation-spectrum', band: 4, x: [1, 2], y: [1, 0.2], xUnit: 'Hz', yUnit: '%' },
  ]);
  expect(spectra(flutter(null), flutter(some))).toEqual([]);
  expect(spectra({})).toEqual([]);
  expect(traceCurves([], 0.5)).toEqual([]);
});
