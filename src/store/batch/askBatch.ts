/** What is asked of batches: how far they are, what was read, and what another version of the methods reads otherwise. */
import { sql } from 'kysely';
import type { BatchStatus } from '../../core/job/api.ts';
import type { Tx } from '../transaction.ts';

/** Progress is told from what was done in this time, ms. */
const WINDOW_MS = 600_000;

type Counts = BatchStatus['files'];

const MOST_POISONED = 20;

async function counted(tx: Tx, table: 'batch_files' | 'batch_sides', method: string | null): Promise<Counts> {
  let query = tx.selectFrom(table).select(['state', (column) => column.fn.countAll().as('n')]);
  if (method !== null) query = query.where('method' as never, '=', method as never);
  const rows = await query.groupBy('state').execute();
  const of = (state: string): number => Number(rows.find((row) => row.state === state)?.n ?? 0);
  return { open: of('open'), claimed: of('claimed'), done: of('done'), poisoned: of('poisoned') };
}

async function paceOf(tx: Tx, now: string): Promise<number | null> {
  const from = new Date(Date.parse(now) - WINDOW_MS).toISOString();
  const row = await tx
    .selectFrom('batch_results')
    .select([(column) => column.fn.countAll().as('n'), (column) => column.fn.min('measured_at').as('first')])
    .where('measured_at', '>=', from)
    .executeTakeFirstOrThrow();
  const done = Number(row.n);
  const span = Date.parse(now) - Date.parse(row.first ?? now);
  // the first of them began before it was measured: of n results n − 1 intervals are known
  return done < 2 || span <= 0 ? null : ((done - 1) / span) * 3_600_000;
}

async function poisonedOf(tx: Tx, method: string): Promise<{ path: string; why: string }[]> {
  const files = await tx
    .selectFrom('batch_files')
    .select(['path', 'why'])
    .where('state', '=', 'poisoned')
    .orderBy('added_at')
    .orderBy('id')
    .limit(MOST_POISONED)
    .execute();
  const sides = await tx
    .selectFrom('batch_sides')
    .innerJoin('batch_files', (join) =>
      join
        .onRef('batch_files.fingerprint', '=', 'batch_sides.fingerprint')
        .onRef('batch_files.record', '=', 'batch_sides.record'),
    )
    .select(['batch_files.path', 'batch_sides.why'])
    .where('batch_sides.state', '=', 'poisoned')
    .where('batch_sides.method', '=', method)
    .orderBy('batch_sides.added_at')
    .orderBy('batch_files.id')
    .limit(MOST_POISONED)
    .execute();
  return [...files, ...sides].slice(0, MOST_POISONED);
}

async function workersOf(tx: Tx): Promise<{ worker: string; has: number }[]> {
  const has = new Map<string, number>();
  for (const table of ['batch_files', 'batch_sides'] as const) {
    const rows = await tx.selectFrom(table).select('worker').where('state', '=', 'claimed').execute();
    for (const { worker } of rows) has.set(worker, (has.get(worker) ?? 0) + 1);
  }
  return [...has].map(([worker, count]) => ({ worker, has: count })).sort((a, b) => (a.worker < b.worker ? -1 : 1));
}

export async function statusOf(tx: Tx, method: string, now: string): Promise<BatchStatus> {
  const [files, sides] = [await counted(tx, 'batch_files', null), await counted(tx, 'batch_sides', method)];
  const left = files.open + files.claimed + sides.open + sides.claimed;
  const hourly = await paceOf(tx, now);
  const endsAt =
    left === 0 || hourly === null ? null : new Date(Date.parse(now) + (left / hourly) * 3_600_000).toISOString();
  return { files, sides, workers: await workersOf(tx), hourly, endsAt, poisoned: await poisonedOf(tx, method) };
}

export interface BatchFigure {
  readonly quantity: string;
  readonly channel: string | null;
  readonly value: number | string | null;
  readonly uncertainty: number | null;
  readonly unit: string;
  readonly verdict: string;
}

export interface ReportRow {
  /** to ask for those after it */
  readonly id: string;
  readonly root: string;
  readonly path: string;
  readonly record: string;
  readonly chain: string;
  readonly fingerprint: string | null;
  readonly method: string;
  readonly state: 'open' | 'claimed' | 'done' | 'poisoned';
  readonly why: string;
  readonly measuredAt: string | null;
  readonly figures: readonly BatchFigure[];
}

interface Page {
  readonly method: string;
  readonly after: string | null;
  readonly limit: number;
}

async function figuresOf(tx: Tx, sides: readonly string[]): Promise<ReadonlyMap<string, BatchFigure[]>> {
  const found = new Map<string, BatchFigure[]>(sides.map((id) => [id, []]));
  if (sides.length === 0) return found;
  const rows = await tx
    .selectFrom('batch_figures')
    .select(['side_id', 'quantity', 'channel', 'value', 'words', 'uncertainty', 'unit', 'verdict'])
    .where('side_id', 'in', sides)
    .orderBy('side_id')
    .orderBy('place')
    .execute();
  for (const { side_id, value, words, ...figure } of rows)
    found.get(side_id)?.push({ ...figure, value: value ?? words });
  return found;
}

