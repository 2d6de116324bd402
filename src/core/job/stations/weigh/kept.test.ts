import { expect, test } from 'vitest';
import { say, statement } from '../../../words/statement.ts';
import { moveNames } from '../../moves.ts';
import { markTold, whatMoveMakesStale } from '../../stale.ts';
import {
  alsoMovedSchema,
  keptSetting,
  movedHereSays,
  reasonAtWeigh,
  reasonsToWeigh,
  settingNote,
  skatingSays,
  skatingSetSchema,
  weighFromOlder,
} from './kept.ts';

const at = '2026-03-04T09:00:00.000Z';
const setting = [{ code: 'skating-dial', values: { grams: 1.8, mn: 18, friction: 0.3 } }] as const;

test('a setting is kept as its codes and values, and told again from them; a sentence of an earlier version as it stands', () => {
  const says = [statement('skating-dial', { grams: 1.8, mn: 18, friction: 0.3 })];
  expect(keptSetting(says)).toEqual(setting);
  expect(skatingSays({ at, setting })).toBe(say(says[0]));
  expect(skatingSays({ at, says: 'As it was.' })).toBe('As it was.');
  expect(() => keptSetting([statement('nothing-weighed')])).toThrow();
  expect(skatingSetSchema.safeParse({ at, setting }).success).toBe(true);
  expect(skatingSetSchema.safeParse({ at, setting: [] }).success).toBe(false);
  expect(alsoMovedSchema.safeParse({ move: 'level-deck', at, wasDone: true }).success).toBe(true);
});

test('every setting that the core may tell can be kept', () => {
  const settings = [
    statement('skating-notch', { notch: 10, wanted: 9.6, grams: 4 }),
    statement('skating-notch-beyond', { weight: 'heavier' }),
    statement('skating-thread-fine', { grams: 0.8, within: '0.2', lever: 12 }),
    statement('skating-dial-fine', { grams: 0.9, mn: 9, friction: 0.3 }),
  ];
  expect(keptSetting(settings)).toEqual(settings);
});

test('a setting in two digits', () => {
  expect(settingNote({ setting: 2.138, unit: 'g' })).toBe('2.1 g');
  expect(settingNote({ setting: 17.6, unit: 'mN' })).toBe('18 mN');
});

test('every move that touches Weigh is a reason there, but force and anti-skating, which are set there', () => {
  const own = ['set-force', 'set-skating'];
  for (const move of moveNames) {
    const mark = whatMoveMakesStale(move).find(({ station }) => station === 'weigh');
    expect(reasonAtWeigh(move), move).toEqual(own.includes(move) ? undefined : mark);
    const told = reasonAtWeigh(move) === undefined ? statement('moved-since') : markTold(mark!);
    expect(movedHereSays({ move }), move).toBe(say(told));
  }
  expect(reasonAtWeigh('level-deck')?.station).toBe('weigh');
  expect(whatMoveMakesStale('set-skating').map(({ station }) => station)).toContain('weigh');
  expect(movedHereSays({})).toBe(say(statement('moved-since')));
});

test('reasons to weigh again: those of the station, and what was moved here', () => {
  const stale = { status: 'stale' as const, staleBecause: ['Something was moved.'] };
  expect(reasonsToWeigh({ status: 'done' }, null)).toEqual([]);
  expect(reasonsToWeigh(stale, null)).toEqual(['earlier']);
  expect(reasonsToWeigh(stale, { move: 'level-deck', at })).toEqual(['earlier', at]);
  expect(reasonsToWeigh({ status: 'done' }, {})).toEqual(['earlier']);
});

test('what an earlier version kept as a sentence is read by its move; what today keeps stays', () => {
  const older = (data: object) => weighFromOlder(data as Parameters<typeof weighFromOlder>[0]);
  expect(older({ movedHere: movedHereSays({ move: 'level-deck' }), target: '1.8', forReport: [] })).toEqual({
    movedHere: { move: 'level-deck' },
    target: '1.8',
  });
  expect(older({ movedHere: 'Something fell.' })).toEqual({ movedHere: {} });
  expect(older({ movedHere: { move: 'slide', at } })).toEqual({ movedHere: { move: 'slide', at } });
  expect(older({ movedHere: null })).toEqual({ movedHere: null });
  expect(older({ readUnder: 'A sentence.' })).toEqual({});
  expect(older({ readUnder: ['earlier'] })).toEqual({ readUnder: ['earlier'] });
  expect(older({})).toEqual({});
});
