import { afterEach, beforeEach, expect, it } from 'vitest';
import type { ChainReading } from '../../core/job/chains/chain.ts';
import { openDatabase } from '../openDatabase.ts';
import type { ChainRow } from '../tables.ts';
import { type Db, reading } from '../transaction.ts';
import { type ReadingsQuery, readingsOf } from './chainReadings.ts';
import { testRecord } from './chains.fixture.ts';

const [first, second] = [testRecord(138), testRecord(62)];
const CHAIN: ChainRow = { id: 'c', name: 'studio', made_at: '' };
const day = (n: number): string => `2026-03-${String(n).padStart(2, '0')}T09:00:00.000Z`;
const KNOWN = day(28);
let db: Db;
/** As they are to be told, by the plain rules: unsorted. */
let all: ChainReading[];

const jobRow = { title: '', deck_id: 'd', customer: '', notes: '', created_at: '', updated_at: '', revision: 0 };
const job = (id: string, number: number, more: object = {}) =>
  db
    .insertInto('jobs')
    .values({ ...jobRow, id, number, practice: 0, set_aside_at: null, set_aside_why: null, record_file: '', ...more })
    .execute();

beforeEach(async () => {
  db = await openDatabase(':memory:', () => day(1));
  all = [];
  await db
    .insertInto('decks')
    .values({ id: 'd', name: 'deck', plain: 'deck', description: '', created_at: '' })
    .execute();
  await db
    .insertInto('chains')
    .values([CHAIN, { ...CHAIN, id: 'o', name: 'other' }])
    .execute();
  for (const { id, name, text } of [first, second, { id: 'broken', name: 'no sheet', text: 'nonsense' }])
    await db.insertInto('batch_records').values({ id, name, text, added_at: '' }).execute();
  await job('j1', 1);
  await job('j2', 2);
  for (const job_id of ['j1', 'j2']) await db.insertInto('chain_jobs').values({ job_id, chain_id: 'c' }).execute();
});
afterEach(() => db.destroy());

const work = {
  state: 'done' as const,
  tries: 1,
  token: null,
  worker: '',
  lease_until: null,
  not_before: 0,
  why: '',
  added_at: '',
};

interface Lies {
  readonly id: string;
  readonly at: string;
  readonly fingerprint: string;
  readonly methods: readonly string[];
  readonly record?: { readonly id: string; readonly key: string; readonly name: string };
  readonly chain?: string;
}

/** A file whose content these versions measured. */
async function file({ id, at, fingerprint, methods, record = first, chain = 'studio' }: Lies): Promise<void> {
  const row = { ...work, id, root: 'a', path: `${id}.wav`, record: record.id, chain, bytes: 1, modified_ms: 1 };
  await db
    .insertInto('batch_files')
    .values({ ...row, recorded_at: at, fingerprint })
    .execute();
  for (const method of methods) {
    const side = `${fingerprint}-${method}-${record.id.slice(-3)}`;
    const { rowCount } = {
      rowCount: (await db.selectFrom('batch_sides').select('id').where('id', '=', side).execute()).length,
    };
    if (rowCount === 0) {
      await db
        .insertInto('batch_sides')
        .values({ ...work, id: side, fingerprint, method, record: record.id })
        .execute();
      await db
        .insertInto('batch_results')
        .values({ side_id: side, measured_at: KNOWN, took_ms: 1, document_json: '{}' })
        .execute();
    }
    all.push({
      id: `${id} ${side}`,
      at,
      knownAt: KNOWN,
      source: { root: 'a', path: `${id}.wav` },
      fingerprint,
      method,
      record: { key: record.key, name: record.name },
      reference: null,
      certificateUntil: null,
      figures: [],
    });
  }
}

