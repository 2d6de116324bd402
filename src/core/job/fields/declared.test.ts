import { expect, test } from 'vitest';
import { say, statement } from '../../words/statement.ts';
import { chosen, explained, explainedOptionsOf, optionsOf, valuesOf } from './chosen.ts';
import { type Declared, fieldAt } from './declared.ts';
import { fieldOf } from './field.ts';
import { forceWithin, forceWords, gOfMn, mnOfG, withUnit } from './force.ts';

const named = (label: string) => ({ label });

test('a field by its path, under a name, under any name, or made of the name', () => {
  const declared: Declared = {
    target: named('Target'),
    gauge: { reading: named('Reading'), '*': named('Any other') },
    own: { '*': (key) => ({ good: named(`${key}, good`) }) },
    made: (key) => named(`made of ${key}`),
  };
  const label = (...path: string[]) => fieldAt(declared, path)?.label;
  expect(label('target')).toBe('Target');
  // what lies within a field is that field’s
  expect(label('target', '0', 'x')).toBe('Target');
  expect(label('gauge', 'reading')).toBe('Reading');
  expect(label('gauge', 'height')).toBe('Any other');
  expect(label('gauge', 'toString')).toBe('Any other');
  expect(label('own', 'speed-error', 'good')).toBe('speed-error, good');
  expect(label('made')).toBe('made of made');
  for (const path of [[], ['gauge'], ['own', 'speed-error'], ['own', 'speed-error', 'bad'], ['none'], ['toString']]) {
    expect(label(...path), path.join('.')).toBeUndefined();
  }
});

test('a declaration with its bounds; a help only where there is one', () => {
  const bound = { unit: 'mm', min: 1, max: 9 };
  expect(fieldOf('Width', bound)).toEqual({ label: 'Width', unit: 'mm', min: 1, max: 9 });
  expect(fieldOf('Width', bound)).not.toHaveProperty('help');
  expect(fieldOf('Width', bound, 'Side to side')).toEqual({ label: 'Width', ...bound, help: 'Side to side' });
});

test('one of a few: its values, its options, and what each means', () => {
  const way = chosen('Way', { up: 'upwards', down: 'downwards' });
  expect(way).toEqual({ label: 'Way', options: { up: 'upwards', down: 'downwards' } });
  expect(valuesOf(way)).toEqual(['up', 'down']);
  const options = [
    { value: 'up', label: 'upwards' },
    { value: 'down', label: 'downwards' },
  ];
  expect(optionsOf(way)).toEqual(options);
  const means = { up: 'nothing-weighed', down: 'no-notches-typed' } as const;
  const told = explained('Way', way.options, means);
  expect(told).toEqual({ ...way, means });
  expect(explainedOptionsOf(told)).toEqual([
    { ...options[0], says: say(statement('nothing-weighed')) },
    { ...options[1], says: say(statement('no-notches-typed')) },
  ]);
});

test('forces: a bare number gets its unit, both units are shown, the uncertainty is rounded up', () => {
  expect(withUnit(' 1.8 ', 'g')).toBe('1.8 g');
  expect(withUnit('18 mN', 'g')).toBe('18 mN');
  expect(withUnit('much', 'g')).toBe('much');
  expect([mnOfG(2), gOfMn(19.6133)]).toEqual([19.6133, 2]);
  expect(forceWords(18)).toBe('18.0 mN (1.84 g)');
  expect(forceWithin(18, 0.31)).toBe('18.0 ± 0.4 mN (1.84 ± 0.04 g)');
});
