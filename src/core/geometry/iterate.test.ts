import { describe, expect, test } from 'vitest';
import { solveMinimum, solveRoot } from './iterate.ts';

describe('the least', () => {
  test('where nothing is less than anything, neither end is preferred', () => {
    const found = solveMinimum(() => 1, 0, 4);
    expect(found).toBeGreaterThan(0);
    expect(found).toBeLessThan(4);
  });
});

describe('a root', () => {
  const roots: readonly (readonly [string, (x: number) => number, number, number, number])[] = [
    ['a line', (x) => x - 2, 0, 10, 2],
    ['one that falls', (x) => 2 - x, 0, 10, 2],
    ['a cube, flat at its root', (x) => (x - 1) ** 3, 0, 4, 1],
    ['steep at one end', (x) => Math.exp(x) - 2, -20, 20, Math.LN2],
    ['steep at the other', (x) => 2 - Math.exp(-x), -20, 20, -Math.LN2],
    ['a high power', (x) => x ** 9 - 1, 0, 2, 1],
    ['its mirror', (x) => 1 - (-x) ** 9, -2, 0, -1],
    ['an angle', (x) => Math.cos(x), 1, 2, Math.PI / 2],
  ];
  test.each(roots)('of %s, in few steps', (_, f, a, b, root) => {
    for (const [from, to] of [
      [a, b],
      [b, a],
    ]) {
      let calls = 0;
      const counted = (x: number): number => {
        calls += 1;
        return f(x);
      };
      expect(solveRoot(counted, from, to)).toBeCloseTo(root, f(root + 1e-3) < 1e-6 && f(root + 1e-3) > -1e-6 ? 3 : 12);
      expect(calls).toBeLessThan(130);
    }
  });

  test('at an end is that end, found without another look', () => {
    const seen: number[] = [];
    const f = (x: number): number => {
      seen.push(x);
      return x - 3;
    };
    expect([solveRoot(f, 3, 5), solveRoot(f, 1, 3)]).toEqual([3, 3]);
    expect(seen).toEqual([3, 5, 1, 3]);
  });

  test('where both ends have one sign the end nearer to nought is the answer, the left one of equals', () => {
    for (const sign of [1, -1]) {
      expect(solveRoot((x) => sign * (x * x + 1), 1, 2)).toBe(1);
      expect(solveRoot((x) => sign * (x * x + 1), -2, -1)).toBe(-1);
      expect(solveRoot((x) => sign * (x * x + 1), -2, 2)).toBe(-2);
    }
  });

  test('a line is met by the first look between', () => {
    const seen: number[] = [];
    solveRoot(
      (x) => {
        seen.push(x);
        return 2 * x - 6;
      },
      0,
      4,
    );
    expect(seen).toEqual([0, 4, 3]);
  });
});

describe('a least value', () => {
  test.each([
    ['within', (x: number) => (x - 2.3) ** 2, -5, 10, 2.3],
    ['of a kink', (x: number) => Math.abs(x - 7.7), -5, 10, 7.7],
    ['at the left end', (x: number) => x, -5, 10, -5],
    ['at the right end', (x: number) => -x, -5, 10, 10],
    ['a step from the left end', (x: number) => Math.abs(x + 4.9), -5, 10, -4.9],
    ['a step from the right end', (x: number) => Math.abs(x - 9.9), -5, 10, 9.9],
    [
      'of the deeper of two hollows, on the right',
      (x: number) => Math.min(Math.abs(x + 3), Math.abs(x - 8) - 0.5),
      -5,
      10,
      8,
    ],
    [
      'of the deeper of two hollows, on the left',
      (x: number) => Math.min(Math.abs(x + 3) - 0.5, Math.abs(x - 8)),
      -5,
      10,
      -3,
    ],
  ])('%s', (_, f, a, b, least) => {
    expect(Math.abs(solveMinimum(f, a, b) - least)).toBeLessThan(1e-7);
  });

  test('it is looked for at both ends and at equal steps between, then between the neighbours of the best', () => {
    const seen: number[] = [];
    const f = (x: number): number => {
      seen.push(x);
      return Math.abs(x - 3.2);
    };
    solveMinimum(f, 0, 10, 6);
    expect(seen.slice(0, 6)).toEqual([0, 2, 4, 6, 8, 10]);
    const later = seen.slice(6, -6);
    expect(Math.min(...later)).toBeGreaterThan(2);
    expect(Math.max(...later)).toBeLessThan(6);
    expect(later[0]).toBeCloseTo(6 - 4 * 0.6180339887, 8);
    expect(later[1]).toBeCloseTo(2 + 4 * 0.6180339887, 8);
  });

  test('an interval of nothing has its left end', () => {
    expect([solveMinimum((x) => x, 3, 3), solveMinimum((x) => x, 4, 3), solveMinimum((x) => x, 3, Number.NaN)]).toEqual(
      [3, 4, 3],
    );
  });

  test('golden section keeps one of its two looks from step to step', () => {
    let calls = 0;
    solveMinimum(
      (x) => {
        calls += 1;
        return (x - 1) ** 2;
      },
      0,
      3,
    );
    // 25 looks, two to begin with, 50 steps, and the middle against both ends
    expect(calls).toBe(25 + 2 + 50 + 4);
  });
});
