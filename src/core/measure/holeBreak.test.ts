/** Recordings that were paused: the phasors of the bands after it are those of another angle of the record. */
import { describe, expect, test } from 'vitest';
import { type Complex, plus, scaled, times } from '../units/complex.ts';
import { armPhase } from './armPhase.ts';
import { holeBreak } from './holeBreak.ts';
import { type BandPhasor, fitHole, type HolePriors } from './holeFit.ts';

const ARM = { spindleToPivot: 222, effectiveLength: 239.3 };
const PRIORS: HolePriors = { hole: 0.1, platter: 5e-4, rotation: { mean: 0, spread: 1e-3 }, radius: 0.5 };
const RADII = [143, 140, 137, 130, 72, 69];
const polar = (size: number, deg: number): Complex => {
  const angle = (deg * Math.PI) / 180;
  return { re: size * Math.cos(angle), im: size * Math.sin(angle) };
};

interface Side {
  /** mm, and its direction */
  readonly hole?: Complex;
  readonly platter?: Complex;
  /** deg that the record turned on in a pause before this band, counted from 0 */
  readonly pauses?: Readonly<Record<number, number>>;
}

function bandsOf({ hole = polar(0.2, 40), platter = polar(3e-4, -60), pauses = {} }: Side): BandPhasor[] {
  let turned = 0;
  return RADII.map((radiusMm, i) => {
    turned += pauses[i] ?? 0;
    const arm = armPhase(ARM, radiusMm);
    if (arm === null) throw new Error('out of reach');
    const own = times(plus(times(arm.hole, hole), platter), polar(1, turned));
    // chance, the same every time
    const { re, im } = plus(own, scaled(polar(1, 77 * i), 5e-6));
    return { re, im, variance: 1e-10, middleS: 10 + 20 * i, turning: 0, turningVariance: 1e-4, arm, radiusMm };
  });
}
const breakIn = (side: Side) => {
  const bands = bandsOf(side);
  return holeBreak(bands, PRIORS, fitHole(bands, PRIORS));
};

describe('a pause', () => {
  test.each([
    [1, 50],
    [3, -35],
    [4, 90],
    [5, 180],
  ])('before band %i, the record %i° further on, is found between the bands beside it', (before, deg) => {
    expect(breakIn({ pauses: { [before]: deg } })).toEqual({ afterS: 20 * before - 10, beforeS: 20 * before + 10 });
  });

  test('of whole turns changes nothing, and neither does none', () => {
    expect(breakIn({ pauses: { 4: 720 } })).toBeNull();
    expect(breakIn({})).toBeNull();
  });

  test('between every two bands is told as well', () => {
    expect(breakIn({ pauses: { 1: 70, 2: 100, 3: 160, 4: 210, 5: 30 } })).not.toBeNull();
  });
});

describe('no pause is told', () => {
  test.each([0.1, 0.2, 0.3])('of a platter that runs unevenly by %d %%, whatever its phase', (percent) => {
    for (let deg = 0; deg < 360; deg += 30) expect(breakIn({ platter: polar(percent / 100, deg) })).toBeNull();
  });

  test('of a record far off centre, or one band alone', () => {
    expect(breakIn({ hole: polar(0.5, 10) })).toBeNull();
    const alone = bandsOf({ hole: polar(2, 10) }).slice(0, 1);
    expect(holeBreak(alone, PRIORS, fitHole(alone, PRIORS))).toBeNull();
  });
});
