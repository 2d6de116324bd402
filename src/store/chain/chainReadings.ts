/** A chain's readings, out of batches and out of jobs, by the time at which they were recorded. */
import { sql } from 'kysely';
import { chainQuantities } from '../../core/advise/repeat/chainFigures.ts';
import type { ChainReading, ChainRecord, ReadFigure } from '../../core/job/chains/chain.ts';
import { recordKey } from '../../core/record/recordKey.ts';
import { parseSheet } from '../../core/record/sheet.ts';
import type { ChainRow } from '../tables.ts';
import type { Tx } from '../transaction.ts';
import { withReferences } from './references.ts';

export interface ReadingsQuery {
  readonly order: 'asc' | 'desc';
  readonly limit: number;
  /** those recorded after it, ISO */
  readonly since?: string | null;
  /** the reading after which, in their order, the wanted ones come */
  readonly after?: Cursor;
  /** left out: of every record file and version */
  readonly kind?: { readonly record: ChainRecord; readonly method: string };
  /** without their figures */
  readonly bare?: boolean;
}

export interface Cursor {
  readonly at: string;
  readonly id: string;
}

type Bare = Omit<ChainReading, 'reference' | 'certificateUntil' | 'figures'> & { readonly figuresOf: string };

type Known = { readonly key: string; readonly name: string } | null;

/** Record files by the fingerprint of their text, which their id is: none is ever another one. Null: it cannot be read. */
const knownRecords = new Map<string, Known>();
const MOST_KNOWN = 10_000;

/** Record files of batches by the key that documents know them by. */
async function batchRecords(tx: Tx, key?: string): Promise<ReadonlyMap<string, NonNullable<Known>>> {
  const ids = await tx.selectFrom('batch_records').select('id').execute();
  const fresh = ids.filter(({ id }) => !knownRecords.has(id)).map(({ id }) => id);
  if (knownRecords.size + fresh.length > MOST_KNOWN) knownRecords.clear();
  for (const id of fresh) {
    const { name, text } = await tx
      .selectFrom('batch_records')
      .select(['name', 'text'])
      .where('id', '=', id)
      .executeTakeFirstOrThrow();
    const parsed = parseSheet(text, name);
    knownRecords.set(id, parsed.ok ? { key: recordKey(parsed.sheet), name } : null);
  }
  return new Map(
    ids.flatMap(({ id }) => {
      const record = knownRecords.get(id) ?? null;
      return record === null || (key !== undefined && record.key !== key) ? [] : [[id, record] as const];
    }),
  );
}

/**
 * One row a file and a version that measured its content: what has a result is done, and to ask for the state too would lead SQLite
 * through all sides that are done. Of several files of one content the oldest stands.
 */
async function fromBatches(tx: Tx, chain: ChainRow, query: ReadingsQuery): Promise<Bare[]> {
  const { order, limit, since, after, kind } = query;
  if (kind !== undefined && kind.record === null) return [];
  const records = await batchRecords(tx, kind?.record?.key);
  if (records.size === 0) return [];
  let rows = tx
    .selectFrom('batch_files as file')
    .innerJoin('batch_sides as side', (join) =>
      join.onRef('side.fingerprint', '=', 'file.fingerprint').onRef('side.record', '=', 'file.record'),
    )
    .innerJoin('batch_results as result', 'result.side_id', 'side.id')
    .select(['file.id', 'file.root', 'file.path', 'file.recorded_at', 'file.fingerprint', 'file.record'])
    .select(['side.id as side', 'side.method', 'result.measured_at'])
    .where('file.chain', '=', chain.name)
    .where(sql<boolean>`not exists (select 1 from batch_files as older where older.fingerprint = file.fingerprint
      and older.record = file.record and older.chain = file.chain
      and (older.recorded_at < file.recorded_at or (older.recorded_at = file.recorded_at and older.id < file.id)))`)
    .orderBy('file.recorded_at', order)
    .orderBy('file.id', order)
    .orderBy('side.id', order)
    .limit(limit);
  if (kind !== undefined)
    rows = rows.where('side.method', '=', kind.method).where('file.record', 'in', [...records.keys()]);
  if (since != null) rows = rows.where('file.recorded_at', '>=', since);
  if (after !== undefined) {
    const [beyond, from] = order === 'asc' ? (['>', '>='] as const) : (['<', '<='] as const);
    rows = rows
      .where('file.recorded_at', from, after.at)
      .where((where) =>
        where.or([
          where('file.recorded_at', beyond, after.at),
          where(sql<string>`file.id || ' ' || side.id`, beyond, after.id),
        ]),
      );
  }
  return (await rows.execute()).map((row) => ({
    id: `${row.id} ${row.side}`,
    at: row.recorded_at,
    knownAt: row.measured_at,
    source: { root: row.root, path: row.path },
    fingerprint: row.fingerprint,
    method: row.method,
    record: records.get(row.record) ?? null,
    figuresOf: row.side,
  }));
}

