/** The contract's tables of quantities and the catalogue say the same units; every limit is of a known quantity. */
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { expect, it } from 'vitest';
import { DEFAULT_LIMITS } from '../../src/core/advise/limits.ts';
import { curveTitles, quantities, quantityOf } from '../../src/core/words/quantities.ts';

const page = (name: string): string => readFileSync(resolve(import.meta.dirname, '../../docs', name), 'utf8');

/** Rows "| `a`, `b` | unit[, unit] | meaning |" under a heading "| quantity | unit |". */
function quantityRows(text: string): { quantity: string; unit: string }[] {
  return text
    .split('\n\n')
    .filter((part) => part.trimStart().startsWith('| quantity | unit | meaning'))
    .flatMap((table) => table.split('\n').slice(2))
    .flatMap((row) => {
      const [, names = '', units = ''] = row.split('|').map((cell) => cell.trim());
      const unit = units.split(', ');
      return [...names.matchAll(/`([a-z0-9-]+)`/g)].map(([, quantity], i) => ({
        quantity,
        unit: (unit[i] ?? unit[0]).replace('–', ''),
      }));
    });
}

it.each(['contract.md', 'match.md'])('%s and the catalogue name the same quantities with the same units', (name) => {
  const rows = quantityRows(page(name));
  expect(rows.length).toBeGreaterThan(8);
  for (const { quantity, unit } of rows) {
    expect(Object.keys(quantities), quantity).toContain(quantity);
    expect(quantities[quantity].unit, quantity).toBe(unit);
  }
});

it('every limit is of a quantity of the catalogue, or is shared by those that name it', () => {
  const named = new Set([...Object.keys(quantities), ...Object.values(quantities).map(({ limit }) => limit)]);
  const limits = Object.keys(DEFAULT_LIMITS);
  expect(limits.filter((name) => !named.has(name))).toEqual([]);
});

it('a quantity that nobody has named is told by its own name, under other figures', () => {
  expect(quantityOf('some-new-figure')).toMatchObject({ title: 'Some new figure', group: 'other', station: null });
});

it('every picture of a figure has a heading, and what Run shows has a picture of its own', () => {
  const own = new Set(['load-response', 'skating-force', ...Object.keys(quantities)]);
  const named = Object.values(quantities).flatMap(({ curves }) => curves);
  expect(named.filter((curve) => !Object.hasOwn(curveTitles, curve) && !own.has(curve))).toEqual([]);
  const bare = Object.entries(quantities)
    .filter(([, { station, curves }]) => station === 'run' && curves.length === 0)
    .map(([name]) => name);
  // a curve by its own name
  expect(bare).toEqual(['frequency-response']);
});