/** A page of recordings with what was read of them by this version of the methods. */
export async function reportPage(tx: Tx, { method, after, limit }: Page): Promise<readonly ReportRow[]> {
  let query = tx
    .selectFrom('batch_files')
    .innerJoin('batch_records', 'batch_records.id', 'batch_files.record')
    .leftJoin('batch_sides', (join) =>
      join
        .onRef('batch_sides.fingerprint', '=', 'batch_files.fingerprint')
        .onRef('batch_sides.record', '=', 'batch_files.record')
        .on('batch_sides.method', '=', method),
    )
    .leftJoin('batch_results', 'batch_results.side_id', 'batch_sides.id')
    .select(['batch_files.id', 'batch_files.root', 'batch_files.path', 'batch_files.chain', 'batch_files.fingerprint'])
    .select(['batch_records.name as record', 'batch_files.state', 'batch_files.why', 'batch_results.measured_at'])
    .select(['batch_sides.id as side', 'batch_sides.state as side_state', 'batch_sides.why as side_why'])
    .orderBy('batch_files.id')
    .limit(limit);
  if (after !== null) query = query.where('batch_files.id', '>', after);
  const rows = await query.execute();
  const figures = await figuresOf(
    tx,
    rows.flatMap(({ side }) => side ?? []),
  );
  return rows.map(({ id, root, path, record, chain, fingerprint, side, ...row }) => {
    // the fingerprint of a recording is taken before it is measured
    const state = row.state === 'done' ? (row.side_state ?? 'open') : row.state;
    const why = (row.state === 'done' ? row.side_why : row.why) ?? '';
    const base = { id, root, path, record, chain, fingerprint, method, measuredAt: row.measured_at };
    return { ...base, state, why, figures: side === null ? [] : (figures.get(side) ?? []) };
  });
}

/** Sides that only earlier versions measured, opened for this one. @returns how many */
export async function measureAgain(
  tx: Tx,
  { olderThan, method }: { readonly olderThan: number; readonly method: string },
  now: string,
): Promise<number> {
  const versions = await tx.selectFrom('batch_sides').select('method').distinct().execute();
  const older = versions
    .map((row) => row.method)
    .filter((version) => version !== method && Number(version) < olderThan);
  if (older.length === 0) return 0;
  const { numAffectedRows } = await sql`
    insert into batch_sides (id, fingerprint, method, record, state, tries, worker, not_before, why, added_at)
    select distinct fingerprint || ${`-${method}-`} || substr(record, 1, 16), fingerprint, ${method}, record, 'open', 0, '', 0, '', ${now}
    from batch_sides where state = 'done' and method in (${sql.join(older)})
    on conflict do nothing`.execute(tx);
  return Number(numAffectedRows ?? 0);
}

export interface Moved {
  readonly fingerprint: string;
  readonly path: string;
  readonly quantity: string;
  readonly channel: string | null;
  readonly unit: string;
  readonly before: {
    readonly method: string;
    readonly value: number | string | null;
    readonly uncertainty: number | null;
  };
  readonly now: {
    readonly method: string;
    readonly value: number | string | null;
    readonly uncertainty: number | null;
  };
}

export interface MovedPage {
  readonly moved: readonly Moved[];
  /** the side to ask for those after; null where there are none */
  readonly next: string | null;
}

const key = ({ quantity, channel, unit }: BatchFigure): string => `${quantity} ${channel ?? ''} ${unit}`;

/** Figures in the order of their document, several of a kind numbered, so that two documents can be laid side by side. */
function byKind(figures: readonly BatchFigure[]): ReadonlyMap<string, BatchFigure> {
  const seen = new Map<string, number>();
  return new Map(
    figures.map((figure) => {
      const count = seen.get(key(figure)) ?? 0;
      seen.set(key(figure), count + 1);
      return [`${key(figure)} ${count}`, figure];
    }),
  );
}

const read = (method: string, figure: BatchFigure | undefined) => ({
  method,
  value: figure?.value ?? null,
  uncertainty: figure?.uncertainty ?? null,
});

/** Of a page of sides measured by this version, every figure that the newest version before it read otherwise. */
export async function movedFigures(tx: Tx, { method, after, limit }: Page): Promise<MovedPage> {
  let query = tx
    .selectFrom('batch_sides')
    .select(['id', 'fingerprint', 'record'])
    .where('method', '=', method)
    .where('state', '=', 'done')
    .orderBy('id')
    .limit(limit);
  if (after !== null) query = query.where('id', '>', after);
  const moved: Moved[] = [];
  const sides = await query.execute();
  for (const { id, fingerprint, record } of sides) {
    const earlier = await tx
      .selectFrom('batch_sides')
      .select(['id', 'method'])
      .where('fingerprint', '=', fingerprint)
      .where('record', '=', record)
      .where('method', '<>', method)
      .where('state', '=', 'done')
      .execute();
    const [last] = earlier.sort((a, b) => Number(b.method) - Number(a.method));
    if (last === undefined) continue;
    const file = await tx
      .selectFrom('batch_files')
      .select('path')
      .where('fingerprint', '=', fingerprint)
      .executeTakeFirst();
    const figures = await figuresOf(tx, [id, last.id]);
    const [then, now] = [byKind(figures.get(last.id) ?? []), byKind(figures.get(id) ?? [])];
    for (const name of new Set([...then.keys(), ...now.keys()])) {
      const [a, b] = [then.get(name), now.get(name)];
      if (a?.value === b?.value && a?.uncertainty === b?.uncertainty) continue;
      const { quantity, channel, unit } = (b ?? a) as BatchFigure;
      const what = { fingerprint, path: file?.path ?? '', quantity, channel, unit };
      moved.push({ ...what, before: read(last.method, a), now: read(method, b) });
    }
  }
  return { moved, next: sides.length < limit ? null : (sides.at(-1)?.id ?? null) };
}
