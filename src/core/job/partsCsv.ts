/**
 * Parts as CSV (words/csv.ts): one part a line, a column for each field that any of them uses, header first. Numbers may be
 * typed with their unit (`1.8 g`); what was typed is kept and comes out again. Empty columns without a name are passed over.
 */
import { meansTwoNumbers, typedQuantity } from '../units/typedQuantity.ts';
import { type CsvLine, csvText, readCsv } from '../words/csv.ts';
import { checkPart, expectedOf, type PartFault, type PartsRead, quoted } from './partFault.ts';
import { fieldsOf, type PartKind, partKinds } from './partFields.ts';
import type { Part } from './parts.ts';

const ordinary = ['kind', 'name', 'note', 'marked'] as const;
type Plain = Readonly<Record<string, string | number | undefined>>;

/** Columns in the order of the field tables. */
export function partsToCsv(parts: readonly Part[]): string {
  const used = new Set(parts.flatMap((part) => Object.keys(part)));
  const fields = [...new Set(partKinds.flatMap((kind) => Object.keys(fieldsOf(kind))))].filter((name) =>
    used.has(name),
  );
  const columns = [...ordinary.filter((name) => name === 'kind' || name === 'name' || used.has(name)), ...fields];
  const lines = parts.map((part) =>
    columns.map((name) => {
      const value = (part as unknown as Plain)[name];
      return value === undefined ? null : (part.asTyped?.[name] ?? String(value));
    }),
  );
  return csvText([columns, ...lines]);
}

/** One line to the part's plain value; faults where a cell cannot be read. */
function partOf(
  columns: readonly string[],
  { row, cells }: CsvLine,
): { readonly value: unknown; readonly faults: PartFault[] } {
  const faults: PartFault[] = [];
  if (cells.length !== columns.length) {
    faults.push({ row, column: null, found: `${cells.length} cells`, expected: `${columns.length}, as in the header` });
    return { value: null, faults };
  }
  const texts: Record<string, string> = Object.fromEntries(
    columns
      .map((name, i) => [name, cells[i]] as const)
      .filter(([name, text]) => (name === '' ? text.trim() : text) !== ''),
  );
  if (Object.hasOwn(texts, '')) {
    faults.push({ row, column: null, found: quoted(texts['']), expected: 'nothing in a column without a name' });
    return { value: null, faults };
  }
  const kind = texts.kind?.trim();
  if (!(partKinds as readonly string[]).includes(kind)) {
    faults.push({ row, column: 'kind', found: quoted(kind), expected: `one of ${partKinds.join(', ')}` });
    return { value: null, faults };
  }
  const fields = fieldsOf(kind as PartKind);
  const value: Record<string, unknown> = { schema: 1 };
  const asTyped: Record<string, string> = {};
  for (const [name, text] of Object.entries(texts)) {
    const field = Object.hasOwn(fields, name) ? fields[name] : undefined;
    if (field === undefined && !(ordinary as readonly string[]).includes(name)) {
      faults.push({ row, column: name, found: quoted(text), expected: `nothing: the kind ${kind} has no such field` });
    } else if (field?.type === 'number') {
      if (meansTwoNumbers(text, field.unit, field.min, field.max)) {
        const expected = `${expectedOf(field)}, thousands without a separator`;
        faults.push({ row, column: name, found: quoted(text), expected });
        continue;
      }
      const typed = typedQuantity(text, field.unit);
      if (!typed.found) {
        faults.push({ row, column: name, found: quoted(text), expected: expectedOf(field) });
        continue;
      }
      value[name] = typed.value;
      if (String(typed.value) !== text) asTyped[name] = text;
    } else value[name] = field?.type === 'choice' || name === 'kind' ? text.trim() : text;
  }
  if (Object.keys(asTyped).length > 0) value.asTyped = asTyped;
  return { value, faults };
}

/** Reads all or nothing; every fault is told with its row and column. */
export function partsFromCsv(text: string): PartsRead {
  const { lines, open } = readCsv(text);
  const whole = (found: string, expected: string, row: number | null = null): PartsRead => ({
    parts: [],
    faults: [{ row, column: null, found, expected }],
  });
  if (open !== null) return whole('a quotation mark that is never closed', 'a closing quotation mark', open);
  const [header, ...body] = lines;
  if (header === undefined) return whole('no text', 'a header with kind and name, then one part a line');
  const columns = header.cells.map((name) => name.trim());
  const known = new Set<string>([...ordinary, ...partKinds.flatMap((kind) => Object.keys(fieldsOf(kind)))]);
  const faults: PartFault[] = [];
  for (const name of ['kind', 'name']) {
    if (!columns.includes(name)) {
      faults.push({ row: header.row, column: name, found: 'no such column', expected: 'columns kind and name' });
    }
  }
  columns.forEach((name, i) => {
    if (name !== '' && !known.has(name)) {
      faults.push({
        row: header.row,
        column: quoted(name),
        found: 'an unknown column',
        expected: 'the name of a field',
      });
    } else if (name !== '' && columns.indexOf(name) !== i) {
      faults.push({ row: header.row, column: name, found: 'the column twice', expected: 'each column once' });
    }
  });
  if (faults.length > 0) return { parts: [], faults };
  const parts: Part[] = [];
  for (const line of body) {
    const read = partOf(columns, line);
    faults.push(...read.faults);
    if (read.faults.length > 0) continue;
    const checked = checkPart(read.value, line.row);
    if (checked.found) parts.push(checked.part);
    else faults.push(...checked.faults);
  }
  return faults.length > 0 ? { parts: [], faults } : { parts, faults };
}
