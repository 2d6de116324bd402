/** Photographs of a job, as rows of their own: the job's answer names them, their pixels are asked for one by one. */

import {
  MOST_JPEG_BYTES,
  MOST_PHOTOGRAPHS,
  MOST_SIDE_PX,
  type NewPhotograph,
  type Photograph,
  type PhotographChange,
  type PhotographInFile,
  type PhotographsKept,
} from '../core/job/photographs.ts';
import { jpegOfBase64, plainJpeg } from '../core/job/plainJpeg.ts';
import type { StationName } from '../core/job/station.ts';
import { say } from '../core/words/statement.ts';
import { found, type Held, type NotFound, notFound } from './answers.ts';
import { noJob, touch } from './changeJob.ts';
import { jobRow } from './readJob.ts';
import type { Origin, Tx } from './transaction.ts';

export type PhotographAnswer = Held<PhotographsKept> | { readonly outcome: 'refused'; readonly why: string };

const noPhotograph = (job: string, id: string): NotFound => notFound(`Job ${job} has no photograph ${id}.`);

/** Without their pixels, in the order taken. */
export async function readPhotographs(tx: Tx, job: string): Promise<Photograph[]> {
  const rows = await tx
    .selectFrom('photographs')
    .select(['id', 'station', 'at', 'note', 'width', 'height'])
    .where('job_id', '=', job)
    .orderBy('at')
    .orderBy('id')
    .execute();
  return rows.map((row) => ({ ...row, station: row.station as StationName }));
}

/** With their pixels, base64. */
export async function photographsInFile(tx: Tx, job: string): Promise<PhotographInFile[]> {
  const rows = await tx
    .selectFrom('photographs')
    .selectAll()
    .where('job_id', '=', job)
    .orderBy('at')
    .orderBy('id')
    .execute();
  return rows.map(({ job_id: _, jpeg, ...row }) => ({
    ...row,
    station: row.station as StationName,
    jpeg: Buffer.from(jpeg).toString('base64'),
  }));
}

export async function readJpeg(tx: Tx, job: string, id: string): Promise<Held<Uint8Array<ArrayBuffer>>> {
  const row = await tx
    .selectFrom('photographs')
    .select('jpeg')
    .where('job_id', '=', job)
    .where('id', '=', id)
    .executeTakeFirst();
  return row === undefined ? noPhotograph(job, id) : found(new Uint8Array(row.jpeg));
}

async function kept(tx: Tx, job: string, updatedAt: string): Promise<Held<PhotographsKept>> {
  await touch(tx, job, updatedAt);
  return found({ photographs: await readPhotographs(tx, job), updatedAt });
}

/**
 * Keeps a photograph as a row. @returns why it cannot be kept, as one clause: not a JPEG, too large
 */
export async function insertPhotograph(
  tx: Tx,
  job: string,
  { jpeg, ...about }: Omit<PhotographInFile, 'width' | 'height'>,
): Promise<string | null> {
  const plain = plainJpeg(jpegOfBase64(jpeg));
  if (!plain.found) return say(plain.why);
  const { bytes, width, height } = plain;
  if (bytes.length > MOST_JPEG_BYTES) return `it holds over ${MOST_JPEG_BYTES / 1e6} MB`;
  if (Math.max(width, height) > MOST_SIDE_PX) {
    return `it is ${width} × ${height} px; at most ${MOST_SIDE_PX} on the longer side was expected`;
  }
  const row = { id: about.id, job_id: job, station: about.station, at: about.at, note: about.note };
  await tx
    .insertInto('photographs')
    .values({ ...row, width, height, jpeg: Buffer.from(bytes) })
    .execute();
  return null;
}

/** A request sent twice is taken once. */
export async function addPhotograph(
  tx: Tx,
  job: string,
  wanted: NewPhotograph,
  origin: Origin,
): Promise<PhotographAnswer> {
  const row = await jobRow(tx, job);
  if (row === undefined) return noJob(job);
  const there = await readPhotographs(tx, job);
  if (there.some(({ id }) => id === wanted.id)) return found({ photographs: there, updatedAt: row.updated_at });
  if (there.length >= MOST_PHOTOGRAPHS) {
    return { outcome: 'refused', why: `the job has ${MOST_PHOTOGRAPHS} photographs, which is as many as are kept` };
  }
  const at = origin.now();
  const why = await insertPhotograph(tx, job, { note: '', ...wanted, at });
  return why === null ? kept(tx, job, at) : { outcome: 'refused', why };
}

export async function changePhotograph(
  tx: Tx,
  job: string,
  id: string,
  { note }: PhotographChange,
  origin: Origin,
): Promise<Held<PhotographsKept>> {
  const [{ numUpdatedRows }] = await tx
    .updateTable('photographs')
    .set({ note })
    .where('job_id', '=', job)
    .where('id', '=', id)
    .execute();
  return Number(numUpdatedRows) === 0 ? noPhotograph(job, id) : kept(tx, job, origin.now());
}

export async function deletePhotograph(
  tx: Tx,
  job: string,
  id: string,
  origin: Origin,
): Promise<Held<PhotographsKept>> {
  const [{ numDeletedRows }] = await tx
    .deleteFrom('photographs')
    .where('job_id', '=', job)
    .where('id', '=', id)
    .execute();
  return Number(numDeletedRows) === 0 ? noPhotograph(job, id) : kept(tx, job, origin.now());
}
