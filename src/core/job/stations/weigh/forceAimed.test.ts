import { expect, test } from 'vitest';
import { said } from '../../../words/said.fixture.ts';
import { say, statement } from '../../../words/statement.ts';
import { none } from '../answer.ts';
import { startOf, targetOf } from './balance.ts';
import { knownAs } from './bench.fixture.ts';

const range = knownAs({ trackingForceMinMn: 15, trackingForceMaxMn: 21 });
const noStart = none(statement('nothing-weighed'));

function start(...asked: Parameters<typeof startOf>) {
  const found = startOf(...asked);
  if (!found.found) throw new Error(found.why.code);
  return found.value;
}

test('two thirds up the maker’s range, or where he recommends', () => {
  expect(start(range, undefined)).toMatchObject({ start: { mn: 19 }, least: { mn: 15 }, most: { mn: 21 } });
  const recommended = knownAs({ trackingForceMinMn: 15, trackingForceMaxMn: 21, trackingForceRecommendedMn: 17 });
  expect(start(recommended, undefined).start.mn).toBe(17);
});

test('the room is told where it was typed, and as usual where it was not or cannot be read', () => {
  const room = (text: string | undefined) => start(range, text).says.at(-1)?.code;
  expect([room('15'), room('30'), room('22'), room(undefined), room(''), room('warm')]).toEqual([
    'room-cold',
    'room-warm',
    'room-usual',
    'room-usual',
    'room-usual',
    'room-usual',
  ]);
});

test('the end of the range that is not known is named', () => {
  const why = (figures: Parameters<typeof knownAs>[0]) => said(startOf(knownAs(figures), undefined));
  const missing = (which: string) => ({
    found: false,
    missing: true,
    why: `the ${which}tracking force that the cartridge’s maker states is not known`,
  });
  expect(why({})).toEqual(missing(''));
  expect(why({ trackingForceMaxMn: 21 })).toEqual(missing('least '));
  expect(why({ trackingForceMinMn: 15 })).toEqual(missing('largest '));
});

test('a range that is turned round is refused as such, not asked for', () => {
  const turned = startOf(knownAs({ trackingForceMinMn: 21, trackingForceMaxMn: 15 }), undefined);
  expect(turned).toMatchObject({ found: false, missing: false });
  expect(turned.found ? '' : say(turned.why)).toContain('21 to 15 mN');
});

test('what is typed as target goes before the start; a bare number is in the unit chosen, in grams without one', () => {
  const found = startOf(range, undefined);
  expect(targetOf({}, found)).toEqual({ mn: 19, from: 'start' });
  expect(targetOf({ target: '' }, found)).toEqual({ mn: 19, from: 'start' });
  expect(targetOf({ target: '18', forceUnit: 'mN' }, found)).toEqual({ mn: 18, from: 'typed' });
  expect(targetOf({ target: '2' }, found)).toEqual({ mn: 2 * 9.80665, from: 'typed' });
  expect(targetOf({ target: '2', forceUnit: 'g' }, noStart)).toEqual({ mn: 2 * 9.80665, from: 'typed' });
});

test('a target that cannot be used is none, and so is a start that is not known', () => {
  expect(targetOf({ target: 'much' }, startOf(range, undefined))).toBeNull();
  expect(targetOf({}, noStart)).toBeNull();
});
