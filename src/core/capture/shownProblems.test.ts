import { expect, it } from 'vitest';
import { statement } from '../words/statement.ts';
import { problem, withheld } from './problem.ts';
import { shownProblems } from './shownProblems.ts';

const clip = (channel: string, startS: number, tops: number) =>
  problem('clipped', { channel, tops, levelDb: 0 }, { startS, endS: startS + 0.1 });

it('a few problems are shown each by itself', () => {
  const few = [clip('left channel', 1, 3), clip('left channel', 2, 5), problem('half-frame', { bytes: 1 })];
  expect(shownProblems(few)).toEqual(few.map((p) => ({ problem: p, more: 0, lastS: null })));
});

it('many of one kind are told by the first three, a count and where the last one ends; others stay in their order', () => {
  const left = Array.from({ length: 36 }, (_, i) => clip('left channel', 10 + i, i + 1));
  const right = clip('right channel', 20, 4);
  const end = problem('half-frame', { bytes: 1 });
  const shown = shownProblems([...left.slice(0, 20), right, ...left.slice(20), end]);
  expect(shown.map(({ problem: p }) => p)).toEqual([left[0], left[1], left[2], right, end]);
  expect(shown[2]).toMatchObject({ more: 33, lastS: 45.1 });
  expect(shown[3].more + shown[4].more).toBe(0);
});

it('no withheld figure is hidden behind a count', () => {
  const figures = ['a', 'b', 'c', 'd', 'e', 'f', 'g'].map((quantity) => withheld(quantity, statement('no-speed-tone')));
  expect(shownProblems(figures)).toHaveLength(7);
});
