import { describe, expect, test } from 'vitest';
import { pivotedArm, type TangentialArm } from './arm.ts';
import {
  armFigures,
  errorTangents,
  harmonicScale,
  peakOfTangents,
  peaks,
  peakWeighted,
  reachesSpan,
  rmsWeighted,
  spreadRadii,
} from './distortion.ts';
import { errorWithinReach, weightedError } from './law.ts';
import { ownSpan } from './span.ts';

const tangential = (overhang: number, offset: number): TangentialArm => ({ kind: 'tangential', overhang, offset });
const span = ownSpan(60, 146);

test('the second harmonic is the peak velocity against the groove’s speed', () => {
  // 10 cm/s at 60 turns a minute: 100 mm/s over 2π mm/s for each mm of radius
  expect(harmonicScale({ peakVelocityCmS: 10, rpm: 60 })).toBeCloseTo(100 / (2 * Math.PI), 10);
  expect(harmonicScale({ peakVelocityCmS: 5, rpm: 30 })).toBeCloseTo(100 / (2 * Math.PI), 10);
});

test('an arm reaches from the difference of its lengths to their sum, both counted', () => {
  const is = (L: number, inner: number, outer: number) => {
    const reached = reachesSpan(pivotedArm(100, L, 0), ownSpan(inner, outer));
    return reached.found || reached.why;
  };
  expect(is(130, 30, 140)).toBe(true);
  expect(is(70, 30, 140)).toBe(true);
  expect(is(130.1, 30, 140)).toEqual({
    code: 'groove-too-near',
    values: { radiusMm: 30, leastMm: expect.closeTo(30.1, 9) },
  });
  expect(is(60, 50, 160)).toBe(true);
  expect(is(60, 50, 160.1)).toEqual({ code: 'groove-too-far', values: { radiusMm: 160.1, mostMm: 160 } });
  expect(reachesSpan(tangential(-60, 0), span)).toEqual({ found: true, value: true });
  expect(reachesSpan(tangential(-60.1, 0), span)).toMatchObject({ found: false, why: { code: 'groove-too-near' } });
});

describe('peaks', () => {
  const arms = [
    pivotedArm(222, 239.3, 0.401),
    pivotedArm(222, 239.3, 0.2),
    pivotedArm(222, 239.3, -0.3),
    pivotedArm(222, 210, 0),
    pivotedArm(222, 215, -0.1),
    pivotedArm(400, 409, 0.22),
    pivotedArm(90, 130, 0.8),
    tangential(10, 0.1),
    tangential(-10, -0.12),
    tangential(10, -0.1),
    tangential(0, 0.05),
  ];
  test.each(arms)('are both ends and every turn between, as a walk along the span finds them: %j', (arm) => {
    const N = 20_000;
    const at = (i: number): number => weightedError(arm, 60 + (86 * i) / N);
    const turns: number[] = [];
    for (let i = 1; i < N; i++) if (at(i) - at(i - 1) > 0 !== at(i + 1) - at(i) > 0) turns.push(60 + (86 * i) / N);
    const found = peaks(arm, span);
    expect(found.map(({ radius }) => radius)).toEqual([60, ...turns.map((r) => expect.closeTo(r, 2)), 146]);
    for (const { radius, weighted } of found) expect(weighted).toBe(weightedError(arm, radius));
    let most = 0;
    for (let i = 0; i <= N; i++) most = Math.max(most, Math.abs(at(i)));
    expect(peakWeighted(arm, span) / most).toBeCloseTo(1, 6);
  });
});

test('tangents without an angle are those of the angle, of either kind of arm, both signs', () => {
  const radii = [60, 75, 100, 146];
  for (const arm of [
    pivotedArm(222, 239.3, 0.4),
    pivotedArm(222, 210, -0.3),
    tangential(10, 0.3),
    tangential(-30, 0.2),
  ]) {
    const into = new Float64Array(4);
    expect(errorTangents(arm, radii, into)).toBe(into);
    radii.forEach((r, i) => void expect(into[i]).toBeCloseTo(Math.tan(errorWithinReach(arm, r)), 11));
  }
});

test('a cartridge across the groove has the largest tangent that is calculated with, signed', () => {
  // θ = ±90° less 60° the other way: past a right angle
  expect([...errorTangents(tangential(60, -Math.PI / 3), [60], new Float64Array(1))]).toEqual([1e6]);
  expect([...errorTangents(tangential(-60, Math.PI / 3), [60], new Float64Array(1))]).toEqual([-1e6]);
});

