import { expect, test } from 'vitest';
import { matchFigureNames } from './fields.ts';
import { figureGroups } from './figureGroups.ts';

test('every figure that may be typed at Match stands in one group, but the force that the maker recommends', () => {
  const shown = figureGroups.flatMap(({ figures }) => figures);
  expect(new Set(shown).size).toBe(shown.length);
  expect(matchFigureNames.filter((name) => !shown.includes(name))).toEqual(['trackingForceRecommendedMn']);
  expect(figureGroups.map(({ figures }) => figures.length)).toEqual([12, 6, 8, 6, 3]);
});
