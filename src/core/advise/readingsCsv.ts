/**
 * The CSV of meter readings: columns tilt_deg, left_to_right_db, right_to_left_db, and where mono sums were read left_mono_db and
 * right_mono_db, in any order.
 */
import { readCsv } from '../words/csv.ts';
import type { ReadingAtTilt } from './voltmeter.ts';

const COLUMNS = ['tilt_deg', 'left_to_right_db', 'right_to_left_db'] as const;
/** Nobody reads a meter so often; a file with more is another table. */
const MOST_ROWS = 10_000;
const MONO_COLUMNS = ['left_mono_db', 'right_mono_db'] as const;

/** A table that cannot be read: one sentence that names the line, what was found and what was expected. */
export class ReadingsError extends Error {}

/** "Left to right dB" is left_to_right_db. */
const columnName = (cell: string): string =>
  cell
    .toLowerCase()
    .replace(/[^a-z]+/g, '_')
    .replace(/^_|_$/g, '');

/** A number with a decimal point or comma, a true minus, and perhaps its unit. */
function numberIn(cell: string): number {
  const text = cell
    .replace(/\s*(?:dB|°|deg)$/i, '')
    .replace('\u2212', '-')
    .replace(',', '.');
  return text === '' ? Number.NaN : Number(text);
}

/** Separators, quotation marks and decimal commas as in words/csv.ts; lines that begin with # are passed over. */
export function readingsFromCsv(text: string): ReadingAtTilt[] {
  const { lines, open } = readCsv(text, '#');
  if (open !== null) {
    throw new ReadingsError(`line ${open}: a quotation mark that is never closed; a closing one was expected`);
  }
  const [header, ...body] = lines;
  if (header === undefined) throw new ReadingsError(`no lines in it; a header ${COLUMNS.join(',')} was expected`);
  if (body.length > MOST_ROWS) {
    throw new ReadingsError(`${body.length} rows; at most ${MOST_ROWS} readings were expected`);
  }
  const names = header.cells.map(columnName);
  const places = COLUMNS.map((column) => names.indexOf(column));
  const missing = COLUMNS.filter((_, i) => places[i] < 0);
  if (missing.length > 0) {
    throw new ReadingsError(
      `line ${header.row}: no column ${missing.join(', ')}; the columns ${COLUMNS.join(',')} were expected`,
    );
  }
  const mono = MONO_COLUMNS.map((column) => names.indexOf(column));
  if (mono[0] >= 0 !== mono[1] >= 0) {
    throw new ReadingsError(
      `line ${header.row}: one mono column without the other; ${MONO_COLUMNS.join(' and ')} were expected together`,
    );
  }
  const rows = body.map(({ row: number, cells: wide }): ReadingAtTilt => {
    const cells = wide.map((cell) => cell.trim());
    // decimal commas between commas would shift every column and still read as numbers
    if (cells.findLastIndex((cell) => cell !== '') >= names.length) {
      throw new ReadingsError(
        `line ${number}: ${cells.length} values where the header names ${names.length} columns; with decimal commas, ` +
          'semicolons between the values were expected',
      );
    }
    const read = (place: number, column: string): number => {
      const cell = cells[place] ?? '';
      const value = numberIn(cell);
      if (!Number.isFinite(value)) {
        const found = cell === '' ? 'nothing' : `'${cell}'`;
        throw new ReadingsError(`line ${number}: ${found} in column ${column}; a number was expected`);
      }
      return value;
    };
    const [tiltDeg, leftToRightDb, rightToLeftDb] = places.map((place, i) => read(place, COLUMNS[i]));
    const row = { tiltDeg, leftToRightDb, rightToLeftDb };
    // a row may leave both sums out
    if (mono.every((place) => (cells[place] ?? '') === '')) return row;
    const [leftMonoDb, rightMonoDb] = mono.map((place, i) => read(place, MONO_COLUMNS[i]));
    return { ...row, mono: { leftMonoDb, rightMonoDb } };
  });
  if (rows.length === 0) throw new ReadingsError('a header and no readings; at least two rows were expected');
  return rows;
}
