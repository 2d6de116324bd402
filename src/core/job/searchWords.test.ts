import { expect, it } from 'vitest';
import { plainName, searchWords } from './searchWords.ts';

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

it('a letter of two halves is cut whole, and a very long note is searched as far as 2000 words', () => {
  expect(searchWords('𝒳'.repeat(50))).toEqual(['x'.repeat(40)]);
  expect(searchWords(`${'x'.repeat(40)}y`)).toEqual(['x'.repeat(40)]);
  const many = Array.from({ length: 2001 }, (_, i) => `w${i}`);
  expect(searchWords(many.join(' '))).toEqual(many.slice(0, 2000));
});

it('names are compared without blanks around them, in small letters', () => {
  expect(plainName('  Studio Deck ')).toBe('studio deck');
});
