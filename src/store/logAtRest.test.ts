import { mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { emptyLogAtRest } from './logAtRest.ts';
import { openDatabase } from './openDatabase.ts';
import { openStore } from './store.ts';

const folder = mkdtempSync(join(tmpdir(), 'platterside-rest-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

it('what was written stands in the file itself once nobody has written for a while', async () => {
  const file = join(folder, 'bench.sqlite');
  const store = await openStore(file);
  await store.createJob({ deck: { name: 'a deck' } });
  expect(statSync(`${file}-wal`).size).toBeGreaterThan(0);
  const db = await openDatabase(file, () => '2026-03-04T09:00:00.000Z');
  const end = emptyLogAtRest(db, file, 200);
  await expect.poll(() => statSync(`${file}-wal`).size, { timeout: 20_000 }).toBe(0);
  expect((await store.jobs()).jobs).toHaveLength(1);
  end();
  await db.destroy();
  await store.close();
});
