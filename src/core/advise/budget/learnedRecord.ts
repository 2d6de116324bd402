/** What a shop has learned of a record from the decks it was played on (`*.learned.json`). */

import { z } from 'zod';
import { radToDeg, ratioToDb } from '../../units/units.ts';
import { type Statement, say, statement } from '../../words/statement.ts';

/** Fewer decks than this teach nothing that the table of defaults does not say as well. */
export const LEAST_DECKS = 10;

const part = z.number().min(-1).max(1);
const variance = z.number().min(0).max(1);
const complex = z.object({ re: part, im: part });
const figure = z.object({
  mean: z.number().min(-100).max(100),
  /** of the mean, k = 2 */
  uncertainty: z.number().min(0).max(100),
  /** standard deviation between decks */
  spread: z.number().min(0).max(100),
  decks: z.number().int().min(LEAST_DECKS),
});

export const learnedRecordSchema = z.object({
  schema: z.literal(1),
  kind: z.literal('learned-record'),
  /** of the record file it was learned for */
  record: z.object({ name: z.string().max(400), key: z.string().max(80) }),
  decks: z.number().int().min(LEAST_DECKS),
  leaks: z
    .object({
      /** as heard, mean over the decks */
      mean: z.object({ leftIntoRight: complex, rightIntoLeft: complex }),
      /** of the mean: of (Re RL − Re LR)/2, of (Re RL + Re LR)/2, of either imaginary part; Student's t in it */
      variance: z.object({ tilt: variance, common: variance, quadrature: variance }),
      /** standard deviation between decks of the same parts, and how many decks these were; files of earlier versions have neither */
      spread: z.object({ tilt: part, common: part, quadrature: part }).optional(),
      decks: z.number().int().min(LEAST_DECKS).optional(),
    })
    .optional(),
  balanceDb: figure.optional(),
  speedPercent: figure.optional(),
});

export type LearnedRecord = z.infer<typeof learnedRecordSchema>;
export type LearnedFigure = z.infer<typeof figure>;

/** What the leaks are and how far the decks lay apart; null where none were learned, or by a version that kept no spread. */
export function learnedLeaksText({ leaks }: LearnedRecord): string | null {
  if (leaks?.spread === undefined || leaks.decks === undefined) return null;
  const { mean, variance, spread, decks } = leaks;
  const { leftIntoRight: a, rightIntoLeft: b } = mean;
  const dB = ({ re, im }: { readonly re: number; readonly im: number }): number =>
    ratioToDb(Math.max(1e-6, Math.hypot(re, im)));
  const degrees = (t: number): number => radToDeg(Math.atan(t));
  return say(
    statement('learned-leaks', {
      decks,
      degrees: degrees((b.re - a.re) / 2),
      uncertainty: 2 * degrees(Math.sqrt(variance.tilt)),
      left: dB(a),
      right: dB(b),
      spread: degrees(spread.tilt),
    }),
  );
}

/** @returns what was learned, or one sentence that names the file, the place in it and what was expected */
export function parseLearned(
  json: string,
  fileName: string,
): { readonly ok: true; readonly learned: LearnedRecord } | { readonly ok: false; readonly why: Statement } {
  let given: unknown;
  try {
    given = JSON.parse(json.replace(/^\uFEFF/, ''));
  } catch {
    return { ok: false, why: statement('learned-not-json', { file: fileName }) };
  }
  const read = learnedRecordSchema.safeParse(given);
  if (read.success) return { ok: true, learned: read.data };
  const issue = read.error.issues[0];
  const place = issue.path.length === 0 ? 'the whole' : issue.path.join('.');
  return {
    ok: false,
    why: statement('learned-odd', { file: fileName, place, found: issue.message }),
  };
}
