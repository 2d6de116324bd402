/** Dust and scratches: clicks at random moments, each a short knock of the tip in a random direction of the plane. */
import type { Random } from './random.ts';

export interface Click {
  /** s of the whole take */
  readonly atS: number;
  /** peak velocity, cm/s, and the direction: 0 all left wall, π/2 all right wall */
  readonly velocity: number;
  readonly direction: number;
  /** s */
  readonly decay: number;
}

/** Poisson in time; size log-normal (7 dB) about the middling one; decay 30 to 150 µs. */
export function* clickTrain(dice: Random, perMinute: number, velocity: number): Generator<Click, void, void> {
  if (perMinute === 0) return;
  const size = new Float64Array(1);
  for (let atS = 0; ; ) {
    atS -= (Math.log(1 - dice.uniform()) * 60) / perMinute;
    dice.fillNoise(size, 1);
    yield {
      atS,
      velocity: velocity * Math.exp(0.8 * size[0]) * (dice.uniform() < 0.5 ? -1 : 1),
      direction: 2 * Math.PI * dice.uniform(),
      decay: 30e-6 + 120e-6 * dice.uniform(),
    };
  }
}

/** Velocity of a knock: (1 − t/T) e^(−t/T), so that the tip comes back to where it was. */
export const knock = (t: number, decay: number): number => (t < 0 ? 0 : (1 - t / decay) * Math.exp(-t / decay));
/** after this many decays a knock is over (below 1e-6) */
export const KNOCK_DECAYS = 18;
