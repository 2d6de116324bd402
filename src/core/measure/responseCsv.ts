/**
 * A response as CSV: a column of frequencies in Hz and one in dB for both channels, or one for left and one for right. Any order of rows; comma,
 * semicolon or tab between the columns; a header may name them, lines that begin with # are passed over.
 */
import type { PreampResponse } from './chainLevel.ts';

export type ParsedResponse =
  | { readonly ok: true; readonly response: PreampResponse }
  | { readonly ok: false; readonly why: string };

const MOST_ROWS = 20_000;

function numberOf(cell: string, decimalComma: boolean): number {
  const text = cell
    .replace(/^"|"$/g, '')
    .replace(/\s*(?:dB|k?Hz)$/i, '')
    .replace('\u2212', '-')
    .trim();
  return text === '' ? Number.NaN : Number(decimalComma ? text.replace(',', '.') : text);
}

/** @param fileName for the sentence */
export function parseResponse(text: string, fileName: string): ParsedResponse {
  const expected = 'columns frequency_hz and db, or frequency_hz, left_db and right_db were expected';
  const no = (why: string): ParsedResponse => ({ ok: false, why: `${fileName}: ${why}; ${expected}.` });
  const lines = text
    .replace(/^\uFEFF/, '')
    .split(/\r\n|\n|\r/)
    .map((line, i) => ({ number: i + 1, line: line.trim() }))
    .filter(({ line }) => line !== '' && !line.startsWith('#'));
  if (lines.length === 0) return no('it is empty');
  if (lines.length > MOST_ROWS) return no(`it has ${lines.length} lines, more than ${MOST_ROWS}`);
  const separator = ['\t', ';', ','].find((mark) => lines[0].line.includes(mark));
  if (separator === undefined) return no(`line ${lines[0].number} holds one column`);
  const cellsOf = (line: string): string[] => line.split(separator).map((cell) => cell.trim());
  const isHeader = !Number.isFinite(numberOf(cellsOf(lines[0].line)[0], separator !== ','));
  const rows: [number, number, number][] = [];
  for (const { number, line } of isHeader ? lines.slice(1) : lines) {
    const cells = cellsOf(line);
    const [hz, left, right = left] = cells.slice(0, 3).map((cell) => numberOf(cell, separator !== ','));
    if (![hz, left, right].every(Number.isFinite)) return no(`line ${number} is "${line.slice(0, 40)}"`);
    if (!(hz > 0 && hz <= 1e6)) return no(`line ${number} has ${hz} Hz`);
    if (!(Math.abs(left) <= 200 && Math.abs(right) <= 200)) return no(`line ${number} has a level beyond ±200 dB`);
    rows.push([hz, left, right]);
  }
  if (rows.length < 2) return no('it has fewer than two rows of figures');
  rows.sort((a, b) => a[0] - b[0]);
  if (rows.some((row, i) => i > 0 && row[0] === rows[i - 1][0])) return no('it has one frequency twice');
  return {
    ok: true,
    response: { hz: rows.map((r) => r[0]), leftDb: rows.map((r) => r[1]), rightDb: rows.map((r) => r[2]) },
  };
}
