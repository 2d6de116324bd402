import { expect, it } from 'vitest';
import { apart } from './endNames.ts';

it('names that lie apart stay where they are', () => {
  expect(apart([80, 20, 50], 15, 0, 100)).toEqual([80, 20, 50]);
  expect(apart([], 15, 0, 100)).toEqual([]);
});

it('names that would cover one another are moved apart in their order, within the bounds', () => {
  expect(apart([50, 49], 15, 0, 100)).toEqual([64, 49]);
  expect(apart([98, 99, 97], 15, 0, 100)).toEqual([85, 100, 70]);
  expect(apart([-30, 10], 15, 0, 100)).toEqual([0, 15]);
});