/** Recordings of the chain's jobs that count: not of the practice deck, not set aside. */
async function fromJobs(tx: Tx, chain: ChainRow, query: ReadingsQuery): Promise<Bare[]> {
  const { order, limit, since, after, kind } = query;
  let rows = tx
    .selectFrom('chain_jobs')
    .innerJoin('jobs', 'jobs.id', 'chain_jobs.job_id')
    .innerJoin('captures', 'captures.job_id', 'jobs.id')
    .select(['captures.id', 'jobs.number', 'captures.file', 'captures.heard_at', 'captures.stored_at'])
    .select(['captures.sha256', 'captures.method', 'captures.record_key', 'captures.record_name'])
    .where('chain_jobs.chain_id', '=', chain.id)
    .where('jobs.practice', '=', 0)
    .where('jobs.set_aside_at', 'is', null)
    .where('captures.practice', '=', 0)
    .where('captures.set_aside_at', 'is', null)
    .orderBy('captures.heard_at', order)
    .orderBy('captures.id', order)
    .limit(limit);
  if (kind !== undefined)
    rows = rows
      .where('captures.method', '=', kind.method)
      .where('captures.record_key', kind.record === null ? 'is' : '=', kind.record?.key ?? null);
  if (since != null) rows = rows.where('captures.heard_at', '>=', since);
  if (after !== undefined) {
    const beyond = order === 'asc' ? '>' : '<';
    rows = rows.where((where) =>
      where.or([
        where('captures.heard_at', beyond, after.at),
        where.and([where('captures.heard_at', '=', after.at), where('captures.id', beyond, after.id)]),
      ]),
    );
  }
  return (await rows.execute()).map((row) => ({
    id: row.id,
    at: row.heard_at,
    knownAt: row.stored_at,
    source: { job: row.number, file: row.file },
    fingerprint: row.sha256,
    method: row.method,
    record: row.record_key === null ? null : { key: row.record_key, name: row.record_name ?? '' },
    figuresOf: row.id,
  }));
}

/** Word for word as the index of watched figures has it (chainLayout.ts), so that the databases see that it serves. */
export const watchedQuantity = sql<boolean>`quantity in (${sql.join(chainQuantities.map((one) => sql.lit(one)))})`;

/** Figures by which a chain is watched, of these sides and recordings. */
async function figuresOf(tx: Tx, ids: readonly string[]): Promise<ReadonlyMap<string, ReadFigure[]>> {
  const found = new Map<string, ReadFigure[]>(ids.map((id) => [id, []]));
  const AT_ONCE = 500;
  for (let from = 0; from < ids.length; from += AT_ONCE) {
    const some = ids.slice(from, from + AT_ONCE);
    const sides = await tx
      .selectFrom('batch_figures')
      .select(['side_id as of', 'quantity', 'channel', 'unit', 'value', 'uncertainty'])
      .where('side_id', 'in', some)
      .where(watchedQuantity)
      .where('value', 'is not', null)
      .orderBy('side_id')
      .orderBy('place')
      .execute();
    const heard = await tx
      .selectFrom('findings')
      .select(['capture_id as of', 'quantity', 'channel', 'unit', 'value_number as value', 'uncertainty'])
      .where('capture_id', 'in', some)
      // by recording: an index by quantity would lead through those of all jobs
      .where(sql<boolean>`quantity || '' in (${sql.join(chainQuantities)})`)
      .where('value_number', 'is not', null)
      .orderBy('capture_id')
      .orderBy('place')
      .execute();
    for (const { of, channel, value, ...figure } of [...sides, ...heard])
      found.get(of)?.push({
        ...figure,
        value: value as number,
        ...(channel === null ? {} : { channel: channel as 'left' | 'right' }),
      });
  }
  return found;
}

const inOrder =
  (order: 'asc' | 'desc') =>
  (a: Cursor, b: Cursor): number => {
    const way = order === 'asc' ? 1 : -1;
    return a.at === b.at ? way * (a.id < b.id ? -1 : 1) : way * (a.at < b.at ? -1 : 1);
  };

/** A recording that lies in a batch and in a job is one reading: the first of the two stands. */
function once(readings: readonly Bare[]): Bare[] {
  const seen = new Set<string>();
  return readings.filter(({ fingerprint, method, record }) => {
    if (fingerprint === null) return true;
    const key = `${fingerprint} ${method} ${record?.key ?? ''}`;
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}

export interface ReadingsPage {
  readonly readings: readonly ChainReading[];
  /** to ask for those after them; null: there are none */
  readonly next: Cursor | null;
}

/** @returns at most `limit` of them; fewer where the same recording lies in a batch and in a job */
export async function readingsOf(tx: Tx, chain: ChainRow, wanted: ReadingsQuery): Promise<ReadingsPage> {
  const query = { ...wanted, limit: wanted.limit + 1 };
  const both = [...(await fromBatches(tx, chain, query)), ...(await fromJobs(tx, chain, query))];
  const rows = both.sort(inOrder(query.order)).slice(0, wanted.limit);
  const page = once(rows);
  const figures = await figuresOf(tx, wanted.bare === true ? [] : page.map((one) => one.figuresOf));
  const readings = await withReferences(
    tx,
    page.map(({ figuresOf: id, ...reading }) => ({ ...reading, figures: figures.get(id) ?? [] })),
  );
  return { readings, next: both.length > rows.length ? (rows.at(-1) ?? null) : null };
}
