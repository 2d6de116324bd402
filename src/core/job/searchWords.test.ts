import { expect, it } from 'vitest';
import { searchWords } from './searchWords.ts';

it('words are letters and digits, lower case, without accents, each once', () => {
  expect(searchWords('Müller & Söhne: Deck-3, DECK 3, ﬁne №2')).toEqual([
    'muller',
    'sohne',
    'deck',
    '3',
    'fine',
    'no2',
  ]);
  expect(searchWords('  ')).toEqual([]);
  expect([...searchWords('x'.repeat(300))[0]]).toHaveLength(40);
});
