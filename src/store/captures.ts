/** Captures and what was said about them. */
import type { SideDocument } from '../core/advise/document.ts';
import { rejudged } from '../core/advise/rejudge.ts';
import { adviceEntries, linkAdvice } from '../core/job/adviceHistory.ts';
import type {
  AdviceEntry,
  CaptureAdded,
  CaptureChange,
  CaptureEntry,
  CaptureRecord,
  MoveMade,
  NewCapture,
  OutcomeChange,
  OutcomeKept,
} from '../core/job/api.ts';
import { comparableWith } from '../core/job/recordings.ts';
import { sameJson } from '../core/job/sameJson.ts';
import type { StationName } from '../core/job/station.ts';
import { found, type Held, notFound } from './answers.ts';
import { noJob, touch, writeOutcome, writeStation } from './changeJob.ts';
import {
  adviceRows,
  captureHeads,
  type Heard,
  jobRow,
  readAdvice,
  readHeard,
  readLimits,
  readStations,
} from './readJob.ts';
import { adviceRow, checkRows, documentOf, findingRows, type SaidOfRecording, saidOf } from './rows.ts';
import type { JobRow } from './tables.ts';
import type { Origin, Tx } from './transaction.ts';

export interface CaptureToWrite {
  readonly id: string;
  readonly job: string;
  readonly station: StationName;
  readonly heardAt: string;
  readonly storedAt: string;
  readonly document: SideDocument;
  readonly said: SaidOfRecording;
}

/** Rows put in at once; each row of findings binds nine values, and a statement may bind a few thousand. */
const ROWS_AT_ONCE = 100;

const saidRow = ({ practice, saidKind, saidEpoch, setAside }: SaidOfRecording) => ({
  practice: practice ? 1 : 0,
  said_kind: saidKind,
  said_epoch: saidEpoch,
  set_aside_at: setAside?.at ?? null,
  set_aside_why: setAside?.why ?? null,
});

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
      method: head.method ?? '1',
      record_key: head.record?.key ?? null,
      record_name: head.record?.name ?? null,
      ...saidRow(capture.said),
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

/**
 * Brings every advice of the job up to date with the recordings that now are there: held against those that count of its
 * own epoch, and no others. Gives the ids of those that changed.
 */
