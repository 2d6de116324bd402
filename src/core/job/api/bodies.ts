/** What is asked and what is answered, beside the job itself. */
import { z } from 'zod';
import { learnedRecordSchema } from '../../advise/budget/learnedRecord.ts';
import { fittingSchema } from '../epochs.ts';
import { headWordings, wordsWithin } from '../fields/wording.ts';
import { leafChangesSchema } from '../leafPaths.ts';
import { recordingKinds } from '../recordings.ts';
import { sideDocumentSchema } from '../sideSchema.ts';
import {
  adviceEntrySchema,
  captureEntrySchema,
  deckSchema,
  type JobHead,
  jobHeadSchema,
  jobSchema,
  moveNameSchema,
  setAsideSchema,
  stationNameSchema,
  stationStateSchema,
  stationStatusSchema,
} from './jobDocument.ts';
import { API_SCHEMA, beforeNumber, id, line, named, paragraph, revision, step, time } from './primitives.ts';

export const jobSummarySchema = z.object({
  id,
  number: z.number(),
  title: z.string(),
  deck: deckSchema,
  customer: z.string(),
  createdAt: time,
  updatedAt: time,
  stations: z.record(stationNameSchema, stationStatusSchema),
  captures: z.number().int().min(0),
  setAside: setAsideSchema,
});
export type JobSummary = z.infer<typeof jobSummarySchema>;

/** A job that stands in the store and cannot be read; it hides no other. */
const unreadableJobSchema = z.object({ id: z.string(), number: z.number().nullable(), why: z.string() });

export const jobListSchema = z.object({
  jobs: z.array(jobSummarySchema),
  unreadable: z.array(unreadableJobSchema),
  /** the number to ask for older ones before; left out where there are none */
  next: z.number().optional(),
});

/** What `GET /api/jobs` is asked. */
export const jobsQuerySchema = z.object({
  deck: id.optional(),
  words: z.string().max(400).optional(),
  before: beforeNumber,
  limit: z.coerce.number().int().min(1).max(500).optional(),
  aside: z.literal('left-out').optional(),
});

export type JobsQuery = z.infer<typeof jobsQuerySchema>;

/** What `GET /api/decks` is asked; by name, 500 where no `limit` is given. */
export const decksQuerySchema = z.object({
  /** only decks of this name, in small or large letters */
  named: z.string().max(200).optional(),
  words: z.string().max(400).optional(),
  after: id.optional(),
  limit: z.coerce.number().int().min(1).max(500).optional(),
});
export type DecksQuery = z.infer<typeof decksQuerySchema>;

/** What went with a job that was deleted. */
export const jobDeletedSchema = z.object({ number: z.number(), recordings: z.number(), deckKept: z.boolean() });
export type JobDeleted = z.infer<typeof jobDeletedSchema>;
export type JobList = z.infer<typeof jobListSchema>;

export const deckListSchema = z.object({
  decks: z.array(deckSchema.extend({ jobs: z.array(id) })),
  /** the deck to ask for those after; left out where there are none */
  next: id.optional(),
});
export type DeckList = z.infer<typeof deckListSchema>;

export const newJobSchema = z.strictObject({
  /** given by whoever asks: sent again after an answer that got lost, the job is made once */
  id: id.optional(),
  /** left out: "Job 42 · deck's name" */
  title: line.optional(),
  /** a deck that was here before by its id, or a new one */
  deck: z.union([z.strictObject({ id }), z.strictObject({ name: line.min(1), description: paragraph.default('') })]),
  customer: line.default(''),
  notes: paragraph.default(''),
});
export type NewJob = z.input<typeof newJobSchema>;

/** Bounds of what a person may say of the job; the deck's name and words are changed in all its jobs. */
export const headTypedSchema = z.strictObject({
  title: named,
  customer: wordsWithin(headWordings.customer),
  notes: wordsWithin(headWordings.notes),
  recordFile: z.string().max(64),
  deck: z.strictObject({ name: named, description: paragraph }),
});
export type HeadTyped = z.infer<typeof headTypedSchema>;

/** The part of a job's head that is typed. */
export const headTypedOf = ({
  title,
  customer,
  notes,
  recordFile,
  deck,
}: Omit<JobHead, 'updatedAt' | 'revision'>): HeadTyped => ({
  title,
  customer,
  notes,
  recordFile,
  deck: { name: deck.name, description: deck.description },
});

/** Paths are those of `HeadTyped`. */
export const headChangeSchema = z.strictObject({ changes: leafChangesSchema });
export type HeadChange = z.input<typeof headChangeSchema>;

const openStatusSchema = stationStatusSchema.exclude(['stale']);
export type OpenStatus = z.infer<typeof openStatusSchema>;

/**
 * A first change to an untouched station begins it. A stale station stays stale through `now`; `done` or `untouched`
 * clears it.
 */
export const stationChangeSchema = z.strictObject({
  changes: leafChangesSchema.default([]),
  status: z.strictObject({ was: stationStatusSchema, is: openStatusSchema }).optional(),
});
export type StationChange = z.input<typeof stationChangeSchema>;

export const moveSchema = z.strictObject({
  move: moveNameSchema,
  /** where it was made; that station itself does not become stale, Run apart */
  station: stationNameSchema,
  /** the person's own words, e.g. "1.2 mm forward"; stands in the reason */
  note: line.default(''),
  /** how much, signed, in the move's own unit (docs/store.md); left out where it is not known, and then nothing is under a tolerance */
  by: z.number().min(-1000).max(1000).optional(),
  step: step.optional(),
});
export type Move = z.input<typeof moveSchema>;

/** The moves of this step were not made: their marks go. */
export const undoSchema = z.strictObject({ step });
export type Undo = z.input<typeof undoSchema>;

