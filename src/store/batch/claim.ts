/**
 * Work that is claimed by one worker at a time: a row, a lease that runs out, a token that is another one for every claim.
 * A worker that was killed keeps nothing; one that was away longer than its lease can keep nothing either, because what it
 * brings carries a token that nobody asks for any more.
 *
 * One statement for both databases; in PostgreSQL it passes over rows that another worker is just claiming.
 */
import { type RawBuilder, sql } from 'kysely';
import { isPostgres } from '../engine.ts';
import type { BatchFileRow, BatchSideRow } from '../tables.ts';
import type { Db, Tx } from '../transaction.ts';

/** A file that failed so often is set aside with its reason. */
const MOST_TRIES = 3;
/** How long a claim holds without a word of its worker, ms. */
export const LEASE_MS = 60_000;
/** After a try that failed, ms for every try so far. */
const PAUSE_MS = 500;

interface Rows {
  readonly batch_files: BatchFileRow;
  readonly batch_sides: BatchSideRow;
}
export type Claimable = keyof Rows;

/** Who claims: `token` is another one for every claim. */
export interface Claimer {
  readonly token: string;
  /** machine and process, for people */
  readonly worker: string;
  readonly leaseMs: number;
}

/** ms since 1970 by the database's own clock, which all workers share. */
const clock = (db: Db | Tx): RawBuilder<number> =>
  isPostgres(db) ? sql`(extract(epoch from clock_timestamp()) * 1000)::float8` : sql`${sql.lit(Date.now())}`;

/** @param among which of the open rows may be claimed, said of the table under its own name */
export async function claim<T extends Claimable>(
  tx: Tx,
  table: T,
  { token, worker, leaseMs }: Claimer,
  among: RawBuilder<unknown>,
): Promise<Rows[T] | null> {
  const now = clock(tx);
  const passing = isPostgres(tx) ? sql`for update skip locked` : sql``;
  const { rows } = await sql<Rows[T]>`
    update ${sql.table(table)}
    set state = 'claimed', tries = tries + 1, token = ${token}, worker = ${worker}, lease_until = ${now} + ${sql.lit(leaseMs)}
    where id = (
      select id from ${sql.table(table)}
      where state = 'open' and not_before <= ${now} and ${among}
      order by added_at, id limit 1 ${passing})
    returning *`.execute(tx);
  return rows[0] ?? null;
}

/** Gives back what workers had whose lease ran out; what was claimed too often is set aside. */
export async function sweep(tx: Tx, table: Claimable): Promise<void> {
  const now = clock(tx);
  await sql`
    update ${sql.table(table)}
    set state = case when tries >= ${sql.lit(MOST_TRIES)} then 'poisoned' else 'open' end,
      why = 'The program that worked on it ended before it was done.', token = null, lease_until = null
    where state = 'claimed' and lease_until < ${now}`.execute(tx);
}

type Held = { readonly table: Claimable; readonly id: string; readonly token: string };

const mine = ({ id, token }: Held): RawBuilder<unknown> => sql`id = ${id} and token = ${token} and state = 'claimed'`;

/** The worker is alive. @returns false where the work was given to another one */
export async function beat(tx: Tx, held: Held, leaseMs: number): Promise<boolean> {
  const { numAffectedRows } = await sql`
    update ${sql.table(held.table)} set lease_until = ${clock(tx)} + ${sql.lit(leaseMs)} where ${mine(held)}`.execute(
    tx,
  );
  return Number(numAffectedRows) === 1;
}

/** @returns false where the work was given to another one: nothing may be kept of it then */
export async function finish(tx: Tx, held: Held): Promise<boolean> {
  const { numAffectedRows } = await sql`
    update ${sql.table(held.table)} set state = 'done', token = null, lease_until = null, why = '' where ${mine(held)}`.execute(
    tx,
  );
  return Number(numAffectedRows) === 1;
}

/** It failed, with a reason: tried again a little later, by anyone, or set aside. */
export async function fail(tx: Tx, held: Held, why: string): Promise<void> {
  await sql`
    update ${sql.table(held.table)}
    set state = case when tries >= ${sql.lit(MOST_TRIES)} then 'poisoned' else 'open' end, why = ${why},
      not_before = ${clock(tx)} + tries * ${sql.lit(PAUSE_MS)}, token = null, lease_until = null
    where ${mine(held)}`.execute(tx);
}

/** The worker stops before it is done, by no fault of the work. */
export async function giveBack(tx: Tx, held: Held): Promise<void> {
  await sql`
    update ${sql.table(held.table)} set state = 'open', tries = tries - 1, token = null, lease_until = null
    where ${mine(held)}`.execute(tx);
}