/** A recording of a job. */
async function heard(
  id: string,
  at: string,
  sha256: string | null,
  record: typeof first | null,
  more: object = {},
  of = 1,
) {
  const row = {
    job_id: `j${of}`,
    station: 'tilt',
    heard_at: at,
    stored_at: KNOWN,
    sha256,
    file: `${id}.wav`,
    duration_s: 1,
  };
  const said = { practice: 0, said_kind: null, said_epoch: null, set_aside_at: null, set_aside_why: null };
  const by = { method: '3', record_key: record?.key ?? null, record_name: record?.name ?? null };
  await db
    .insertInto('captures')
    .values({ ...row, ...said, ...by, id, document_json: '{}', curves_json: '[]', ...more })
    .execute();
  all.push({
    id,
    at,
    knownAt: KNOWN,
    source: { job: of, file: `${id}.wav` },
    fingerprint: sha256,
    method: '3',
    record: record === null ? null : { key: record.key, name: record.name },
    reference: null,
    certificateUntil: null,
    figures: [],
  });
}

/** Many of them, several at one time, some in a batch and a job. */
async function many(): Promise<void> {
  for (let n = 1; n <= 12; n++)
    await file({
      id: `f${(n * 5) % 13}x`,
      at: day(1 + Math.floor(n / 3)),
      fingerprint: `p${n}`,
      methods: n % 4 === 0 ? ['2', '3'] : ['3'],
      record: n % 3 === 0 ? second : first,
    });
  for (let n = 1; n <= 8; n++)
    await heard(
      `h${(n * 3) % 11}`,
      day(2 + Math.floor(n / 2)),
      n % 2 === 0 ? null : `q${n}`,
      n % 3 === 0 ? null : n % 3 === 1 ? first : second,
      {},
      1 + (n % 2),
    );
}

const ask = (query: ReadingsQuery) => reading(db, (tx) => readingsOf(tx, CHAIN, query));
const order = (way: 'asc' | 'desc') => (a: ChainReading, b: ChainReading) =>
  (way === 'asc' ? 1 : -1) * (a.at === b.at ? (a.id < b.id ? -1 : 1) : a.at < b.at ? -1 : 1);

/** What is wanted, without a database. */
function plain({ order: way, limit, since, after, kind }: ReadingsQuery) {
  const wanted = all
    .filter((one) => since == null || one.at >= since)
    .filter(
      (one) =>
        kind === undefined || (one.method === kind.method && (one.record?.key ?? null) === (kind.record?.key ?? null)),
    )
    .filter((one) => after === undefined || (one.id !== after.id && order(way)(after as ChainReading, one) < 0))
    .sort(order(way));
  const page = wanted.slice(0, limit);
  const last = page.at(-1);
  return { readings: page, next: wanted.length > limit && last !== undefined ? { at: last.at, id: last.id } : null };
}

it('a page holds what lies in batches and in jobs, in either order, from any place on, of any kind', async () => {
  await many();
  const kinds = [
    undefined,
    { record: first, method: '3' },
    { record: second, method: '2' },
    { record: second, method: '3' },
    { record: null, method: '3' },
  ];
  for (const way of ['asc', 'desc'] as const)
    for (const limit of [1, 4, 50])
      for (const since of [null, day(4)])
        for (const kind of kinds)
          for (const at of [undefined, 7]) {
            const from = at === undefined ? undefined : [...all].sort(order(way))[at];
            const query: ReadingsQuery = {
              order: way,
              limit,
              since,
              ...(kind === undefined ? {} : { kind }),
              ...(from === undefined ? {} : { after: { at: from.at, id: from.id } }),
            };
            const { readings, next } = await ask(query);
            const expected = plain(query);
            expect(readings, JSON.stringify(query)).toEqual(expected.readings);
            expect(next === null ? null : { at: next.at, id: next.id }, JSON.stringify(query)).toEqual(expected.next);
          }
});

it('of files of one content the oldest stands, by its time and then by its id, within its chain and record file', async () => {
  await file({ id: 'f2', at: day(3), fingerprint: 'p', methods: ['3'] });
  await file({ id: 'f1', at: day(3), fingerprint: 'p', methods: ['3'] });
  await file({ id: 'f0', at: day(4), fingerprint: 'p', methods: ['3'] });
  await file({ id: 'fx', at: day(1), fingerprint: 'p', methods: ['3'], chain: 'other' });
  await file({ id: 'fy', at: day(5), fingerprint: 'p', methods: ['3'], record: second });
  const { readings, next } = await ask({ order: 'asc', limit: 10 });
  expect(readings.map(({ source }) => source)).toEqual([
    { root: 'a', path: 'f1.wav' },
    { root: 'a', path: 'fy.wav' },
  ]);
  expect(next).toBeNull();
});

