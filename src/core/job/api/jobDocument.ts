/** A job as the server tells it: head, stations with their marks, recordings, advice, before and after. */
import { z } from 'zod';
import { fittingSchema } from '../epochs.ts';
import { moveNames } from '../moves.ts';
import { photographSchema } from '../photographs.ts';
import { recordingKinds, unfitReasons } from '../recordings.ts';
import { shopSchema } from '../shop.ts';
import { adviceSchema, findingSchema, fingerprintSchema, sideDocumentSchema } from '../sideSchema.ts';
import { type StationName, stationNames } from '../station.ts';
import { id, revision, step, time } from './primitives.ts';

/** What a station keeps; which keys, and what may stand under them, says its model in `stations/`. */
const stationDataSchema = z.record(z.string(), z.json());
export type StationData = z.infer<typeof stationDataSchema>;

export const stationNameSchema = z.enum(stationNames);
export const moveNameSchema = z.enum(moveNames);

/**
 * `untouched` nothing done yet · `now` begun and not closed (several may stand so: the order may be left and returned
 * to) · `done` closed · `stale` closed or begun, and then something it depends on was moved; `staleBecause` says what.
 */
export const stationStatusSchema = z.enum(['untouched', 'now', 'done', 'stale']);
export type StationStatus = z.infer<typeof stationStatusSchema>;

/** What a move made elsewhere means for a station, with its size where this arm is known well enough. */
const markSchema = z.object({
  move: moveNameSchema,
  /** where it was made */
  station: stationNameSchema,
  at: time,
  step: step.optional(),
  /** how the station stood before its first mark */
  was: z.enum(['now', 'done']),
  /** true: look at it again. False: the change is under the tolerance, and it is only noted. */
  counts: z.boolean(),
  /** what the person said of the move: "1.2 mm forward" */
  note: z.string().optional(),
  /** full sentence, made of the other keys when it is read */
  because: z.string(),
  /** how much changes here, signed, beside the most that needs no second look, in `unit`; `sum` with what was noted before */
  effect: z
    .object({ quantity: z.string(), size: z.number(), most: z.number(), unit: z.string(), sum: z.number().optional() })
    .optional(),
});
export type Mark = z.infer<typeof markSchema>;

export const stationStateSchema = z.object({
  status: stationStatusSchema,
  /** full sentences, one a reason, oldest first; only with `stale` */
  staleBecause: z.array(z.string()).optional(),
  /** what moves elsewhere did since it was last closed, oldest first: what `staleBecause` rests on, and what is only noted */
  marks: z.array(markSchema).optional(),
  /** files of the recordings that were read after it was closed; they make it stale as well */
  readSince: z.array(z.string()).optional(),
  data: stationDataSchema,
  /** goes up by one with every change; the larger one is the newer */
  revision,
  updatedAt: time,
});
export type StationState = z.infer<typeof stationStateSchema>;

export const deckSchema = z.object({ id: z.string(), name: z.string(), description: z.string() });
export type Deck = z.infer<typeof deckSchema>;

/** Set aside: it counts for nothing, and why. Null: it counts. */
export const setAsideSchema = z.object({ at: time, why: z.string() }).nullable();
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
  /** of each band, what tells it from the others: figures of two recordings are held against each other by it */
  bandMarks: z.array(z.string()),
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
    bandMarks: true,
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
const predictionCheckSchema = z.object({
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

const outcomeSchema = z.object({
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
const beforeAfterSchema = z.object({
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
const notBeforeSchema = z.object({ after: findingSchema, afterCapture: id });

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
