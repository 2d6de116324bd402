import { expect, test } from 'vitest';
import { pivotedArm } from './arm.ts';
import { armCurve, curveRadii, curvesToCsv } from './curve.ts';
import { errorWithinReach } from './law.ts';
import { ownSpan } from './span.ts';

test('radii: both ends and every whole step between, none of them twice', () => {
  expect(curveRadii(ownSpan(60.325, 64.2))).toEqual([60.325, 61, 62, 63, 64, 64.2]);
  expect(curveRadii(ownSpan(60, 63))).toEqual([60, 61, 62, 63]);
  expect(curveRadii(ownSpan(60, 63), 2)).toEqual([60, 62, 63]);
  expect(curveRadii(ownSpan(60, 61), 50)).toEqual([60, 61]);
  expect(curveRadii(ownSpan(99, 101), 50)).toEqual([99, 100, 101]);
  // 0.3 / 0.1 is a hair under 3: an end that is a whole step stands there once
  expect(curveRadii(ownSpan(20.1, 21.1), 0.1)).toHaveLength(11);
  expect(curveRadii(ownSpan(20.3, 21.4), 0.1)).toHaveLength(12);
  expect(curveRadii(ownSpan(57.6, 58.7), 0.1)).toHaveLength(12);
  for (const step of [0.05, 0.1, 0.3, 0.7, 7]) {
    for (const inner of [20, 20.1, 20.3, 57.5, 60.325]) {
      const radii = curveRadii(ownSpan(inner, inner + 5.6), step);
      radii.slice(1).forEach((r, i) => {
        expect(r - radii[i]).toBeGreaterThan(1e-9);
        expect(r - radii[i]).toBeLessThan(step + 1e-9);
      });
    }
  }
});

test('a step out of its bounds is refused, one at them is taken', () => {
  expect(() => curveRadii(ownSpan(60, 61), 0.049)).toThrow('step is 0.049 mm');
  expect(() => curveRadii(ownSpan(60, 61), 50.1)).toThrow('step is 50.1 mm');
  expect(curveRadii(ownSpan(60, 61), 0.05)).toHaveLength(21);
});

test('error and second harmonic at each radius, by the law', () => {
  const arm = pivotedArm(222, 239.3, 0.401);
  const loudness = { peakVelocityCmS: 8, rpm: 45 };
  const curve = armCurve(arm, ownSpan(60, 64), loudness, 2);
  // 8 cm/s against the groove's speed, 2π · 45/60 · r
  const point = (r: number) => {
    const error = errorWithinReach(arm, r);
    return {
      radiusMm: r,
      trackingErrorDeg: expect.closeTo((error * 180) / Math.PI, 10),
      secondHarmonicPercent: expect.closeTo((100 * 80 * Math.tan(error)) / (2 * Math.PI * 0.75 * r), 10),
    };
  };
  expect(curve).toEqual({ found: true, value: [60, 62, 64].map(point) });
  const usual = armCurve(arm, ownSpan(60, 64));
  expect(usual.found && usual.value.map(({ radiusMm }) => radiusMm)).toEqual([60, 61, 62, 63, 64]);
  expect(armCurve(pivotedArm(222, 290, 0.4), ownSpan(60, 64))).toMatchObject({
    found: false,
    why: { code: 'groove-too-near' },
  });
});

test('as CSV: one column of radii, two for each curve, their names without hyphens', () => {
  const points = (k: number) => [
    { radiusMm: 60.3254, trackingErrorDeg: k, secondHarmonicPercent: -k / 3 },
    { radiusMm: 61, trackingErrorDeg: -k, secondHarmonicPercent: k },
  ];
  expect(
    curvesToCsv([
      { name: 'lofgren-a-b', points: points(1) },
      { name: 'own', points: points(2) },
    ]).split('\r\n'),
  ).toEqual([
    'radius_mm,lofgren_a_b_tracking_error_deg,lofgren_a_b_second_harmonic_percent,own_tracking_error_deg,own_second_harmonic_percent',
    '60.325,1.00000,-0.33333,2.00000,-0.66667',
    '61.000,-1.00000,1.00000,-2.00000,2.00000',
    '',
  ]);
  expect(() => curvesToCsv([])).toThrow('there are 0 curves to write; at least 1 is needed');
});
