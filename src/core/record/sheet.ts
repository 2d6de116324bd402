/**
 * The record sheet (`*.record.json`, docs/contract.md): what is cut on a test record, written by its owner.
 *
 * Keys that the sheet's schema does not know are passed over and named in a note: a sheet of a later schema number, or
 * with its owner's own remarks, stays readable, and a mistyped optional key is still noticed.
 *
 * @checked sheet.test.ts
 */

import { z } from 'zod';
import { shortJson } from '../units/shortJson.ts';
import { type Statement, statement } from '../words/statement.ts';
import type { BandMotion, BandSignal } from './band.ts';

export interface SheetBand {
  readonly signal: Exclude<BandSignal, 'unknown'>;
  /** `none` for a silent groove; `unknown` where a noise band's sheet does not say */
  readonly motion: BandMotion;
  /** tone */
  readonly frequencyHz?: number;
  /** two-tone */
  readonly frequenciesHz?: readonly [number, number];
  /** two-tone: amplitude of the lower over the upper */
  readonly ratio?: number;
  /** sweep */
  readonly fromHz?: number;
  readonly toHz?: number;
  readonly law?: 'log' | 'linear';
  readonly cut?: 'riaa' | 'constant-velocity';
  /** peak along the axis of motion, cm/s */
  readonly peakVelocityCmS?: number;
  /** dB, from the record's certificate: what is cut minus what is stated */
  readonly levelCorrectionDb?: number;
  /** mm */
  readonly radiusMm?: number;
  readonly durationS?: number;
}

export interface SheetCut {
  readonly verticalAngleDeg?: number;
  readonly tiltDeg?: number;
  readonly tiltUncertaintyDeg?: number;
  readonly separationDb?: number;
  readonly speedUncertaintyPercent?: number;
  /** deg, clockwise seen from above positive, as a playback stylus of the same twist would read it */
  readonly zenithDeg?: number;
  readonly zenithUncertaintyDeg?: number;
  /** how `verticalAngleDeg` was found: from the groove (after the lacquer's spring-back), or at the cutter */
  readonly verticalAngleKind?: 'effective' | 'mechanical';
  /** dB, k = 2, of each band's level */
  readonly levelUncertaintyDb?: number;
  /** dB, size of the cut's own leak each way against the driven wall, tilt included: −40 */
  readonly leakDb?: number;
  /** mm, k = 2, of each band's radius */
  readonly radiusUncertaintyMm?: number;
  /** mm, zero to peak, once per turn: the record lies no further from flat than this */
  readonly warpMm?: number;
}

export interface RecordSheet {
  readonly schema: 1;
  readonly name: string;
  readonly rpm: number;
  /** cm/s peak */
  readonly referenceVelocityCmS?: number;
  /** from the record's own certificate */
  readonly cut?: SheetCut;
  readonly bands: readonly SheetBand[];
}

export type ParsedSheet =
  | { readonly ok: true; readonly sheet: RecordSheet; readonly notes: readonly string[] }
  | { readonly ok: false; readonly why: Statement };

/** What each figure of a record file may be: the one table for the file's reader and for the form. */
export const recordBounds = {
  rpm: { unit: 'rpm', min: 10, max: 100 },
  referenceVelocityCmS: { unit: 'cm/s', min: 0.1, max: 50 },
  frequencyHz: { unit: 'Hz', min: 2, max: 90_000 },
  ratio: { unit: '', min: 0.001, max: 1000 },
  peakVelocityCmS: { unit: 'cm/s', min: 0.001, max: 200 },
  levelCorrectionDb: { unit: 'dB', min: -20, max: 20 },
  radiusMm: { unit: 'mm', min: 20, max: 200 },
  durationS: { unit: 's', min: 0.05, max: 3600 },
  verticalAngleDeg: { unit: 'deg', min: -45, max: 60 },
  tiltDeg: { unit: 'deg', min: -20, max: 20 },
  tiltUncertaintyDeg: { unit: 'deg', min: 0, max: 20 },
  separationDb: { unit: 'dB', min: 0, max: 120 },
  speedUncertaintyPercent: { unit: '%', min: 0, max: 10 },
  zenithDeg: { unit: 'deg', min: -20, max: 20 },
  zenithUncertaintyDeg: { unit: 'deg', min: 0, max: 20 },
  levelUncertaintyDb: { unit: 'dB', min: 0, max: 20 },
  leakDb: { unit: 'dB', min: -120, max: 0 },
  radiusUncertaintyMm: { unit: 'mm', min: 0, max: 20 },
  warpMm: { unit: 'mm', min: 0, max: 5 },
} as const satisfies Readonly<Record<string, { unit: string; min: number; max: number }>>;

