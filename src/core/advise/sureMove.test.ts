import { expect, it } from 'vitest';
import { dice } from '../../cli/selfcheck/randomDeck.ts';
import { inverseNormal } from '../signal/inverseNormal.ts';
import { sureMove } from './sureMove.ts';

it('nothing within the uncertainty, a part just beyond it, all of what is far beyond', () => {
  expect(sureMove(0.8, 0.8)).toBe(0);
  expect(sureMove(-0.9, 0.8)).toBeCloseTo(0.484, 6);
  expect(sureMove(1.4, 0.8)).toBe(1.4);
  expect(sureMove(-3, 0)).toBe(3);
});

it('makes things worse in at most 5 % of those who move, whatever the reading, and in many more if all were moved', () => {
  const draw = dice(77);
  const U = 0.8;
  for (const read of [0.81, 0.95, 1.1, 1.25]) {
    let [worse, ifAll] = [0, 0];
    const draws = 20_000;
    for (let i = 0; i < draws; i++) {
      const error = read + (U / 2) * inverseNormal(draw(1e-9, 1 - 1e-9));
      if (Math.abs(error - sureMove(read, U)) > Math.abs(error)) worse += 1;
      if (Math.abs(error - read) > Math.abs(error)) ifAll += 1;
    }
    expect(worse / draws, `${read}`).toBeLessThan(0.055);
    expect(ifAll / draws, `${read}`).toBeGreaterThan(0.055);
  }
});
