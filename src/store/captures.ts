/** Captures and what was said about them. */
import type { SideDocument } from '../core/advise/document.ts';
import { adviceEntries, linkAdvice } from '../core/job/adviceHistory.ts';
import type { AdviceEntry, CaptureRecord, Job, NewCapture, OutcomeChange } from '../core/job/api.ts';
import { sameJson } from '../core/job/sameJson.ts';
import type { StationName } from '../core/job/station.ts';
import { type Found, found, notFound } from './answers.ts';
import { noJob, touch } from './changeJob.ts';
import { adviceRows, captureHeads, jobRow, readAdvice, readJob } from './readJob.ts';
import { adviceRow, checkRows, type DocumentHead, documentOf, findingRows } from './rows.ts';
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

/** Brings every advice of the job up to date with the captures that now are there. */
async function relink(tx: Tx, job: string): Promise<void> {
  const captures = (await captureHeads(tx, job)).map((row) => ({
    id: row.id,
    heardAt: row.heard_at,
    sha256: row.sha256,
    findings: (JSON.parse(row.document_json) as DocumentHead).findings,
  }));
  for (const entry of await readAdvice(tx, job)) {
    const { checkedBy, checks } = linkAdvice(entry, captures);
    if (checkedBy === entry.checkedBy) continue;
    await tx.deleteFrom('advice_checks').where('advice_id', '=', entry.id).execute();
    await tx.updateTable('advice').set({ checked_by: checkedBy }).where('id', '=', entry.id).execute();
    const rows = checkRows(entry.id, checks);
    if (rows.length > 0) await tx.insertInto('advice_checks').values(rows).execute();
  }
}

export interface Added {
  readonly captureId: string;
  readonly job: Job;
  /** false when this very document was there already: a repeated request */
  readonly fresh: boolean;
}

export async function addCapture(tx: Tx, id: string, wanted: NewCapture, origin: Origin): Promise<Found<Added>> {
  const row = await jobRow(tx, id);
  if (row === undefined) return noJob(id);
  const { sha256 } = wanted.document.capture;
  if (sha256 !== null) {
    const alike = await tx
      .selectFrom('captures')
      .selectAll()
      .where('job_id', '=', id)
      .where('sha256', '=', sha256)
      .execute();
    const there = alike.find((capture) => sameJson(documentOf(capture), JSON.parse(JSON.stringify(wanted.document))));
    if (there !== undefined) return found({ captureId: there.id, job: await readJob(tx, row), fresh: false });
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
  await relink(tx, id);
  await touch(tx, id, at);
  return found({ captureId, job: await readJob(tx, (await jobRow(tx, id)) as JobRow), fresh: true });
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
): Promise<Found<Job>> {
  const row = await jobRow(tx, id);
  if (row === undefined) return noJob(id);
  const at = origin.now();
  const [result] = await tx
    .updateTable('advice')
    .set({ did: change.did, outcome_note: change.note ?? '', outcome_at: change.did === 'open' ? null : at })
    .where('id', '=', advice)
    .where('job_id', '=', id)
    .execute();
  if (Number(result.numUpdatedRows) === 0) return notFound(`Job ${id} has no advice ${advice}.`);
  await relink(tx, id);
  await touch(tx, id, at);
  return found(await readJob(tx, (await jobRow(tx, id)) as JobRow));
}
