import { expect, it } from 'vitest';
import { sureMove } from './sureMove.ts';

it.each([
  [0, 0, 0],
  [1, 0, 1],
  [1, 1, 0],
  [0.99, 1, 0],
  // 2·1.2 − 1.645
  [1.2, 1, 0.755],
  [1.645, 1, 1.645],
  [1.6, 1, 1.555],
  [3, 1, 3],
  [2.4, 2, 1.51],
])('of %d ± %d, of either sign, %d is moved', (error, uncertainty, move) => {
  for (const sign of [1, -1]) expect(sureMove(sign * error, uncertainty)).toBeCloseTo(move, 12);
});