describe('the peak from equally spaced values', () => {
  const peak = (values: readonly number[], radii: readonly number[]): number =>
    peakOfTangents(Float64Array.from(values), radii);
  // tangents for which tangent / radius is a known curve
  const of = (f: (r: number) => number, radii: readonly number[]): number =>
    peak(
      radii.map((r) => r * f(r)),
      radii,
    );

  test('lies on the parabola through the highest and its neighbours', () => {
    const radii = [60, 70, 80, 90, 100];
    expect(of((r) => 5 - ((r - 77) / 10) ** 2, radii)).toBeCloseTo(5, 10);
    expect(of((r) => -5 + ((r - 83) / 10) ** 2, radii)).toBeCloseTo(5, 10);
    expect(of((r) => 5 - ((r - 80) / 10) ** 2, radii)).toBeCloseTo(5, 10);
  });

  test('at an end is that end’s value', () => {
    const radii = [60, 70, 80];
    expect(of((r) => r, radii)).toBeCloseTo(80, 10);
    expect(of((r) => -r, radii)).toBeCloseTo(80, 10);
    expect(of((r) => 100 - r, radii)).toBeCloseTo(40, 10);
    expect(of((r) => 5 - ((r - 61) / 10) ** 2, radii)).toBeCloseTo(4.99, 10);
    expect(of((r) => 5 - ((r - 79) / 10) ** 2, radii)).toBeCloseTo(4.99, 10);
  });

  test('of a level line is its height', () => {
    expect(of(() => 3, [60, 70, 80, 90])).toBeCloseTo(3, 10);
    expect(peak([60, 140, 160], [60, 70, 80])).toBeCloseTo(2.125, 10);
    expect(peak([0, 0, 0], [60, 70, 80])).toBe(0);
  });
});

test('radii are spread evenly from end to end', () => {
  expect(spreadRadii(ownSpan(60, 140), 5)).toEqual([60, 80, 100, 120, 140]);
  expect(spreadRadii(ownSpan(60, 140), 2)).toEqual([60, 140]);
});

test('the root of the mean square is weighted as its nodes are', () => {
  const arm = pivotedArm(222, 239.3, 0.401);
  const [a, b] = [weightedError(arm, 60), weightedError(arm, 100)];
  const nodes = [
    { radius: 60, weight: 1 },
    { radius: 100, weight: 3 },
  ];
  expect(rmsWeighted(arm, nodes)).toBeCloseTo(Math.sqrt((a * a + 3 * b * b) / 4), 14);
});

describe('figures', () => {
  test('the largest error stands at an end, or where the error itself turns between', () => {
    // the error turns where r² = L² − d²
    for (const [d, L, offset, at] of [
      [222, 239.3, 0.401, 146],
      [222, 239.3, 0.36, 146],
      [222, 239.3, 0.45, Math.sqrt(239.3 ** 2 - 222 ** 2)],
      [222, 230, 0.45, 60],
      [222, 230.01, 0.4, Math.sqrt(230.01 ** 2 - 222 ** 2)],
      [222, 210, 0.3, 60],
      [222, 210, -0.3, 146],
    ] as const) {
      const arm = pivotedArm(d, L, offset);
      const figures = armFigures(arm, span);
      if (!figures.found) throw new Error(figures.why.code);
      let most = 60;
      const size = (r: number): number => Math.abs(errorWithinReach(arm, r));
      for (let r = 60; r <= 146; r += 0.01) if (size(r) > size(most)) most = r;
      expect(Math.abs(figures.value.largestErrorAtMm - most), `${L} ${offset} at ${at}`).toBeLessThan(0.5);
      expect(figures.value.largestErrorDeg).toBeCloseTo(
        (errorWithinReach(arm, figures.value.largestErrorAtMm) * 180) / Math.PI,
        10,
      );
      expect(Math.abs(figures.value.largestErrorDeg)).toBeGreaterThanOrEqual((size(most) * 180) / Math.PI - 1e-9);
    }
  });

  test('a tangential arm, whole', () => {
    const arm = tangential(6, 0.05);
    const figures = armFigures(arm, ownSpan(60, 140), { peakVelocityCmS: 10, rpm: 60 });
    const all = peaks(arm, ownSpan(60, 140));
    const highest = all.reduce((a, b) => (Math.abs(b.weighted) > Math.abs(a.weighted) ? b : a));
    expect(figures).toEqual({
      found: true,
      value: {
        kind: 'tangential',
        spindleToPivotMm: null,
        effectiveLengthMm: null,
        overhangMm: 6,
        offsetDeg: (0.05 * 180) / Math.PI,
        linearOffsetMm: null,
        nullPointsMm: [6 / Math.sin(0.05)],
        peakDistortionPercent: expect.closeTo((100 * 100 * Math.abs(highest.weighted)) / (2 * Math.PI), 10),
        peakAtMm: 60,
        rmsDistortionPercent: expect.any(Number),
        largestErrorDeg: expect.closeTo(((Math.asin(0.1) - 0.05) * 180) / Math.PI, 10),
        largestErrorAtMm: 60,
      },
    });
  });

  test('out of reach has its reason', () => {
    expect(armFigures(pivotedArm(222, 300, 0.4), span)).toMatchObject({
      found: false,
      why: { code: 'groove-too-near' },
    });
  });
});