it('a recording that lies in a batch and in a job is one reading; by another version or record file it is another', async () => {
  await file({ id: 'f1', at: day(3), fingerprint: 'p', methods: ['2', '3'] });
  await heard('h1', day(4), 'p', first);
  await heard('h2', day(5), 'p', second);
  await heard('h3', day(6), 'p', null);
  await heard('h4', day(7), null, null);
  await heard('h5', day(8), null, null);
  const idsOf = async (query: ReadingsQuery) => (await ask(query)).readings.map(({ id }) => id.slice(0, 2));
  expect(await idsOf({ order: 'asc', limit: 10 })).toEqual(['f1', 'f1', 'h2', 'h3', 'h4', 'h5']);
  expect(await idsOf({ order: 'desc', limit: 10 })).toEqual(['h5', 'h4', 'h3', 'h2', 'h1', 'f1']);
});

it('what does not count is left out: practice, set aside, of another chain, not measured', async () => {
  await job('p', 3, { practice: 1 });
  await job('s', 4, { set_aside_at: day(1), set_aside_why: 'x' });
  await job('n', 5);
  for (const job_id of ['p', 's']) await db.insertInto('chain_jobs').values({ job_id, chain_id: 'c' }).execute();
  for (const [place, more] of [
    { job_id: 'p' },
    { job_id: 's' },
    { job_id: 'n' },
    { practice: 1 },
    { set_aside_at: day(1) },
  ].entries())
    await heard(`out${place}`, day(3), null, first, more);
  await file({ id: 'f1', at: day(3), fingerprint: 'p', methods: [] });
  expect((await ask({ order: 'asc', limit: 10 })).readings).toEqual([]);
  await heard('in', day(3), null, null, { record_key: 'k' });
  await file({ id: 'f2', at: day(4), fingerprint: 'q', methods: ['3'], record: { id: 'broken', key: '', name: '' } });
  // a record file that cannot be read is none
  const { readings } = await ask({ order: 'asc', limit: 10 });
  expect(readings.map(({ record }) => record)).toEqual([{ key: 'k', name: '' }, null]);
});

it('a store without record files has the readings of its jobs', async () => {
  await db.deleteFrom('batch_records').execute();
  await heard('h1', day(4), 'p', first);
  expect((await ask({ order: 'asc', limit: 10 })).readings).toEqual(all);
});

it('figures by which a chain is watched go along, in their order, channel and all; bare readings have none', async () => {
  await file({ id: 'f1', at: day(3), fingerprint: 'p', methods: ['3'] });
  await heard('h1', day(4), 'q', first);
  const [{ id: side }] = await db.selectFrom('batch_sides').select('id').execute();
  const figure = { unit: '%', uncertainty: 0.02, verdict: 'info' };
  const rows = [
    { place: 3, quantity: 'hum', channel: 'left', value: 60 },
    { place: 1, quantity: 'speed-error', channel: null, value: -0.25 },
    { place: 0, quantity: 'second-harmonic', channel: null, value: 9 },
    { place: 2, quantity: 'hum', channel: 'right', value: null },
  ];
  for (const row of rows) {
    await db
      .insertInto('batch_figures')
      .values({ ...figure, ...row, side_id: side, words: row.value === null ? 'not found' : null })
      .execute();
    const { value, ...rest } = row;
    await db
      .insertInto('findings')
      .values({ ...figure, ...rest, capture_id: 'h1', value_number: value, value_text: null })
      .execute();
  }
  const figures = [
    { quantity: 'speed-error', unit: '%', value: -0.25, uncertainty: 0.02 },
    { quantity: 'hum', channel: 'left', unit: '%', value: 60, uncertainty: 0.02 },
  ];
  const { readings } = await ask({ order: 'asc', limit: 10 });
  expect(readings.map((one) => one.figures)).toEqual([figures, figures]);
  const bare = await ask({ order: 'asc', limit: 10, bare: true });
  expect(bare.readings.map((one) => one.figures)).toEqual([[], []]);
  expect((await ask({ order: 'asc', limit: 10, bare: false })).readings).toEqual(readings);
});
