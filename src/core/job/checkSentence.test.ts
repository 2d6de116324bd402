import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { checkSentence } from './checkSentence.ts';
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

describe('one sentence of a schema', () => {
  const says = (schema: z.ZodType, value: unknown): string => {
    const { error } = schema.safeParse(value);
    return error === undefined ? '' : checkSentence(error);
  };

  it('names what was found and expected, as people call it', () => {
    const row = (schema: z.ZodType) => [undefined, null, 'x', 1, true, [], {}].map((value) => says(schema, value));
    expect(row(z.string())).toEqual([
      'is missing, text was expected',
      'null was found, text was expected',
      '',
      'a number was found, text was expected',
      'true or false was found, text was expected',
      'a list was found, text was expected',
      'an object was found, text was expected',
    ]);
    expect(says(z.record(z.string(), z.number()), 3)).toBe('a number was found, an object was expected');
    expect(says(z.object({ a: z.object({ b: z.array(z.int()) }) }), { a: { b: [1, 1.5] } })).toMatch(/^a\.b\.1: .*/);
    expect(says(z.date(), 'x')).toBe('text was found, date was expected');
  });

  it('lists the values that may stand there, and says what a schema says itself', () => {
    expect(says(z.literal(1), 2)).toBe('1 was expected');
    expect(says(z.enum(['a', 'b']), 'c')).toBe('one of "a", "b" was expected');
    expect(says(z.enum(['a', 'b'], { error: 'a or b' }), 'c')).toBe('a or b');
    expect(says(z.object({ id: z.string().min(1, { error: 'an id was expected' }) }), { id: '' })).toBe(
      'id: an id was expected',
    );
    expect(says(z.string(), { toString: 1 })).toBe('an object was found, text was expected');
  });

  it('of several shapes tells the fault in the one that it comes nearest to', () => {
    const shapes = z.object({
      value: z.union([z.number(), z.object({ deep: z.object({ at: z.string() }) }), z.array(z.number())]),
    });
    expect(says(shapes, { value: { deep: { at: 3 } } })).toBe('value.deep.at: a number was found, text was expected');
    expect(says(shapes, { value: ['x'] })).toBe('value.0: text was found, a number was expected');
    expect(says(shapes, { value: 'x' })).toBe('value: text was found, a number was expected');
    const inner = z.union([z.null(), z.object({ one: z.union([z.number(), z.object({ two: z.string() })]) })]);
    expect(says(inner, { one: { two: 2 } })).toBe('one.two: a number was found, text was expected');
  });

  it('without a fault to name still says something', () => {
    expect(checkSentence(new z.ZodError([]))).toBe('the data is not what was expected');
    expect(
      checkSentence(
        new z.ZodError([{ code: 'invalid_union', errors: [[]], path: ['a'], message: 'Invalid input: odd' } as never]),
      ),
    ).toBe('a: odd');
  });
});

it('what a schema says in its own words is left as it is said', () => {
  const says = (error: string) => checkSentence(z.string({ error }).safeParse(3).error!);
  expect(says('Invalid input: expected string, received number or so')).toBe('expected string, received number or so');
  expect(says('It is odd. Invalid input: expected string, received number')).toBe(
    'It is odd. Invalid input: expected string, received number',
  );
  const value = z.enum(['a'], { error: 'Not Invalid' }).safeParse(3).error!;
  expect(checkSentence(value)).toBe('Not Invalid');
});
