import { afterEach, beforeEach, expect, it } from 'vitest';
import { openDatabase } from '../openDatabase.ts';
import type { ChainRow } from '../tables.ts';
import { type Db, reading } from '../transaction.ts';
import { readAlarms, readCharts } from './readCharts.ts';

const CHAIN: ChainRow = { id: 'c', name: 'studio', made_at: '' };
const START = Date.UTC(2026, 0, 1);
/** a reading an hour */
const hour = (n: number): string => new Date(START + n * 3_600_000).toISOString();
const A = { key: 'a'.repeat(16), name: 'record a' };
const B = { key: 'b'.repeat(16), name: 'record b' };
let db: Db;

beforeEach(async () => {
  db = await openDatabase(':memory:', () => hour(0));
  await db
    .insertInto('decks')
    .values({ id: 'd', name: 'deck', plain: 'deck', description: '', created_at: '' })
    .execute();
  await chain(CHAIN, 1);
});
afterEach(() => db.destroy());

async function chain(row: ChainRow, number: number): Promise<void> {
  await db.insertInto('chains').values(row).execute();
  const job = {
    id: `j ${row.id}`,
    number,
    title: '',
    deck_id: 'd',
    customer: '',
    notes: '',
    created_at: '',
    updated_at: '',
  };
  const more = { revision: 0, practice: 0, set_aside_at: null, set_aside_why: null, record_file: '' };
  await db
    .insertInto('jobs')
    .values({ ...job, ...more })
    .execute();
  await db.insertInto('chain_jobs').values({ job_id: job.id, chain_id: row.id }).execute();
}

interface Heard {
  readonly from: number;
  readonly count: number;
  readonly value?: (n: number) => number;
  readonly record?: typeof A | null;
  readonly method?: string;
  readonly of?: string;
  readonly sha256?: (n: number) => string;
  readonly known?: (n: number) => string;
}

const CALM = [0, 0.1, -0.1, 0.05, -0.05];
const calm = (n: number): number => CALM[n % CALM.length];

/** So many recordings of the chain's job, an hour apart. */
async function heard({ from, count, value = calm, record = A, method = '3', of = 'c', sha256, known = hour }: Heard) {
  const places = Array.from({ length: count }, (_, place) => from + place);
  const id = (n: number) => `${of} ${method} ${record?.name ?? ''} ${String(n).padStart(4, '0')}`;
  const said = { practice: 0, said_kind: null, said_epoch: null, set_aside_at: null, set_aside_why: null };
  for (let first = 0; first < count; first += 100) {
    const some = places.slice(first, first + 100);
    await db
      .insertInto('captures')
      .values(
        some.map((n) => ({
          ...said,
          id: id(n),
          job_id: `j ${of}`,
          station: 'run',
          heard_at: hour(n),
          stored_at: known(n),
          sha256: sha256?.(n) ?? null,
          file: `${n}.wav`,
          duration_s: 1,
          document_json: '{}',
          curves_json: '[]',
          method,
          record_key: record?.key ?? null,
          record_name: record?.name ?? null,
        })),
      )
      .execute();
    const figure = { place: 0, quantity: 'speed-error', channel: null, value_text: null, unit: '%', uncertainty: 0.02 };
    await db
      .insertInto('findings')
      .values(some.map((n) => ({ ...figure, capture_id: id(n), value_number: value(n), verdict: 'info' })))
      .execute();
  }
}

const charts = (asked?: string) => reading(db, (tx) => readCharts(tx, CHAIN, asked));
const alarms = (since: string) => reading(db, (tx) => readAlarms(tx, since));
const points = async (asked?: string) => (await charts(asked)).figures[0].points.map(({ at }) => at);

it('of a chain without readings that is all that is told', async () => {
  const { figures, record, method, records, says } = await charts();
  expect([figures, record, method, records, says.length]).toEqual([[], null, null, [], 1]);
  expect(await charts(A.key)).toMatchObject({ figures: [], record: null, method: null });
});

it('up to 460 readings are drawn all; of more the first sixty, which make the limits, and the newest four hundred', async () => {
  await heard({ from: 0, count: 460 });
  const whole = await charts();
  expect(whole.figures[0].points.map(({ at }) => at)).toEqual(Array.from({ length: 460 }, (_, n) => hour(n)));
  await heard({ from: 460, count: 1 });
  const { figures, says } = await charts();
  const drawn = figures[0].points.map(({ at }) => at);
  expect(drawn).toEqual([...Array(60).keys(), ...Array.from({ length: 400 }, (_, n) => 61 + n)].map(hour));
  expect(figures[0].gap).toBe(60);
  expect(says).toEqual([expect.stringContaining('400')]);
});

