/** The table of keys in docs/virtual-deck.md is the table that the deck is read by, both ways. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { deckFields } from '../../src/core/deck/deck.ts';

const page = readFileSync(join(import.meta.dirname, '..', '..', 'docs', 'virtual-deck.md'), 'utf8');

interface AnyField {
  kind: string;
  fields?: Record<string, AnyField>;
  item?: AnyField;
  inner?: AnyField;
  initial?: unknown;
  min?: number;
  max?: number;
  choices?: unknown[];
}

function rowsOf(field: AnyField, at: string, absent: boolean): string[] {
  switch (field.kind) {
    case 'group':
      return Object.entries(field.fields ?? {}).flatMap(([key, inner]) =>
        rowsOf(inner, at === '' ? key : `${at}.${key}`, false),
      );
    case 'list':
      return rowsOf(field.item as AnyField, `${at}[]`, false);
    case 'maybe':
      return rowsOf(field.inner as AnyField, at, true);
    default: {
      const [low, high] =
        field.kind === 'number' ? [field.min, field.max] : [(field.choices ?? []).map(String).join(', '), ''];
      return [`| \`${at}\` | ${absent ? 'null' : field.initial} | ${low} | ${high} |`];
    }
  }
}

test('every key of a deck file is in the table with its default and bounds, and no other', () => {
  const rows = rowsOf(deckFields as unknown as AnyField, '', false);
  const written = page
    .slice(page.indexOf('## The deck file'))
    .split('\n')
    .filter((line) => line.startsWith('| `'))
    .map((line) => `${line.split('|').slice(0, 5).join('|')}|`);
  expect(written).toEqual(rows);
  expect(rows.length).toBeGreaterThan(60);
});
