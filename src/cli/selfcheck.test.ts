/** What README.md claims is what selfcheck holds to; a few decks show that it measures them and that it can fail. */
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { CLAIMS, COVERAGE, SPEED } from './selfcheck/claims.ts';
import { playDecks } from './selfcheck/playDecks.ts';

it('README.md has the table of claims, in the same words', () => {
  const readme = readFileSync(new URL('../../README.md', import.meta.url), 'utf8');
  for (const { title, words } of CLAIMS) expect(readme).toContain(`| ${title} | ${words} |`);
  expect(readme.replace(/\s+/g, ' ')).toContain(`in ${COVERAGE.words} of decks`);
  expect(readme.replace(/\s+/g, ' ')).toContain(SPEED.words);
});

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
