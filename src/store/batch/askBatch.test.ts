import { afterEach, beforeEach, expect, it } from 'vitest';
import { openDatabase } from '../openDatabase.ts';
import type { BatchFileRow, BatchSideRow } from '../tables.ts';
import { type Db, reading, writing } from '../transaction.ts';
import { measureAgain, movedFigures, reportPage, statusOf } from './askBatch.ts';

const NOW = '2026-03-04T09:00:00.000Z';
const before = (ms: number): string => new Date(Date.parse(NOW) - ms).toISOString();
let db: Db;
beforeEach(async () => {
  db = await openDatabase(':memory:', () => NOW);
  for (const id of ['r', 's'.repeat(20)])
    await db
      .insertInto('batch_records')
      .values({ id, name: `record ${id[0]}`, text: '{}', added_at: NOW })
      .execute();
});
afterEach(() => db.destroy());

const work = { tries: 1, token: null, worker: '', lease_until: null, not_before: 0, why: '', added_at: NOW };
const file = (id: string, more: Partial<BatchFileRow> = {}) => {
  const row = {
    ...work,
    id,
    state: 'done' as const,
    root: 'a',
    path: `${id}.wav`,
    record: 'r',
    chain: 'studio',
    bytes: 1,
  };
  return db
    .insertInto('batch_files')
    .values({ ...row, modified_ms: 1, recorded_at: NOW, fingerprint: null, ...more })
    .execute();
};
const side = (id: string, more: Partial<BatchSideRow> = {}) =>
  db
    .insertInto('batch_sides')
    .values({ ...work, id, state: 'done', fingerprint: id, method: '3', record: 'r', ...more })
    .execute();
const result = (side_id: string, at = NOW) =>
  db.insertInto('batch_results').values({ side_id, measured_at: at, took_ms: 1, document_json: '{}' }).execute();
const figure = (side_id: string, place: number, quantity: string, value: number | string | null, more: object = {}) =>
  db
    .insertInto('batch_figures')
    .values({
      side_id,
      place,
      quantity,
      channel: null,
      value: typeof value === 'number' ? value : null,
      words: typeof value === 'string' ? value : null,
      uncertainty: 0.1,
      unit: '%',
      verdict: 'info',
      ...more,
    })
    .execute();
const status = () => reading(db, (tx) => statusOf(tx, '3', NOW));

it('of nothing nothing is told', async () => {
  const none = { open: 0, claimed: 0, done: 0, poisoned: 0 };
  expect(await status()).toEqual({ files: none, sides: none, workers: [], hourly: null, endsAt: null, poisoned: [] });
});

it('files are counted by their state, sides of this version only; workers by what they have', async () => {
  await file('f1', { state: 'open' });
  await file('f2', { state: 'claimed', worker: 'zeta' });
  await file('f3', { state: 'claimed', worker: 'alpha' });
  for (const id of ['f4', 'f5', 'f6']) await file(id, { worker: 'gone' });
  await file('f7', { state: 'poisoned', why: 'no sound' });
  await side('s1', { state: 'open' });
  await side('s2', { state: 'claimed', worker: 'zeta' });
  await side('s3', { state: 'claimed', worker: 'alpha', method: '2' });
  await side('s4', { state: 'open', method: '2' });
  await side('s5');
  expect(await status()).toMatchObject({
    files: { open: 1, claimed: 2, done: 3, poisoned: 1 },
    sides: { open: 1, claimed: 1, done: 1, poisoned: 0 },
    workers: [
      { worker: 'alpha', has: 2 },
      { worker: 'zeta', has: 2 },
    ],
    poisoned: [{ path: 'f7.wav', why: 'no sound' }],
  });
});

it('the pace is that of the last ten minutes, of n results n − 1 intervals, and tells the end', async () => {
  await side('old');
  await result('old', before(600_001));
  for (const [place, ms] of [600_000, 300_000, 0].entries()) {
    await side(`s${place}`);
    await result(`s${place}`, before(ms));
  }
  await side('open', { state: 'open' });
  await side('has', { state: 'claimed' });
  await file('f1', { state: 'open' });
  await file('f2', { state: 'claimed' });
  const { hourly, endsAt } = await status();
  // two intervals in ten minutes
  expect(hourly).toBeCloseTo(12, 9);
  // four left at twelve an hour
  expect(endsAt).toBe(new Date(Date.parse(NOW) + 20 * 60_000).toISOString());
});

