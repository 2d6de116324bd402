/**
 * The one schema of what travels between the bench page and its local server. Both sides import it: the server checks
 * what comes in, the page what comes back.
 *
 * Times are ISO 8601 in UTC (`2026-03-04T09:30:00.000Z`). Every body is JSON. An answer that is not 2xx is an
 * `ApiError`: one sentence a person can read, and a code a program can.
 *
 * Changes go by leaf path (`leafPaths.ts`) and are answered with what changed, not with the whole job.
 *
 *   GET    /api/health                              → Health         without the key
 *   POST   /api/enter                Enter          → 204            the key once, for a browser; a program sends it as `Authorization: Bearer`
 *   GET    /api/last                                → Last           the job and station open when the page was left
 *   PUT    /api/last                 LastChange     → LastChange
 *   GET    /api/jobs[?deck=ID&words=TEXT&before=NUMBER&limit=N&aside=left-out] → JobList  newest first
 *   DELETE /api/jobs/:id                            → JobDeleted
 *   PUT    /api/jobs/:id/set-aside   JobAsideChange → JobAside       the whole job
 *   POST   /api/jobs                 NewJob         → 201 Job
 *   GET    /api/jobs/:id                            → Job
 *   PATCH  /api/jobs/:id             HeadChange     → JobHead        409 HeadConflict
 *   PATCH  /api/jobs/:id/stations/:station StationChange → StationState  409 StationConflict
 *   POST   /api/jobs/:id/moves       Move           → MoveMade       what the move makes stale, or notes
 *   POST   /api/jobs/:id/moves/undo  Undo           → MoveMade       takes the marks of a step back
 *   POST   /api/jobs/:id/captures    NewCapture     → 201 CaptureAdded (200 when this very document is there already)
 *   GET    /api/jobs/:id/captures/:cid              → CaptureRecord
 *   PATCH  /api/jobs/:id/captures/:cid CaptureChange → CaptureAdded  what it is, or set aside
 *   POST   /api/jobs/:id/fittings    NewFitting     → 201 Fitted     begins an epoch and marks what rests on it
 *   DELETE /api/jobs/:id/fittings/:fid              → Fitted         it was not fitted after all
 *   POST   /api/jobs/:id/advice/:aid/outcome OutcomeChange → OutcomeKept
 *   POST   /api/jobs/:id/photographs NewPhotograph  → 201 PhotographsKept
 *   GET    /api/jobs/:id/photographs/:pid           → a JPEG
 *   PATCH  /api/jobs/:id/photographs/:pid PhotographChange → PhotographsKept
 *   DELETE /api/jobs/:id/photographs/:pid           → PhotographsKept
 *   GET    /api/jobs/:id/report[?for=technician]    → HTML           left out: for the customer
 *   GET    /api/letterhead                          → Letterhead     whose name and logo the reports carry
 *   PUT    /api/letterhead           Letterhead     → Letterhead
 *   GET    /api/jobs/:id/bundle[?owner=left-out]    → zip, what `platterside job export` writes (docs/bundle.md)
 *   GET    /api/jobs/:id/export[?owner=left-out]    → the same job as one JSON file
 *   POST   /api/import[?as=new]      zip or JSON    → ImportDone     here-already and here-otherwise: nothing was taken
 *   GET    /api/decks[?named=NAME]                  → DeckList       for the deck that comes back
 *   GET    /api/decks/:id/history                   → DeckHistory    its figures over its jobs
 *   GET    /api/styli                               → StylusLedger   every stylus with its hours
 *   GET    /api/due                                 → DueList        next checks, due ones first
 *   GET    /api/jobs.csv, /api/decks/:id/history.csv, /api/styli.csv, /api/due.csv → the same as CSV
 *   GET    /api/shop                                → Shop           what the shop has set for all its jobs
 *   PUT    /api/shop                 Shop           → Shop
 *   GET    /api/learned/:key                        → Learned        what the jobs teach of the record of that key
 *   GET    /api/parts[?kind=K]                      → PartList
 *   GET    /api/parts/:kind/:id                     → PartRecord
 *   PATCH  /api/parts/:kind/:id      PartChange     → PartRecord     409 PartConflict; a new part where there is none
 *   DELETE /api/parts/:kind/:id                     → 204            kind `record`: a record file, as its reader has it
 *
 * What comes in is bounded; what goes out is not, so that nothing that is kept can make an answer unreadable.
 */
