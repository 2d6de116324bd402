/** What the page and the worker that reads a side tell each other. */
import type { BenchKnown } from '../../core/advise/budget/bench.ts';
import type { LearnedRecord } from '../../core/advise/budget/learnedRecord.ts';
import type { NamedLimits } from '../../core/advise/limitsFile.ts';
import type { ArmGeometry } from '../../core/measure/armPhase.ts';
import type { PreampResponse } from '../../core/measure/chainLevel.ts';
import type { ExaminedSide } from '../../core/side/examineSide.ts';

export interface ReadRequest {
  readonly file: File;
  /** the record's sheet, as its file was read; checked by the worker */
  readonly sheet: { readonly name: string; readonly text: string } | null;
  readonly rpm: number | null;
  readonly nominalSpeedToneHz: number | null;
  readonly flat: boolean;
  readonly limits: NamedLimits;
  readonly bench: BenchKnown;
  /** what the shop has learned of the record; null where nothing, or where it is not to be used */
  readonly learned: LearnedRecord | null;
  /** as measured, where the job keeps them */
  readonly preamp: PreampResponse | null;
  readonly recordResponse: PreampResponse | null;
  /** the arm that played, where Place or Match tells it */
  readonly arm: ArmGeometry | null;
}

export type ReadStage = 'finding-bands' | 'measuring' | 'fingerprint';

export type ReadReply =
  | {
      readonly kind: 'progress';
      readonly stage: ReadStage;
      /** of this stage, 0 to 1 */
      readonly fraction: number;
    }
  | { readonly kind: 'done'; readonly side: ExaminedSide; readonly notes: readonly string[] }
  /** a sentence for the person; `code` from the catalogue where there is one */
  | { readonly kind: 'failed'; readonly sentence: string; readonly code: string };
