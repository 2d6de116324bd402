/** The document that `measure --json` prints and the page shows. Keys are fixed by docs/contract.md. */
import type { Problem } from '../capture/problem.ts';
import type { Curve, Finding } from '../measure/finding.ts';
import type { Band } from '../record/band.ts';

export type Verdict = 'good' | 'adjust' | 'bad' | 'info';

export interface JudgedFinding extends Finding {
  readonly verdict: Verdict;
}

export interface Prediction {
  readonly quantity: string;
  readonly value: number;
  readonly unit: string;
}

export interface Advice {
  /** `tilt`, `slide`, `twist`, `speed`, `swap-leads`, … */
  readonly action: string;
  /** never negative; `direction` carries the sign */
  readonly amount: number | null;
  readonly unit: string;
  readonly direction: string | null;
  readonly predicts: readonly Prediction[];
  /** full sentences for the person at the bench */
  readonly why: string;
  /** caution that belongs to this move, shown with it */
  readonly caution?: string;
  /** expanded uncertainty of amount, k = 2, same unit */
  readonly uncertainty?: number | null;
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
}

export interface SideDocument {
  readonly schema: 1;
  readonly capture: CaptureSummary;
  readonly bands: readonly Band[];
  readonly findings: readonly JudgedFinding[];
  readonly advice: readonly Advice[];
  readonly problems: readonly Problem[];
  readonly curves: readonly Curve[];
}
