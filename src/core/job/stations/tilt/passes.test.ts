import { expect, test } from 'vitest';
import type { SideDocument } from '../../../advise/document.ts';
import { separationsOf } from '../../../advise/leaks.ts';
import { type ComplexLeaks, predictAfterTurn } from '../../../measure/tilt.ts';
import { curvesFrom } from './passes.ts';

const rad = Math.PI / 180;

/** A document as advice makes it from two complex leaks. */
function documentOf(tiltDeg: number, own: ComplexLeaks) {
  const now = predictAfterTurn(own, -tiltDeg * rad);
  const [before, after] = [separationsOf(now), separationsOf(own)];
  const finding = (quantity: string, value: number, unit: string) =>
    ({ quantity, value, unit, uncertainty: 0.1, bands: [], note: '', verdict: 'info' }) as const;
  const document: SideDocument = {
    schema: 1,
    capture: { file: 'x.wav', sampleRateHz: 48000, channels: 2, bitDepth: 24, durationS: 1, sha256: null },
    bands: [],
    problems: [],
    curves: [],
    findings: [
      finding('azimuth-error', tiltDeg, 'deg'),
      finding('separation-left-to-right', before.leftToRight, 'dB'),
      finding('separation-right-to-left', before.rightToLeft, 'dB'),
    ],
    advice: [
      {
        action: 'tilt',
        amount: Math.abs(tiltDeg),
        unit: 'deg',
        direction: null,
        why: '',
        predicts: [
          { quantity: 'separation-left-to-right', value: after.leftToRight, unit: 'dB' },
          { quantity: 'separation-right-to-left', value: after.rightToLeft, unit: 'dB' },
        ],
      },
    ],
  };
  return document;
}

const own = { leftIntoRight: { re: 0.02, im: 0.015 }, rightIntoLeft: { re: 0.02, im: -0.01 } };

test.each([0.9, -1.7, 3])('the curves pass through what the leaks give at every tilt (tilt %d°)', (tiltDeg) => {
  const curves = curvesFrom(documentOf(tiltDeg, own), 4);
  if (curves === null) throw new Error('no curves');
  curves.tiltDeg.forEach((deg, i) => {
    const there = separationsOf(predictAfterTurn(own, -deg * rad));
    expect(curves.leftToRightDb[i]).toBeCloseTo(Math.min(60, there.leftToRight), 6);
    expect(curves.rightToLeftDb[i]).toBeCloseTo(Math.min(60, there.rightToLeft), 6);
  });
});

test('a clockwise tilt of a cartridge with a common in-phase leak lowers the separation of right into left', () => {
  const curves = curvesFrom(documentOf(1, own), 2);
  if (curves === null) throw new Error('no curves');
  const [low, high] = [curves.rightToLeftDb[0], curves.rightToLeftDb[curves.rightToLeftDb.length - 1]];
  expect(high).toBeLessThan(low);
});

test('without a forecast two passes at other tilts give the same curves', () => {
  const passes = [0.9, -0.4].map((tiltDeg, number) => {
    const there = separationsOf(predictAfterTurn(own, -tiltDeg * rad));
    return { number, tiltDeg, leftToRightDb: there.leftToRight, rightToLeftDb: there.rightToLeft };
  });
  const whole = documentOf(0.9, own);
  const [byForecast, byPasses] = [curvesFrom(whole, 3), curvesFrom({ ...whole, advice: [] }, 3, passes)];
  if (byForecast === null || byPasses === null) throw new Error('no curves');
  byPasses.leftToRightDb.forEach((db, i) => {
    expect(db).toBeCloseTo(byForecast.leftToRightDb[i], 6);
  });
  expect(curvesFrom({ ...whole, advice: [] }, 3, passes.slice(1))).toBeNull();
});

test('a document without a forecast has no curves', () => {
  const document = documentOf(1, own);
  expect(curvesFrom({ ...document, advice: [] }, 2)).toBeNull();
});
