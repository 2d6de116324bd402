/** A named problem, as `measure --json` prints it. Sentences are made in one place: `sentences.ts`. */
export type Severity = 'error' | 'warning' | 'note';

export interface Problem {
  readonly code: string;
  readonly severity: Severity;
  readonly message: string;
  readonly startS?: number;
  readonly endS?: number;
  /** with code `withheld`: the quantity that is left out */
  readonly quantity?: string;
}
