/**
 * A tip that cannot follow: it falls back to a wall no faster than its force allows. Where the wall leaves it faster, it flies on at that speed until the
 * wall comes back to it, and lands with a knock.
 *
 *   dg/dt = v_wall − v_limit while the gap g is open;   at the landing a ring of 6 kHz, 60 µs, as strong as both speeds differ
 *
 * Inner wall (left): it leaves the tip with negative velocity; outer wall (right): with positive.
 */
import type { Run } from './filters.ts';

const RING_HZ = 6000;
const RING_DECAY_S = 120e-6;
/** of the speed at the landing that the generator gives again */
const RING_SHARE = 0.5;

/**
 * @param limitCmS speed at which the tip falls back; null follows everything
 * @param away sign of the velocity with which the wall leaves the tip
 */
export function followedWall(limitCmS: number | null, away: 1 | -1, sampleRateHz: number): Run | null {
  if (limitCmS === null) return null;
  const step = 1 / sampleRateHz;
  const decay = Math.exp(-step / RING_DECAY_S);
  const turn = 2 * Math.PI * RING_HZ * step;
  const [cos, sin] = [decay * Math.cos(turn), decay * Math.sin(turn)];
  let gap = 0;
  let [re, im] = [0, 0];
  return (u, count) => {
    for (let i = 0; i < count; i++) {
      const v = away * u[i];
      if (gap > 0 || v > limitCmS) {
        gap += (v - limitCmS) * step;
        if (gap <= 0) {
          gap = 0;
          im += RING_SHARE * (limitCmS - v);
        } else u[i] = away * limitCmS;
      }
      u[i] += away * im;
      [re, im] = [re * cos - im * sin, re * sin + im * cos];
    }
  };
}
