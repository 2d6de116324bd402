/** Chains, reference recordings and batches, taken over from one store into another: rows as they are, a page at a time, nothing overwritten. */
import { sql } from 'kysely';
import type { Origin, Tx } from './transaction.ts';

/** In this order: what rows point to comes before them. With the key by which each is gone through, and rows at once. */
const tables = {
  chains: ['id', 500],
  chain_states: ['id', 500],
  chain_jobs: ['job_id', 500],
  reference_recordings: ['fingerprint', 500],
  batch_records: ['id', 20],
  batch_files: ['id', 500],
  // with the document and the figures of each
  batch_sides: ['id', 50],
} as const;

export type Carried = keyof typeof tables;
export const carriedTables = Object.keys(tables) as readonly Carried[];

type Value = string | number | null;
type Row = Readonly<Record<string, Value>>;

export interface CarriedRow {
  readonly row: Row;
  /** name of the chain that it belongs to: one of that name may have another id there */
  readonly chain?: string;
  readonly result?: Row;
  readonly figures?: readonly Row[];
}

export interface CarriedPage {
  readonly rows: readonly CarriedRow[];
  /** the key to ask for those after; null: there are none */
  readonly next: string | null;
}

const listed = (values: readonly Value[]) => sql.join(values.map((value) => sql`${value}`));

async function select(tx: Tx, table: string, column: string, values: readonly Value[], order = ''): Promise<Row[]> {
  if (values.length === 0) return [];
  const sorted = order === '' ? sql`` : sql`order by ${sql.ref(order)}`;
  const { rows } =
    await sql<Row>`select * from ${sql.table(table)} where ${sql.ref(column)} in (${listed(values)}) ${sorted}`.execute(
      tx,
    );
  return rows;
}

/** Work that a worker has here is nobody's there. */
const unclaimed = (row: Row): Row =>
  row.state === 'claimed' ? { ...row, state: 'open', token: null, lease_until: null } : row;

/** A page of rows as they are to be taken in. */
export async function carryOut(tx: Tx, table: Carried, after: string | null): Promise<CarriedPage> {
  const [key, limit] = tables[table];
  const beyond = after === null ? sql`` : sql`where ${sql.ref(key)} > ${after}`;
  const { rows } =
    await sql<Row>`select * from ${sql.table(table)} ${beyond} order by ${sql.ref(key)} limit ${sql.lit(limit)}`.execute(
      tx,
    );
  const next = rows.length < limit ? null : String(rows[rows.length - 1][key]);
  if (table === 'chain_states' || table === 'chain_jobs') {
    const chains = await select(tx, 'chains', 'id', [...new Set(rows.map((row) => row.chain_id))]);
    const names = new Map(chains.map(({ id, name }) => [id, String(name)]));
    return { rows: rows.map((row) => ({ row, chain: names.get(row.chain_id) ?? '' })), next };
  }
  if (table !== 'batch_sides') return { rows: rows.map((row) => ({ row: unclaimed(row) })), next };
  const ids = rows.map(({ id }) => id);
  const results = new Map((await select(tx, 'batch_results', 'side_id', ids)).map((row) => [row.side_id, row]));
  const figures = new Map<Value, Row[]>(ids.map((id) => [id, []]));
  for (const row of await select(tx, 'batch_figures', 'side_id', ids, 'place')) figures.get(row.side_id)?.push(row);
  return {
    rows: rows.map((row) => {
      const result = results.get(row.id);
      return { row: unclaimed(row), ...(result === undefined ? {} : { result, figures: figures.get(row.id) ?? [] }) };
    }),
    next,
  };
}

/** @returns how many there were none of yet */
async function insert(tx: Tx, table: string, rows: readonly Row[]): Promise<number> {
  if (rows.length === 0) return 0;
  const columns = Object.keys(rows[0]);
  const values = rows.map((row) => sql`(${listed(columns.map((column) => row[column]))})`);
  const { numAffectedRows } =
    await sql`insert into ${sql.table(table)} (${sql.join(columns.map((column) => sql.ref(column)))})
    values ${sql.join(values)} on conflict do nothing`.execute(tx);
  return Number(numAffectedRows ?? 0);
}

/** A store of before there were chains gave them ids of its own, which may be another chain's there. */
async function takeChain(tx: Tx, row: Row, origin: Origin): Promise<number> {
  const [same] = await select(tx, 'chains', 'id', [row.id]);
  return insert(tx, 'chains', [same === undefined || same.name === row.name ? row : { ...row, id: origin.newId() }]);
}

async function takeOfChain(tx: Tx, table: Carried, { row, chain = '' }: CarriedRow): Promise<number> {
  const [there] = await select(tx, 'chains', 'name', [chain]);
  // the job may have been deleted meanwhile, or could not be read
  const job = table !== 'chain_jobs' || (await select(tx, 'jobs', 'id', [row.job_id])).length > 0;
  return there === undefined || !job ? 0 : insert(tx, table, [{ ...row, chain_id: there.id }]);
}

/** One that waits there for its fingerprint, and has it here, is given it. */
async function takeFile(tx: Tx, { row }: CarriedRow): Promise<number> {
  if ((await insert(tx, 'batch_files', [row])) === 1) return 1;
  if (row.fingerprint === null) return 0;
  await sql`update batch_files set fingerprint = ${row.fingerprint}, state = 'done', why = ''
    where root = ${row.root} and path = ${row.path} and record = ${row.record} and bytes = ${row.bytes}
      and modified_ms = ${row.modified_ms} and fingerprint is null and state <> 'claimed'`.execute(tx);
  return 0;
}

/** One that waits there and is measured here is measured there too; one that a worker has there stays its. */
async function takeSide(tx: Tx, { row, result, figures = [] }: CarriedRow): Promise<number> {
  let taken = await insert(tx, 'batch_sides', [row]);
  if (result === undefined) return taken;
  if (taken === 0) {
    const { numAffectedRows } = await sql`update batch_sides set state = 'done', why = ''
      where id = ${row.id} and state in ('open', 'poisoned')`.execute(tx);
    taken = Number(numAffectedRows ?? 0);
  }
  if (taken === 0) return 0;
  await insert(tx, 'batch_results', [result]);
  const AT_ONCE = 100;
  for (let from = 0; from < figures.length; from += AT_ONCE)
    await insert(tx, 'batch_figures', figures.slice(from, from + AT_ONCE));
  return 1;
}

/** @returns how many rows were taken; those that are there already stay as they are */
export async function carryIn(tx: Tx, table: Carried, rows: readonly CarriedRow[], origin: Origin): Promise<number> {
  let taken = 0;
  for (const one of rows) {
    if (table === 'chains') taken += await takeChain(tx, one.row, origin);
    else if (table === 'chain_states' || table === 'chain_jobs') taken += await takeOfChain(tx, table, one);
    else if (table === 'batch_files') taken += await takeFile(tx, one);
    else if (table === 'batch_sides') taken += await takeSide(tx, one);
    else taken += await insert(tx, table, [one.row]);
  }
  return taken;
}
