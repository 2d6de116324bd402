/** Chains as they travel: what plays, its readings, its charts, what left its limits, and reference recordings. */
import { z } from 'zod';
import { id, line, time } from '../api/primitives.ts';
import { leafChangesSchema } from '../leafPaths.ts';

export const chainPartNames = ['deck', 'cartridge', 'preamp', 'converter', 'bench'] as const;
export type ChainPartName = (typeof chainPartNames)[number];

const partSchema = line.optional();
const chainPartsSchema = z.strictObject({
  deck: partSchema,
  cartridge: partSchema,
  preamp: partSchema,
  converter: partSchema,
  bench: partSchema,
} satisfies Record<ChainPartName, typeof partSchema>);
export type ChainParts = z.infer<typeof chainPartsSchema>;

/** As batches name it: one line. */
const chainNameSchema = line.min(1, { error: 'a name was expected' });

const daySchema = z.iso.date({ error: 'a day is written as 2027-03-01' });

/** A change of the chain: what it is made of from then on. */
export const chainChangeSchema = z.strictObject({
  /** given by who asks: sent again, it is one change */
  id: id.optional(),
  name: chainNameSchema,
  /** those left out stay as they were */
  parts: chainPartsSchema,
  /** ISO time; left out: now */
  since: time.optional(),
  why: line.default(''),
});
export type ChainChange = z.input<typeof chainChangeSchema>;

const partsTold = z.record(z.string(), z.string());

/** A job's recordings are readings of a chain: its id or name; null: of none any more. */
export const jobChainSchema = z.strictObject({ chain: chainNameSchema.nullable() });
export type JobChain = z.infer<typeof jobChainSchema>;

const stateSchema = z.object({ since: z.string(), parts: partsTold, why: z.string() });

const chainSummarySchema = z.object({
  id: z.string(),
  name: z.string(),
  parts: partsTold,
  /** when its newest recording was made, whether measured or not; null: none */
  newest: z.string().nullable(),
});
export type ChainSummary = z.infer<typeof chainSummarySchema>;

export const chainListSchema = z.object({
  chains: z.array(chainSummarySchema),
  /** the name to ask for those after; left out where there are none */
  next: z.string().optional(),
});
export type ChainList = z.infer<typeof chainListSchema>;

export const chainSchema = chainSummarySchema.extend({
  /** newest first */
  states: z.array(stateSchema),
  /** numbers of the jobs whose recordings are readings of it */
  jobs: z.array(z.number()),
});
export type Chain = z.infer<typeof chainSchema>;

const recordSchema = z.object({ key: z.string(), name: z.string() }).nullable();
export type ChainRecord = z.infer<typeof recordSchema>;

const readFigureSchema = z.object({
  quantity: z.string(),
  channel: z.enum(['left', 'right']).optional(),
  unit: z.string(),
  value: z.number(),
  /** k = 2, in its unit */
  uncertainty: z.number().nullable(),
});
export type ReadFigure = z.infer<typeof readFigureSchema>;

const chainReadingSchema = z.object({
  id: z.string(),
  /** when it was recorded, ISO */
  at: z.string(),
  /** when its figures became known, ISO */
  knownAt: z.string(),
  /** where it lies: a batch's path below its root, or a job's recording */
  source: z.union([z.object({ root: z.string(), path: z.string() }), z.object({ job: z.number(), file: z.string() })]),
  fingerprint: z.string().nullable(),
  method: z.string(),
  record: recordSchema,
  /** name of the reference recording that it is; null: none */
  reference: z.string().nullable(),
  /** last day of the certificate of its record file; null: none is known */
  certificateUntil: z.string().nullable(),
  figures: z.array(readFigureSchema),
});
export type ChainReading = z.infer<typeof chainReadingSchema>;

const chainHistorySchema = z.object({
  chain: z.object({ id: z.string(), name: z.string() }),
  /** newest first */
  readings: z.array(chainReadingSchema),
  /** to ask for older ones */
  next: z.string().optional(),
});
export type ChainHistory = z.infer<typeof chainHistorySchema>;

