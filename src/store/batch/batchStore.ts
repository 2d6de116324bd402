/** Batches of recordings in a store: what is to be measured, who has it, and what came of it. */
import { sql } from 'kysely';
import type { SideDocument } from '../../core/advise/document.ts';
import type { BatchStatus } from '../../core/job/api.ts';
import type { Shop } from '../../core/job/shop.ts';
import { openDatabase } from '../openDatabase.ts';
import { openPostgres } from '../openPostgres.ts';
import { isPostgresUrl } from '../postgresPlace.ts';
import { findingRows } from '../rows.ts';
import { readShop } from '../settings.ts';
import type { BatchSideRow } from '../tables.ts';
import { claiming, type Db, type Origin, reading, type Tx, writing } from '../transaction.ts';
import { type AddedFiles, addFiles, addRecord, type FoundFile } from './addWork.ts';
import { type MovedPage, measureAgain, movedFigures, type ReportRow, reportPage, statusOf } from './askBatch.ts';
import { beat, type Claimable, type Claimer, claim, fail, finish, giveBack, sweep } from './claim.ts';

/** Work that this worker has. */
export interface ClaimedWork {
  readonly table: Claimable;
  readonly id: string;
  readonly token: string;
}

/** A recording whose fingerprint is to be taken. */
export interface FileWork extends ClaimedWork {
  readonly root: string;
  readonly path: string;
  readonly record: string;
}

/** A content that is to be measured; it lies at any of `places`. */
export interface SideWork extends ClaimedWork {
  readonly fingerprint: string;
  readonly record: string;
  /** this one included */
  readonly tries: number;
  readonly places: readonly { readonly root: string; readonly path: string }[];
}

export interface BatchStore {
  addRecord(record: { readonly id: string; readonly name: string; readonly text: string }): Promise<void>;
  addFiles(record: string, chain: string, files: readonly FoundFile[]): Promise<AddedFiles>;
  recordText(id: string): Promise<string>;
  /** what the shop has set: verdicts go by its limits */
  shop(): Promise<Shop>;
  /** @param roots that this worker can reach */
  claimFile(claimer: Claimer, roots: readonly string[]): Promise<FileWork | null>;
  /** its fingerprint is known: the side is claimed at once by the same worker, unless it was measured or another one has it */
  fingerprinted(work: FileWork, fingerprint: string, method: string, claimer: Claimer): Promise<SideWork | null>;
  claimSide(claimer: Claimer, method: string, roots: readonly string[]): Promise<SideWork | null>;
  /** @returns false where it was given to another worker meanwhile */
  beat(work: ClaimedWork, leaseMs: number): Promise<boolean>;
  /** the result with the claim, in one step. @returns false where it was given to another worker: nothing was kept then */
  complete(work: SideWork, document: SideDocument, tookMs: number): Promise<boolean>;
  fail(work: ClaimedWork, why: string): Promise<void>;
  giveBack(work: ClaimedWork): Promise<void>;
  /** work that may yet come: open or with some worker, within these roots */
  left(method: string, roots: readonly string[]): Promise<number>;
  status(method: string): Promise<BatchStatus>;
  /** recordings by root and path, after the one of this id */
  report(method: string, after: string | null, limit: number): Promise<readonly ReportRow[]>;
  /** what was measured by versions before `olderThan` is to be measured by `method`. @returns how many sides */
  again(olderThan: number, method: string): Promise<number>;
  /** figures that two versions of the methods read otherwise, after the side of this id */
  moved(method: string, after: string | null, limit: number): Promise<MovedPage>;
  close(): Promise<void>;
}

const sideId = (fingerprint: string, method: string, record: string): string =>
  `${fingerprint}-${method}-${record.slice(0, 16)}`;

const within = (roots: readonly string[]) => sql`root in (${sql.join(roots)})`;
const lyingIn = (roots: readonly string[]) =>
  sql`exists (select 1 from batch_files where batch_files.fingerprint = batch_sides.fingerprint
    and batch_files.record = batch_sides.record and ${within(roots)})`;

async function sideWork(
  tx: Tx,
  side: Pick<BatchSideRow, 'id' | 'fingerprint' | 'record' | 'token' | 'tries'>,
): Promise<SideWork> {
  const { id, fingerprint, record, token, tries } = side;
  const places = await tx
    .selectFrom('batch_files')
    .select(['root', 'path'])
    .where('fingerprint', '=', fingerprint)
    .where('record', '=', record)
    .orderBy('root')
    .orderBy('path')
    .limit(100)
    .execute();
  return { table: 'batch_sides', id, token: token as string, fingerprint, record, tries, places };
}

