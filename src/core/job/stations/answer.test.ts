import { expect, test } from 'vitest';
import { said } from '../../words/said.fixture.ts';
import { say, statement } from '../../words/statement.ts';
import { ask, flat, none, notKnown, refusal, unusable } from './answer.ts';

const why = statement('nothing-weighed');

test('an answer, or why there is none and whether it is only not there yet', () => {
  expect(ask(() => 7)).toEqual({ found: true, value: 7 });
  expect(none(why)).toEqual({ found: false, why, missing: true });
  expect(none(why, false)).toEqual({ found: false, why, missing: false });
  expect(said(unusable('the length'))).toEqual({
    found: false,
    missing: false,
    why: 'the length cannot be used as it is typed',
  });
});

test('a refusal of the core is an answer; any other fault of the program goes on', () => {
  const refused = ask(() => {
    throw new RangeError('the mass is 0; more was expected');
  });
  expect(refused).toMatchObject({ found: false, missing: false, why: { code: 'refused' } });
  expect(refused.found ? '' : say(refused.why)).toContain('the mass is 0; more was expected');
  const fault = new TypeError('of the program');
  expect(() => refusal(fault)).toThrow(fault);
  expect(() =>
    ask(() => {
      throw fault;
    }),
  ).toThrow(fault);
});

test('an answer within an answer', () => {
  const inner = { found: true, value: 7 } as const;
  expect(flat({ found: true, value: inner })).toBe(inner);
  expect(flat({ found: true, value: none(why) })).toEqual(none(why));
  expect(flat(none(why, false))).toEqual(none(why, false));
});

test('what is not known, one or several', () => {
  expect(say(notKnown(['the mass']))).toBe('the mass is not known');
  expect(say(notKnown(['the mass', 'the length']))).toBe('the mass and the length are not known');
  expect(say(notKnown(['a', 'b', 'c']))).toBe('a, b and c are not known');
  expect(notKnown([]).values).toEqual({ what: '', count: 0 });
});
