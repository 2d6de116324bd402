import { expect, it } from 'vitest';
import { say } from '../words/statement.ts';
import { expectedDb, holdsEqualisation, riaaDb } from './chainLevel.ts';
import { parseResponse } from './responseCsv.ts';

const read = (text: string) => {
  const parsed = parseResponse(text, 'preamp.csv');
  if (!parsed.ok) throw new Error(say(parsed.why));
  return parsed.response;
};

it('reads two and three columns, any order of rows, decimal commas between semicolons', () => {
  expect(read('frequency_hz,db\n1000,0\n20,-0.5\n')).toEqual({ hz: [20, 1000], leftDb: [-0.5, 0], rightDb: [-0.5, 0] });
  expect(read('# mine\nHz;left;right\n20;0,5;-0,25\n20000;1;2')).toEqual({
    hz: [20, 20000],
    leftDb: [0.5, 1],
    rightDb: [-0.25, 2],
  });
});

it.each([
  ['', /empty/],
  ['20 0\n30 1', /one column/],
  ['hz,db\n20,x\n30,1', /line 2 is "20,x"/],
  ['20,0\n20,1', /twice/],
  ['-5,0\n20,1', /−5 Hz/],
  ['20,0', /fewer than two/],
])('says what is wrong with %j', (text, why) => {
  const parsed = parseResponse(text, 'preamp.csv');
  expect(parsed.ok ? '' : say(parsed.why)).toMatch(why);
});

it('a response with its RIAA curve stands for it, one without beside it: the same level is expected of a preamp that is right', () => {
  const hz = Array.from({ length: 31 }, (_, i) => 20 * 1000 ** (i / 30));
  const of = (db: (f: number) => number) => {
    const values = hz.map(db);
    return { hz, leftDb: values, rightDb: values };
  };
  const whole = of((f) => riaaDb(f) + 40);
  const beside = of(() => 0);
  expect(holdsEqualisation(whole)).toBe(true);
  expect(holdsEqualisation(beside)).toBe(false);
  for (const f of [30, 1000, 12_000]) {
    const none = expectedDb('constant-velocity', { flat: false, preamp: null, record: null }, 'left', f);
    expect(expectedDb('constant-velocity', { flat: false, preamp: whole, record: null }, 'left', f)).toBeCloseTo(
      none,
      1,
    );
    expect(expectedDb('constant-velocity', { flat: false, preamp: beside, record: null }, 'left', f)).toBeCloseTo(
      none,
      9,
    );
  }
});
