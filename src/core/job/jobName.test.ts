import { expect, it } from 'vitest';
import { madeTitle, renumbered } from './jobName.ts';

it('a title is made of number and deck, and cut at 200 letters with a mark that it was', () => {
  expect(madeTitle(42, 'deck')).toBe('Job 42 · deck');
  const head = 'Job 42 · ';
  const fits = 'x'.repeat(200 - head.length);
  expect(madeTitle(42, fits)).toBe(head + fits);
  expect(madeTitle(42, `${fits}y`)).toBe(`${head}${fits.slice(0, -1)}…`);
  // a sign of two halves is left out whole
  const cut = madeTitle(42, `${fits.slice(0, -2)}𝄞 and more`);
  expect(cut).toBe(`${head}${fits.slice(0, -2)}…`);
  expect(madeTitle(42, `${fits.slice(0, -3)}𝄞 and more`)).toBe(`${head}${fits.slice(0, -3)}𝄞…`);
});

it('a title that was made from the number goes with it; any other stays', () => {
  expect(renumbered('Job 4 · deck', 4, 12)).toBe('Job 12 · deck');
  for (const title of ['Job 41 · deck', 'My Job 4 · deck', 'Job 4', '']) expect(renumbered(title, 4, 12)).toBe(title);
  expect(renumbered(`Job 4 · ${'x'.repeat(192)}`, 4, 12)).toBe(`Job 12 · ${'x'.repeat(190)}…`);
});
