import { afterEach, beforeEach, expect, it } from 'vitest';
import { tiltedSide } from '../../core/job/side.fixture.ts';
import { addFiles, addRecord } from '../batch/addWork.ts';
import { openDatabase } from '../openDatabase.ts';
import { given } from '../scratch.fixture.ts';
import { type Db, reading, writing } from '../transaction.ts';
import { chainNamed, chainRow, changeChain, lastChanged, listChains, readChain, setJobChain } from './chainList.ts';

const day = (n: number): string => `2026-03-${String(n).padStart(2, '0')}T09:00:00.000Z`;
let db: Db;
let ids: number;
const origin = { now: () => day(20), newId: () => `c${++ids}` };
beforeEach(async () => {
  ids = 0;
  db = await openDatabase(':memory:', origin.now);
});
afterEach(() => db.destroy());

const change = (name: string, parts: object, more: { since?: string; id?: string; why?: string } = {}) =>
  writing(db, (tx) => changeChain(tx, { name, parts, why: '', ...more }, origin));
const rowOf = async (name: string) => given(await reading(db, (tx) => chainRow(tx, name)));
const job = (id: string, number: number) =>
  db
    .insertInto('jobs')
    .values({
      id,
      number,
      title: '',
      deck_id: 'd',
      customer: '',
      notes: '',
      created_at: day(1),
      updated_at: day(1),
      revision: 0,
      practice: 0,
      set_aside_at: null,
      set_aside_why: null,
      record_file: '',
    })
    .execute();
const deck = () =>
  db
    .insertInto('decks')
    .values({ id: 'd', name: 'deck', plain: 'deck', description: '', created_at: day(1) })
    .execute();
const capture = (id: string, job_id: string, heard_at: string) =>
  db
    .insertInto('captures')
    .values({
      id,
      job_id,
      station: 'tilt',
      heard_at,
      stored_at: day(20),
      sha256: null,
      file: 'x',
      duration_s: 1,
      document_json: '{}',
      curves_json: '[]',
      practice: 0,
      said_kind: null,
      said_epoch: null,
      set_aside_at: null,
      set_aside_why: null,
      method: '1',
      record_key: null,
      record_name: null,
    })
    .execute();

it('a chain is made with its first naming and found by id or by name, blanks around it aside', async () => {
  const made = await writing(db, (tx) => chainNamed(tx, 'studio 1', origin));
  expect(made).toEqual({ id: 'c1', name: 'studio 1', made_at: day(20) });
  expect(await writing(db, (tx) => chainNamed(tx, 'studio 1', origin))).toEqual(made);
  expect(await rowOf('c1')).toEqual(made);
  expect(await rowOf(' studio 1 ')).toEqual(made);
  expect(await reading(db, (tx) => chainRow(tx, 'studio'))).toEqual({
    outcome: 'not-found',
    why: 'There is no chain studio.',
  });
});

it('parts that are not named stay as they were at that time; one that is emptied is gone', async () => {
  await change('studio', { deck: 'D', cartridge: 'A' }, { since: day(2), why: 'first' });
  await change('studio', { cartridge: 'C', preamp: 'P' }, { since: day(8), why: 'third' });
  // told late: between the two
  const chain = await change('studio', { cartridge: 'B' }, { since: day(5), why: 'second' });
  expect(chain).toEqual({
    id: 'c1',
    name: 'studio',
    parts: { deck: 'D', cartridge: 'C', preamp: 'P' },
    newest: null,
    states: [
      { since: day(8), parts: { deck: 'D', cartridge: 'C', preamp: 'P' }, why: 'third' },
      { since: day(5), parts: { deck: 'D', cartridge: 'B' }, why: 'second' },
      { since: day(2), parts: { deck: 'D', cartridge: 'A' }, why: 'first' },
    ],
    jobs: [],
  });
  const same = await change('studio', { deck: '' }, { since: day(8) });
  expect(same.states[0]).toEqual({ since: day(8), parts: { cartridge: 'C', preamp: 'P' }, why: '' });
  expect(same.parts).toEqual({ cartridge: 'C', preamp: 'P' });
  expect((await change('studio', { bench: 'b' })).states[0].since).toBe(day(20));
});

it('a change sent twice with one id is one change', async () => {
  const once = await change('studio', { deck: 'D' }, { id: 'sent' });
  expect(await change('studio', { deck: 'E' }, { id: 'sent' })).toEqual(once);
  expect(await db.selectFrom('chain_states').select('id').execute()).toEqual([{ id: 'sent' }]);
});

