/** Numbers of flags: how they are read, and what is said of those that are none. */
import { expect, it } from 'vitest';
import { UsageError } from './command.ts';
import { bounded, joinedNegatives, numberFlag, numbersFlag } from './numbers.ts';

it('a number is taken with its unit or without, and one that is none is told with what was expected', () => {
  expect(numberFlag('--x', '22,2 cm', 'a length', 'mm')).toBe(222);
  expect(numberFlag('--x', '-0.3', 'a number')).toBe(-0.3);
  expect(() => numberFlag('--x', '3 mm', 'a number')).toThrow("--x: '3 mm' is no number; a number was expected");
  expect(() => numberFlag('--x', '', 'a number')).toThrow(UsageError);
});

it('a bounded number may be its bounds, and is nothing where it was not given', () => {
  const bound = { min: 10, max: 20, unit: 'mm' };
  expect([bounded('--x', undefined, bound), bounded('--x', '10', bound), bounded('--x', '2 cm', bound)]).toEqual([
    undefined,
    10,
    20,
  ]);
  for (const beyond of ['9.99', '20.01']) {
    expect(() => bounded('--x', beyond, bound)).toThrow(
      `--x: ${beyond} mm was given; it must lie between 10 and 20 mm`,
    );
  }
  expect(() => bounded('--x', 'ten', bound)).toThrow("--x: 'ten' is no number; a number in mm was expected");
});

it('numbers between commas are as many as they have names, or fewer where that is said', () => {
  expect(numbersFlag('--x', '1,-2', ['A', 'B'])).toEqual([1, -2]);
  expect(numbersFlag('--x', '1', ['A', 'B'], 1)).toEqual([1]);
  expect(numbersFlag('--x', '1,2', ['A', 'B'], 1)).toEqual([1, 2]);
  expect(() => numbersFlag('--x', '1', ['A', 'B'])).toThrow("--x: '1' has 1 numbers; A,B was expected");
  expect(() => numbersFlag('--x', '1,2,3', ['A', 'B'], 1)).toThrow("--x: '1,2,3' has 3 numbers; A,B was expected");
  expect(() => numbersFlag('--x', '1,b', ['A', 'B'])).toThrow("--x: 'b' is no number; B in A,B was expected");
});

it('a negative number behind a long flag is joined to it, and nothing else is', () => {
  const cases: [string[], string[]][] = [
    [['--left-mono', '-0.3'], ['--left-mono=-0.3']],
    [
      ['--a1', '\u2212,5', '-.5'],
      ['--a1=\u2212,5', '-.5'],
    ],
    [
      ['-1', '--a', '-b', '--c', '0.3'],
      ['-1', '--a', '-b', '--c', '0.3'],
    ],
    [
      ['x', '-3', '-o', '-3', '--', '-3', '--a=1', '-3', 'x--a', '-3'],
      ['x', '-3', '-o', '-3', '--', '-3', '--a=1', '-3', 'x--a', '-3'],
    ],
    [
      ['--a', 'x-3', '--b', '--3'],
      ['--a', 'x-3', '--b', '--3'],
    ],
    [[], []],
  ];
  for (const [given, joined] of cases) expect(joinedNegatives(given)).toEqual(joined);
});
