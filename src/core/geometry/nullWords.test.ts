import { expect, test } from 'vitest';
import { nullPointsText, nullRadiiText, radiiText } from './nullWords.ts';

const arm = (nullPointsMm: readonly number[], peakDistortionPercent = 0.6) => ({ nullPointsMm, peakDistortionPercent });

test('two, one and none', () => {
  expect([arm([65.998, 120.891]), arm([90]), arm([])].map(nullPointsText)).toEqual([
    'null points 66.0 and 120.9 mm',
    'null point 90.0 mm',
    'no null point',
  ]);
  expect([arm([65.998, 120.891]), arm([90]), arm([])].map((one) => nullRadiiText(one, 2))).toEqual([
    '66.00 and 120.89 mm',
    '90.00 mm',
    'none',
  ]);
  expect([radiiText([65.998, 120.891], 2), radiiText([], 2)]).toEqual(['66.00 and 120.89', 'none']);
});

test('an arm without any tracking error lacks nothing', () => {
  expect(nullPointsText(arm([], 0))).toBe('no tracking error at any radius');
  expect(nullRadiiText(arm([], 0), 2)).toBe('every radius');
});
