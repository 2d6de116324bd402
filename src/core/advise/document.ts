/** The document that `measure --json` prints and the page shows. Keys are fixed by docs/contract.md. */
import type { Problem } from '../capture/problem.ts';
import type { BudgetLine, Curve, Finding } from '../measure/finding.ts';
import type { Band } from '../record/band.ts';
import { isKnown, type Statement, say, sayAll } from '../words/statement.ts';

export type Verdict = 'good' | 'adjust' | 'bad' | 'undecided' | 'info';

/** A line of the budget with its source in words. */
export interface ToldBudgetLine extends Omit<BudgetLine, 'of'> {
  readonly source: string;
  readonly of?: Statement;
}

/** A finding as documents hold it: with its verdict, and its notes said. */
export interface JudgedFinding extends Omit<Finding, 'notes' | 'budget' | 'repeats'> {
  /** of bands that were played again in this recording (docs/methods/repeats.md) */
  readonly repeats?: {
    readonly count: number;
    readonly mean: number;
    readonly scatter: number;
    readonly uncertainty: number;
  };
  readonly budget?: readonly ToldBudgetLine[];
  readonly verdict: Verdict;
  /** with `undecided`: the one thing that would decide it, a sentence */
  readonly decidedBy?: string;
  /** the same as a statement; absent in documents that an earlier version wrote, as all statements here */
  readonly decides?: Statement;
  /** `notes` in words */
  readonly note: string;
  /** absent in documents that an earlier version wrote */
  readonly notes?: readonly Statement[];
}

/** The finding with its verdict; its notes and the sources of its budget said. */
export function toldFinding({ budget, repeats, ...finding }: Finding, verdict: Verdict): JudgedFinding {
  const plain = { ...finding, note: sayAll(finding.notes), verdict };
  const told = repeats === undefined ? plain : { ...plain, repeats: repeatsOf(finding.value, repeats) };
  return budget === undefined ? told : { ...told, budget: budget.map((line) => ({ source: say(line.of), ...line })) };
}

/** What is known of the record moves all plays alike. */
function repeatsOf(value: Finding['value'], { fromMean, ...of }: NonNullable<Finding['repeats']>) {
  return { ...of, mean: Number(value) + fromMean };
}

export interface Prediction {
  readonly quantity: string;
  readonly value: number;
  readonly unit: string;
  /** k = 2, of the deck; `low` and `high` as a finding's */
  readonly uncertainty?: number | null;
  readonly low?: number;
  readonly high?: number | null;
}

export interface Advice {
  /** `tilt`, `slide`, `twist`, `speed`, `swap-leads`, … */
  readonly action: string;
  /** never negative; `direction` carries the sign */
  readonly amount: number | null;
  readonly unit: string;
  readonly direction: string | null;
  readonly predicts: readonly Prediction[];
  /** of a tilt: mean gain of the worse separation, dB, and the chance that it loses more than 0.5 dB */
  readonly expectedGainDb?: number;
  readonly harmProbability?: number;
  /** full sentences for the person at the bench: `reasons` in words */
  readonly why: string;
  /** absent in documents that an earlier version wrote */
  readonly reasons?: readonly Statement[];
  /** caution that belongs to this move, shown with it: `cautions` in words */
  readonly caution?: string;
  readonly cautions?: readonly Statement[];
  /** expanded uncertainty of amount, k = 2, same unit */
  readonly uncertainty?: number | null;
}

/** Advice with its reasons and cautions said. */
export function toldAdvice(move: Omit<Advice, 'why' | 'caution'> & { readonly reasons: readonly Statement[] }): Advice {
  const { cautions = [] } = move;
  const told = { ...move, why: sayAll(move.reasons) };
  return cautions.length === 0 ? told : { ...told, caution: sayAll(cautions) };
}

/** The move itself, one sentence, without what speaks for it; everything where an earlier version wrote no statements. */
export function mainReason({ reasons = [], why }: Pick<Advice, 'reasons' | 'why'>): string {
  const [first] = reasons;
  return first !== undefined && isKnown(first) ? say(first) : why;
}

export interface CaptureSummary {
  readonly file: string;
  /** as it was given, with its folders; where it was given by path */
  readonly path?: string;
  readonly sampleRateHz: number;
  readonly channels: number;
  readonly bitDepth: number;
  readonly durationS: number;
  readonly sha256: string | null;
  /** heard live, by the clock of its input; `bitDepth` is the input's. Absent for files */
  readonly live?: true;
}

export interface SideDocument {
  readonly schema: 1;
  /** version of the methods that made its figures; absent in documents of before there was one */
  readonly method?: string;
  readonly capture: CaptureSummary;
  /** the record file it was measured with; absent without one */
  readonly record?: { readonly name: string; readonly key: string };
  /** the limits behind its verdicts, where they are not the defaults */
  readonly limits?: {
    readonly deckClass: string;
    readonly limits: Readonly<Record<string, { readonly good: number; readonly bad: number; readonly source: string }>>;
  };
  readonly bands: readonly Band[];
  readonly findings: readonly JudgedFinding[];
  readonly advice: readonly Advice[];
  readonly problems: readonly Problem[];
  readonly curves: readonly Curve[];
}
