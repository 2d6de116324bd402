/**
 * A tip that is lost gently: where a wall draws away with more acceleration than presses the tip on it, the tip lags by a share of what is lacking, free of
 * the wall; caught again, it rings and is damped. Nothing is lost at the limit, and little just beyond it.
 *
 *   lost:    de/dt = share · (a_wall − a_limit)
 *   caught:  e rings on at f, Q          of the wall e is taken off; what one cantilever carries over goes on the other wall
 *
 * Inner wall (left): it draws away with negative velocity; outer wall (right): with positive. The wall's acceleration counts below 2 kHz (Butterworth, second order):
 * noise and clicks are not what the arm's force is for.
 */
import type { Deck } from './deck.ts';
import { runSection } from './filters.ts';

type Slips = NonNullable<Deck['cartridge']['slips']>;

const COUNTS_TO_HZ = 2000;

/** @returns what the tip lacks of one wall's velocity, cm/s, along the way in which the wall draws away */
function lagging(limitCmS2: number, away: 1 | -1, { lostPercent, ringHz, ringQ }: Slips, sampleRateHz: number) {
  const k = Math.tan((Math.PI * COUNTS_TO_HZ) / sampleRateHz);
  const norm = 1 / (1 + Math.SQRT2 * k + k * k);
  const slow = runSection({
    b: [k * k * norm, 2 * k * k * norm, k * k * norm],
    a: [2 * (k * k - 1) * norm, (1 - Math.SQRT2 * k + k * k) * norm],
  });
  const turn = (2 * Math.PI * ringHz) / sampleRateHz;
  const decay = Math.exp(-turn / (2 * ringQ));
  const [cos, sin] = [decay * Math.cos(turn), decay * Math.sin(turn)];
  let wall = new Float64Array(0);
  let [before, re, im] = [0, 0, 0];
  return (u: Float64Array, into: Float64Array, count: number): void => {
    if (wall.length < count) wall = new Float64Array(count);
    wall.set(u.subarray(0, count));
    slow(wall, count);
    for (let i = 0; i < count; i++) {
      const lacking = away * (wall[i] - before) * sampleRateHz - limitCmS2;
      before = wall[i];
      if (lacking > 0) re += ((lostPercent / 100) * lacking) / sampleRateHz;
      else [re, im] = [re * cos - im * sin, re * sin + im * cos];
      into[i] = re;
    }
  };
}

/** @returns null where the deck has none; else both walls' velocities in place */
export function slippingTip(
  slips: Deck['cartridge']['slips'],
  sampleRateHz: number,
): ((left: Float64Array, right: Float64Array, count: number) => void) | null {
  if (slips === null) return null;
  const of = (limitMS2: number | null, away: 1 | -1) =>
    limitMS2 === null ? null : lagging(100 * limitMS2, away, slips, sampleRateHz);
  const [inner, outer] = [of(slips.leftUpToMS2, -1), of(slips.rightUpToMS2, 1)];
  const across = slips.otherWallPercent / 100;
  let lag = { inner: new Float64Array(0), outer: new Float64Array(0) };
  return (left, right, count) => {
    if (lag.inner.length < count) lag = { inner: new Float64Array(count), outer: new Float64Array(count) };
    inner?.(left, lag.inner, count);
    outer?.(right, lag.outer, count);
    for (let i = 0; i < count; i++) {
      // along each wall's own velocity
      const [l, r] = [lag.inner[i], -lag.outer[i]];
      left[i] += l + across * r;
      right[i] += r + across * l;
    }
  };
}
