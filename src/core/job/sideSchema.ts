/**
 * Checks a side document that came from outside (a request, an import file). Keys that this version does not know are
 * kept, so that a document written by a later one survives a round trip.
 */
import { z } from 'zod';
import type { Advice, JudgedFinding, SideDocument } from '../advise/document.ts';

const channel = z.enum(['left', 'right']).optional();
const text = (most: number) => z.string().max(most);
const index = z.number().int().min(0);

const problem = z.looseObject({
  code: text(80),
  severity: z.enum(['error', 'warning', 'note']),
  message: text(2000),
  startS: z.number().optional(),
  endS: z.number().optional(),
  quantity: text(80).optional(),
});

const band = z.looseObject({
  index,
  startS: z.number(),
  endS: z.number(),
  signal: z.enum(['tone', 'two-tone', 'sweep', 'noise', 'silent-groove', 'unknown']),
  motion: z.enum(['left', 'right', 'lateral', 'vertical', 'none', 'unknown']),
  frequencyHz: z.number().nullable(),
  frequenciesHz: z.tuple([z.number(), z.number()]).optional(),
  fromHz: z.number().optional(),
  toHz: z.number().optional(),
  radiusMm: z.number().nullable(),
  sheetBand: index.nullable(),
});

const finding = z.looseObject({
  quantity: text(80).min(1),
  value: z.union([z.number(), text(80)]),
  unit: text(20),
  uncertainty: z.number().min(0).nullable(),
  repeatability: z.number().min(0).nullable().optional(),
  budget: z
    .array(z.looseObject({ source: text(200), size: z.number(), unit: text(20), share: z.number() }))
    .max(50)
    .optional(),
  bands: z.array(index).max(2000),
  note: text(4000),
  channel,
  low: z.number().optional(),
  high: z.number().nullable().optional(),
  repeats: z
    .looseObject({ count: z.number().int().min(2), mean: z.number(), scatter: z.number(), uncertainty: z.number() })
    .optional(),
  verdict: z.enum(['good', 'adjust', 'bad', 'undecided', 'info']),
  decidedBy: text(1000).optional(),
});

const advice = z.looseObject({
  action: text(80).min(1),
  amount: z.number().min(0).nullable(),
  unit: text(20),
  direction: text(80).nullable(),
  predicts: z.array(z.looseObject({ quantity: text(80), value: z.number(), unit: text(20) })).max(100),
  why: text(4000),
  caution: text(4000).optional(),
  uncertainty: z.number().min(0).nullable().optional(),
});

const curve = z
  .looseObject({
    quantity: text(80),
    channel,
    name: text(80).optional(),
    band: index.optional(),
    x: z.array(z.number()).max(200_000),
    y: z.array(z.number()).max(200_000),
    xUnit: text(20),
    yUnit: text(20),
  })
  .refine(({ x, y }) => x.length === y.length, { error: 'x and y must be equally long' });

export const fingerprintSchema = z
  .string()
  .regex(/^[0-9a-f]{64}$/, { error: 'a fingerprint is 64 hexadecimal digits of SHA-256, lower case' });

const document = z.looseObject({
  schema: z.literal(1),
  method: text(40).optional(),
  capture: z.looseObject({
    file: text(400),
    sampleRateHz: z.number().positive(),
    channels: z.number().int().min(1),
    path: z.string().max(4096).optional(),
    bitDepth: z.number().int().min(1),
    durationS: z.number().min(0),
    sha256: fingerprintSchema.nullable(),
    live: z.literal(true).optional(),
  }),
  bands: z.array(band).max(2000),
  findings: z.array(finding).max(5000),
  advice: z.array(advice).max(200),
  problems: z.array(problem).max(5000),
  curves: z.array(curve).max(500),
});

/** What the schemas accept is what `measure` and `advise` make: these lines fail to compile when the two drift apart. */
export const findingSchema: z.ZodType<JudgedFinding, JudgedFinding> = finding;
export const adviceSchema: z.ZodType<Advice, Advice> = advice;
export const sideDocumentSchema: z.ZodType<SideDocument, SideDocument> = document;
