/** A chain's charts and the list of what left its limits: of what is read for them, and no more. */
import { sql } from 'kysely';
import {
  type AlarmList,
  type Chain,
  type ChainCharts,
  type ChainReading,
  type ChainRecord,
  NO_RECORD,
} from '../../core/job/chains/chain.ts';
import { type ChainLook, chainAlarms, chainCharts } from '../../core/job/chains/chainCharts.ts';
import { say, statement } from '../../core/words/statement.ts';
import type { ChainRow } from '../tables.ts';
import type { Tx } from '../transaction.ts';
import { lastChanged, readChain } from './chainList.ts';
import { readingsOf } from './chainReadings.ts';

/** Readings behind the limits are looked for among so many from the last change on. */
const FIRST = 60;
/** The newest readings that are drawn. */
const RECENT = 400;
/** The newest readings of any record file and version, among which one of each is chosen. */
const LOOK = 100;
/** Readings before those that became known: a run is told at its eighth, a jump not after another one. */
const BEFORE = 32;
/** Chains that one list of alarms goes through. */
const MOST_CHAINS = 500;

const isKind = ({ record, method }: ChainReading, of: ChainRecord, by: string): boolean =>
  method === by && (record?.key ?? null) === (of?.key ?? null);

interface Chosen {
  readonly record: ChainRecord;
  readonly method: string;
}

/** The record file that is asked for, or that of the newest reading; the newest version that measured with it. */
function chosenOf(newest: readonly ChainReading[], asked: string | undefined): Chosen | null {
  const key = asked === undefined ? (newest[0]?.record?.key ?? null) : asked === NO_RECORD ? null : asked;
  const of = newest.filter(({ record }) => (record?.key ?? null) === key);
  if (of.length === 0) return null;
  const method = of.reduce((last, one) => (Number(one.method) > Number(last) ? one.method : last), of[0].method);
  return { record: of[0].record, method };
}

/** What the same recording is known by, whichever version measured it. */
const recordingOf = ({ fingerprint, id }: ChainReading): string => fingerprint ?? id;

function othersOf(newest: readonly ChainReading[], { record, method }: Chosen) {
  const drawn = new Set(newest.filter((one) => isKind(one, record, method)).map(recordingOf));
  const rest = newest.filter((one) => !drawn.has(recordingOf(one)));
  const [same, other] = [new Set<string>(), new Set<string>()];
  for (const one of rest) ((one.record?.key ?? null) === (record?.key ?? null) ? same : other).add(recordingOf(one));
  return { of: drawn.size + new Set([...same, ...other]).size, otherMethods: same.size, otherRecords: other.size };
}

function recordsOf(newest: readonly ChainReading[]): ChainCharts['records'] {
  const found = new Map<string, string>();
  for (const { record } of newest) found.set(record?.key ?? NO_RECORD, record?.name ?? '');
  return [...found].map(([key, name]) => ({ key, name }));
}

/** What is asked of a chain before any chart of it is made. */
interface Looked {
  readonly row: ChainRow;
  readonly chain: Chain;
  readonly since: string | null;
  /** without their figures */
  readonly newest: readonly ChainReading[];
  readonly records: ChainCharts['records'];
}

async function lookAt(tx: Tx, row: ChainRow): Promise<Looked> {
  const [chain, since] = [await readChain(tx, row), await lastChanged(tx, row)];
  const { readings: newest } = await readingsOf(tx, row, { order: 'desc', limit: LOOK, since, bare: true });
  return { row, chain, since, newest, records: recordsOf(newest) };
}

const nothing = {
  record: null,
  method: null,
  readings: [],
  gap: null,
  newest: { of: 0, otherMethods: 0, otherRecords: 0 },
};

/**
 * The first readings since the last change, which make the limits, and the newest.
 *
 * @param asked key of a record file, or `none`; left out: that of the newest reading
 * @param recent so many of the newest
 */
async function readingsFor(tx: Tx, looked: Looked, asked: string | undefined, recent: number): Promise<ChainLook> {
  const { row, chain, since, newest, records } = looked;
  const chosen = chosenOf(newest, asked);
  if (chosen === null) return { chain, records, since, ...nothing };
  const page = await readingsOf(tx, row, { order: 'desc', limit: recent, since, kind: chosen });
  const drawn = [...page.readings].reverse();
  const begins = drawn[0]?.at ?? '';
  const begun =
    page.next === null ? [] : (await readingsOf(tx, row, { order: 'asc', limit: FIRST, since, kind: chosen })).readings;
  const first = begun.filter(({ at }) => at < begins);
  return {
    chain,
    ...chosen,
    records,
    readings: [...first, ...drawn],
    // fewer than were asked for: the next one would have been among the newest
    gap: first.length < FIRST ? null : first.length,
    since,
    newest: othersOf(newest, chosen),
  };
}

