import { afterEach, beforeEach, expect, it } from 'vitest';
import { openDatabase } from '../openDatabase.ts';
import { type Db, writing } from '../transaction.ts';
import { addFiles, addRecord, type FoundFile } from './addWork.ts';

let db: Db;
let ids: number;
let minute: number;
const origin = { now: () => new Date(Date.UTC(2026, 2, 4, 9, minute++)).toISOString(), newId: () => `f${++ids}` };
const AT = '2026-03-04T09:00:00.000Z';

beforeEach(async () => {
  [ids, minute] = [0, 0];
  db = await openDatabase(':memory:', () => AT);
  minute = 0;
  for (const id of ['r', 's'])
    await writing(db, (tx) => addRecord(tx, { id, name: `record ${id}`, text: '{}' }, origin));
});
afterEach(() => db.destroy());

const add = (chain: string, files: readonly FoundFile[], record = 'r') =>
  writing(db, (tx) => addFiles(tx, { record, chain, files }, origin));
const file = (more: Partial<FoundFile> = {}): FoundFile => ({
  root: 'archive',
  path: 'a/1.wav',
  bytes: 100,
  modifiedMs: Date.UTC(2026, 0, 2, 3, 4, 5, 678),
  ...more,
});
const rows = () => db.selectFrom('batch_files').selectAll().orderBy('id').execute();

it('a record file is kept as it was first added, with its time', async () => {
  await writing(db, (tx) => addRecord(tx, { id: 'r', name: 'other', text: '[]' }, origin));
  expect(await db.selectFrom('batch_records').selectAll().orderBy('id').execute()).toEqual([
    { id: 'r', name: 'record r', text: '{}', added_at: AT },
    { id: 's', name: 'record s', text: '{}', added_at: '2026-03-04T09:01:00.000Z' },
  ]);
});

it('a new recording is open, tried by nobody, and dated by its file', async () => {
  expect(await add('', [file()])).toEqual({ added: 1, there: 0, changed: 0 });
  expect(await rows()).toEqual([
    {
      id: 'f1',
      state: 'open',
      tries: 0,
      token: null,
      worker: '',
      lease_until: null,
      not_before: 0,
      why: '',
      added_at: '2026-03-04T09:02:00.000Z',
      root: 'archive',
      path: 'a/1.wav',
      record: 'r',
      chain: '',
      bytes: 100,
      modified_ms: Date.UTC(2026, 0, 2, 3, 4, 5, 678),
      fingerprint: null,
      recorded_at: '2026-01-02T03:04:05.678Z',
    },
  ]);
  // no chain was named, so none is made
  expect(await db.selectFrom('chains').selectAll().execute()).toEqual([]);
});

it('one is known by root, path and record file together', async () => {
  await add('', [file()]);
  expect(await add('', [file({ root: 'other' }), file({ path: 'a/2.wav' }), file()])).toEqual({
    added: 2,
    there: 1,
    changed: 0,
  });
  expect(await add('', [file()], 's')).toEqual({ added: 1, there: 0, changed: 0 });
});

it('what played it may be said later, and is not taken away by saying nothing', async () => {
  await add('', [file()]);
  expect(await add('studio 1', [file()])).toEqual({ added: 0, there: 1, changed: 0 });
  expect((await rows())[0].chain).toBe('studio 1');
  await add('', [file()]);
  expect((await rows())[0].chain).toBe('studio 1');
  expect((await db.selectFrom('chains').selectAll().execute()).map(({ name }) => name)).toEqual(['studio 1']);
});

it.each([
  ['length', { bytes: 101 }],
  ['time', { modifiedMs: 60_000 }],
])('another %s: other bytes lie there, to be measured anew under the same id', async (_, more) => {
  await add('studio 1', [file()]);
  const [{ id }] = await rows();
  await db
    .updateTable('batch_files')
    .set({
      state: 'poisoned',
      tries: 3,
      token: 't',
      worker: 'w',
      lease_until: 5,
      not_before: 9,
      why: 'x',
      fingerprint: 'ff',
    })
    .execute();
  expect(await add('', [file(more)])).toEqual({ added: 0, there: 0, changed: 1 });
  const [row] = await rows();
  const fresh = { id, state: 'open', tries: 0, token: null, lease_until: null, not_before: 0, why: '' };
  expect(row).toMatchObject({ ...fresh, fingerprint: null, chain: 'studio 1' });
  expect([row.bytes, row.modified_ms]).toEqual([file(more).bytes, file(more).modifiedMs]);
  expect(row.recorded_at).toBe(new Date(file(more).modifiedMs).toISOString());
  await add('studio 2', [file()]);
  expect((await rows())[0].chain).toBe('studio 2');
});
