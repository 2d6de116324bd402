/** A chain's charts and the list of what left its limits: of what is read for them, and no more. */
import { sql } from 'kysely';
import {
  type AlarmList,
  type ChainCharts,
  type ChainReading,
  type ChainRecord,
  NO_RECORD,
} from '../../core/job/chains/chain.ts';
import { chainCharts } from '../../core/job/chains/chainCharts.ts';
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

/** @param asked key of a record file, or `none`; left out: that of the newest reading */
export async function readCharts(tx: Tx, row: ChainRow, asked?: string): Promise<ChainCharts> {
  const chain = await readChain(tx, row);
  const since = await lastChanged(tx, row);
  const { readings: newest } = await readingsOf(tx, row, { order: 'desc', limit: LOOK, since });
  const chosen = chosenOf(newest, asked);
  const records = recordsOf(newest);
  if (chosen === null)
    return chainCharts({
      chain,
      record: null,
      method: null,
      records,
      readings: [],
      gap: null,
      since,
      newest: { of: 0, otherMethods: 0, otherRecords: 0 },
    });
  const page = await readingsOf(tx, row, { order: 'desc', limit: RECENT, since, kind: chosen });
  const recent = [...page.readings].reverse();
  const begins = recent[0]?.at ?? '';
  const begun =
    page.next === null ? [] : (await readingsOf(tx, row, { order: 'asc', limit: FIRST, since, kind: chosen })).readings;
  const first = begun.filter(({ at }) => at < begins);
  return chainCharts({
    chain,
    ...chosen,
    records,
    readings: [...first, ...recent],
    // fewer than were asked for: the next one would have been among the newest
    gap: first.length < FIRST ? null : first.length,
    since,
    newest: othersOf(newest, chosen),
  });
}

/** Chains of which something became known from then on. */
async function chainsSince(tx: Tx, since: string): Promise<ChainRow[]> {
  const named = tx
    .selectFrom('batch_results')
    .innerJoin('batch_sides', 'batch_sides.id', 'batch_results.side_id')
    .innerJoin('batch_files', (join) =>
      join
        .onRef('batch_files.fingerprint', '=', 'batch_sides.fingerprint')
        .onRef('batch_files.record', '=', 'batch_sides.record'),
    )
    .select('batch_files.chain')
    .where('batch_results.measured_at', '>=', since);
  const heard = tx
    .selectFrom('chain_jobs')
    .innerJoin('captures', 'captures.job_id', 'chain_jobs.job_id')
    .select('chain_jobs.chain_id')
    .where('captures.stored_at', '>=', since);
  return tx
    .selectFrom('chains')
    .selectAll()
    .where((where) => where.or([where('name', 'in', named), where('id', 'in', heard)]))
    .orderBy('name')
    .limit(MOST_CHAINS)
    .execute();
}

/** @param since ISO time: what became known from then on */
export async function readAlarms(tx: Tx, since: string): Promise<AlarmList> {
  const found: AlarmList = { since, alarms: [], says: [] };
  for (const row of await chainsSince(tx, since)) {
    const first = await readCharts(tx, row);
    const others = first.records.slice(1);
    const charts = [first];
    for (const { key } of others) charts.push(await readCharts(tx, row, key));
    for (const { alarms } of charts) found.alarms.push(...alarms.filter(({ knownAt }) => knownAt >= since));
    if (await knownBefore(tx, row, since))
      found.says.push(say(statement('chain-cut', { chain: row.name, count: RECENT })));
  }
  found.alarms.sort((a, b) => (a.knownAt === b.knownAt ? 0 : a.knownAt < b.knownAt ? 1 : -1));
  if (found.alarms.length === 0) found.says.push(say(statement('no-alarms')));
  return found;
}

/** More than are looked at became known: the oldest of the newest did too. */
async function knownBefore(tx: Tx, { name }: ChainRow, since: string): Promise<boolean> {
  const { rows } = await sql<{ n: number }>`select count(*) as n from (
    select 1 from batch_results
    join batch_sides on batch_sides.id = batch_results.side_id
    join batch_files on batch_files.fingerprint = batch_sides.fingerprint and batch_files.record = batch_sides.record
    where batch_results.measured_at >= ${since} and batch_files.chain = ${name} limit ${sql.lit(RECENT + 1)}) as known`.execute(
    tx,
  );
  return Number(rows[0].n) > RECENT;
}
