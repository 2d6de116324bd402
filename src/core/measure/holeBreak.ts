/**
 * A recording that was paused or cut between two bands: from there on the hole is elsewhere than the time says. No hole and platter in one rotation explain that,
 * while the bands before and those after, each by themselves, tell the same hole.
 *
 * @checked holeBreak.test.ts
 */
import { type BandPhasor, fitHole, type HoleFit, type HolePriors } from './holeFit.ts';

/** χ² that two rotations must explain beyond one: they have four figures more to fit with, and a platter of 0.35 % in one is taken for no break */
const LEAST_GAIN = 50;
/** χ² that no deck leaves in one rotation: a platter of 1 % has this */
const MOST_MISFIT = 400;
/** times both spreads */
const ALIKE = 2;

/** s, the middles of the bands between which it was */
export interface HoleBreak {
  readonly afterS: number;
  readonly beforeS: number;
}

/** @param whole the fit of all bands in one rotation @returns null where one rotation will do */
export function holeBreak(bands: readonly BandPhasor[], priors: HolePriors, whole: HoleFit): HoleBreak | null {
  if (whole.misfit < LEAST_GAIN) return null;
  const sorted = [...bands].sort((a, b) => a.middleS - b.middleS);
  const breaks = sorted.slice(1).map((next, i) => {
    const [before, after] = [sorted.slice(0, i + 1), sorted.slice(i + 1)].map((part) => fitHole(part, priors));
    const apart = Math.abs(before.hole.size - after.hole.size);
    return {
      gain: whole.misfit - before.misfit - after.misfit,
      isAlike: apart < ALIKE * Math.hypot(before.hole.spread, after.hole.spread),
      afterS: sorted[i].middleS,
      beforeS: next.middleS,
    };
  });
  if (breaks.length === 0) return null;
  const { gain, isAlike, afterS, beforeS } = breaks.reduce((a, b) => (b.gain > a.gain ? b : a));
  return whole.misfit > MOST_MISFIT || (gain > LEAST_GAIN && isAlike) ? { afterS, beforeS } : null;
}