import { z } from 'zod';
import { learnedRecordSchema } from '../advise/budget/learnedRecord.ts';
import type { Audience } from './audience.ts';
import { fittingSchema } from './epochs.ts';
import { leafChangesSchema } from './leafPaths.ts';
import { moveNames } from './moves.ts';
import { photographSchema } from './photographs.ts';
import { recordingKinds, unfitReasons } from './recordings.ts';
import { shopSchema } from './shop.ts';
import { adviceSchema, findingSchema, fingerprintSchema, sideDocumentSchema } from './sideSchema.ts';
import { type StationName, stationNames } from './station.ts';

/** Grows only when a key or a meaning changes. */
export const API_SCHEMA = 1;

const id = z.string().regex(/^[A-Za-z0-9_-]{1,64}$/, { error: 'an id is 1 to 64 letters, digits, - or _' });
const time = z.iso.datetime({ error: 'a time is written as 2026-03-04T09:30:00.000Z' });
const revision = z.number().int().min(0);
const line = z.string().trim().max(200);
/** kept as it was typed, blanks and all, but never blank */
const named = z
  .string()
  .max(200)
  .refine((text) => text.trim() !== '', { error: 'a name was expected' });
const paragraph = z.string().max(20_000);

/** What a station keeps; which keys, and what may stand under them, says its model in `stations/`. */
export const stationDataSchema = z.record(z.string(), z.json());
export type StationData = z.infer<typeof stationDataSchema>;

export const stationNameSchema = z.enum(stationNames);
export const moveNameSchema = z.enum(moveNames);

/**
 * `untouched` nothing done yet · `now` begun and not closed (several may stand so: the order may be left and returned
 * to) · `done` closed · `stale` closed or begun, and then something it depends on was moved; `staleBecause` says what.
 */
export const stationStatusSchema = z.enum(['untouched', 'now', 'done', 'stale']);
export type StationStatus = z.infer<typeof stationStatusSchema>;

/** One step of the hands: what is taken back together shares it. */
const step = z.string().regex(/^[A-Za-z0-9_:.-]{1,64}$/, { error: 'a step is 1 to 64 letters, digits, - _ : or .' });

/** What a move made elsewhere means for a station, with its size where this arm is known well enough. */
export const markSchema = z.object({
  move: moveNameSchema,
  /** where it was made */
  station: stationNameSchema,
  at: time,
  step: step.optional(),
  /** how the station stood before its first mark */
  was: z.enum(['now', 'done']),
  /** true: look at it again. False: the change is under the tolerance, and it is only noted. */
  counts: z.boolean(),
  /** full sentence */
  because: z.string(),
  /** how much changes here, signed, beside the most that needs no second look, in `unit` */
  effect: z.object({ quantity: z.string(), size: z.number(), most: z.number(), unit: z.string() }).optional(),
});
export type Mark = z.infer<typeof markSchema>;

export const stationStateSchema = z.object({
  status: stationStatusSchema,
  /** full sentences, one a reason, oldest first; only with `stale` */
  staleBecause: z.array(z.string()).optional(),
  /** what moves elsewhere did since it was last closed, oldest first: what `staleBecause` rests on, and what is only noted */
  marks: z.array(markSchema).optional(),
  data: stationDataSchema,
  /** goes up by one with every change; the larger one is the newer */
  revision,
  updatedAt: time,
});
export type StationState = z.infer<typeof stationStateSchema>;

export const deckSchema = z.object({ id: z.string(), name: z.string(), description: z.string() });
export type Deck = z.infer<typeof deckSchema>;

/** Set aside: it counts for nothing, and why. Null: it counts. */
const setAsideSchema = z.object({ at: time, why: z.string() }).nullable();
export type SetAside = z.infer<typeof setAsideSchema>;

/** A capture as the job lists it: everything but its bands, curves and problems. */
export const captureEntrySchema = z.object({
  id,
  /** when the record was played, as the page or the file says */
  heardAt: time,
  storedAt: time,
  /** station it was taken at */
  station: stationNameSchema,
  file: z.string(),
  sampleRateHz: z.number(),
  bitDepth: z.number(),
  durationS: z.number(),
  sha256: fingerprintSchema.nullable(),
  /** version of the methods that made the figures */
  method: z.string(),
  findings: z.array(findingSchema),
  /** the record file it was measured with; absent: none */
  record: z.object({ name: z.string(), key: z.string() }).optional(),
  /** played by the practice deck */
  practice: z.boolean(),
  /** what a person said that it is; null: by where and when it was made (`recordings.ts`) */
  saidKind: z.enum(recordingKinds).nullable(),
  /** the epoch that a person said; null: by when it was made */
  saidEpoch: id.nullable(),
  /** its figures stand nowhere, and why */
  setAside: setAsideSchema,
  /** why it can never stand as "after"; null where it can */
  unfit: z.enum(unfitReasons).nullable(),
});
export type CaptureEntry = z.infer<typeof captureEntrySchema>;