it('chains come in pages by name, each with its parts and its newest recording', async () => {
  await deck();
  await job('j', 1);
  for (const name of ['b', 'c', 'a']) await change(name, { deck: name });
  await writing(db, (tx) => addRecord(tx, { id: 'r', name: 'r', text: '{}' }, origin));
  const file = (path: string, n: number) => ({ root: 'a', path, bytes: 1, modifiedMs: Date.parse(day(n)) });
  await writing(db, (tx) => addFiles(tx, { record: 'r', chain: 'a', files: [file('1', 4), file('2', 3)] }, origin));
  await writing(db, (tx) => addFiles(tx, { record: 'r', chain: 'b', files: [file('3', 9)] }, origin));
  given(await writing(db, (tx) => setJobChain(tx, 'j', 'b')));
  await capture('x', 'j', day(10));
  await capture('y', 'j', day(7));
  const list = (limit: number, after?: string) =>
    reading(db, (tx) => listChains(tx, { limit, ...(after === undefined ? {} : { after }) }));
  const all = await list(3);
  expect(all).toEqual({
    chains: [
      { id: expect.any(String), name: 'a', parts: { deck: 'a' }, newest: day(4) },
      { id: expect.any(String), name: 'b', parts: { deck: 'b' }, newest: day(10) },
      { id: expect.any(String), name: 'c', parts: { deck: 'c' }, newest: null },
    ],
  });
  expect(await list(2)).toEqual({ chains: all.chains.slice(0, 2), next: 'b' });
  expect(await list(2, 'b')).toEqual({ chains: all.chains.slice(2) });
  await db.deleteFrom('captures').where('id', '=', 'x').execute();
  expect((await list(2)).chains[1].newest).toBe(day(9));
});

it('a job is of one chain at a time, of none where that is said, and its chain tells its number', async () => {
  await deck();
  for (const [id, number] of [
    ['j1', 1],
    ['j2', 2],
  ] as const)
    await job(id, number);
  await change('one', {});
  await change('two', {});
  const set = (id: string, chain: string | null) => writing(db, (tx) => setJobChain(tx, id, chain));
  const jobsOf = async (name: string) => (await reading(db, async (tx) => readChain(tx, await rowIn(tx, name)))).jobs;
  const rowIn = async (tx: Parameters<typeof chainRow>[0], name: string) => given(await chainRow(tx, name));
  expect(await set('none', 'one')).toEqual({ outcome: 'not-found', why: 'There is no job none.' });
  expect(await set('j1', 'one')).toEqual({ outcome: 'found', value: null });
  await set('j2', 'one');
  expect(await jobsOf('one')).toEqual([2, 1]);
  await set('j1', 'two');
  expect([await jobsOf('one'), await jobsOf('two')]).toEqual([[2], [1]]);
  expect(await set('j1', 'three')).toEqual({ outcome: 'not-found', why: 'There is no chain three.' });
  expect(await set('j2', null)).toEqual({ outcome: 'found', value: null });
  expect(await jobsOf('one')).toEqual([]);
});

it('the last change is the newest of what was written, fitted and done; a first description is none', async () => {
  await deck();
  await job('j', 1);
  await change('studio', { deck: 'D' }, { since: day(3) });
  given(await writing(db, (tx) => setJobChain(tx, 'j', 'studio')));
  const row = await rowOf('studio');
  const last = () => reading(db, (tx) => lastChanged(tx, row));
  expect(await last()).toBeNull();
  await change('studio', { deck: 'E' }, { since: day(4) });
  expect(await last()).toBe(day(4));
  const fitted = (id: string, at: string) =>
    db
      .insertInto('fittings')
      .values({ id, job_id: 'j', at, station: 'match', kind: 'stylus', name: '', was: '', hours: null })
      .execute();
  await fitted('f1', day(2));
  expect(await last()).toBe(day(4));
  await fitted('f2', day(6));
  await fitted('f3', day(5));
  expect(await last()).toBe(day(6));
  await capture('x', 'j', day(1));
  const [advice] = tiltedSide.advice;
  const advise = (id: string, did: string, outcome_at: string) =>
    db
      .insertInto('advice')
      .values({
        id,
        job_id: 'j',
        capture_id: 'x',
        place: 0,
        given_at: day(1),
        action: 'tilt',
        amount: null,
        unit: '',
        direction: null,
        advice_json: JSON.stringify(advice),
        did,
        outcome_note: '',
        outcome_at,
        checked_by: null,
      })
      .execute();
  await advise('a1', 'not-done', day(9));
  expect(await last()).toBe(day(6));
  await advise('a2', 'done', day(7));
  expect(await last()).toBe(day(7));
});
