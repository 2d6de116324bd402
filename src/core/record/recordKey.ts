/** What tells one record from another: the record file's name and bands, as a short key. */
import type { RecordSheet } from './sheet.ts';

/**
 * Two 32-bit hashes (FNV-1a, from two starts) of the record file as it is read, its certificate left out: 16 hexadecimal digits. What is
 * learned of a record is learned from figures as heard, which no certificate touches; other bands make another record.
 */
export function recordKey(sheet: RecordSheet): string {
  const { cut: _, ...rest } = sheet;
  const text = JSON.stringify(ordered(rest));
  return [0x811c9dc5, 0x01000193].map((start) => hash(text, start)).join('');
}

function hash(text: string, start: number): string {
  let h = start;
  for (let i = 0; i < text.length; i++) h = Math.imul(h ^ text.charCodeAt(i), 0x01000193);
  return (h >>> 0).toString(16).padStart(8, '0');
}

/** Keys in one order, whatever order the file has them in. */
function ordered(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(ordered);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value)
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([key, inner]) => [key, ordered(inner)]),
  );
}