export const recordMotions = ['left', 'right', 'lateral', 'vertical'] as const;
export const sweepLaws = ['log', 'linear'] as const;
export const sweepCuts = ['riaa', 'constant-velocity'] as const;
export const verticalAngleKinds = ['effective', 'mechanical'] as const;
export const MOST_BANDS = 1000;

const number = (name: keyof typeof recordBounds) => {
  const { min, max } = recordBounds[name];
  const error = `a number from ${min} to ${max}`;
  return z.number({ error }).min(min, { error }).max(max, { error });
};
const choice = <const T extends readonly [string, ...string[]]>(values: T) =>
  z.enum(values, { error: `one of ${values.map((v) => `"${v}"`).join(', ')}` });

const motion = choice(recordMotions);
const frequency = number('frequencyHz');
const common = {
  peakVelocityCmS: number('peakVelocityCmS').optional(),
  levelCorrectionDb: number('levelCorrectionDb').optional(),
  radiusMm: number('radiusMm').optional(),
  durationS: number('durationS').optional(),
};
const bandSchema = z.discriminatedUnion(
  'signal',
  [
    z.looseObject({ signal: z.literal('tone'), motion, frequencyHz: frequency, ...common }),
    z.looseObject({
      signal: z.literal('two-tone'),
      motion,
      frequenciesHz: z.tuple([frequency, frequency], { error: 'two frequencies in Hz in [ ]' }),
      ratio: number('ratio').optional(),
      ...common,
    }),
    z
      .looseObject({
        signal: z.literal('sweep'),
        motion,
        fromHz: frequency,
        toHz: frequency,
        law: choice(sweepLaws).optional(),
        cut: choice(sweepCuts).optional(),
        ...common,
      })
      .refine((band) => band.fromHz !== band.toHz, { path: ['toHz'], error: 'another frequency than fromHz' }),
    z.looseObject({ signal: z.literal('noise'), motion: motion.optional(), ...common }),
    z.looseObject({
      signal: z.literal('silent-groove'),
      motion: z.literal('none', { error: '"none", or no motion' }).optional(),
      ...common,
    }),
  ],
  { error: 'a band, { } with "signal" one of "tone", "two-tone", "sweep", "noise", "silent-groove"' },
);
const sheetSchema = z.looseObject(
  {
    schema: z.literal(1, { error: '1, the number of the schema that this version reads' }),
    name: z.string({ error: 'a text' }).optional(),
    rpm: number('rpm'),
    referenceVelocityCmS: number('referenceVelocityCmS').optional(),
    cut: z
      .looseObject(
        {
          verticalAngleDeg: number('verticalAngleDeg').optional(),
          tiltDeg: number('tiltDeg').optional(),
          tiltUncertaintyDeg: number('tiltUncertaintyDeg').optional(),
          separationDb: number('separationDb').optional(),
          speedUncertaintyPercent: number('speedUncertaintyPercent').optional(),
          zenithDeg: number('zenithDeg').optional(),
          zenithUncertaintyDeg: number('zenithUncertaintyDeg').optional(),
          verticalAngleKind: choice(verticalAngleKinds).optional(),
          levelUncertaintyDb: number('levelUncertaintyDb').optional(),
          leakDb: number('leakDb').optional(),
          radiusUncertaintyMm: number('radiusUncertaintyMm').optional(),
          warpMm: number('warpMm').optional(),
        },
        { error: 'an object { }' },
      )
      .optional(),
    bands: z
      .array(bandSchema, { error: 'a list of bands in [ ]' })
      .min(1, { error: 'at least one band in [ ]' })
      .max(MOST_BANDS, { error: `at most ${MOST_BANDS} bands` }),
  },
  { error: 'an object { } with schema, name, rpm and bands' },
);