/** @param asked key of a record file, or `none`; left out: that of the newest reading */
export async function readCharts(tx: Tx, row: ChainRow, asked?: string): Promise<ChainCharts> {
  return chainCharts(await readingsFor(tx, await lookAt(tx, row), asked, RECENT));
}

/** Of a chain of which something became known. */
interface Known {
  readonly count: number;
  /** when the oldest of it was recorded */
  readonly from: string;
}

/** By the chain's name and by its id, what became known from a time on. */
async function knownSince(tx: Tx, since: string): Promise<ReadonlyMap<string, Known>> {
  const measured = await tx
    .selectFrom('batch_results')
    .innerJoin('batch_sides', 'batch_sides.id', 'batch_results.side_id')
    .innerJoin('batch_files', (join) =>
      join
        .onRef('batch_files.fingerprint', '=', 'batch_sides.fingerprint')
        .onRef('batch_files.record', '=', 'batch_sides.record'),
    )
    .select(['batch_files.chain as of', (row) => row.fn.countAll().as('count')])
    .select((row) => row.fn.min('batch_files.recorded_at').as('from'))
    .where('batch_results.measured_at', '>=', since)
    .groupBy('batch_files.chain')
    .execute();
  const heard = await tx
    .selectFrom('chain_jobs')
    .innerJoin('chains', 'chains.id', 'chain_jobs.chain_id')
    .innerJoin('captures', 'captures.job_id', 'chain_jobs.job_id')
    .select(['chains.name as of', (row) => row.fn.countAll().as('count')])
    .select((row) => row.fn.min('captures.heard_at').as('from'))
    .where('captures.stored_at', '>=', since)
    .groupBy('chains.name')
    .execute();
  const known = new Map<string, Known>();
  for (const { of, count, from } of [...measured, ...heard]) {
    const there = known.get(of) ?? { count: 0, from };
    const first = [from, there.from].sort()[0];
    known.set(of, { count: there.count + Number(count), from: first });
  }
  return known;
}

/** Chains by name that have these names. */
async function chainsNamed(tx: Tx, names: readonly string[]): Promise<ChainRow[]> {
  const wanted = [...names].sort((a, b) => (a < b ? -1 : 1)).slice(0, MOST_CHAINS);
  if (wanted.length === 0) return [];
  return tx.selectFrom('chains').selectAll().where('name', 'in', wanted).orderBy('name').execute();
}

/** Readings recorded from a time on, and those before them that say whether the first of these is told for the first time. */
async function recentFor(tx: Tx, row: ChainRow, from: string): Promise<number> {
  const file = tx.selectFrom('batch_files').select('id').where('chain', '=', row.name).where('recorded_at', '>=', from);
  const heard = tx
    .selectFrom('chain_jobs')
    .innerJoin('captures', 'captures.job_id', 'chain_jobs.job_id')
    .select('captures.id')
    .where('chain_jobs.chain_id', '=', row.id)
    .where('captures.heard_at', '>=', from);
  const { rows } = await sql<{ n: number }>`select
    (select count(*) from (${file.limit(RECENT)}) as file) + (select count(*) from (${heard.limit(RECENT)}) as heard) as n`.execute(
    tx,
  );
  return Math.min(RECENT, Number(rows[0].n) + BEFORE);
}

/** @param since ISO time: what became known from then on */
export async function readAlarms(tx: Tx, since: string): Promise<AlarmList> {
  const found: AlarmList = { since, alarms: [], says: [] };
  const known = await knownSince(tx, since);
  for (const row of await chainsNamed(tx, [...known.keys()])) {
    const { count, from } = known.get(row.name) as Known;
    const looked = await lookAt(tx, row);
    const recent = await recentFor(tx, row, from);
    for (const asked of [undefined, ...looked.records.slice(1).map(({ key }) => key)])
      found.alarms.push(...chainAlarms(await readingsFor(tx, looked, asked, recent), since));
    if (count > RECENT) found.says.push(say(statement('chain-cut', { chain: row.name, count: RECENT })));
  }
  found.alarms.sort((a, b) => (a.knownAt === b.knownAt ? 0 : a.knownAt < b.knownAt ? 1 : -1));
  if (found.alarms.length === 0) found.says.push(say(statement('no-alarms')));
  return found;
}
