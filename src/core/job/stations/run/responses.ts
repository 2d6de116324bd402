/** Responses as CSV that a job keeps: the preamp's as measured, and the calibration of the record that played. */

import { z } from 'zod';
import type { PreampResponse } from '../../../measure/chainLevel.ts';
import { parseResponse } from '../../../measure/responseCsv.ts';
import { showFrequency } from '../../../words/number.ts';
import { say, stopped } from '../../../words/statement.ts';
import type { ReportLine } from '../../reportLines.ts';
import { pickedOf } from '../match/matchData.ts';
import type { MatchTyped } from '../match.ts';
import type { TypedBy } from '../stationModel.ts';

/** characters; a table of 20 000 rows of figures fits */
const LONGEST_CSV = 1_000_000;

const kept = z.strictObject({ file: z.string().min(1).max(300), csv: z.string().max(LONGEST_CSV) });

export const responsesSchema = z.strictObject({
  preamp: kept.optional(),
  /** of one record: with another in its place it is not used */
  record: z.strictObject({ ...kept.shape, key: z.string().max(64), name: z.string().max(300) }).optional(),
});
export type KeptResponses = TypedBy<typeof responsesSchema>;

export const responseFields = {
  preamp: { label: 'Preamp’s response as measured' },
  record: { label: 'Record’s calibration' },
} as const;

/** @returns a sentence where it cannot be kept */
export function responseFault(csv: string, file: string, longest = LONGEST_CSV): string | null {
  if (csv.length > longest)
    return `${file}: it is too large for a response; ${longest / 1e6} MB at most were expected.`;
  const parsed = parseResponse(csv, file);
  return parsed.ok ? null : stopped(say(parsed.why));
}

/** "31 frequencies, 20 Hz to 20 kHz". @param csv one that `responseFault` has nothing against */
export function responseSpan(csv: string): string {
  const parsed = parseResponse(csv, '');
  if (!parsed.ok) return say(parsed.why);
  const { hz } = parsed.response;
  return `${hz.length} frequencies, ${showFrequency(hz[0])} to ${showFrequency(hz[hz.length - 1])}`;
}

/** The preamp that was picked at Match, where the library keeps its response with it. */
export function preampKept(match: Partial<MatchTyped>): { readonly name: string; readonly csv: string } | null {
  const part = pickedOf(match, 'preamp')?.part;
  return part?.kind === 'preamp' && part.responseCsv !== undefined ? { name: part.name, csv: part.responseCsv } : null;
}

/**
 * What a reading takes off: the preamp's response that this job was given, else the one that is kept with the preamp picked at Match.
 * @param key of the record that plays; null: none chosen
 */
export function responsesUsed(
  { preamp, record }: KeptResponses,
  key: string | null,
  match: Partial<MatchTyped>,
): { readonly preamp: PreampResponse | null; readonly recordResponse: PreampResponse | null } {
  const of = (one: { readonly csv: string } | null | undefined): PreampResponse | null => {
    const parsed = one === undefined || one === null ? null : parseResponse(one.csv, '');
    return parsed?.ok === true ? parsed.response : null;
  };
  return { preamp: of(preamp ?? preampKept(match)), recordResponse: record?.key === key ? of(record) : null };
}

export function responseLines({ preamp, record }: KeptResponses, match: Partial<MatchTyped>): readonly ReportLine[] {
  const ofPart = preampKept(match);
  const used = preamp?.file ?? (ofPart === null ? null : `kept with ${ofPart.name}, ${responseSpan(ofPart.csv)}`);
  return [
    ...(used === null ? [] : [{ label: responseFields.preamp.label, text: used }]),
    ...(record === undefined
      ? []
      : [{ label: responseFields.record.label, text: `${record.file}, of ${record.name}` }]),
  ];
}
