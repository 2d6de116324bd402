/**
 * What is taken for granted of record, arm and playing where nobody has said it, for once per turn, resonance and response. The sizes are the caller's: they stand
 * in the one table of defaults, with what a record file or a shop's own jobs know in their place.
 */
import type { Statement } from '../words/statement.ts';

import type { ArmGeometry } from './armPhase.ts';

export interface AssumedSize {
  /** as a budget names it */
  readonly of: Statement;
  /** expanded, k = 2 */
  readonly size: number;
}

export interface Assumed {
  /** mm: holes as records are pressed, in a given direction */
  readonly hole: AssumedSize;
  /** %: what a platter does once per turn, in a given phase */
  readonly platter: AssumedSize;
  /** mm: what a warp adds to the hole, in a given direction */
  readonly warp: AssumedSize;
  /** mm: how far the record lies elsewhere when it is seated anew */
  readonly seating: AssumedSize;
  /** mm: of a radius that was stated, and of one that nobody stated */
  readonly radius: AssumedSize;
  readonly unknownRadius: AssumedSize;
  /** s: where a tone starts */
  readonly toneStart: AssumedSize;
  /** dB, of the playback equalisation between two frequencies */
  readonly equalisation: AssumedSize;
  /** dB, that a sweep or noise is cut beside its law against 1 kHz */
  readonly cutResponse: AssumedSize;
  /** dB an octave, that a sweep's level is cut askew by */
  readonly cutSlope: AssumedSize;
  /** Hz, of a chain's own low corner, first order */
  readonly lowCorner: AssumedSize;
  /** %, of f₀ as a ring-down tells it; four times that of Q */
  readonly ringDown: AssumedSize;
  /** %, of f₀ as noise that shakes the arm tells it by the speed, five times that of Q; by the groove's noise twice, and eight times */
  readonly excitation: AssumedSize;
  /** what counts as agreeing; beyond it an entry of the record file is doubted, and ways to a resonance contradict each other */
  readonly agreement: {
    /** ratio, of a tone's frequency against the file's others */
    readonly frequency: number;
    /** dB, of a tone's level between 300 Hz and 4 kHz against the file's others */
    readonly levelDb: number;
    /** times both uncertainties (k = 2) together */
    readonly resonances: number;
  };
  /** of the record's cut, %: how much faster than it says, and how sure that is */
  readonly cutSpeed: { readonly percent: number; readonly size: number };
  /** where nothing is known of the arm: one, and what else it may be */
  readonly arm: { readonly usual: ArmGeometry; readonly others: readonly ArmGeometry[] };
}
