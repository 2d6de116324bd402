/** A state of a recording without a signal, and its powers as levels under the reference. */
import type { QuietReading } from './quietEstimator.ts';
import type { ChannelReference } from './referenceLevel.ts';

const MOST_DB = 160;

export interface QuietHeard {
  readonly reading: QuietReading;
  /** the record file says that it is silent there */
  readonly expected: boolean;
  /** bands it was read from */
  readonly bands: readonly number[];
}

export const referencePower = ({ amplitude }: ChannelReference): number => amplitude ** 2 / 2;

/** dB under the reference; what is next to nothing ends at `MOST_DB`. */
export const under = (of: ChannelReference, power: number): number =>
  Math.min(MOST_DB, -10 * Math.log10(Math.max(power / referencePower(of), 10 ** (-MOST_DB / 10))));

/** k = 2, dB, of a power with a standard uncertainty. */
export const spreadDb = (power: number, spread: number): number =>
  power > 0 ? (20 / Math.LN10) * Math.min(1, spread / power) : 0;
