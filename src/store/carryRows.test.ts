import { afterEach, beforeEach, expect, it } from 'vitest';
import { type CarriedRow, carriedTables, carryIn, carryOut } from './carry.ts';
import { openDatabase } from './openDatabase.ts';
import { type Db, reading, writing } from './transaction.ts';

const AT = '2026-03-04T09:00:00.000Z';
let ids: number;
const origin = { now: () => AT, newId: () => `new-${++ids}` };
let [from, to]: Db[] = [];
beforeEach(async () => {
  ids = 0;
  [from, to] = [await openDatabase(':memory:', origin.now), await openDatabase(':memory:', origin.now)];
  for (const db of [from, to])
    await db.insertInto('batch_records').values({ id: 'r', name: 'record', text: '{}', added_at: AT }).execute();
});
afterEach(async () => {
  await from.destroy();
  await to.destroy();
});

const work = { tries: 1, token: null, worker: '', lease_until: null, not_before: 0, why: '', added_at: AT };
const fileRow = (id: string, more: object = {}) => ({
  ...work,
  id,
  state: 'done' as const,
  root: 'a',
  path: `${id}.wav`,
  record: 'r',
  chain: '',
  bytes: 1,
  modified_ms: 1,
  recorded_at: AT,
  fingerprint: null as string | null,
  ...more,
});
const sideRow = (id: string, more: object = {}) => ({
  ...work,
  id,
  state: 'done' as const,
  fingerprint: id,
  method: '3',
  record: 'r',
  ...more,
});
const out = (table: (typeof carriedTables)[number], after: string | null = null) =>
  reading(from, (tx) => carryOut(tx, table, after));
const takeIn = (table: (typeof carriedTables)[number], ...rows: readonly CarriedRow[]) =>
  writing(to, (tx) => carryIn(tx, table, rows, origin));
const padded = (n: number) => String(n).padStart(4, '0');

it('what rows point to comes before them', () => {
  expect(carriedTables).toEqual([
    'chains',
    'chain_states',
    'chain_jobs',
    'reference_recordings',
    'batch_records',
    'batch_files',
    'batch_sides',
  ]);
});

it.each([
  ['batch_files', 500, (n: number) => fileRow(padded(n))],
  ['batch_sides', 50, (n: number) => sideRow(padded(n))],
  ['batch_records', 20, (n: number) => ({ id: padded(n), name: 'n', text: '{}', added_at: AT })],
] as const)('%s goes out %i rows at a time, in the order of its key', async (table, limit, row) => {
  if (table === 'batch_records') await from.deleteFrom('batch_records').execute();
  const rows = Array.from({ length: limit + 1 }, (_, place) => row(place));
  for (let first = 0; first < rows.length; first += 100)
    await from
      .insertInto(table)
      .values(rows.slice(first, first + 100).toReversed() as never)
      .execute();
  const page = await out(table);
  expect(page.rows.map((one) => one.row.id)).toEqual(rows.slice(0, limit).map(({ id }) => id));
  expect(page.next).toBe(padded(limit - 1));
  const rest = await out(table, page.next);
  expect([rest.rows.map((one) => one.row.id), rest.next]).toEqual([[padded(limit)], null]);
});

it('work that a worker has goes out as open, with the rest of its row as it is', async () => {
  const claimed = { state: 'claimed' as const, token: 't', worker: 'w', lease_until: 9, tries: 2 };
  await from.insertInto('batch_files').values(fileRow('f', claimed)).execute();
  await from.insertInto('batch_sides').values(sideRow('s', claimed)).execute();
  const open = { state: 'open', token: null, lease_until: null, worker: 'w', tries: 2 };
  expect(await out('batch_files')).toEqual({ rows: [{ row: fileRow('f', open) }], next: null });
  expect(await out('batch_sides')).toEqual({ rows: [{ row: sideRow('s', open) }], next: null });
});

it('a side goes with its result and every figure in its order, and comes in whole', async () => {
  await from
    .insertInto('batch_sides')
    .values([sideRow('s'), sideRow('t', { state: 'open' })])
    .execute();
  const result = { side_id: 's', measured_at: AT, took_ms: 5, document_json: '{}' };
  await from.insertInto('batch_results').values(result).execute();
  const figure = {
    side_id: 's',
    quantity: 'q',
    channel: null,
    words: null,
    uncertainty: null,
    unit: '%',
    verdict: 'info',
  };
  const figures = Array.from({ length: 230 }, (_, place) => ({ ...figure, place, value: place / 3 }));
  for (let first = 0; first < 230; first += 100)
    await from
      .insertInto('batch_figures')
      .values(figures.slice(first, first + 100).toReversed())
      .execute();
  const { rows } = await out('batch_sides');
  expect(rows).toEqual([{ row: sideRow('s'), result, figures }, { row: sideRow('t', { state: 'open' }) }]);
  expect(await takeIn('batch_sides', ...rows)).toBe(2);
  expect(await to.selectFrom('batch_results').selectAll().execute()).toEqual([result]);
  expect(await to.selectFrom('batch_figures').selectAll().orderBy('place').execute()).toEqual(figures);
  expect(await takeIn('batch_sides', ...rows)).toBe(0);
  expect(await takeIn('batch_sides', { row: sideRow('u'), result: { ...result, side_id: 'u' } })).toBe(1);
});

