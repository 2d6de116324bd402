/**
 * A response as CSV: a column of frequencies in Hz and one in dB for both channels, or one for left and one for right. Any order of rows; comma,
 * semicolon or tab between the columns; a header may name them, lines that begin with # are passed over.
 */
import { csvText, readCsv } from '../words/csv.ts';
import { type Statement, statement } from '../words/statement.ts';
import { type PreampResponse, responseDb } from './chainLevel.ts';

export type ParsedResponse =
  | { readonly ok: true; readonly response: PreampResponse }
  | { readonly ok: false; readonly why: Statement };

const MOST_ROWS = 20_000;

function numberOf(cell: string): number {
  const [, figure, unit = ''] = /^(.*?)\s*(dB|k?Hz)?$/is.exec(cell.trim()) as RegExpExecArray;
  const text = figure.replace('\u2212', '-').replace(',', '.');
  return text === '' ? Number.NaN : Number(text) * (unit.toLowerCase() === 'khz' ? 1000 : 1);
}

/** @param fileName for the sentence */
export function parseResponse(text: string, fileName: string): ParsedResponse {
  const no = (why: Statement): ParsedResponse => ({
    ok: false,
    why: statement('response-refused', { file: fileName, why }),
  });
  const { lines, open } = readCsv(text, '#');
  if (open !== null) return no(statement('response-open-quote', { line: open }));
  if (lines.length === 0) return no(statement('response-empty'));
  if (lines.length > MOST_ROWS) return no(statement('response-long', { lines: lines.length, most: MOST_ROWS }));
  if (lines[0].cells.length < 2) return no(statement('response-one-column', { line: lines[0].row }));
  const isHeader = !Number.isFinite(numberOf(lines[0].cells[0]));
  const rows: [number, number, number][] = [];
  for (const { row: number, cells } of isHeader ? lines.slice(1) : lines) {
    const [hz, left, right = left] = cells.slice(0, 3).map(numberOf);
    if (![hz, left, right].every(Number.isFinite))
      return no(statement('response-no-figures', { line: number, text: cells.join(',').slice(0, 40) }));
    if (!(hz > 0 && hz <= 1e6)) return no(statement('response-frequency', { line: number, hz }));
    if (!(Math.abs(left) <= 200 && Math.abs(right) <= 200)) return no(statement('response-level', { line: number }));
    rows.push([hz, left, right]);
  }
  if (rows.length < 2) return no(statement('response-short'));
  rows.sort((a, b) => a[0] - b[0]);
  if (rows.some((row, i) => i > 0 && row[0] === rows[i - 1][0])) return no(statement('response-twice'));
  return {
    ok: true,
    response: { hz: rows.map((r) => r[0]), leftDb: rows.map((r) => r[1]), rightDb: rows.map((r) => r[2]) },
  };
}

/** The responses of both channels as such a CSV, on the left one's frequencies; null where there are not both. */
export function responseAsCsv(
  curves: readonly {
    readonly quantity: string;
    readonly channel?: 'left' | 'right';
    readonly x: readonly number[];
    readonly y: readonly number[];
  }[],
): string | null {
  const [left, right] = (['left', 'right'] as const).map((channel) =>
    curves.find((one) => one.quantity === 'frequency-response' && one.channel === channel && one.x.length > 1),
  );
  if (left === undefined || right === undefined) return null;
  const [low, high] = [right.x[0], right.x[right.x.length - 1]];
  const other: PreampResponse = { hz: right.x, leftDb: right.y, rightDb: right.y };
  const rows = left.x.flatMap((hz, i) =>
    hz < low || hz > high ? [] : [[hz.toFixed(2), left.y[i].toFixed(4), responseDb(other, 'right', hz).toFixed(4)]],
  );
  return rows.length < 2 ? null : csvText([['frequency_hz', 'left_db', 'right_db'], ...rows]);
}
