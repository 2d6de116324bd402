import { expect, it } from 'vitest';
import { assumedOf } from './assumedOf.ts';
import { recordError } from './recordError.ts';

it('what a record file states of its speed and radii reaches the fit of the hole', () => {
  expect(assumedOf(recordError(undefined))).toMatchObject({ cutSpeed: { percent: 0 }, radius: { size: 1 } });
  expect(assumedOf(recordError(undefined)).cutSpeed.size).toBeCloseTo(Math.hypot(0.2, 0.012), 9);
  const stated = assumedOf(recordError({ speedUncertaintyPercent: 0.02, radiusUncertaintyMm: 0.2 }));
  expect(stated.radius.size).toBe(0.2);
  // the tip's own way inwards is in no certificate
  expect(stated.cutSpeed.size).toBeCloseTo(Math.hypot(0.02, 0.012), 9);
});

it('a record that is stated flat leaves a warp less to say', () => {
  expect(assumedOf(recordError(undefined)).warp.size).toBe(0.025);
  // 0.1 mm under a bearing 12 mm above the record on an arm of 239 mm
  expect(assumedOf(recordError({ warpMm: 0.1 })).warp.size).toBeCloseTo((0.1 * 12) / 239.3, 4);
});

it('a speed that the shop has learned reaches it too, mean and doubt', () => {
  const learned = {
    schema: 1,
    kind: 'learned-record',
    record: { name: 'x', key: 'x' },
    decks: 25,
    speedPercent: { mean: 0.15, uncertainty: 0.05, spread: 0.12, decks: 25 },
  } as const;
  const { cutSpeed } = assumedOf(recordError(undefined, learned));
  expect(cutSpeed.percent).toBe(0.15);
  expect(cutSpeed.size).toBeCloseTo(Math.hypot(0.05, 0.012), 9);
});
