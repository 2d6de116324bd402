/**
 * What a wow-and-flutter figure is uncertain by beyond the noise that was taken out of it. All spreads are standard
 * uncertainties.
 */
import { coverageFactor, quantile } from '../signal/robust.ts';
import type { SlowLine } from './slowLines.ts';

/** s; about one turn, where no swing shows how long one is */
const BLOCK_S = 1.8;
/** Hz; the strongest swing between these is taken for once per turn */
const TURN_HZ = [0.4, 1.6] as const;
/** standard uncertainty of the figure for a mean that is off by 1: where one slow swing rules, 2σ about a stretch's own mean is off by 0.65 of it in one of twenty stretches */
const MEAN_SHARE = 0.33;
/** share of the doubt about the weighting that counts as standard uncertainty: k = 2 reaches a little past the straight lines */
const DOUBT_SHARE = 0.65;
/** ratio: the table is rounded to 0.1 dB */
const ROUNDING = 0.0033;

/**
 * How much the figure changes from turn to turn: how much the share of time over the 95 % point differs between turns, turned
 * into a size by the slope of the distribution there. Another stretch of the same deck may read that much differently, and
 * the ends of a stretch are no more certain than some tenths of a second. Blocks of another length than one turn would take
 * the swing within a turn for a change.
 *
 * @param size |deviation| @param peak2Sigma its 95 % point
 */
export function spreadOverTurns(
  size: Float64Array,
  peak2Sigma: number,
  rateHz: number,
  lines: readonly SlowLine[],
): number {
  const power = ({ cos, sin }: SlowLine): number => cos * cos + sin * sin;
  const swings = lines.filter(({ hz }) => hz > TURN_HZ[0] && hz < TURN_HZ[1]);
  const turn = swings.reduce<SlowLine | null>((a, l) => (a === null || power(l) > power(a) ? l : a), null);
  const block = (turn === null ? BLOCK_S : 1 / turn.hz) * rateHz;
  const blocks = Math.floor(size.length / block);
  if (blocks < 2) return peak2Sigma / 4;
  const first = (size.length - blocks * block) / 2;
  const shares = Array.from({ length: blocks }, (_, b) => {
    const from = Math.round(first + b * block);
    const to = Math.min(size.length, Math.round(first + (b + 1) * block));
    let over = 0;
    for (let n = from; n < to; n++) if (size[n] > peak2Sigma) over += 1;
    return over / (to - from);
  });
  const mean = shares.reduce((sum, v) => sum + v, 0) / blocks;
  const variance = shares.reduce((sum, v) => sum + (v - mean) ** 2, 0) / (blocks - 1) / blocks;
  const [low, high] = [quantile(size, 0.92), quantile(size, 0.98)];
  return (coverageFactor(blocks - 1) / 2) * Math.sqrt(variance) * ((high - low) / 0.06);
}

/**
 * Where slow swings count whole, so does the mean they are counted from: of a line that swings by a, n times in the stretch,
 * it holds up to a/πn, less where n is whole; the ends are known to some tenths of a second.
 */
export function spreadOfMean(lines: readonly SlowLine[], gain: (hz: number) => number, lengthS: number): number {
  let square = 0;
  for (const { hz, cos, sin } of lines) {
    const open = Math.max(...[0, 0.2, 0.4].map((more) => Math.abs(Math.sin(Math.PI * hz * (lengthS + more)))));
    square += ((gain(hz) * open) / (Math.PI * hz * lengthS)) ** 2 * (cos * cos + sin * sin);
  }
  return MEAN_SHARE * Math.sqrt(square);
}

/** Of the weighting between the points of its table, as a ratio. @param doubt how far other curves lie, mean over the power */
export function spreadOfWeighting(doubt: number): number {
  return Math.hypot(DOUBT_SHARE * doubt, ROUNDING);
}
