/**
 * Two-tone bands cut in one wall each, paired. A wall that moves by w along its axis moves the tip by w/√2 sideways and by ± w/√2 upwards
 * (+ left, − right), so its own lines hold both paths, and the ball's lift along the axis itself:
 *
 *   k_L = (k_lateral + k_vertical)/√2,   k_R = (k_lateral − k_vertical)/√2,   ρ_L = √2 ρ,   ρ_R = −√2 ρ
 *
 * @checked test/independent/oneWall.test.ts
 */
import type { SideReadings } from './sideReadings.ts';
import type { ChannelLines } from './twoToneEstimator.ts';
import { solveTwoTone, type TwoToneSolution, type Undo } from './twoToneSolve.ts';
import { grooveSpeed, lowerVelocity, type SolvedTwoTone, type TwoToneBand } from './twoTones.ts';

/** mm between the two: angles change by a third of a degree over it at most */
const NEAR_MM = 8;

interface OneWall {
  readonly of: TwoToneBand;
  readonly wall: 'left' | 'right';
  readonly radiusMm: number;
  readonly velocity: number;
  readonly solution: TwoToneSolution;
}

/** @param rightSign −1 where the right channel is turned over against the left */
export function oneWallPairs(
  side: SideReadings,
  bands: readonly TwoToneBand[],
  rightSign: 1 | -1,
  undo: Undo,
): SolvedTwoTone[] {
  const walls = bands.flatMap((of): OneWall[] => {
    const wall = of.cut?.motion;
    if (of.cut === null || (wall !== 'left' && wall !== 'right')) return [];
    const velocity = lowerVelocity(of.cut);
    const lines = linesOf(of.heard[wall]);
    if (velocity === null || of.cut.radiusMm === undefined || of.heard.turns < 1 || lines === null) return [];
    const solution = solveTwoTone(lines, of.heard.frequenciesHz, velocity, 'along', undo);
    return solution === null || !Number.isFinite(solution.k)
      ? []
      : [{ of, wall, radiusMm: of.cut.radiusMm, velocity, solution }];
  });
  return walls
    .filter(({ wall }) => wall === 'left')
    .flatMap((left): SolvedTwoTone[] => {
      const apart = (one: OneWall): number => Math.abs(one.radiusMm - left.radiusMm);
      const right = walls
        .filter((one) => one.wall === 'right' && apart(one) <= NEAR_MM)
        .reduce<OneWall | null>((a, b) => (a === null || apart(b) < apart(a) ? b : a), null);
      return right === null ? [] : [false, true].map((vertical) => joined(side, left, right, rightSign, vertical));
    });
}

function linesOf({ lower, upper, plus, minus }: ChannelLines) {
  if (plus === null || minus === null) return null;
  const along = { lower, upper, plus, minus };
  return { along, across: along, variance: (plus.variance + minus.variance) / 2 };
}

function joined(
  side: SideReadings,
  left: OneWall,
  right: OneWall,
  rightSign: 1 | -1,
  vertical: boolean,
): SolvedTwoTone {
  const radiusMm = (left.radiusMm + right.radiusMm) / 2;
  const [l, r] = [left.solution, right.solution];
  const sign = (vertical ? -1 : 1) * rightSign;
  const of = (name: 'k' | 'b' | 'a' | 'kPerRadian'): number => (l[name] + sign * r[name]) / Math.SQRT2;
  return {
    ...left.of,
    vertical,
    radiusMm,
    speed: grooveSpeed(side.rpm, radiusMm),
    velocity: (left.velocity + right.velocity) / 2,
    leaksKnown: true,
    solution: {
      k: of('k'),
      kVariance: (l.kVariance + r.kVariance) / 2,
      b: of('b'),
      a: of('a'),
      rho: (l.rho - rightSign * r.rho) / (2 * Math.SQRT2),
      rhoVariance: (l.rhoVariance + r.rhoVariance) / 8,
      spare: null,
      kPerRadian: of('kPerRadian'),
    },
  };
}
