/** Captures and what was said about them. */
import type { SideDocument } from '../core/advise/document.ts';
import { adviceEntries, linkAdvice } from '../core/job/adviceHistory.ts';
import type {
  AdviceEntry,
  CaptureAdded,
  CaptureRecord,
  NewCapture,
  OutcomeChange,
  OutcomeKept,
} from '../core/job/api.ts';
import { sameJson } from '../core/job/sameJson.ts';
import type { StationName } from '../core/job/station.ts';
import { type Found, found, notFound } from './answers.ts';
import { noJob, touch } from './changeJob.ts';
import { adviceRows, beforeAfterOf, captureHeads, jobRow, readAdvice } from './readJob.ts';
import { adviceRow, captureEntry, checkRows, type DocumentHead, documentOf, findingRows } from './rows.ts';
import type { JobRow } from './tables.ts';
import type { Origin, Tx } from './transaction.ts';

export interface CaptureToWrite {
  readonly id: string;
  readonly job: string;
  readonly station: StationName;
  readonly heardAt: string;
  readonly storedAt: string;
  readonly document: SideDocument;
}

/** Rows put in at once; each row of findings binds nine values, and a statement may bind a few thousand. */
const ROWS_AT_ONCE = 100;

export async function insertCapture(tx: Tx, capture: CaptureToWrite): Promise<void> {
  const { curves, ...head } = capture.document;
  await tx
    .insertInto('captures')
    .values({
      id: capture.id,
      job_id: capture.job,
      station: capture.station,
      heard_at: capture.heardAt,
      stored_at: capture.storedAt,
      sha256: head.capture.sha256,
      file: head.capture.file,
      duration_s: head.capture.durationS,
      document_json: JSON.stringify(head),
      curves_json: JSON.stringify(curves),
    })
    .execute();
  const rows = findingRows(capture.id, capture.document);
  for (let from = 0; from < rows.length; from += ROWS_AT_ONCE) {
    await tx
      .insertInto('findings')
      .values(rows.slice(from, from + ROWS_AT_ONCE))
      .execute();
  }
}

export async function insertAdvice(tx: Tx, job: string, place: number, entry: AdviceEntry): Promise<void> {
  await tx
    .insertInto('advice')
    .values(adviceRow(job, place, entry))
    .execute();
  const checks = checkRows(entry.id, entry.checks);
  if (checks.length > 0) await tx.insertInto('advice_checks').values(checks).execute();
}

/** Brings every advice of the job up to date with the captures that now are there; gives the ids of those that changed. */
async function relink(tx: Tx, job: string): Promise<string[]> {
  const captures = (await captureHeads(tx, job)).map((row) => ({
    id: row.id,
    heardAt: row.heard_at,
    sha256: row.sha256,
    findings: (JSON.parse(row.document_json) as DocumentHead).findings,
  }));
  const changed: string[] = [];
  for (const entry of await readAdvice(tx, job)) {
    const { checkedBy, checks } = linkAdvice(entry, captures);
    if (checkedBy === entry.checkedBy) continue;
    await tx.deleteFrom('advice_checks').where('advice_id', '=', entry.id).execute();
    await tx.updateTable('advice').set({ checked_by: checkedBy }).where('id', '=', entry.id).execute();
    const rows = checkRows(entry.id, checks);
    if (rows.length > 0) await tx.insertInto('advice_checks').values(rows).execute();
    changed.push(entry.id);
  }
  return changed;
}

export interface Added {
  readonly added: CaptureAdded;
  /** false when this very document was there already: a repeated request */
  readonly fresh: boolean;
}

/** What the page has to be told of a capture: itself, the advice that it touches, and before and after. */
async function told(tx: Tx, job: string, capture: string, touched: readonly string[]): Promise<CaptureAdded> {
  const row = (await jobRow(tx, job)) as JobRow;
  const heads = (await captureHeads(tx, job)).map((one) => ({ row: one, head: JSON.parse(one.document_json) }));
  const own = heads.find((one) => one.row.id === capture) as (typeof heads)[number];
  return {
    capture: captureEntry(own.row, own.head),
    advice: (await readAdvice(tx, job)).filter(
      (entry) => entry.captureId === capture || entry.checkedBy === capture || touched.includes(entry.id),
    ),
    beforeAfter: beforeAfterOf(heads),
    updatedAt: row.updated_at,
  };
}

export async function addCapture(tx: Tx, id: string, wanted: NewCapture, origin: Origin): Promise<Found<Added>> {
  if ((await jobRow(tx, id)) === undefined) return noJob(id);
  const { sha256 } = wanted.document.capture;
  if (sha256 !== null) {
    const alike = await tx
      .selectFrom('captures')
      .selectAll()
      .where('job_id', '=', id)
      .where('sha256', '=', sha256)
      .execute();
    const there = alike.find((capture) => sameJson(documentOf(capture), JSON.parse(JSON.stringify(wanted.document))));
    if (there !== undefined) return found({ added: await told(tx, id, there.id, []), fresh: false });
  }
  const at = origin.now();
  const captureId = origin.newId();
  await insertCapture(tx, {
    id: captureId,
    job: id,
    station: wanted.station ?? 'tilt',
    heardAt: wanted.heardAt ?? at,
    storedAt: at,
    document: wanted.document,
  });
  const entries = adviceEntries(wanted.document, captureId, at, () => origin.newId());
  const given = (await adviceRows(tx, id)).length;
  for (const [place, entry] of entries.entries()) await insertAdvice(tx, id, given + place, entry);
  const touched = await relink(tx, id);
  await touch(tx, id, at);
  return found({ added: await told(tx, id, captureId, touched), fresh: true });
}

export async function readCapture(tx: Tx, job: string, capture: string): Promise<Found<CaptureRecord>> {
  const row = await tx
    .selectFrom('captures')
    .selectAll()
    .where('id', '=', capture)
    .where('job_id', '=', job)
    .executeTakeFirst();
  if (row === undefined) return notFound(`Job ${job} has no capture ${capture}.`);
  return found({
    id: row.id,
    heardAt: row.heard_at,
    storedAt: row.stored_at,
    station: row.station as StationName,
    sha256: row.sha256,
    document: documentOf(row),
  });
}

/** Every capture of a job with its curves, in the order heard. */
export async function readCaptures(tx: Tx, job: string): Promise<CaptureRecord[]> {
  const records: CaptureRecord[] = [];
  for (const { id } of await captureHeads(tx, job)) {
    const record = await readCapture(tx, job, id);
    if (record.outcome === 'found') records.push(record.value);
  }
  return records;
}

export async function setOutcome(
  tx: Tx,
  id: string,
  advice: string,
  change: OutcomeChange,
  origin: Origin,
): Promise<Found<OutcomeKept>> {
  if ((await jobRow(tx, id)) === undefined) return noJob(id);
  const updatedAt = origin.now();
  const [result] = await tx
    .updateTable('advice')
    .set({ did: change.did, outcome_note: change.note ?? '', outcome_at: change.did === 'open' ? null : updatedAt })
    .where('id', '=', advice)
    .where('job_id', '=', id)
    .execute();
  if (Number(result.numUpdatedRows) === 0) return notFound(`Job ${id} has no advice ${advice}.`);
  await relink(tx, id);
  await touch(tx, id, updatedAt);
  const entry = (await readAdvice(tx, id)).find((one) => one.id === advice) as AdviceEntry;
  return found({ advice: entry, updatedAt });
}
