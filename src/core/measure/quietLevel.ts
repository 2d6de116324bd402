/** Powers of what has no signal as levels under the reference. */
import type { ChannelReference } from './referenceLevel.ts';

const MOST_DB = 160;

export const referencePower = ({ amplitude }: ChannelReference): number => amplitude ** 2 / 2;

/** dB under the reference; what is next to nothing ends at `MOST_DB`. */
export const under = (of: ChannelReference, power: number): number =>
  Math.min(MOST_DB, -10 * Math.log10(Math.max(power / referencePower(of), 10 ** (-MOST_DB / 10))));

/** k = 2, dB, of a power with a standard uncertainty. */
export const spreadDb = (power: number, spread: number): number =>
  power > 0 ? (20 / Math.LN10) * Math.min(1, spread / power) : 0;
