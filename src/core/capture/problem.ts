/** A named problem, as `measure --json` prints it: a statement of `words/problems.ts` with its severity and its place. */
import type { ValuesOfCode } from '../words/catalogue.ts';
import { type ProblemCode, problems, type Severity } from '../words/problems.ts';
import { type Statement, say, type Values } from '../words/statement.ts';

export interface Problem {
  readonly code: string;
  readonly severity: Severity;
  /** the sentence of `code` and `values` */
  readonly message: string;
  /** absent in documents that an earlier version wrote */
  readonly values?: Values;
  readonly startS?: number;
  readonly endS?: number;
  /** with code `withheld`: the quantity that is left out */
  readonly quantity?: string;
}

type Place = Pick<Problem, 'startS' | 'endS'>;

/**
 * Makes a problem from its code; the place says where it lies in the recording.
 * @throws RangeError when a value is missing or not finite
 */
export function problem<C extends Exclude<ProblemCode, 'withheld'>>(
  code: C,
  ...[values, place]: keyof ValuesOfCode<C> extends never
    ? [values?: Record<never, never>, place?: Place]
    : [values: ValuesOfCode<C>, place?: Place]
): Problem {
  const given = (values ?? {}) as Values;
  return { code, severity: problems[code][0], message: say({ code, values: given }), values: given, ...place };
}

/** A quantity that the recording cannot support is left out, with its reason (a statement of `words/reasons.ts`). */
export function withheld(quantity: string, why: Statement): Problem {
  const values = { quantity, why };
  return { code: 'withheld', severity: 'note', message: say({ code: 'withheld', values }), values, quantity };
}
