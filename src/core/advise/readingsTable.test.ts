import { describe, expect, it } from 'vitest';
import { ReadingsError, readingsFromCsv } from './readingsCsv.ts';

const head = 'tilt_deg;left_to_right_db;right_to_left_db';
const mono = `${head};left_mono_db;right_mono_db`;
const row = { tiltDeg: -1.5, leftToRightDb: 28, rightToLeftDb: 24.5 };
const why = (text: string): string => {
  try {
    readingsFromCsv(text);
  } catch (error) {
    expect(error).toBeInstanceOf(ReadingsError);
    return (error as Error).message;
  }
  return '';
};

describe('the table of readings', () => {
  it.each([
    ['-1.5;28;24.5'],
    ['−1.5;28;24.5'],
    ['-1,5;28,0;24,5'],
    ['-1.5 deg;28 dB;24.5dB'],
    ['-1.5°;28 DB;24.5 db'],
    [' -1.5 ; 28 ; 24.5 '],
    ['-1.5;28;24.5;;'],
  ])('reads %s', (line) => {
    expect(readingsFromCsv(`${head}\n${line}`)).toEqual([row]);
  });

  it.each([
    ['Tilt (deg);Left to right [dB];Right to left dB'],
    ['TILT_DEG;LEFT_TO_RIGHT_DB;RIGHT_TO_LEFT_DB'],
    ['(tilt deg);"left to right, dB";_right_to_left_db_'],
  ])('knows the columns of %s', (header) => {
    expect(readingsFromCsv(`${header}\n-1.5;28;24.5`)).toEqual([row]);
  });

  it('passes over remarks and columns of its owner’s own', () => {
    expect(readingsFromCsv(`# read by hand\nroom;${head}\n# first\n21;-1.5;28;24.5\n22;-1.5;28;24.5`)).toEqual([
      row,
      row,
    ]);
  });

  it('mono sums come with the rows that have both, and are left out of the others', () => {
    expect(readingsFromCsv(`${mono}\n-1.5;28;24.5;0.1;-0.2\n-1.5;28;24.5;;\n-1.5;28;24.5`)).toEqual([
      { ...row, mono: { leftMonoDb: 0.1, rightMonoDb: -0.2 } },
      row,
      row,
    ]);
    expect(readingsFromCsv(`right_mono_db;left_mono_db;${head}\n-0.2;0.1;-1.5;28;24.5`)).toEqual([
      { ...row, mono: { leftMonoDb: 0.1, rightMonoDb: -0.2 } },
    ]);
    expect(why(`${mono}\n0;28;24.5;0.1;`)).toBe('line 2: nothing in column right_mono_db; a number was expected');
    expect(why(`${mono}\n0;28;24.5;;0.1`)).toBe('line 2: nothing in column left_mono_db; a number was expected');
  });

  it.each([
    ['', 'no lines in it; a header tilt_deg,left_to_right_db,right_to_left_db was expected'],
    [head, 'a header and no readings; at least two rows were expected'],
    [
      'tilt_deg;right_to_left_db\n0;1',
      'line 1: no column left_to_right_db; the columns tilt_deg,left_to_right_db,right_to_left_db were expected',
    ],
    [
      '#\na;b\n0;1',
      'line 2: no column tilt_deg, left_to_right_db, right_to_left_db; the columns tilt_deg,left_to_right_db,right_to_left_db were expected',
    ],
    [
      `${head};left_mono_db\n0;28;24;0`,
      'line 1: one mono column without the other; left_mono_db and right_mono_db were expected together',
    ],
    [
      `${head};right_mono_db\n0;28;24;0`,
      'line 1: one mono column without the other; left_mono_db and right_mono_db were expected together',
    ],
    [`${head}\n0;28;24\n0;28;x`, "line 3: 'x' in column right_to_left_db; a number was expected"],
    [`${head}\n0;;24`, 'line 2: nothing in column left_to_right_db; a number was expected'],
    [`${head}\n0;28`, 'line 2: nothing in column right_to_left_db; a number was expected'],
    [`${head}\nInfinity;28;24`, "line 2: 'Infinity' in column tilt_deg; a number was expected"],
    [`${head}\n0;dB;24`, "line 2: 'dB' in column left_to_right_db; a number was expected"],
    [
      `${head}\n0;28;24;7`,
      'line 2: 4 values where the header names 3 columns; with decimal commas, semicolons between the values were expected',
    ],
    [`${head}\n"0;28;24`, 'line 2: a quotation mark that is never closed; a closing one was expected'],
  ])('refuses %j with one sentence', (text, words) => {
    expect(why(text)).toBe(words);
  });

  it('10,000 rows and no more', () => {
    const rows = (count: number) => `${head}\n${'0;26;26\n'.repeat(count)}`;
    expect(readingsFromCsv(rows(10_000))).toHaveLength(10_000);
    expect(why(rows(10_001))).toBe('10001 rows; at most 10000 readings were expected');
  });
});
