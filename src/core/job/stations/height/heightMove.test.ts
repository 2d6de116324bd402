import { expect, test } from 'vitest';
import type { CaptureEntry } from '../../api.ts';
import { checkMove, moveRecordSchema } from '../../moveRecord.ts';
import { forceMove } from '../weigh/forceMove.ts';
import type { HeightSet } from './heightData.ts';
import { heightMove } from './heightMove.ts';

const arm = { effectiveLengthMm: 230, offsetDeg: 23, squareTo: 'arm-line' } as const;
const set = (at: string, riseMm: number): HeightSet => ({ at, riseMm, thicknessMm: 2, mark: '', left: false });
const heard = (heardAt: string, vertical: number, azimuth: number) =>
  ({
    heardAt,
    findings: [
      { quantity: 'vertical-tracking-error', value: vertical, unit: 'deg', uncertainty: 0.3 },
      { quantity: 'azimuth-error', value: azimuth, unit: 'deg', uncertainty: 0.1 },
    ],
  }) as unknown as CaptureEntry;

const first = set('2026-03-04T09:00:00.000Z', 0);
const measured = heard('2026-03-04T09:10:00.000Z', 1, 0.2);
const second = set('2026-03-04T09:20:00.000Z', -4.36);

test('a height set foretells the vertical angle by its pitch and the azimuth by its tilt', () => {
  const move = heightMove(second, first, arm, [measured]);
  expect(moveRecordSchema.safeParse(move).success).toBe(true);
  expect(move).toMatchObject({ move: 'set-arm-height', direction: 'down' });
  expect(move.amount).toBeCloseTo(4.36, 9);
  expect(move.foretold[0].value).toBeCloseTo(0, 2);
  expect(move.foretold[1].value).toBeCloseTo(0.2 - 0.424, 2);
  const came = [
    { quantity: 'vertical-tracking-error', value: 0.1, unit: 'deg', uncertainty: 0.3 },
    { quantity: 'azimuth-error', value: 0.2, unit: 'deg', uncertainty: 0.1 },
  ];
  expect(checkMove(move, came).map((check) => check.came)).toEqual(['as-predicted', 'otherwise']);
});

test('where the bearing is not known, half of what the two kinds differ by is left open', () => {
  const move = heightMove(second, first, { effectiveLengthMm: 230, offsetDeg: 23 }, [measured]);
  expect(move.foretold[1].value).toBeCloseTo(0.2 - 0.212, 2);
  expect(move.foretold[1].uncertainty).toBeCloseTo(Math.hypot(0.1, 0.212), 2);
});

test('nothing is foretold from nothing: no height before, no length, nothing measured since', () => {
  expect(heightMove(second, undefined, arm, [measured]).foretold).toEqual([]);
  expect(heightMove(second, first, null, [measured]).foretold).toEqual([]);
  expect(heightMove(second, first, arm, [heard('2026-03-04T08:00:00.000Z', 1, 0)]).foretold).toEqual([]);
});

test('a force set is foretold as the target and came as the gauge shows it; a dial alone tells nothing', () => {
  const was = { at: first.at, by: 'gauge', mn: 16.5, uncertaintyMn: 0.2, targetMn: 18, dialMn: null } as const;
  const now = { ...was, at: second.at, mn: 18.1, calibrated: true, left: false };
  const move = forceMove(now, { ...was, calibrated: true, left: false });
  expect(moveRecordSchema.safeParse(move).success).toBe(true);
  expect(move).toMatchObject({ direction: 'more', amount: expect.closeTo(1.6, 9) });
  expect(checkMove(move)).toMatchObject([{ before: 16.5, predicted: 18, measured: 18.1, came: 'as-predicted' }]);
  expect(checkMove(forceMove({ ...now, by: 'dial', uncertaintyMn: null }, undefined))).toEqual([]);
});