export async function relink(tx: Tx, job: string, { captures, recordings }: Heard): Promise<string[]> {
  const changed: string[] = [];
  for (const entry of await readAdvice(tx, job)) {
    const { checkedBy, checks } = linkAdvice(entry, comparableWith(recordings, entry.captureId, captures));
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

/** What has to be told of a capture: itself without its figures, the advice and the stations that it touches. */
async function told(
  tx: Tx,
  job: string,
  capture: string,
  heard: Heard,
  touched: readonly string[],
  stations: MoveMade['stations'] = {},
): Promise<CaptureAdded> {
  const row = (await jobRow(tx, job)) as JobRow;
  const { findings: _, ...entry } = heard.captures.find(({ id }) => id === capture) as CaptureEntry;
  return {
    capture: entry,
    advice: (await readAdvice(tx, job)).filter(
      (entry) => entry.captureId === capture || entry.checkedBy === capture || touched.includes(entry.id),
    ),
    stations,
    updatedAt: row.updated_at,
  };
}

export async function addCapture(tx: Tx, id: string, wanted: NewCapture, origin: Origin): Promise<Held<Added>> {
  const job = await jobRow(tx, id);
  if (job === undefined) return noJob(id);
  const { sha256 } = wanted.document.capture;
  if (wanted.id !== undefined) {
    const sent = tx.selectFrom('captures').select('job_id').where('id', '=', wanted.id);
    const there = await sent.executeTakeFirst();
    if (there?.job_id === id)
      return found({ added: await told(tx, id, wanted.id, await readHeard(tx, job), []), fresh: false });
    if (there !== undefined) return notFound(`Job ${id} has no recording ${wanted.id}; another job has.`);
  }
  if (sha256 !== null) {
    const alike = await tx
      .selectFrom('captures')
      .selectAll()
      .where('job_id', '=', id)
      .where('sha256', '=', sha256)
      .execute();
    const there = alike.find((capture) => sameJson(documentOf(capture), JSON.parse(JSON.stringify(wanted.document))));
    if (there !== undefined)
      return found({ added: await told(tx, id, there.id, await readHeard(tx, job), []), fresh: false });
  }
  const at = origin.now();
  const captureId = wanted.id ?? origin.newId();
  await insertCapture(tx, {
    id: captureId,
    job: id,
    station: wanted.station ?? 'tilt',
    heardAt: wanted.heardAt ?? at,
    storedAt: at,
    document: wanted.document,
    said: { practice: wanted.practice ?? false, saidKind: null, saidEpoch: null, setAside: null },
  });
  const entries = adviceEntries(wanted.document, captureId, at, () => origin.newId());
  const given = (await adviceRows(tx, id)).length;
  for (const [place, entry] of entries.entries()) await insertAdvice(tx, id, given + place, entry);
  const heard = await readHeard(tx, job);
  const touched = await relink(tx, id, heard);
  await touch(tx, id, at);
  const counts = heard.recordings.find((one) => one.id === captureId)?.counts ?? false;
  const stations = counts ? await reopen(tx, id, wanted.document.capture.file, at) : {};
  return found({ added: await told(tx, id, captureId, heard, touched, stations), fresh: true });
}

/** A job that was closed shows figures that are no longer the newest. */
async function reopen(tx: Tx, id: string, file: string, at: string): Promise<MoveMade['stations']> {
  const { data, ...state } = (await readStations(tx, id))['hand-over'];
  if (state.status !== 'done') return {};
  const revision = state.revision + 1;
  await writeStation(tx, id, 'hand-over', {
    ...state,
    data,
    status: 'stale',
    readSince: [file],
    revision,
    updatedAt: at,
  });
  const { data: _, ...mark } = (await readStations(tx, id))['hand-over'];
  return { 'hand-over': mark };
}

/** What a person says of a recording: its kind, its epoch, set aside or taken back. Nothing of it is deleted. */
export async function changeCapture(
  tx: Tx,
  id: string,
  capture: string,
  { kind, epoch, setAside }: CaptureChange,
  origin: Origin,
): Promise<Held<CaptureAdded>> {
  const job = await jobRow(tx, id);
  if (job === undefined) return noJob(id);
  const at = origin.now();
  const [result] = await tx
    .updateTable('captures')
    .set({
      ...(kind === undefined ? {} : { said_kind: kind }),
      ...(epoch === undefined ? {} : { said_epoch: epoch }),
      ...(setAside === undefined
        ? {}
        : { set_aside_at: setAside === null ? null : at, set_aside_why: setAside?.why ?? null }),
      station: (column) => column.ref('station'),
    })
    .where('id', '=', capture)
    .where('job_id', '=', id)
    .execute();
  if (Number(result.numUpdatedRows) === 0) return notFound(`Job ${id} has no recording ${capture}.`);
  const heard = await readHeard(tx, job);
  const touched = await relink(tx, id, heard);
  await touch(tx, id, at);
  return found(await told(tx, id, capture, heard, touched));
}

export async function readCapture(tx: Tx, job: string, capture: string): Promise<Held<CaptureRecord>> {
  const row = await tx
    .selectFrom('captures')
    .selectAll()
    .where('id', '=', capture)
    .where('job_id', '=', job)
    .executeTakeFirst();
  if (row === undefined) return notFound(`Job ${job} has no recording ${capture}.`);
  return found({
    id: row.id,
    heardAt: row.heard_at,
    storedAt: row.stored_at,
    station: row.station as StationName,
    sha256: row.sha256,
    ...saidOf(row),
    document: rejudged(documentOf(row), await readLimits(tx, job)),
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
): Promise<Held<OutcomeKept>> {
  const job = await jobRow(tx, id);
  if (job === undefined) return noJob(id);
  const updatedAt = origin.now();
  const outcome = {
    did: change.did,
    note: change.note ?? '',
    at: change.did === 'open' ? null : (change.at ?? updatedAt),
  };
  if ((await writeOutcome(tx, id, advice, outcome)) === 0) return notFound(`Job ${id} has no advice ${advice}.`);
  await relink(tx, id, await readHeard(tx, job));
  await touch(tx, id, updatedAt);
  const entry = (await readAdvice(tx, id)).find((one) => one.id === advice) as AdviceEntry;
  return found({ advice: entry, updatedAt });
}
