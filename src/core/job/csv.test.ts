import { expect, it } from 'vitest';
import { csvText } from './csv.ts';
import { searchWords } from './searchWords.ts';

it('quotes what needs it and lets no cell be a formula', () => {
  expect(
    csvText([
      ['a', 1, null, -2.5],
      ['=1+1', '+49 30', '-7', '-1,5', '@x', 'say "no", twice\n'],
    ]),
  ).toBe(`a,1,,-2.5\r\n'=1+1,'+49 30,-7,"-1,5",'@x,"say ""no"", twice\n"\r\n`);
});

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
