import { sql } from 'kysely';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { openDatabase } from '../openDatabase.ts';
import { type Db, writing } from '../transaction.ts';
import { addFiles, addRecord } from './addWork.ts';
import { beat, claim, fail, finish, giveBack, sweep } from './claim.ts';

const START = Date.UTC(2026, 2, 4, 9);
let db: Db;
let ids: number;
const origin = { now: () => new Date().toISOString(), newId: () => `f${++ids}` };
const anything = sql`1 = 1`;

beforeEach(async () => {
  vi.useFakeTimers({ toFake: ['Date'], now: START });
  ids = 0;
  db = await openDatabase(':memory:', origin.now);
  await writing(db, (tx) => addRecord(tx, { id: 'r', name: 'a record', text: '{}' }, origin));
});
afterEach(async () => {
  vi.useRealTimers();
  await db.destroy();
});

const put = (...paths: string[]) =>
  writing(db, (tx) =>
    addFiles(
      tx,
      { record: 'r', chain: '', files: paths.map((path) => ({ root: 'a', path, bytes: 1, modifiedMs: 1 })) },
      origin,
    ),
  );
const take = (token: string, among = anything, leaseMs = 1000) =>
  writing(db, (tx) => claim(tx, 'batch_files', { token, worker: `bench of ${token}`, leaseMs }, among));
const row = (id: string) => db.selectFrom('batch_files').selectAll().where('id', '=', id).executeTakeFirstOrThrow();
const held = (id: string, token: string) => ({ table: 'batch_files', id, token }) as const;
const after = (ms: number) => vi.setSystemTime(START + ms);

it('a claim marks the row as the worker’s, with the lease from now on, and gives it to no other', async () => {
  await put('one.wav');
  const claimed = await take('t1');
  expect(claimed).toEqual({
    id: 'f1',
    state: 'claimed',
    tries: 1,
    token: 't1',
    worker: 'bench of t1',
    lease_until: START + 1000,
    not_before: 0,
    why: '',
    added_at: new Date(START).toISOString(),
    root: 'a',
    path: 'one.wav',
    record: 'r',
    chain: '',
    bytes: 1,
    modified_ms: 1,
    recorded_at: new Date(1).toISOString(),
    fingerprint: null,
  });
  expect(await row('f1')).toEqual(claimed);
  expect(await take('t2')).toBeNull();
});

it('claims go in the order in which the work was added, of those asked for', async () => {
  await put('one.wav', 'two.wav');
  after(10);
  await put('three.wav');
  expect((await take('t1', sql`path <> 'one.wav'`))?.path).toBe('two.wav');
  expect((await take('t2'))?.path).toBe('one.wav');
  expect((await take('t3'))?.path).toBe('three.wav');
});

it('what is done is done once: by who has it, with the reason of an earlier try gone', async () => {
  await put('one.wav');
  await take('t1');
  await writing(db, (tx) => fail(tx, held('f1', 't1'), 'noise'));
  after(500);
  await take('t2');
  expect(await writing(db, (tx) => finish(tx, held('f1', 't1')))).toBe(false);
  expect(await writing(db, (tx) => finish(tx, held('f2', 't2')))).toBe(false);
  expect(await writing(db, (tx) => finish(tx, held('f1', 't2')))).toBe(true);
  expect(await row('f1')).toMatchObject({ state: 'done', token: null, lease_until: null, why: '', tries: 2 });
  expect(await writing(db, (tx) => finish(tx, held('f1', 't2')))).toBe(false);
});

it('work that failed waits half a second a try, and is set aside after the third with its reason', async () => {
  await put('one.wav');
  for (const [tries, from] of [
    [1, 0],
    [2, 500],
  ]) {
    after(from);
    await take(`t${tries}`);
    await writing(db, (tx) => fail(tx, held('f1', `t${tries}`), `try ${tries}`));
    const now = START + from;
    expect(await row('f1')).toMatchObject({
      state: 'open',
      tries,
      token: null,
      lease_until: null,
      why: `try ${tries}`,
      not_before: now + tries * 500,
    });
    after(from + tries * 500 - 1);
    expect(await take('early')).toBeNull();
  }
  after(1500);
  expect((await take('t3'))?.tries).toBe(3);
  await writing(db, (tx) => fail(tx, held('f1', 'another'), 'not mine'));
  expect((await row('f1')).state).toBe('claimed');
  await writing(db, (tx) => fail(tx, held('f1', 't3'), 'try 3'));
  expect(await row('f1')).toMatchObject({ state: 'poisoned', why: 'try 3', tries: 3, token: null });
});

it('a lease that ran out is given back, to the millisecond, and prolonged by every word of the worker', async () => {
  await put('one.wav', 'two.wav');
  await take('t1');
  await take('t2', anything, 5000);
  const sweeping = () => writing(db, (tx) => sweep(tx, 'batch_files'));
  after(1000);
  await sweeping();
  expect((await row('f1')).state).toBe('claimed');
  expect(await writing(db, (tx) => beat(tx, held('f1', 't1'), 700))).toBe(true);
  expect((await row('f1')).lease_until).toBe(START + 1700);
  expect(await writing(db, (tx) => beat(tx, held('f1', 'another'), 700))).toBe(false);
  after(1701);
  await sweeping();
  expect(await row('f1')).toMatchObject({
    state: 'open',
    tries: 1,
    token: null,
    lease_until: null,
    why: 'The program that worked on it ended before it was done.',
  });
  expect((await row('f2')).state).toBe('claimed');
  expect(await writing(db, (tx) => beat(tx, held('f1', 't1'), 700))).toBe(false);
});

it('what ended its worker three times is set aside', async () => {
  await put('one.wav');
  for (const [round, state] of ['open', 'open', 'poisoned'].entries()) {
    await take('t');
    after((round + 1) * 2000);
    await writing(db, (tx) => sweep(tx, 'batch_files'));
    expect((await row('f1')).state, `after ${round + 1}`).toBe(state);
  }
});

it('work given back counts no try and may be claimed at once', async () => {
  await put('one.wav');
  await take('t1');
  await writing(db, (tx) => giveBack(tx, held('f1', 'another')));
  expect((await row('f1')).state).toBe('claimed');
  await writing(db, (tx) => giveBack(tx, held('f1', 't1')));
  expect(await row('f1')).toMatchObject({ state: 'open', tries: 0, token: null, lease_until: null });
  expect((await take('t2'))?.id).toBe('f1');
});