it('401 readings are drawn without a gap, and once each', async () => {
  await heard({ from: 0, count: 401 });
  const { figures, says } = await charts();
  expect(figures[0].points.map(({ at }) => at)).toEqual(Array.from({ length: 401 }, (_, n) => hour(n)));
  expect([figures[0].gap, says]).toEqual([null, []]);
});

it('the record file of the newest reading is chosen, and of versions the newest as a number', async () => {
  await heard({ from: 0, count: 2, method: '10' });
  await heard({ from: 2, count: 3, method: '9' });
  await heard({ from: 5, count: 2, record: B });
  await heard({ from: 7, count: 1, record: null });
  expect(await charts()).toMatchObject({ record: null, method: '3' });
  expect(await points()).toEqual([hour(7)]);
  expect(await charts('none')).toMatchObject({ record: null });
  expect(await charts(A.key)).toMatchObject({ record: A, method: '10' });
  expect(await points(A.key)).toEqual([hour(0), hour(1)]);
  expect(await points(B.key)).toEqual([hour(5), hour(6)]);
  expect((await charts()).records).toEqual([{ key: 'none', name: '' }, B, A]);
  expect((await charts('f'.repeat(16))).figures).toEqual([]);
});

it('what is left out is counted by recording: measured by this version too it is drawn, not left out', async () => {
  await heard({ from: 0, count: 4, method: '2', sha256: (n) => `s${n}` });
  await heard({ from: 0, count: 2, sha256: (n) => `s${n}` });
  await heard({ from: 10, count: 3, record: B, sha256: (n) => `s${n - 9}` });
  const { says } = await charts(A.key);
  // s0 and s1 are drawn; s2 and s3 by the earlier version, s2 and s3 by the other record file, s1 drawn after all
  expect(says).toEqual([
    'Of the newest 4 recordings 2 were measured by an earlier version of the methods only and are not drawn beside those of version 3. What lies in batches is measured anew by batch again --older-than 3.',
    'Of the newest 4 recordings 2 were measured by another record file, which has charts of its own.',
  ]);
});

it('alarms are told of every chain and every record file of it, the last known first', async () => {
  await chain({ id: 'o', name: 'alpha', made_at: '' }, 2);
  const jump = (at: number) => (n: number) => (n === at ? 0.9 : calm(n));
  await heard({ from: 0, count: 31, value: jump(30) });
  await heard({ from: 40, count: 31, value: jump(70), record: B });
  await heard({ from: 0, count: 51, value: jump(50), of: 'o' });
  await heard({ from: 0, count: 31, value: jump(30), of: 'o', record: null, known: (n) => hour(n + 200) });
  const told = async (since: string) =>
    (await alarms(since)).alarms.map(({ chain: { name }, kind, knownAt, record }) => [
      name,
      kind,
      knownAt,
      record?.name,
    ]);
  const beyond = [
    ['alpha', 'beyond', hour(230), undefined],
    ['studio', 'beyond', hour(70), 'record b'],
    ['alpha', 'beyond', hour(50), 'record a'],
    ['studio', 'beyond', hour(30), 'record a'],
  ];
  expect((await told(hour(0))).filter(([, kind]) => kind === 'beyond')).toEqual(beyond);
  expect((await told(hour(50))).filter(([, kind]) => kind === 'beyond')).toEqual(beyond.slice(0, 3));
  expect((await told(hour(51))).filter(([, kind]) => kind === 'beyond')).toEqual(beyond.slice(0, 2));
  expect(await alarms(hour(231))).toEqual({
    since: hour(231),
    alarms: [],
    says: ['Nothing left its limits since then.'],
  });
  expect((await alarms(hour(0))).says).toEqual([]);
});

it('an alarm is told for the same reason whether much or little became known', async () => {
  const restless = (n: number) => (n < 30 ? calm(n) : 0.5 * Math.sin(n * n) + (n % 40 > 25 ? 0.4 : 0));
  await heard({ from: 0, count: 120, value: restless });
  const all = (await charts()).alarms;
  expect(new Set(all.map(({ kind }) => kind))).toEqual(new Set(['beyond', 'jump', 'run']));
  for (const n of [31, 80, 100, 119]) {
    const told = (await alarms(hour(n))).alarms.map(({ at, kind, sentence }) => ({ at, kind, sentence }));
    const expected = all.filter(({ at }) => at >= hour(n)).map(({ at, kind, sentence }) => ({ at, kind, sentence }));
    expect(told, `from ${n}`).toEqual(expected);
  }
});

it('of more than four hundred that became known the rest is said to be left out', async () => {
  const known = () => hour(1000);
  await heard({ from: 0, count: 400, known });
  expect((await alarms(hour(999))).says).toEqual(['Nothing left its limits since then.']);
  await heard({ from: 400, count: 1, known });
  const { says } = await alarms(hour(999));
  expect(says).toHaveLength(2);
  expect(says[0]).toContain('studio');
  expect(says[0]).toContain('400');
});
