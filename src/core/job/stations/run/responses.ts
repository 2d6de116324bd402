/** Responses as CSV that a job keeps: the preamp's as measured, and the calibration of the record that played. */
import { z } from 'zod';
import type { PreampResponse } from '../../../measure/chainLevel.ts';
import { parseResponse } from '../../../measure/responseCsv.ts';
import type { ReportLine } from '../../reportLines.ts';
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
export function responseFault(csv: string, file: string): string | null {
  if (csv.length > LONGEST_CSV)
    return `${file}: it is too large for a response; ${LONGEST_CSV / 1e6} MB at most were expected.`;
  const parsed = parseResponse(csv, file);
  return parsed.ok ? null : parsed.why;
}

/** What a reading takes off. @param key of the record that plays; null: none chosen */
export function responsesUsed(
  { preamp, record }: KeptResponses,
  key: string | null,
): { readonly preamp: PreampResponse | null; readonly recordResponse: PreampResponse | null } {
  const of = (one: KeptResponses['preamp']): PreampResponse | null => {
    const parsed = one === undefined ? null : parseResponse(one.csv, one.file);
    return parsed?.ok === true ? parsed.response : null;
  };
  return { preamp: of(preamp), recordResponse: record?.key === key ? of(record) : null };
}

export const responseLines = ({ preamp, record }: KeptResponses): readonly ReportLine[] => [
  ...(preamp === undefined ? [] : [{ label: responseFields.preamp.label, text: preamp.file }]),
  ...(record === undefined ? [] : [{ label: responseFields.record.label, text: `${record.file}, of ${record.name}` }]),
];
