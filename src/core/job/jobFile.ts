/**
 * A whole job as one JSON file: what `job export` writes and `job import` reads. Everything a store holds of a job is in
 * it, so that export and import lose nothing.
 */

import { z } from 'zod';
import { type Statement, statement } from '../words/statement.ts';
import { revision, time } from './api/primitives.ts';
import { adviceEntrySchema, stationNameSchema, stationStateSchema } from './api.ts';
import { checkSentence } from './checkSentence.ts';
import { fittingSchema } from './epochs.ts';
import { MOST_PHOTOGRAPHS, photographInFileSchema } from './photographs.ts';
import { jpegOfBase64, plainJpeg } from './plainJpeg.ts';
import { recordingKinds } from './recordings.ts';
import { sideDocumentSchema } from './sideSchema.ts';
import { stationNames } from './station.ts';
import { checkStation, modelOf } from './stations/index.ts';

/** Grows only when a key or a meaning changes. */
export const JOB_FILE_SCHEMA = 1;

const id = z.string().min(1).max(64);

const stations = z.object(
  Object.fromEntries(stationNames.map((name) => [name, stationStateSchema])) as Record<
    (typeof stationNames)[number],
    typeof stationStateSchema
  >,
);

const jobFileSchema = z.object({
  schema: z.literal(JOB_FILE_SCHEMA),
  kind: z.literal('platterside-job'),
  /** product and version that wrote it */
  madeBy: z.string().max(100),
  exportedAt: time,
  job: z.object({
    id,
    number: z.number().int().min(1),
    // versions up to 0.1.0 made titles a little longer than 200 letters; they are cut when they are taken in
    title: z.string().max(400),
    deck: z.object({
      id: z.string().regex(/^[A-Za-z0-9_-]{1,64}$/, { error: 'an id is 1 to 64 letters, digits, - or _' }),
      name: z.string().min(1).max(200),
      description: z.string().max(20_000),
    }),
    customer: z.string().max(200),
    notes: z.string().max(20_000),
    createdAt: time,
    updatedAt: time,
    revision,
    stations,
    practice: z.boolean().default(false),
    setAside: z
      .object({ at: time, why: z.string().max(200) })
      .nullable()
      .default(null),
    recordFile: z.string().max(64).default(''),
    fittings: z.array(fittingSchema).max(1000).default([]),
  }),
  captures: z
    .array(
      z.object({
        id,
        heardAt: time,
        storedAt: time,
        station: stationNameSchema,
        document: sideDocumentSchema,
        practice: z.boolean().default(false),
        saidKind: z.enum(recordingKinds).nullable().default(null),
        saidEpoch: id.nullable().default(null),
        setAside: z
          .object({ at: time, why: z.string().max(200) })
          .nullable()
          .default(null),
      }),
    )
    .max(10_000),
  /** in the order given */
  advice: z
    .array(
      // ids of any store, not this one's own
      adviceEntrySchema.extend({ id, captureId: id, checkedBy: id.nullable() }),
    )
    .max(100_000),
  photographs: z.array(photographInFileSchema).max(MOST_PHOTOGRAPHS).default([]),
});
export type JobFile = z.infer<typeof jobFileSchema>;

export type ReadJobFile =
  | { readonly found: true; readonly file: JobFile }
  | { readonly found: false; readonly why: Statement };

/**
 * Reads a job file out of parsed JSON.
 *
 * @returns the file, or one sentence that says what was found and what was expected
 */
export function readJobFile(value: unknown): ReadJobFile {
  const head = (typeof value === 'object' && value !== null ? value : {}) as { kind?: unknown; schema?: unknown };
  if (head.kind !== 'platterside-job') {
    return {
      found: false,
      why: statement('job-file-no-kind'),
    };
  }
  if (typeof head.schema === 'number' && head.schema > JOB_FILE_SCHEMA) {
    return {
      found: false,
      why: statement('job-file-newer', { schema: head.schema, most: JOB_FILE_SCHEMA }),
    };
  }
  const parsed = jobFileSchema.safeParse(value);
  if (!parsed.success) {
    return { found: false, why: statement('job-file-odd', { what: checkSentence(parsed.error) }) };
  }
  const { captures, advice, photographs } = parsed.data;
  const ids = new Set(captures.map((capture) => capture.id));
  const twice = Object.entries({
    recordings: captures,
    advices: advice,
    photographs,
    fittings: parsed.data.job.fittings,
  }).find(([, list]) => new Set(list.map(({ id }) => id)).size !== list.length);
  if (twice !== undefined) return { found: false, why: statement('job-file-same-id', { what: twice[0] }) };
  const lost = advice.findIndex(
    (entry) => !ids.has(entry.captureId) || (entry.checkedBy !== null && !ids.has(entry.checkedBy)),
  );
  if (lost !== -1) {
    return { found: false, why: statement('job-file-advice-lost', { place: lost }) };
  }
  const unread = photographs.findIndex(({ jpeg }) => !plainJpeg(jpegOfBase64(jpeg)).found);
  if (unread !== -1) return { found: false, why: statement('job-file-photograph', { place: unread }) };
  const { job } = parsed.data;
  for (const name of stationNames) {
    const checked = checkStation(name, modelOf(name).fromOlder(job.stations[name].data));
    if (!checked.found) return { found: false, why: statement('job-file-station', { what: checked.why }) };
    job.stations[name].data = checked.data;
  }
  return { found: true, file: parsed.data };
}
