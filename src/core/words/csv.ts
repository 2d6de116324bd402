/** Tables as CSV (RFC 4180): the one reader and the one writer. */

export interface CsvLine {
  /** where it begins in the text, counted from 1 */
  readonly row: number;
  readonly cells: readonly string[];
}

export interface CsvTable {
  /** lines that hold anything; the header, where there is one, first */
  readonly lines: readonly CsvLine[];
  /** row of a quotation mark that is never closed; null where all are */
  readonly open: number | null;
}

/** What separates the cells of a header, outside its quotation marks. */
function separatorOf(header: string): string {
  const plain = header.replace(/"[^"]*"/g, '');
  return ['\t', ';', ','].find((mark) => plain.includes(mark)) ?? ',';
}

/** What a spreadsheet would calculate, however many apostrophes lead it. */
const CALCULATED = /^'*[=+\-@\t\r]/;

const asMeant = (text: string): string => (text.startsWith("'") && CALCULATED.test(text) ? text.slice(1) : text);

/**
 * A separator is what a first line `sep=…` says, else the first of tab, semicolon and comma that the header has. A comma
 * within quotation marks is no separator, so decimal commas are allowed there and wherever commas do not separate. Lines
 * without anything in their cells, as spreadsheets leave them, are passed over; a mark of order before the text is taken off,
 * and the apostrophe by which `csvText` keeps a text from being calculated.
 *
 * @param comment lines that begin with it are passed over
 */
export function readCsv(whole: string, comment: string | null = null): CsvTable {
  const unmarked = whole.replace(/^\uFEFF/, '');
  const named = /^sep=([,;\t])(?:\r\n?|\n)/i.exec(unmarked);
  const text = named === null ? unmarked : unmarked.slice(named[0].length);
  let separator = named?.[1] ?? null;
  const lines: CsvLine[] = [];
  let cells: string[] = [];
  let current = '';
  let quote: number | null = null;
  let row = named === null ? 1 : 2;
  let begin = row;
  let at = 0;
  const lineEnd = /[\r\n]|$/g;
  const endLine = (): void => {
    const line = [...cells, current].map(asMeant);
    if (line.some((one) => one.trim() !== '')) lines.push({ row: begin, cells: line });
    cells = [];
    current = '';
  };
  /** at the first character of a line: past what holds nothing, and the header's separator */
  const beginLine = (): void => {
    begin = row;
    lineEnd.lastIndex = at;
    const end = lineEnd.exec(text)?.index ?? text.length;
    const line = text.slice(at, end);
    if (comment !== null && line.trimStart().startsWith(comment)) at = end;
    else if (separator === null && line.trim() !== '') separator = separatorOf(line);
  };
  for (beginLine(); at < text.length; at++) {
    const c = text[at];
    if (c === '\n' && quote !== null) row++;
    if (quote !== null) {
      if (c !== '"') current += c;
      else if (text[at + 1] === '"') {
        current += '"';
        at++;
      } else quote = null;
    } else if (c === '"' && current.trim() === '') {
      quote = row;
      current = '';
    } else if (c === separator) {
      cells.push(current);
      current = '';
    } else if (c === '\n' || c === '\r') {
      if (c === '\r' && text[at + 1] === '\n') at++;
      row++;
      endLine();
      at++;
      beginLine();
      at--;
    } else current += c;
  }
  endLine();
  return { lines, open: quote };
}

type Cell = string | number | null;

/** A text that would be calculated is led by one more apostrophe; a plain number, a minus before it or not, stays one. */
const harmless = (text: string): string =>
  CALCULATED.test(text) && !/^-?\d+([.,]\d+)?$/.test(text) ? `'${text}` : text;

/** Rows as CSV, line ends CR LF; no cell can be taken for a formula, and `readCsv` gives every text back as it was. */
export function csvText(rows: readonly (readonly Cell[])[]): string {
  const cell = (value: Cell): string => {
    const text = typeof value === 'string' ? harmless(value) : String(value ?? '');
    return /[",;\r\n]|^\s|\s$/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
  };
  return rows.map((row) => `${row.map(cell).join(',')}\r\n`).join('');
}