const limitsSchema = z.object({
  centre: z.number(),
  low: z.number(),
  high: z.number(),
  meanRange: z.number(),
  rangeLimit: z.number(),
});

const pointSchema = z.object({
  reading: z.string(),
  at: z.string(),
  value: z.number(),
  uncertainty: z.number().nullable(),
  signal: z.enum(['beyond', 'jump', 'run']).nullable(),
});

const figureSchema = z.object({
  quantity: z.string(),
  channel: z.enum(['left', 'right']).optional(),
  unit: z.string(),
  /** oldest first */
  points: z.array(pointSchema),
  /** place of the first point after readings that are not drawn; null: all are */
  gap: z.number().nullable(),
  limits: limitsSchema.nullable(),
  /** readings behind the limits */
  behind: z.number(),
  /** how it stands, in a sentence */
  says: z.string(),
});
export type ChainFigure = z.infer<typeof figureSchema>;

const alarmSchema = z.object({
  chain: z.object({ id: z.string(), name: z.string() }),
  quantity: z.string(),
  channel: z.enum(['left', 'right']).optional(),
  unit: z.string(),
  /** `beyond` the limits, a `jump` between two readings, a `run` of eight on one side */
  kind: z.enum(['beyond', 'jump', 'run']),
  at: z.string(),
  knownAt: z.string(),
  value: z.number(),
  uncertainty: z.number().nullable(),
  low: z.number(),
  high: z.number(),
  /** how far outside, in its unit; 0 for a jump or a run */
  by: z.number(),
  /** readings behind the limits */
  behind: z.number(),
  method: z.string(),
  record: recordSchema,
  /** the certificate of the record file had run out */
  expired: z.boolean(),
  source: chainReadingSchema.shape.source,
  sentence: z.string(),
});
export type Alarm = z.infer<typeof alarmSchema>;

export const chainChartsSchema = z.object({
  chain: chainSchema,
  record: recordSchema,
  method: z.string().nullable(),
  /** record files of its newest readings, that of the newest first: each has charts of its own */
  records: z.array(z.object({ key: z.string(), name: z.string() })),
  figures: z.array(figureSchema),
  /** what has to be known of all of them, in sentences */
  says: z.array(z.string()),
  /** newest first */
  alarms: z.array(alarmSchema),
});
export type ChainCharts = z.infer<typeof chainChartsSchema>;

export const alarmListSchema = z.object({
  /** what became known from then on, ISO */
  since: z.string(),
  /** the last known first */
  alarms: z.array(alarmSchema),
  says: z.array(z.string()),
});
export type AlarmList = z.infer<typeof alarmListSchema>;

export const newReferenceSchema = z.strictObject({
  fingerprint: z.string().regex(/^[0-9a-f]{64}$/, { error: 'a fingerprint is 64 digits or letters a to f' }),
  name: line.min(1, { error: 'a name was expected' }),
  record: z.strictObject({ key: z.string().regex(/^[0-9a-f]{16}$/), name: z.string().max(400) }),
  /** number or words of the certificate */
  certificate: line.default(''),
  /** the last day on which it holds */
  expires: daySchema,
});
export type NewReference = z.infer<typeof newReferenceSchema>;

/** By leaf path, of everything but the fingerprint, which is its address; a whole one makes a new reference recording. */
export const referenceChangeSchema = z.strictObject({ changes: leafChangesSchema });
export type ReferenceChange = z.infer<typeof referenceChangeSchema>;

export const referenceListSchema = z.object({
  references: z.array(newReferenceSchema.extend({ addedAt: z.string(), state: z.enum(['holds', 'soon', 'expired']) })),
});
export type ReferenceList = z.infer<typeof referenceListSchema>;

/** Left out in a query: the record file of the newest reading. */
export const NO_RECORD = 'none';
