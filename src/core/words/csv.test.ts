import { expect, it } from 'vitest';
import { csvText, readCsv } from './csv.ts';

const cellsOf = (text: string, comment: string | null = null) => readCsv(text, comment).lines.map(({ cells }) => cells);

it('quotes what needs it and lets no cell be a formula', () => {
  expect(
    csvText([
      ['a', 1, null, -2.5],
      ['=1+1', '+49 30', '-7', '-1,5', '@x', 'say "no", twice\n'],
    ]),
  ).toBe(`a,1,,-2.5\r\n'=1+1,'+49 30,-7,"-1,5",'@x,"say ""no"", twice\n"\r\n`);
});

it('reads back what it wrote exactly', () => {
  const rows = [
    ['name', 'note'],
    ['=a;b', ' "x",\r\nnext\ttab '],
    ['-', 'é'],
    ["'=a", "''-x"],
    ["'quoted'", '-1,5'],
    ["'-1,5", '+49 30'],
  ];
  expect(cellsOf(csvText(rows))).toEqual(rows);
});

it('takes the separator of the header, or what the first line says', () => {
  expect(cellsOf('a;b\n1,5;2')).toEqual([
    ['a', 'b'],
    ['1,5', '2'],
  ]);
  expect(cellsOf('a\tb\n1,5\t2')).toEqual([
    ['a', 'b'],
    ['1,5', '2'],
  ]);
  expect(cellsOf('"a;x",b\n1,"2,5"')).toEqual([
    ['a;x', 'b'],
    ['1', '2,5'],
  ]);
  expect(cellsOf('sep=;\na,x;b\n')).toEqual([['a,x', 'b']]);
});

it('passes over empty lines and comments, and counts rows as an editor does', () => {
  const text = '\uFEFF# by hand\n\n a , "b"\r\n#\r\n1,"2\n3"\r,\r4,5';
  expect(readCsv(text, '#').lines).toEqual([
    { row: 3, cells: [' a ', 'b'] },
    { row: 5, cells: ['1', '2\n3'] },
    { row: 8, cells: ['4', '5'] },
  ]);
});

it('tells where a quotation mark was left open', () => {
  expect(readCsv('a,b\n1,"2\n3').open).toBe(2);
  expect(readCsv('').lines).toEqual([]);
});
