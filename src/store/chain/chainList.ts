/** Chains by name, what was changed of each and when, and the jobs whose recordings are readings of it. */
import type { Chain, ChainChange, ChainList, ChainParts, ChainSummary } from '../../core/job/chains/chain.ts';
import { found, type Held, notFound } from '../answers.ts';
import type { ChainRow } from '../tables.ts';
import type { Origin, Tx } from '../transaction.ts';

const noChain = (named: string): Held<never> => notFound(`There is no chain ${named}.`);

/** States that are told of a chain: the newest. */
const MOST_STATES = 50;
const MOST_JOBS = 500;

/** By its id, or by its name. */
export async function chainRow(tx: Tx, named: string): Promise<Held<ChainRow>> {
  const row =
    (await tx.selectFrom('chains').selectAll().where('id', '=', named).executeTakeFirst()) ??
    (await tx.selectFrom('chains').selectAll().where('name', '=', named.trim()).executeTakeFirst());
  return row === undefined ? noChain(named) : found(row);
}

/** The chain of this name, made where there is none. */
export async function chainNamed(tx: Tx, name: string, origin: Origin): Promise<ChainRow> {
  const row = { id: origin.newId(), name, made_at: origin.now() };
  await tx
    .insertInto('chains')
    .values(row)
    .onConflict((conflict) => conflict.column('name').doNothing())
    .execute();
  return tx.selectFrom('chains').selectAll().where('name', '=', name).executeTakeFirstOrThrow();
}

const statesOf = (tx: Tx, chain: string) =>
  tx
    .selectFrom('chain_states')
    .selectAll()
    .where('chain_id', '=', chain)
    .orderBy('since', 'desc')
    .orderBy('id', 'desc')
    .limit(MOST_STATES)
    .execute();

const partsOf = (json: string | undefined): Record<string, string> => (json === undefined ? {} : JSON.parse(json));

async function newestOf(tx: Tx, { id, name }: ChainRow): Promise<string | null> {
  const file = await tx
    .selectFrom('batch_files')
    .select((row) => row.fn.max('recorded_at').as('at'))
    .where('chain', '=', name)
    .executeTakeFirstOrThrow();
  const heard = await tx
    .selectFrom('chain_jobs')
    .innerJoin('captures', 'captures.job_id', 'chain_jobs.job_id')
    .select((row) => row.fn.max('captures.heard_at').as('at'))
    .where('chain_jobs.chain_id', '=', id)
    .executeTakeFirstOrThrow();
  const times: (string | null)[] = [file.at, heard.at];
  return times.reduce((last, at) => (at !== null && (last === null || at > last) ? at : last), null);
}

async function summaryOf(tx: Tx, row: ChainRow): Promise<ChainSummary> {
  const [state] = await tx
    .selectFrom('chain_states')
    .select('parts_json')
    .where('chain_id', '=', row.id)
    .orderBy('since', 'desc')
    .orderBy('id', 'desc')
    .limit(1)
    .execute();
  return { id: row.id, name: row.name, parts: partsOf(state?.parts_json), newest: await newestOf(tx, row) };
}

export interface ChainsQuery {
  /** the name that the page before ended with */
  readonly after?: string;
  readonly limit: number;
}

export async function listChains(tx: Tx, { after, limit }: ChainsQuery): Promise<ChainList> {
  let query = tx
    .selectFrom('chains')
    .selectAll()
    .orderBy('name')
    .limit(limit + 1);
  if (after !== undefined) query = query.where('name', '>', after);
  const rows = await query.execute();
  const chains: ChainSummary[] = [];
  for (const row of rows.slice(0, limit)) chains.push(await summaryOf(tx, row));
  return rows.length > limit ? { chains, next: rows[limit - 1].name } : { chains };
}

export async function readChain(tx: Tx, row: ChainRow): Promise<Chain> {
  const states = await statesOf(tx, row.id);
  const jobs = await tx
    .selectFrom('chain_jobs')
    .innerJoin('jobs', 'jobs.id', 'chain_jobs.job_id')
    .select('jobs.number')
    .where('chain_jobs.chain_id', '=', row.id)
    .orderBy('jobs.number', 'desc')
    .limit(MOST_JOBS)
    .execute();
  return {
    ...(await summaryOf(tx, row)),
    states: states.map(({ since, parts_json, why }) => ({ since, parts: partsOf(parts_json), why })),
    jobs: jobs.map(({ number }) => number),
  };
}

/**
 * When the chain was last changed: by what is written of it, a part fitted or a move done in a job of it. Its first
 * description changes nothing. Null: never.
 */
export async function lastChanged(tx: Tx, chain: ChainRow): Promise<string | null> {
  const states = await statesOf(tx, chain.id);
  const fitted = await tx
    .selectFrom('chain_jobs')
    .innerJoin('fittings', 'fittings.job_id', 'chain_jobs.job_id')
    .select((row) => row.fn.max('fittings.at').as('at'))
    .where('chain_jobs.chain_id', '=', chain.id)
    .executeTakeFirstOrThrow();
  const moved = await tx
    .selectFrom('chain_jobs')
    .innerJoin('advice', 'advice.job_id', 'chain_jobs.job_id')
    .select((row) => row.fn.max('advice.outcome_at').as('at'))
    .where('chain_jobs.chain_id', '=', chain.id)
    .where('advice.did', '=', 'done')
    .executeTakeFirstOrThrow();
  const times = [states.length > 1 ? states[0].since : null, fitted.at, moved.at];
  return times.reduce((last, at) => (at !== null && (last === null || at > last) ? at : last), null);
}

/** What the chain is made of from a time on; parts that are not named stay as they were. */
export async function changeChain(
  tx: Tx,
  change: Required<Omit<ChainChange, 'since' | 'id'>> & { since?: string; id?: string },
  origin: Origin,
): Promise<Chain> {
  const row = await chainNamed(tx, change.name, origin);
  if (change.id !== undefined) {
    const known = await tx.selectFrom('chain_states').select('id').where('id', '=', change.id).executeTakeFirst();
    if (known !== undefined) return readChain(tx, row);
  }
  const since = change.since ?? origin.now();
  const last = (await statesOf(tx, row.id)).find((state) => state.since <= since);
  const parts: ChainParts = { ...partsOf(last?.parts_json), ...change.parts };
  const said = Object.fromEntries(Object.entries(parts).filter(([, text]) => text !== undefined && text !== ''));
  await tx
    .insertInto('chain_states')
    .values({
      id: change.id ?? origin.newId(),
      chain_id: row.id,
      since,
      parts_json: JSON.stringify(said),
      why: change.why,
    })
    .execute();
  return readChain(tx, row);
}

/** @param chain null: of no chain any more */
export async function setJobChain(tx: Tx, job: string, chain: string | null): Promise<Held<null>> {
  const there = await tx.selectFrom('jobs').select('id').where('id', '=', job).executeTakeFirst();
  if (there === undefined) return notFound(`There is no job ${job}.`);
  await tx.deleteFrom('chain_jobs').where('job_id', '=', job).execute();
  if (chain === null) return found(null);
  const row = await chainRow(tx, chain);
  if (row.outcome !== 'found') return row;
  await tx.insertInto('chain_jobs').values({ job_id: job, chain_id: row.value.id }).execute();
  return found(null);
}
