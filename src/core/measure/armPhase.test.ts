import { expect, it } from 'vitest';
import { armPhase } from './armPhase.ts';

const arm = { spindleToPivot: 222, effectiveLength: 239.3 };

/** The tip, the pivot and the spindle as points of a drawing: spindle in the origin, pivot on the x axis. */
function drawn(r: number, { spindleToPivot: d, effectiveLength: l }: typeof arm) {
  const x = (r * r + d * d - l * l) / (2 * d);
  const y = Math.sqrt(r * r - x * x);
  const bearing = Math.atan2(y, x);
  // the arm's direction at the tip, and the groove's tangent there
  const along = { x: (d - x) / l, y: -y / l };
  const radial = { x: x / r, y: y / r };
  const sin = -(along.x * radial.x + along.y * radial.y);
  return { bearing, theta: Math.asin(sin) };
}

it.each([60, 85, 110, 146])('at %i mm hole and warp turn as the drawing of arm and spindle has it', (r) => {
  const { bearing, theta } = drawn(r, arm);
  const phase = armPhase(arm, r);
  const size = 1 / (r * Math.cos(theta));
  expect(phase?.hole.re).toBeCloseTo(size * Math.cos(bearing - theta), 12);
  expect(phase?.hole.im).toBeCloseTo(-size * Math.sin(bearing - theta), 12);
  expect(phase?.warp.re).toBeCloseTo(size * Math.cos(bearing), 12);
  expect(phase?.warp.im).toBeCloseTo(-size * Math.sin(bearing), 12);
});

it('on a tangential arm both are 1/r without a turn', () => {
  const along = { re: 1 / 80, im: 0 };
  expect(armPhase('tangential', 80)).toEqual({ hole: along, warp: along });
});

it('says nothing where the arm does not reach, or lies nearly along the radius', () => {
  // 17.3 mm is the overhang: the arm comes no nearer to the spindle
  expect(armPhase(arm, 17.2)).toBeNull();
  expect(armPhase(arm, 461.4)).toBeNull();
  // sin θ = 0.95 at the root of r² − 1.9 L r + L² − d²
  const { spindleToPivot: d, effectiveLength: l } = arm;
  const edge = 0.95 * l - Math.sqrt((0.95 * l) ** 2 - (l * l - d * d));
  expect(armPhase(arm, edge - 0.01)).toBeNull();
  expect(armPhase(arm, edge + 0.01)).not.toBeNull();
  // sin θ is negative where the pivot stands further away than the arm is long: an underhung arm
  expect(armPhase({ spindleToPivot: 239.3, effectiveLength: 222 }, 60)).not.toBeNull();
  expect(armPhase({ spindleToPivot: 239.3, effectiveLength: 222 }, 18)).toBeNull();
});
