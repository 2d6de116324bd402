import { expect, it } from 'vitest';
import { withheld } from '../capture/problem.ts';
import { statement } from '../words/statement.ts';
import { levelFigures } from './levelFigures.ts';
import { type HandMade, sideOf, toneOf } from './toneBands.fixture.ts';

const lateral = toneOf({ hz: 1000, driven: 'both', ratio: [1, 0] });
const sure = { inverted: false, bands: [lateral], unsure: false, note: null };
const unsure = { ...sure, unsure: true };
const none = { ...sure, bands: [] };
const one = (driven: HandMade['driven'], more: Partial<HandMade> = {}) =>
  toneOf({ hz: 1000, driven, ratio: [0.03, 0], ...more });
const pair = [one('left'), one('right')];
const names = (of: ReturnType<typeof levelFigures>) => of.findings.map(({ quantity }) => quantity);
const UNSURE = statement('lateral-not-known');
const ways = ['separation-left-to-right', 'separation-right-to-left'];

it('a left, a right and a lateral tone tell separations, azimuth and balance', () => {
  const of = levelFigures(sideOf([...pair, lateral]), sure);
  expect(names(of)).toEqual([...ways, 'azimuth-error', 'channel-balance']);
  expect(of.problems).toEqual([]);
  expect(of.crosstalk?.leaks.leftIntoRight.re).toBeCloseTo(0.03, 3);
});

it('without one-sided tones the three are withheld with the reason, the balance stays', () => {
  const of = levelFigures(sideOf([lateral]), sure);
  expect(names(of)).toEqual(['channel-balance']);
  expect(of.problems).toEqual([...ways, 'azimuth-error'].map((q) => withheld(q, statement('no-one-sided-tones'))));
  expect(of.crosstalk).toBeNull();
});

it('where nobody knows which tone is lateral only the separations are told', () => {
  const of = levelFigures(sideOf([...pair, lateral]), unsure);
  expect(names(of)).toEqual(ways);
  expect(of.problems).toEqual(['azimuth-error', 'channel-balance', 'polarity'].map((q) => withheld(q, UNSURE)));
  expect(of.crosstalk).toBeNull();
});

it('without any tone everything is withheld; without a two-walled one only the polarity', () => {
  expect(levelFigures(sideOf([]), none).problems).toEqual([
    ...[...ways, 'azimuth-error'].map((q) => withheld(q, statement('no-one-sided-tones'))),
    withheld('channel-balance', statement('no-balance-tone')),
    withheld('polarity', statement('no-two-walled-tone')),
  ]);
  const of = levelFigures(sideOf(pair), none);
  expect(names(of)).toEqual([...ways, 'azimuth-error', 'channel-balance']);
  expect(of.problems).toEqual([withheld('polarity', statement('no-two-walled-tone'))]);
});

it('leaks in noise take separation and azimuth with them', () => {
  const noisy = [one('left', { variance: 0.02 }), one('right', { variance: 0.02 })];
  const of = levelFigures(sideOf([...noisy, lateral]), sure);
  expect(names(of)).toEqual(['channel-balance']);
  expect(of.problems.map(({ quantity }) => quantity)).toEqual([...ways, 'azimuth-error']);
  expect(of.problems[2].values?.why).toMatchObject({ code: 'leaks-too-noisy' });
});