export const captureRecordSchema = captureEntrySchema
  .omit({
    findings: true,
    method: true,
    record: true,
    file: true,
    sampleRateHz: true,
    bitDepth: true,
    durationS: true,
    unfit: true,
  })
  .extend({ document: sideDocumentSchema });
export type CaptureRecord = z.infer<typeof captureRecordSchema>;

/** One prediction of an advice beside what was measured after it. */
export const predictionCheckSchema = z.object({
  quantity: z.string(),
  unit: z.string(),
  /** the figure when the advice was given; null where there was none */
  before: z.number().nullable(),
  predicted: z.number(),
  /** null when the later capture does not hold the figure; `why` says so */
  measured: z.number().nullable(),
  /** of measured minus predicted, k = 2, in `unit`; null where it cannot be given */
  uncertainty: z.number().min(0).nullable(),
  /** `cannot-tell` when it was not measured or has no uncertainty */
  came: z.enum(['as-predicted', 'otherwise', 'cannot-tell']),
  why: z.string(),
});
export type PredictionCheck = z.infer<typeof predictionCheckSchema>;

export const outcomeSchema = z.object({
  /** `open` nobody has said yet */
  did: z.enum(['open', 'done', 'not-done']),
  note: z.string(),
  at: time.nullable(),
});
export type Outcome = z.infer<typeof outcomeSchema>;

export const adviceEntrySchema = z.object({
  id,
  captureId: id,
  givenAt: time,
  advice: adviceSchema,
  outcome: outcomeSchema,
  /** first capture heard after the advice; null until there is one, or when the move was not made */
  checkedBy: id.nullable(),
  checks: z.array(predictionCheckSchema),
});
export type AdviceEntry = z.infer<typeof adviceEntrySchema>;

/** Before and after of one figure: as received, against the newest of what is fitted now. */
export const beforeAfterSchema = z.object({
  quantity: z.string(),
  channel: z.enum(['left', 'right']).optional(),
  unit: z.string(),
  before: findingSchema,
  after: findingSchema,
  beforeCapture: id,
  afterCapture: id,
  /** after minus before in `unit`; null for figures in words */
  change: z.number().nullable(),
  /** of `change`, k = 2; null where it cannot be given */
  changeUncertainty: z.number().min(0).nullable(),
});
export type BeforeAfter = z.infer<typeof beforeAfterSchema>;

/** A figure of after that was not measured before. */
export const notBeforeSchema = z.object({ after: findingSchema, afterCapture: id });

const stations = z.object(
  Object.fromEntries(stationNames.map((name) => [name, stationStateSchema])) as Record<
    StationName,
    typeof stationStateSchema
  >,
);

/** What the job itself says, apart from its stations. */
export const jobHeadSchema = z.object({
  title: z.string(),
  deck: deckSchema,
  customer: z.string(),
  notes: z.string(),
  /** id of the record file in the library that this job is played with; '' none */
  recordFile: z.string(),
  updatedAt: time,
  /** of title, deck, customer, notes and record file */
  revision,
});
export type JobHead = z.infer<typeof jobHeadSchema>;

export const jobSchema = jobHeadSchema.extend({
  id,
  /** counts up; what people say: "job 41" */
  number: z.number(),
  createdAt: time,
  stations,
  /** oldest first by `heardAt` */
  captures: z.array(captureEntrySchema),
  /** everything in it is invented: practice sides count */
  practice: z.boolean(),
  setAside: setAsideSchema,
  /** what was exchanged, oldest first */
  fittings: z.array(fittingSchema),
  /** oldest first */
  advice: z.array(adviceEntrySchema),
  beforeAfter: z.array(beforeAfterSchema),
  notBefore: z.array(notBeforeSchema),
  /** without their pixels, in the order taken */
  photographs: z.array(photographSchema),
  /** what the shop has set for all its jobs */
  shop: shopSchema,
});
export type Job = z.infer<typeof jobSchema>;

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
export const unreadableJobSchema = z.object({ id: z.string(), number: z.number().nullable(), why: z.string() });

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
  before: z.coerce.number().int().min(1).optional(),
  limit: z.coerce.number().int().min(1).max(500).optional(),
  aside: z.literal('left-out').optional(),
});

