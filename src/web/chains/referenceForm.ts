/** What is typed of a reference recording, and what of it is missing or wrong. */
import type { NewReference } from '../../core/job/chains/chain.ts';
import { newReferenceSchema } from '../../core/job/chains/chain.ts';
import { checkSentence } from '../../core/job/checkSentence.ts';
import { type Statement, statement } from '../../core/words/statement.ts';

export interface ReferenceTyped {
  /** '' until a recording is chosen */
  readonly fingerprint: string;
  readonly name: string;
  /** null until a record file is chosen */
  readonly record: NewReference['record'] | null;
  readonly certificate: string;
  /** 2027-03-01; '' until a day is chosen */
  readonly expires: string;
}

export const nothingTyped: ReferenceTyped = { fingerprint: '', name: '', record: null, certificate: '', expires: '' };

export type ReferenceRead =
  | { readonly reference: NewReference }
  /** each thing that is missing; or why it cannot be kept, in a clause */
  | { readonly missing: readonly Statement[]; readonly why: string | null };

export function referenceFrom(typed: ReferenceTyped): ReferenceRead {
  const { fingerprint, record, expires } = typed;
  const name = typed.name.trim();
  const missing = [
    ...(fingerprint === '' ? [statement('reference-needs-recording')] : []),
    ...(record === null ? [statement('reference-needs-record')] : []),
    ...(name === '' ? [statement('reference-needs-name')] : []),
    ...(expires === '' ? [statement('reference-needs-day')] : []),
  ];
  if (missing.length > 0) return { missing, why: null };
  const read = newReferenceSchema.safeParse({ ...typed, name });
  return read.success ? { reference: read.data } : { missing: [], why: checkSentence(read.error) };
}