const keysOf = (schema: { readonly shape: object }): ReadonlySet<string> => new Set(Object.keys(schema.shape));
const SHEET_KEYS = keysOf(sheetSchema);
const CUT_KEYS = keysOf(sheetSchema.shape.cut.unwrap());
const BAND_KEYS: ReadonlyMap<unknown, ReadonlySet<string>> = new Map(
  bandSchema.options.map((option) => [[...option.shape.signal.values][0], keysOf(option)]),
);

/**
 * Reads a sheet.
 *
 * @param json the file's text
 * @param fileName for the sentence, and the record's name where the sheet gives none
 * @returns the sheet, with notes on keys that were passed over; or one sentence naming the file, the place in it, what
 *   was found and what was expected
 */
export function parseSheet(json: string, fileName: string): ParsedSheet {
  let given: unknown;
  try {
    given = JSON.parse(json.replace(/^\uFEFF/, ''));
  } catch (error) {
    return { ok: false, why: statement('record-file-not-json', { file: fileName, found: syntax(json, error) }) };
  }
  const read = sheetSchema.safeParse(given);
  if (!read.success) {
    const issue = read.error.issues[0];
    const found = foundAt(given, issue.path);
    const place = placeOf(issue.path);
    return { ok: false, why: statement('record-file-odd', { file: fileName, place, found, expected: issue.message }) };
  }
  const { name, ...rest } = read.data;
  const bands = read.data.bands.map(
    (band): SheetBand => ({
      ...known(band, BAND_KEYS.get(band.signal) ?? new Set()),
      signal: band.signal,
      motion: band.motion ?? (band.signal === 'silent-groove' ? 'none' : 'unknown'),
    }),
  );
  const sheet: RecordSheet = {
    ...known(rest, SHEET_KEYS),
    schema: 1,
    name: name ?? fileName.replace(/\.record\.json$|\.json$/, ''),
    rpm: rest.rpm,
    ...(rest.cut === undefined ? {} : { cut: known(rest.cut, CUT_KEYS) }),
    bands,
  };
  const unknown = unknownKeys(read.data);
  const notes =
    unknown.length === 0
      ? []
      : [`${fileName}: passed over ${unknown.join(', ')}: not known to schema 1 of the record file.`];
  return { ok: true, sheet, notes };
}

function known(value: object, keys: ReadonlySet<string>): object {
  return Object.fromEntries(Object.entries(value).filter(([key, v]) => keys.has(key) && v !== undefined));
}

function unknownKeys(sheet: z.infer<typeof sheetSchema>): string[] {
  const extra = (value: object, keys: ReadonlySet<string>, at: string): string[] =>
    Object.keys(value)
      .filter((key) => !keys.has(key))
      .map((key) => `${at}${key}`);
  return [
    ...extra(sheet, SHEET_KEYS, ''),
    ...(sheet.cut === undefined ? [] : extra(sheet.cut, CUT_KEYS, 'cut.')),
    ...sheet.bands.flatMap((band, i) => extra(band, BAND_KEYS.get(band.signal) ?? new Set(), `bands[${i}].`)),
  ];
}

/** `bands[2].frequencyHz`, or "the whole" for the document itself. */
function placeOf(path: readonly PropertyKey[]): string {
  const text = path.map((part) => (typeof part === 'number' ? `[${part}]` : `.${String(part)}`)).join('');
  return text === '' ? 'the whole' : text.replace(/^\./, '');
}

function foundAt(given: unknown, path: readonly PropertyKey[]): string {
  let value = given;
  for (const part of path) {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, part)) return 'missing';
    value = (value as Record<PropertyKey, unknown>)[part];
  }
  return shortJson(value) ?? 'missing';
}

/** What breaks the JSON, in the engine's words, with line and column where it tells the position. */
function syntax(json: string, error: unknown): string {
  if (json.trim() === '') return 'it is empty';
  const message = error instanceof Error ? error.message : '';
  const position = /position (\d+)/.exec(message)?.[1];
  const what = message.split(/,? (?:\.\.\.)?"| in JSON| is not valid/)[0] || 'it does not parse';
  if (position === undefined) return what;
  const before = json.slice(0, Number(position)).split('\n');
  return `${what}, line ${before.length}, column ${before[before.length - 1].length + 1}`;
}
