import { expect, it } from 'vitest';
import { checkStation } from './stations/index.ts';

const at = '2026-03-04T09:30:00.000Z';

it.each([
  [{ forceUnit: 42 }, 'weigh.forceUnit: one of "g", "mN" was expected'],
  [{ sets: 'nope' }, 'weigh.sets: text was found, a list was expected'],
  [{ skatingSet: { at, says: 5 } }, 'weigh.skatingSet.setting: is missing, a list was expected'],
  [
    { skatingSet: { at, setting: [{ code: 'skating-dial', values: { grams: 1 } }] } },
    'weigh.skatingSet.setting.0.values.mn: is missing, a number was expected',
  ],
])('%j is refused in words of the bench: where, what was found, what was expected', (data, wanted) => {
  const checked = checkStation('weigh', data);
  if (checked.found) throw new Error('it was taken');
  expect(checked.why).toBe(wanted);
});
