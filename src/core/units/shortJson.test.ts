import { expect, it } from 'vitest';
import { shortJson } from './shortJson.ts';

it('cuts what is long, and says of what is nested without end that it is', () => {
  expect(shortJson({ a: [1] })).toBe('{"a":[1]}');
  expect(shortJson('x'.repeat(58))).toHaveLength(60);
  expect(shortJson('x'.repeat(59))).toBe(`"${'x'.repeat(56)}…`);
  expect(shortJson('x'.repeat(59), 40)).toBe(`"${'x'.repeat(36)}…`);
  expect(shortJson(undefined)).toBeUndefined();
  expect(shortJson(JSON.parse('['.repeat(100_000) + ']'.repeat(100_000)))).toBe('lists within lists without end');
});
