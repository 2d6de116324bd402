import { expect, it } from 'vitest';
import { say } from '../words/statement.ts';
import { DECK_CLASSES } from './deckClasses.ts';
import { parseLimits } from './limitsFile.ts';
import { RECHECK_CLASSES } from './recheck.ts';

it('takes a class, and what is set otherwise', () => {
  const read = parseLimits(
    '{"schema": 1, "class": "studio", "limits": {"speed-error": {"good": 0.15, "bad": 0.4}}}',
    'x.json',
  );
  if (!read.ok) throw new Error(say(read.why));
  expect(read.deckClass).toBe('studio');
  expect(read.limits['speed-error']).toMatchObject({ good: 0.15, bad: 0.4, sense: 'below', source: 'set in x.json' });
  expect(read.limits['channel-balance']).toEqual(DECK_CLASSES.studio['channel-balance']);
  expect(parseLimits('{"schema": 1}', 'x.json')).toMatchObject({ ok: true, deckClass: 'shop' });
});

it('takes how much may change elsewhere before it is checked again, over the class', () => {
  const read = parseLimits('{"schema": 1, "class": "archive", "recheck": {"tilt": 0.1}}', 'x.json');
  if (!read.ok) throw new Error(say(read.why));
  expect(read.recheck.tilt).toEqual({ most: 0.1, unit: 'deg', source: 'set in x.json' });
  expect(read.recheck.overhang).toEqual(RECHECK_CLASSES.archive.overhang);
});

it.each([
  ['{"schema": 1, "recheck": {"tilting": 1}}', /recheck\.tilting: no such tolerance; one of tracking-force, overhang/],
  ['{"schema": 1, "recheck": {"tilt": -1}}', /recheck\.tilt: a number from 0 to 1000/],
  ['{', /x\.json: not JSON/],
  ['{"schema": 2}', /x\.json: schema: 1, the number of the schema/],
  ['{"schema": 1, "class": "home"}', /class: one of "shop"/],
  [
    '{"schema": 1, "limits": {"speed": {"good": 1, "bad": 2}}}',
    /limits\.speed: no such limit; one of separation-left-to-right/,
  ],
  [
    '{"schema": 1, "limits": {"speed-error": {"good": 2, "bad": 1}}}',
    /speed-error: good 2 and bad 1; good at or under bad/,
  ],
  ['{"schema": 1, "limits": {"separation-left-to-right": {"good": 20, "bad": 25}}}', /good at or over bad/],
  [
    '{"schema": 1, "limits": {"speed-error": {"good": "x", "bad": 1}}}',
    /limits\.speed-error\.good: a number from 0 to 1000/,
  ],
])('refuses %s with one sentence', (text, words) => {
  const read = parseLimits(text, 'x.json');
  expect(read.ok ? '' : say(read.why)).toMatch(words);
});
