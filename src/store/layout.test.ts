import { readFileSync } from 'node:fs';
import { sql } from 'kysely';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { applyMissingSteps, refuseNewer } from './layout.ts';
import { layoutSteps, newestLayout, WRITER } from './migrations.ts';
import { openDatabase } from './openDatabase.ts';
import { StoreError } from './storeError.ts';
import type { Db } from './transaction.ts';

/** What stands there once is never changed; more may come after it. */
const layoutText = readFileSync(new URL('./layout.fixture.txt', import.meta.url), 'utf8');
const AT = '2026-03-04T09:00:00.000Z';
let db: Db;
beforeEach(async () => {
  db = await openDatabase(':memory:', () => AT);
});
afterEach(() => db.destroy());

/** A statement in lines of its own for each column, without the quotes. */
function linesOf(statement: string): string {
  const text = statement
    .replaceAll('"', '')
    .replace(/^CREATE (TABLE|INDEX)/, (_, what: string) => what.toLowerCase())
    .replace(/where quantity in \(.*\)$/, 'where quantity in (…)');
  const [, name, columns] = /^table (\w+) \((.*)\)$/.exec(text) ?? [];
  return columns === undefined ? text : [`table ${name}`, ...columns.split(/, (?![^(]*\))/)].join('\n  ');
}

it('the layout is what the released steps made of it: every table, column and index', async () => {
  const { rows } = await sql<{ sql: string }>`
    select sql from sqlite_master where sql is not null order by rowid`.execute(db);
  expect(rows.map((row) => linesOf(row.sql)).join('\n')).toBe(layoutText.trim());
});

it('a new store holds the steps with their time, and the row that writers touch, and nothing else', async () => {
  const steps = await db.selectFrom('layout_steps').selectAll().orderBy('number').execute();
  expect(steps).toEqual(layoutSteps.map(({ number, name }) => ({ number, name, applied_at: AT })));
  expect(steps.map(({ number }) => number)).toEqual(Array.from({ length: newestLayout }, (_, place) => place + 1));
  expect(await db.selectFrom('settings').selectAll().execute()).toEqual([{ name: WRITER, value: 'one at a time' }]);
  for (const table of ['jobs', 'decks', 'words', 'chains', 'next_checks', 'batch_files'] as const)
    expect(await db.selectFrom(table).selectAll().execute(), table).toEqual([]);
});

it('only the steps that are missing are gone through', async () => {
  await db.deleteFrom('layout_steps').where('number', '=', 2).execute();
  await applyMissingSteps(db, () => 'later');
  const steps = await db.selectFrom('layout_steps').select(['number', 'applied_at']).orderBy('number').execute();
  expect(steps.map(({ applied_at }) => applied_at)).toEqual(
    layoutSteps.map(({ number }) => (number === 2 ? 'later' : AT)),
  );
});

it('a layout as new as this version’s is taken, a newer one refused with both numbers', () => {
  expect(() => refuseNewer('x.sqlite', newestLayout)).not.toThrow();
  expect(() => refuseNewer('x.sqlite', 0)).not.toThrow();
  const refused = (() => {
    try {
      refuseNewer('x.sqlite', newestLayout + 1);
    } catch (error) {
      return error;
    }
  })();
  expect(refused).toBeInstanceOf(StoreError);
  expect((refused as Error).message).toBe(
    `x.sqlite was written by a newer version (its layout is ${newestLayout + 1}, this one knows up to ${newestLayout}). ` +
      'Bring this program up to date, or name another store with --store. Nothing was touched.',
  );
});
