import { afterEach, beforeEach, expect, it } from 'vitest';
import { openDatabase } from './openDatabase.ts';
import { countingOrigin } from './scratch.fixture.ts';
import { inParts, stylusFacts, typedAt } from './styli.ts';
import { type Db, reading } from './transaction.ts';

const AT = '2026-03-04T09:00:00.000Z';
let db: Db;
beforeEach(async () => {
  db = await openDatabase(':memory:', countingOrigin().now);
  await db
    .insertInto('decks')
    .values({ id: 'd', name: 'deck', plain: 'deck', description: '', created_at: AT })
    .execute();
});
afterEach(() => db.destroy());

let numbers = 0;
async function job(id: string, typed: Readonly<Record<string, unknown>> | string | null, station = 'intake') {
  const row = {
    id,
    number: ++numbers,
    title: '',
    deck_id: 'd',
    customer: '',
    notes: '',
    created_at: AT,
    updated_at: AT,
  };
  const more = { revision: 0, practice: 0, set_aside_at: null, set_aside_why: null, record_file: '' };
  await db
    .insertInto('jobs')
    .values({ ...row, ...more })
    .execute();
  const data_json = typeof typed === 'string' ? typed : JSON.stringify(typed ?? {});
  const state = { status: 'now', stale_because_json: null, revision: 0, updated_at: AT };
  await db
    .insertInto('stations')
    .values({ job_id: id, station, data_json, ...state })
    .execute();
  return { row: { id, number: row.number, created_at: AT }, deck: { id: 'd', name: 'deck' } };
}
const fitting = (id: string, job_id: string, kind: string, name: string, at: string, hours: number | null = null) =>
  db.insertInto('fittings').values({ id, job_id, at, station: 'match', kind, name, was: '', hours }).execute();
const facts = (...jobs: Awaited<ReturnType<typeof job>>[]) => reading(db, (tx) => stylusFacts(tx, jobs));

it('many ids are asked for in parts of five hundred, in their order', async () => {
  const ids = Array.from({ length: 1001 }, (_, place) => String(place));
  const asked: number[] = [];
  const found = await inParts(ids, async (some) => {
    asked.push(some.length);
    return some.map(Number);
  });
  expect(asked).toEqual([500, 500, 1]);
  expect(found).toEqual(ids.map(Number));
  expect(await inParts([], async () => ['never'])).toEqual([]);
});

it('what is typed is read where one of the keys is, of these jobs or of all, and what cannot be read is passed over', async () => {
  await job('a', { cartridge: 'C', stylusHours: '120' });
  await job('b', { stylusHours: '7' });
  await job('c', { notes: 'new' });
  await job('d', null);
  await job('e', '{"cartridge":');
  await job('f', { dueHours: '5' }, 'hand-over');
  const typed = async (keys: readonly ('cartridge' | 'stylusHours')[], jobs: readonly string[] | null) =>
    Object.fromEntries(
      await reading(db, (tx) => typedAt<{ cartridge: string; stylusHours: string }>(tx, 'intake', keys, jobs)),
    );
  const [a, b] = [{ cartridge: 'C', stylusHours: '120' }, { stylusHours: '7' }];
  expect(await typed(['cartridge', 'stylusHours'], null)).toEqual({ a, b });
  expect(await typed(['cartridge'], null)).toEqual({ a });
  expect(await typed(['cartridge', 'stylusHours'], ['b', 'c', 'e', 'f', 'none'])).toEqual({ b });
  expect(await typed(['stylusHours'], [])).toEqual({});
});

it('a job tells of the stylus that it was received with, where anything is typed of it', async () => {
  const told = { deck: { id: 'd', name: 'deck' }, at: AT, what: 'received', stylus: '' };
  const both = await job('a', { cartridge: '  C ', stylusHours: '120' });
  const hours = await job('b', { stylusHours: '7' });
  const name = await job('c', { cartridge: 'C', stylusHours: 'many' });
  const nothing = await job('d', null);
  const blank = await job('e', { cartridge: '  ' });
  expect(await facts(both, hours, name, nothing, blank)).toEqual([
    { ...told, job: both.row.number, cartridge: 'C', hours: 120 },
    { ...told, job: hours.row.number, cartridge: '', hours: 7 },
    { ...told, job: name.row.number, cartridge: 'C', hours: null },
  ]);
  expect(await facts()).toEqual([]);
});

it('every cartridge and stylus that was fitted is told with the cartridge it is of; other parts are not', async () => {
  const at = (hour: number) => `2026-03-04T${hour}:00:00.000Z`;
  const one = await job('a', { cartridge: 'C', stylusHours: '120' });
  const other = await job('b', null);
  await fitting('f1', 'a', 'stylus', 'S', at(10), 0);
  await fitting('f2', 'a', 'cartridge', 'D', at(11), 5);
  await fitting('f3', 'a', 'stylus', 'T', at(12));
  await fitting('f4', 'a', 'preamp', 'P', at(13), 1);
  await fitting('f5', 'b', 'stylus', 'U', at(14), 2);
  const told = { deck: { id: 'd', name: 'deck' }, job: one.row.number };
  expect(await facts(one, other)).toEqual([
    { ...told, at: AT, what: 'received', cartridge: 'C', stylus: '', hours: 120 },
    { ...told, at: at(10), what: 'fitted', cartridge: 'C', stylus: 'S', hours: 0 },
    { ...told, at: at(11), what: 'fitted', cartridge: 'D', stylus: '', hours: 5 },
    { ...told, at: at(12), what: 'fitted', cartridge: 'D', stylus: 'T', hours: null },
    { ...told, job: other.row.number, at: at(14), what: 'fitted', cartridge: '', stylus: 'U', hours: 2 },
  ]);
});
