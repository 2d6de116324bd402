/** A few decks of the self-check, played and measured: every figure that it claims something of is there, and within its claim. */
import { expect, it } from 'vitest';
import { CLAIMS } from '../../src/cli/selfcheck/claims.ts';
import { playDecks } from '../../src/cli/selfcheck/playDecks.ts';

it('two decks: every figure is measured, within its claim, and a deck is what its seed says', async () => {
  let asked = 0;
  const tallies = await playDecks(
    2,
    7_000_000,
    () => ++asked,
    () => undefined,
  );
  expect(tallies.missed).toEqual([]);
  for (const { quantity, within } of CLAIMS) {
    const one = tallies.accuracy.get(quantity);
    expect(one?.count, quantity).toBe(1);
    expect(one?.largest, quantity).toBeLessThanOrEqual(within(100));
    expect(one?.largest, quantity).toBeGreaterThan(0);
    expect(tallies.coverage.get(quantity)?.count, quantity).toBe(1);
  }
  expect(tallies.measuringS).toBe(2);
  expect(tallies.playedS).toBeGreaterThan(40);
});
