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

it('what is moved down to make room ends at the upper bound, and no name that had room is moved', () => {
  // 90 and 95 are pushed to 85 and 100; 60 had room, 75 must give way
  expect(apart([90, 60, 95], 15, 0, 100)).toEqual([85, 60, 100]);
  expect(apart([75, 60, 90, 95], 15, 0, 100)).toEqual([70, 55, 85, 100]);
  expect(apart([120], 15, 0, 100)).toEqual([100]);
  expect(apart([-5], 15, 10, 100)).toEqual([10]);
  expect(apart([0, 15, 30], 15, 0, 30)).toEqual([0, 15, 30]);
  // four of 15 px have no place between 0 and 30: they run out below
  expect(apart([30, 30, 30, 30], 15, 0, 30)).toEqual([-15, 0, 15, 30]);
});
