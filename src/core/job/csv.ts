/** Rows as CSV (RFC 4180) for a spreadsheet, which must take no cell for a formula. */

/** A text that a spreadsheet would calculate is led by an apostrophe; a plain number, a minus before it or not, stays one. */
function cell(value: string | number | null): string {
  if (value === null) return '';
  const text = String(value);
  const safe =
    typeof value === 'string' && /^[=+\-@\t\r]/.test(text) && !/^-?\d+([.,]\d+)?$/.test(text) ? `'${text}` : text;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

export const csvText = (rows: readonly (readonly (string | number | null)[])[]): string =>
  rows.map((row) => `${row.map(cell).join(',')}\r\n`).join('');