/** Stations that a move, or taking one back, has marked, without what is typed there. */
const marksSchema = z.partialRecord(stationNameSchema, stationStateSchema.omit({ data: true }));
export const moveMadeSchema = z.object({
  stations: marksSchema,
  /** what a recording advised and this answers, or leaves open again */
  advice: z.array(adviceEntrySchema),
  updatedAt: time,
});
export type MoveMade = z.infer<typeof moveMadeSchema>;

export const newCaptureSchema = z.strictObject({
  /** given by whoever asks: sent again after an answer that got lost, it is kept once */
  id: id.optional(),
  document: sideDocumentSchema,
  /** left out: now */
  heardAt: time.optional(),
  station: stationNameSchema.default('tilt'),
  /** played by the practice deck */
  practice: z.boolean().default(false),
});
export type NewCapture = z.input<typeof newCaptureSchema>;

/** What a recording changed. Its figures are in the document, which whoever sent it has. */
export const captureAddedSchema = z.object({
  capture: captureEntrySchema.omit({ findings: true }),
  /** given by it, checked by it, or checked by another since */
  advice: z.array(adviceEntrySchema),
  /** that it made stale, without what is typed there */
  stations: marksSchema,
  updatedAt: time,
});
export type CaptureAdded = z.infer<typeof captureAddedSchema>;

/** What a person says of a recording; what is left out stays, null takes back what was said. */
export const captureChangeSchema = z.strictObject({
  kind: z.enum(recordingKinds).nullable().optional(),
  epoch: id.nullable().optional(),
  setAside: z
    .strictObject({ why: line.min(1, { error: 'a reason was expected: why the recording is set aside' }) })
    .nullable()
    .optional(),
});
export type CaptureChange = z.input<typeof captureChangeSchema>;

const setAsideWhy = z.strictObject({ why: line.min(1, { error: 'a reason was expected: why it is set aside' }) });

/** A whole job set aside, or (null) taken in again. */
export const jobAsideChangeSchema = z.strictObject({ setAside: setAsideWhy.nullable() });
export const jobAsideSchema = z.object({ setAside: setAsideSchema, updatedAt: time });
export type JobAside = z.infer<typeof jobAsideSchema>;

/** What a fitting, or taking one back, changed. */
export const fittedSchema = z.object({
  fittings: z.array(fittingSchema),
  /** the one that was made; null where one was taken back */
  fitting: z.string().nullable(),
  moves: moveMadeSchema,
  /** that is checked by another recording now, or by none */
  advice: z.array(adviceEntrySchema),
});
export type Fitted = z.infer<typeof fittedSchema>;

/** What the shop's own jobs teach of a record; null where they are too few, with the decks that it was played on so far. */
export const learnedSchema = z.object({ learned: learnedRecordSchema.nullable(), decks: z.number().int().min(0) });
export type Learned = z.infer<typeof learnedSchema>;

export const outcomeChangeSchema = z.strictObject({
  did: z.enum(['open', 'done', 'not-done']),
  note: z.string().max(2000).default(''),
  /** when it was; left out: now */
  at: time.optional(),
});
export type OutcomeChange = z.input<typeof outcomeChangeSchema>;

/** The advice that was spoken of, with its checks as they are now. */
export const outcomeKeptSchema = z.object({ advice: adviceEntrySchema, updatedAt: time });
export type OutcomeKept = z.infer<typeof outcomeKeptSchema>;

export const lastSchema = z.object({ job: jobSchema.nullable(), station: stationNameSchema.nullable() });
export type Last = z.infer<typeof lastSchema>;

export const lastChangeSchema = z.strictObject({ jobId: id, station: stationNameSchema });
export type LastChange = z.input<typeof lastChangeSchema>;

/** A part of the person's own library. `data` is checked by the schema of its kind in `parts.ts`. */
export const partRecordSchema = z.object({
  kind: z.string(),
  id: z.string(),
  data: z.record(z.string(), z.json()),
  revision,
  updatedAt: time,
});
export type PartRecord = z.infer<typeof partRecordSchema>;

export const partListSchema = z.object({ parts: z.array(partRecordSchema) });
export type PartList = z.infer<typeof partListSchema>;

export const partChangeSchema = z.strictObject({ changes: leafChangesSchema });
export type PartChange = z.input<typeof partChangeSchema>;

export const healthSchema = z.object({
  ok: z.literal(true),
  product: z.literal('platterside'),
  version: z.string(),
  schema: z.literal(API_SCHEMA),
});
export type Health = z.infer<typeof healthSchema>;

export const enterSchema = z.strictObject({ key: z.string().max(200) });

const errorCodes = [
  'bad-request',
  'forbidden',
  'no-key',
  'not-found',
  'conflict',
  'too-large',
  'not-json',
  'store',
  // the database of a shared store does not answer: worth another try, with the same ids
  'away',
  'internal',
] as const;
export type ErrorCode = (typeof errorCodes)[number];

export const apiErrorSchema = z.object({ error: z.string(), code: z.enum(errorCodes) });
export type ApiError = z.infer<typeof apiErrorSchema>;

/** Nothing was changed; both values of each leaf are told, and all that stands there now. */
const conflictSchema = apiErrorSchema.extend({
  code: z.literal('conflict'),
  conflicts: z.array(z.object({ path: z.array(z.string()), yours: z.json().optional(), theirs: z.json().optional() })),
});
export const headConflictSchema = conflictSchema.extend({ current: jobHeadSchema });
export const stationConflictSchema = conflictSchema.extend({ current: stationStateSchema });
export const partConflictSchema = conflictSchema.extend({
  /** null: it was taken away meanwhile */
  current: partRecordSchema.nullable(),
});