async function afterFingerprint(
  tx: Tx,
  { work, fingerprint, method, claimer }: { work: FileWork; fingerprint: string; method: string; claimer: Claimer },
  now: string,
): Promise<SideWork | null> {
  if (!(await finish(tx, work))) return null;
  await tx.updateTable('batch_files').set({ fingerprint }).where('id', '=', work.id).execute();
  const id = sideId(fingerprint, method, work.record);
  const row = { id, fingerprint, method, record: work.record, state: 'open' as const, added_at: now };
  await tx
    .insertInto('batch_sides')
    .values({ ...row, tries: 0, worker: '', not_before: 0, why: '' })
    .onConflict((conflict) => conflict.doNothing())
    .execute();
  const side = await claim(tx, 'batch_sides', claimer, sql`id = ${id}`);
  return side === null ? null : sideWork(tx, side);
}

async function completeSide(
  tx: Tx,
  work: SideWork,
  document: SideDocument,
  took: { readonly ms: number; readonly at: string },
) {
  if (!(await finish(tx, work))) return false;
  const { curves: _, ...head } = document;
  await tx
    .insertInto('batch_results')
    .values({ side_id: work.id, measured_at: took.at, took_ms: took.ms, document_json: JSON.stringify(head) })
    .execute();
  const rows = findingRows(work.id, document).map(
    ({ place, quantity, channel, value_number, value_text, uncertainty, unit, verdict }) => ({
      side_id: work.id,
      place,
      quantity,
      channel,
      value: value_number,
      words: value_text,
      uncertainty,
      unit,
      verdict,
    }),
  );
  const AT_ONCE = 100;
  for (let from = 0; from < rows.length; from += AT_ONCE)
    await tx
      .insertInto('batch_figures')
      .values(rows.slice(from, from + AT_ONCE))
      .execute();
  return true;
}

/** Files claimed by a worker that ended are given back before the next is claimed, at most once in so many ms. */
const SWEEP_MS = 1_000;

/** @param place a path, or `postgresql://…` @throws StoreError with one sentence */
export async function openBatches(place: string, origin: Origin): Promise<BatchStore> {
  const db: Db = await (isPostgresUrl(place) ? openPostgres(place, origin.now) : openDatabase(place, origin.now));
  let swept = 0;
  const claimed = <T>(work: (tx: Tx) => Promise<T>): Promise<T> => claiming(db, work);
  async function sweepNow(): Promise<void> {
    if (Date.now() - swept < SWEEP_MS) return;
    swept = Date.now();
    for (const table of ['batch_files', 'batch_sides'] as const) await claimed((tx) => sweep(tx, table));
  }
  return {
    addRecord: (record) => writing(db, (tx) => addRecord(tx, record, origin)),
    addFiles: (record, chain, files) => writing(db, (tx) => addFiles(tx, { record, chain, files }, origin)),
    recordText: (id) =>
      reading(
        db,
        async (tx) =>
          (await tx.selectFrom('batch_records').select('text').where('id', '=', id).executeTakeFirstOrThrow()).text,
      ),
    shop: () => reading(db, readShop),
    async claimFile(claimer, roots) {
      await sweepNow();
      const row = await claimed((tx) => claim(tx, 'batch_files', claimer, within(roots)));
      if (row === null) return null;
      const { id, root, path, record } = row;
      return { table: 'batch_files', id, token: claimer.token, root, path, record };
    },
    fingerprinted: (work, fingerprint, method, claimer) =>
      claimed((tx) => afterFingerprint(tx, { work, fingerprint, method, claimer }, origin.now())),
    async claimSide(claimer, method, roots) {
      await sweepNow();
      return claimed(async (tx) => {
        const row = await claim(tx, 'batch_sides', claimer, sql`method = ${method} and ${lyingIn(roots)}`);
        return row === null ? null : sideWork(tx, row);
      });
    },
    beat: (work, leaseMs) => claimed((tx) => beat(tx, work, leaseMs)),
    complete: (work, document, ms) => claimed((tx) => completeSide(tx, work, document, { ms, at: origin.now() })),
    fail: (work, why) => claimed((tx) => fail(tx, work, why)),
    giveBack: (work) => claimed((tx) => giveBack(tx, work)),
    left: (method, roots) =>
      reading(db, async (tx) => {
        const { rows } = await sql<{ n: number }>`select
          (select count(*) from batch_files where state in ('open', 'claimed') and ${within(roots)}) +
          (select count(*) from batch_sides where state in ('open', 'claimed') and method = ${method} and ${lyingIn(roots)}) as n`.execute(
          tx,
        );
        return Number(rows[0].n);
      }),
    status: (method) => reading(db, (tx) => statusOf(tx, method, origin.now())),
    report: (method, after, limit) => reading(db, (tx) => reportPage(tx, { method, after, limit })),
    again: (olderThan, method) => writing(db, (tx) => measureAgain(tx, { olderThan, method }, origin.now())),
    moved: (method, after, limit) => reading(db, (tx) => movedFigures(tx, { method, after, limit })),
    close: () => db.destroy(),
  };
}
