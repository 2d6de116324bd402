/** The CSV of meter readings: columns tilt_deg, left_to_right_db, right_to_left_db, in any order. */
import type { ReadingAtTilt } from './voltmeter.ts';

const COLUMNS = ['tilt_deg', 'left_to_right_db', 'right_to_left_db'] as const;

/** A table that cannot be read: one sentence that names the line, what was found and what was expected. */
export class ReadingsError extends Error {}

/**
 * Reads comma-, semicolon- or tab-separated readings; with semicolons or tabs a decimal comma is allowed.
 * Empty lines and lines that begin with # are passed over.
 */
export function readingsFromCsv(text: string): ReadingAtTilt[] {
  const lines = text
    .replace(/^\uFEFF/, '')
    .split(/\r\n|\n|\r/)
    .map((line, i) => ({ number: i + 1, line: line.trim() }))
    .filter(({ line }) => line !== '' && !line.startsWith('#'));
  const header = lines.shift();
  if (header === undefined) throw new ReadingsError(`no lines in it; a header ${COLUMNS.join(',')} was expected`);
  const separator = ['\t', ';', ','].find((mark) => header.line.includes(mark)) ?? ',';
  const cells = (line: string) => line.split(separator).map((cell) => cell.trim().replace(/^"(.*)"$/, '$1'));
  const names = cells(header.line).map((name) => name.toLowerCase());
  const places = COLUMNS.map((column) => names.indexOf(column));
  const missing = COLUMNS.filter((_, i) => places[i] < 0);
  if (missing.length > 0) {
    throw new ReadingsError(
      `line ${header.number}: no column ${missing.join(', ')}; the columns ${COLUMNS.join(',')} were expected`,
    );
  }
  const rows = lines.map(({ number, line }) => {
    const found = cells(line);
    const [tiltDeg, leftToRightDb, rightToLeftDb] = places.map((place, i) => {
      const cell = found[place] ?? '';
      const value = Number(separator === ',' ? cell : cell.replace(',', '.'));
      if (cell === '' || !Number.isFinite(value)) {
        throw new ReadingsError(`line ${number}: '${cell}' in column ${COLUMNS[i]} is no number`);
      }
      return value;
    });
    return { tiltDeg, leftToRightDb, rightToLeftDb };
  });
  if (rows.length === 0) throw new ReadingsError('a header and no readings; at least two rows were expected');
  return rows;
}