it('no end is told where nothing is left, and no pace of one result or of several at one moment', async () => {
  await side('s1');
  await result('s1', before(1000));
  await file('f1', { state: 'open' });
  expect(await status()).toMatchObject({ hourly: null, endsAt: null });
  await side('s2');
  await result('s2', before(1000));
  expect((await status()).hourly).toBeCloseTo(3600, 9);
  expect((await status()).endsAt).toBe(new Date(Date.parse(NOW) + 1000).toISOString());
  await db.deleteFrom('batch_files').execute();
  expect((await status()).endsAt).toBeNull();
  await db.updateTable('batch_results').set({ measured_at: NOW }).execute();
  expect((await status()).hourly).toBeNull();
});

it('what was set aside is told with its reason, files before sides, twenty of them', async () => {
  await file('b', { fingerprint: 'one' });
  await side('one', { state: 'poisoned', why: 'too quiet' });
  await side('other version', { state: 'poisoned', why: 'x', method: '2', fingerprint: 'one' });
  await side('other record', { state: 'poisoned', why: 'x', fingerprint: 'one', record: 's'.repeat(20) });
  await file('z', { state: 'poisoned', why: 'first', added_at: before(5) });
  await file('a', { state: 'poisoned', why: 'second' });
  expect((await status()).poisoned).toEqual([
    { path: 'z.wav', why: 'first' },
    { path: 'a.wav', why: 'second' },
    { path: 'b.wav', why: 'too quiet' },
  ]);
  for (let place = 10; place < 29; place++) await file(`p${place}`, { state: 'poisoned' });
  const { poisoned } = await status();
  expect([poisoned.length, poisoned[2].path, poisoned[19].path]).toEqual([20, 'p10.wav', 'p27.wav']);
});

it('a report tells of every recording how far it is, with the figures of this version in their order', async () => {
  await file('f1', { fingerprint: 's1', why: 'of the file', root: 'b' });
  await side('s1', { why: 'of the side' });
  await side('s1 before', { fingerprint: 's1', method: '2' });
  await result('s1', before(7));
  await figure('s1', 1, 'hum', 60, { channel: 'left', unit: 'dB', verdict: 'good', uncertainty: null });
  await figure('s1', 0, 'speed-error', 'not found');
  await figure('s1 before', 0, 'speed-error', 9);
  await file('f2', { fingerprint: 's2', record: 's'.repeat(20) });
  await file('f3', { state: 'claimed', why: 'tried before' });
  await side('s4', { state: 'poisoned', why: 'too quiet' });
  await file('f4', { fingerprint: 's4' });
  const page = (after: string | null, limit: number) =>
    reading(db, (tx) => reportPage(tx, { method: '3', after, limit }));
  const base = { root: 'a', record: 'record r', chain: 'studio', method: '3', measuredAt: null, why: '', figures: [] };
  const rows = await page(null, 10);
  expect(rows).toEqual([
    {
      ...base,
      id: 'f1',
      root: 'b',
      path: 'f1.wav',
      fingerprint: 's1',
      state: 'done',
      why: 'of the side',
      measuredAt: before(7),
      figures: [
        { quantity: 'speed-error', channel: null, value: 'not found', uncertainty: 0.1, unit: '%', verdict: 'info' },
        { quantity: 'hum', channel: 'left', value: 60, uncertainty: null, unit: 'dB', verdict: 'good' },
      ],
    },
    { ...base, id: 'f2', path: 'f2.wav', record: 'record s', fingerprint: 's2', state: 'open' },
    { ...base, id: 'f3', path: 'f3.wav', fingerprint: null, state: 'claimed', why: 'tried before' },
    { ...base, id: 'f4', path: 'f4.wav', fingerprint: 's4', state: 'poisoned', why: 'too quiet' },
  ]);
  expect(await page(null, 2)).toEqual(rows.slice(0, 2));
  expect(await page('f2', 1)).toEqual([rows[2]]);
  expect(await page('f4', 1)).toEqual([]);
});

