import { expect, it } from 'vitest';
import { dice, normal } from './randomDeck.ts';
import { Tally } from './tally.ts';

/** Normal errors of standard deviation 1 under a stated k = 2. */
function tallied(n: number, uncertainty: number): Tally {
  const tally = new Tally();
  const gauss = normal(dice(7));
  for (let i = 0; i < n; i++) tally.add(gauss(1), uncertainty, 0);
  return tally;
}

it.each([
  [40, 6],
  [200, 4],
])('%i captures: an honest uncertainty passes, half of it does not, nor one of k = %i', (n, wide) => {
  expect(tallied(n, 2).objection).toBeNull();
  expect(tallied(n, 1).objection).toMatch('too narrow');
  expect(tallied(n, wide).objection).toMatch('too wide');
});