it.each([
  ['open', 1, 'done'],
  ['poisoned', 1, 'done'],
  ['claimed', 0, 'claimed'],
  ['done', 0, 'done'],
] as const)('a side that is %s there and measured here: %i is taken', async (state, taken, after) => {
  await to
    .insertInto('batch_sides')
    .values(sideRow('s', { state, why: 'before' }))
    .execute();
  const result = { side_id: 's', measured_at: AT, took_ms: 5, document_json: '{}' };
  expect(await takeIn('batch_sides', { row: sideRow('s'), result, figures: [] })).toBe(taken);
  const { why, state: is } = await to.selectFrom('batch_sides').selectAll().executeTakeFirstOrThrow();
  expect([is, why]).toEqual([after, taken === 1 ? '' : 'before']);
  expect(await to.selectFrom('batch_results').selectAll().execute()).toHaveLength(taken);
});

it.each([
  ['open', 'done', 'p'],
  ['poisoned', 'done', 'p'],
  ['claimed', 'claimed', null],
] as const)(
  'a file that is %s there without its fingerprint, which is known here, is %s then',
  async (state, after, fingerprint) => {
    await to
      .insertInto('batch_files')
      .values(fileRow('f', { state, why: 'before' }))
      .execute();
    expect(await takeIn('batch_files', { row: fileRow('f') })).toBe(0);
    expect((await to.selectFrom('batch_files').selectAll().executeTakeFirstOrThrow()).state).toBe(state);
    expect(
      await takeIn('batch_files', { row: fileRow('f', { id: 'g', path: 'f.wav', bytes: 2, fingerprint: 'p' }) }),
    ).toBe(0);
    expect((await to.selectFrom('batch_files').selectAll().executeTakeFirstOrThrow()).fingerprint).toBeNull();
    expect(await takeIn('batch_files', { row: fileRow('g', { path: 'f.wav', fingerprint: 'p' }) })).toBe(0);
    const row = await to.selectFrom('batch_files').selectAll().executeTakeFirstOrThrow();
    expect([row.id, row.state, row.fingerprint]).toEqual(['f', after, fingerprint]);
    expect(await takeIn('batch_files', { row: fileRow('h') }, { row: fileRow('i', { fingerprint: 'q' }) })).toBe(2);
  },
);

it('a chain whose id is another one’s there is given a new one, and its states and jobs follow it by name', async () => {
  const deck = { id: 'd', name: 'deck', plain: 'deck', description: '', created_at: AT };
  const job = { id: 'j', number: 1, title: '', deck_id: 'd', customer: '', notes: '', created_at: AT, updated_at: AT };
  const more = { revision: 0, practice: 0, set_aside_at: null, set_aside_why: null, record_file: '' };
  for (const db of [from, to]) {
    await db.insertInto('decks').values(deck).execute();
    await db
      .insertInto('jobs')
      .values({ ...job, ...more })
      .execute();
  }
  const chain = { id: 'chain-1', name: 'studio', made_at: AT };
  await from.insertInto('chains').values(chain).execute();
  await from
    .insertInto('chain_states')
    .values({ id: 's', chain_id: 'chain-1', since: AT, parts_json: '{}', why: 'w' })
    .execute();
  await from.insertInto('chain_jobs').values({ job_id: 'j', chain_id: 'chain-1' }).execute();
  await to
    .insertInto('chains')
    .values({ ...chain, name: 'other' })
    .execute();
  const states = (await out('chain_states')).rows;
  expect(states).toEqual([
    { row: { id: 's', chain_id: 'chain-1', since: AT, parts_json: '{}', why: 'w' }, chain: 'studio' },
  ]);
  // before the chain is there, nothing of it is taken
  expect(await takeIn('chain_states', ...states)).toBe(0);
  expect(await takeIn('chains', ...(await out('chains')).rows)).toBe(1);
  expect(await to.selectFrom('chains').selectAll().orderBy('id').execute()).toEqual([
    { ...chain, name: 'other' },
    { ...chain, id: 'new-1' },
  ]);
  expect(await takeIn('chains', ...(await out('chains')).rows)).toBe(0);
  expect(await takeIn('chain_states', ...states, { row: { ...states[0].row, id: 't' } })).toBe(1);
  const jobs = (await out('chain_jobs')).rows;
  expect(await takeIn('chain_jobs', ...jobs, { row: { job_id: 'gone', chain_id: 'chain-1' }, chain: 'studio' })).toBe(
    1,
  );
  expect((await to.selectFrom('chain_states').selectAll().execute()).map(({ chain_id }) => chain_id)).toEqual([
    'new-1',
  ]);
  expect(await to.selectFrom('chain_jobs').selectAll().execute()).toEqual([{ job_id: 'j', chain_id: 'new-1' }]);
});

it('a chain of the same id and name is there already', async () => {
  const chain = { id: 'chain-1', name: 'studio', made_at: AT };
  await to.insertInto('chains').values(chain).execute();
  expect(await takeIn('chains', { row: chain })).toBe(0);
  expect(await takeIn('chains', { row: { ...chain, id: 'chain-2', name: 'two' } })).toBe(1);
  expect((await to.selectFrom('chains').selectAll().orderBy('id').execute()).map(({ id }) => id)).toEqual([
    'chain-1',
    'chain-2',
  ]);
});

it('reference recordings and record files are taken where there are none of them', async () => {
  const reference = {
    fingerprint: 'f',
    name: 'n',
    record_key: 'k',
    record: 'r',
    certificate: '',
    expires: '2027-01-01',
    added_at: AT,
  };
  expect(await takeIn('reference_recordings', { row: reference }, { row: { ...reference, name: 'other' } })).toBe(1);
  expect(await takeIn('batch_records', { row: { id: 'r', name: 'other', text: '', added_at: AT } })).toBe(0);
  expect(await to.selectFrom('reference_recordings').selectAll().execute()).toEqual([reference]);
  expect(await takeIn('batch_sides')).toBe(0);
});