it('what only earlier versions measured is opened for this one, once, whatever measured it', async () => {
  const again = (olderThan: number) => writing(db, (tx) => measureAgain(tx, { olderThan, method: '4' }, NOW));
  const long = 's'.repeat(20);
  await side('two', { method: '2', fingerprint: 'aa', record: long });
  await side('three', { method: '3', fingerprint: 'aa', record: long });
  await side('unmeasured', { method: '2', fingerprint: 'bb', state: 'open' });
  await side('newer', { method: '5', fingerprint: 'cc' });
  await side('this', { method: '4', fingerprint: 'dd' });
  await side('also', { method: '3', fingerprint: 'ee' });
  expect(await again(2)).toBe(0);
  expect(await again(3)).toBe(1);
  const opened = await db
    .selectFrom('batch_sides')
    .selectAll()
    .where('fingerprint', '=', 'aa')
    .where('method', '=', '4')
    .execute();
  expect(opened).toEqual([
    { ...work, tries: 0, id: `aa-4-${'s'.repeat(16)}`, state: 'open', fingerprint: 'aa', method: '4', record: long },
  ]);
  expect(await again(9)).toBe(2);
  expect(await again(9)).toBe(0);
});

it('figures that two versions read otherwise are told with both, those of a kind by their order', async () => {
  for (const [id, method] of [
    ['a1', '1'],
    ['a2', '10'],
    ['a9', '9'],
    ['a3', '11'],
  ])
    await side(id, { method, fingerprint: 'aa' });
  await side('a open', { method: '10.5', fingerprint: 'aa', state: 'open' });
  await side('a other', { method: '10.6', fingerprint: 'aa', record: 's'.repeat(20) });
  await side('b3', { method: '11', fingerprint: 'bb' });
  await side('c3', { method: '11', fingerprint: 'cc', state: 'open' });
  await file('f1', { fingerprint: 'aa', path: 'x/1.wav' });
  await figure('a2', 0, 'same', 1);
  await figure('a3', 0, 'same', 1);
  await figure('a2', 1, 'tone', 1);
  await figure('a2', 2, 'tone', 2);
  await figure('a3', 1, 'tone', 1);
  await figure('a3', 2, 'tone', 3, { uncertainty: 0.2 });
  await figure('a2', 3, 'surer', 5);
  await figure('a3', 3, 'surer', 5, { uncertainty: null });
  await figure('a2', 4, 'gone', 'not found', { channel: 'left' });
  await figure('a3', 5, 'gone', 'not found', { channel: 'right' });
  await figure('a3', 6, 'same', 1, { unit: 'dB' });
  await figure('a1', 0, 'same', 77);
  await figure('a9', 0, 'same', 78);
  const page = (after: string | null, limit: number) =>
    reading(db, (tx) => movedFigures(tx, { method: '11', after, limit }));
  const what = { fingerprint: 'aa', path: 'x/1.wav', channel: null, unit: '%' };
  const was = (value: number | string | null, uncertainty: number | null = 0.1) => ({
    method: '10',
    value,
    uncertainty,
  });
  const is = (value: number | string | null, uncertainty: number | null = 0.1) => ({
    method: '11',
    value,
    uncertainty,
  });
  const { moved, next } = await page(null, 3);
  expect(next).toBeNull();
  expect(moved).toEqual([
    { ...what, quantity: 'tone', before: was(2), now: is(3, 0.2) },
    { ...what, quantity: 'surer', before: was(5), now: is(5, null) },
    { ...what, quantity: 'gone', channel: 'left', before: was('not found'), now: is(null, null) },
    { ...what, quantity: 'gone', channel: 'right', before: was(null, null), now: is('not found') },
    { ...what, quantity: 'same', unit: 'dB', before: was(null, null), now: is(1) },
  ]);
  expect(await page(null, 1)).toEqual({ moved, next: 'a3' });
  expect(await page(null, 2)).toEqual({ moved, next: 'b3' });
  expect(await page('a3', 2)).toEqual({ moved: [], next: null });
  await db.deleteFrom('batch_files').execute();
  expect((await page(null, 3)).moved[0].path).toBe('');
});