export type JobsQuery = z.infer<typeof jobsQuerySchema>;

/** What went with a job that was deleted. */
export const jobDeletedSchema = z.object({ number: z.number(), recordings: z.number(), deckKept: z.boolean() });
export type JobDeleted = z.infer<typeof jobDeletedSchema>;
export type JobList = z.infer<typeof jobListSchema>;

export const deckListSchema = z.object({ decks: z.array(deckSchema.extend({ jobs: z.array(id) })) });
export type DeckList = z.infer<typeof deckListSchema>;

export const newJobSchema = z.strictObject({
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
  customer: z.string().max(200),
  notes: paragraph,
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
  /** where it was made; that station itself does not become stale */
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
export const moveMadeSchema = z.object({
  stations: z.partialRecord(stationNameSchema, stationStateSchema.omit({ data: true })),
  updatedAt: time,
});
export type MoveMade = z.infer<typeof moveMadeSchema>;

export const newCaptureSchema = z.strictObject({
  document: sideDocumentSchema,
  /** left out: now */
  heardAt: time.optional(),
  station: stationNameSchema.default('tilt'),
  /** played by the practice deck */
  practice: z.boolean().default(false),
});
export type NewCapture = z.input<typeof newCaptureSchema>;

export const captureAddedSchema = z.object({
  capture: captureEntrySchema,
  /** given by it, or checked by it */
  advice: z.array(adviceEntrySchema),
  /** of the whole job */
  beforeAfter: z.array(beforeAfterSchema),
  notBefore: z.array(notBeforeSchema),
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
  /** all of the job: another epoch is compared */
  advice: z.array(adviceEntrySchema),
  beforeAfter: z.array(beforeAfterSchema),
  notBefore: z.array(notBeforeSchema),
});
export type Fitted = z.infer<typeof fittedSchema>;

/** What the shop's own jobs teach of a record; null where they are too few, with the decks that it was played on so far. */
export const learnedSchema = z.object({ learned: learnedRecordSchema.nullable(), decks: z.number().int().min(0) });
export type Learned = z.infer<typeof learnedSchema>;

export const outcomeChangeSchema = z.strictObject({
  did: z.enum(['open', 'done', 'not-done']),
  note: z.string().max(2000).default(''),
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

export const errorCodes = [
  'bad-request',
  'forbidden',
  'no-key',
  'not-found',
  'conflict',
  'too-large',
  'not-json',
  'store',
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

/** The paths, so that neither side writes them by hand. Ids are checked above and need no escaping. */
export const apiPaths = {
  health: '/api/health',
  enter: '/api/enter',
  last: '/api/last',
  jobs: '/api/jobs',
  decks: '/api/decks',
  history: (deck: string) => `/api/decks/${deck}/history`,
  styli: '/api/styli',
  due: '/api/due',
  parts: '/api/parts',
  shop: '/api/shop',
  learned: (key: string) => `/api/learned/${key}`,
  job: (job: string) => `/api/jobs/${job}`,
  station: (job: string, station: StationName) => `/api/jobs/${job}/stations/${station}`,
  jobAside: (job: string) => `/api/jobs/${job}/set-aside`,
  moves: (job: string) => `/api/jobs/${job}/moves`,
  undoMove: (job: string) => `/api/jobs/${job}/moves/undo`,
  photographs: (job: string) => `/api/jobs/${job}/photographs`,
  photograph: (job: string, photograph: string) => `/api/jobs/${job}/photographs/${photograph}`,
  captures: (job: string) => `/api/jobs/${job}/captures`,
  capture: (job: string, capture: string) => `/api/jobs/${job}/captures/${capture}`,
  fittings: (job: string) => `/api/jobs/${job}/fittings`,
  fitting: (job: string, fitting: string) => `/api/jobs/${job}/fittings/${fitting}`,
  outcome: (job: string, advice: string) => `/api/jobs/${job}/advice/${advice}/outcome`,
  report: (job: string, audience: Audience) => `/api/jobs/${job}/report?for=${audience}`,
  letterhead: '/api/letterhead',
  bundle: (job: string, owner: boolean) => `/api/jobs/${job}/bundle${owner ? '' : '?owner=left-out'}`,
  import: '/api/import',
  part: (kind: string, part: string) => `/api/parts/${kind}/${part}`,
} as const;
