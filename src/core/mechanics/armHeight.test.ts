import { expect, test } from 'vitest';
import { degToRad, radToDeg } from '../units/units.ts';
import { type ArmAtAngle, attitudeForRise, type BearingSquareTo, riseForPitch } from './armHeight.ts';

const arm = (squareTo: BearingSquareTo, offsetDeg = 23, effectiveLength = 230): ArmAtAngle => ({
  effectiveLength,
  offset: degToRad(offsetDeg),
  squareTo,
});

test('230 mm and 23°: 1° of pitch is 4.36 mm with 0.42° of tilt, or 3.70 mm with none', () => {
  const one = degToRad(1);
  expect(riseForPitch(one, arm('arm-line'))).toBeCloseTo(4.36, 2);
  expect(radToDeg(attitudeForRise(4.36, arm('arm-line')).tilt)).toBeCloseTo(0.424, 3);
  expect(riseForPitch(one, arm('cartridge'))).toBeCloseTo(3.7, 2);
  expect(attitudeForRise(3.7, arm('cartridge')).tilt).toBe(0);
});

test('a straight arm: 1° is 4.0 mm, whatever its bearings are square to; up is steeper, and clockwise with an offset', () => {
  for (const squareTo of ['arm-line', 'cartridge'] as const) {
    expect(riseForPitch(degToRad(1), arm(squareTo, 0))).toBeCloseTo(4.0147, 4);
    expect(attitudeForRise(2, arm(squareTo)).pitch).toBeGreaterThan(0);
    expect(attitudeForRise(-2, arm(squareTo)).pitch).toBeCloseTo(-attitudeForRise(2, arm(squareTo)).pitch, 12);
    expect(radToDeg(attitudeForRise(riseForPitch(degToRad(1.5), arm(squareTo)), arm(squareTo)).pitch)).toBeCloseTo(
      1.5,
      9,
    );
  }
  expect(attitudeForRise(2, arm('arm-line')).tilt).toBeGreaterThan(0);
});

type Vector = readonly [number, number, number];
/** Rodrigues' rotation of v about a unit axis. */
function turned(v: Vector, [x, y, z]: Vector, angle: number): Vector {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const along = (x * v[0] + y * v[1] + z * v[2]) * (1 - c);
  return [
    v[0] * c + (y * v[2] - z * v[1]) * s + x * along,
    v[1] * c + (z * v[0] - x * v[2]) * s + y * along,
    v[2] * c + (x * v[1] - y * v[0]) * s + z * along,
  ];
}

test('the two agree with a cartridge that is turned about the bearing in space', () => {
  // x from pivot to tip, y to the left of it seen from above, z up; the spindle lies to the right, and the cartridge points there
  const φ = degToRad(23);
  const nose: Vector = [Math.cos(φ), -Math.sin(φ), 0];
  const left: Vector = [Math.sin(φ), Math.cos(φ), 0];
  for (const squareTo of ['arm-line', 'cartridge'] as const) {
    const axis: Vector = squareTo === 'arm-line' ? [0, 1, 0] : left;
    // the tip stays on the record: it is 230 mm off, and the axis is raised 4 mm over it
    const reach = squareTo === 'arm-line' ? 230 : 230 * Math.cos(φ);
    const angle = Math.atan(4 / reach);
    const { pitch, tilt } = attitudeForRise(4, arm(squareTo));
    // a right-handed turn about an axis to the left brings the nose down
    expect(-Math.asin(turned(nose, axis, angle)[2])).toBeCloseTo(pitch, 4);
    // seen from its face, looking at the nose, the cartridge's left is the viewer's right: clockwise brings it down
    expect(-Math.asin(turned(left, axis, angle)[2])).toBeCloseTo(tilt, 4);
  }
});

test('what cannot be is refused by name', () => {
  expect(() => attitudeForRise(Number.NaN, arm('cartridge'))).toThrow(/rise is NaN/);
  expect(() => riseForPitch(1, arm('cartridge'))).toThrow(/pitch is 1/);
  expect(() => riseForPitch(0, arm('cartridge', 80))).toThrow(/offset is/);
});
