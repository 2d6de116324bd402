/**
 * How much of an error that was read is safe to move by. A move m makes things worse where the true error is less than m/2; of an error x ± U (k = 2, normal) that
 * is so with a chance of 5 % at m = 2|x| − 1.645 U. Nothing is moved for an error within its own uncertainty, all of it from 1.645 U on, a part between.
 *
 * @checked sureMove.test.ts
 */

/** of a normal distribution, one side, in standard deviations: the share of turns that may harm is the same (turnWorth.ts) */
const FIVE_PERCENT = 1.645;

/** @returns size of the move, 0 or more, in the error's unit */
export function sureMove(error: number, uncertainty: number): number {
  const size = Math.abs(error);
  if (size <= uncertainty) return 0;
  return Math.min(size, 2 * size - FIVE_PERCENT * uncertainty);
}
