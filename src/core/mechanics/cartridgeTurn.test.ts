import { expect, test } from 'vitest';
import { degToRad, radToDeg } from '../units/units.ts';
import { SHELL_TO_TUBE, SHIM_LEVER, shimForTilt, tiltOfShim, tubeTurn } from './cartridgeTurn.ts';

test('0.1 mm of shim is 0.38 to 0.56°, and a washer of 5 mm under one screw has a lever of 10.2 mm and more', () => {
  expect(radToDeg(tiltOfShim(0.1, SHIM_LEVER.most))).toBeCloseTo(0.38, 2);
  expect(radToDeg(tiltOfShim(0.1, SHIM_LEVER.least))).toBeCloseTo(0.56, 2);
  // from the washer's inner edge to the other screw, and to the edge of a body 15.1 mm wide
  expect(12.7 / 2 - 5 / 2 + 12.7 / 2).toBeCloseTo(SHIM_LEVER.least, 9);
  expect(12.7 / 2 - 5 / 2 + 15.1 / 2).toBeCloseTo(11.4, 9);
  for (const deg of [-2, 0, 0.5, 3]) expect(radToDeg(tiltOfShim(shimForTilt(degToRad(deg))))).toBeCloseTo(deg, 9);
});

test('a collet along the shell tilts alone; a tube behind an offset shell tilts less and lifts the nose when clockwise', () => {
  const δ = degToRad(1);
  expect(tubeTurn(δ, 0)).toEqual({ tilt: δ, noseUp: 0 });
  const { tilt, noseUp } = tubeTurn(δ, SHELL_TO_TUBE.least);
  expect(radToDeg(tilt)).toBeCloseTo(0.8988, 4);
  expect(radToDeg(noseUp)).toBeCloseTo(0.4384, 4);
  expect(tubeTurn(-δ, SHELL_TO_TUBE.most).noseUp).toBeLessThan(0);
});

test('the tube agrees with a shell that is turned about it in space', () => {
  // x along the tube to the front, y to the left seen from above, z up; the shell points inward, to the right
  const [γ, δ] = [degToRad(28), degToRad(1.5)];
  const nose = [Math.cos(γ), -Math.sin(γ), 0] as const;
  const left = [Math.sin(γ), Math.cos(γ), 0] as const;
  // who looks at the face sees +y on the right: clockwise brings it down
  const lift = (v: readonly [number, number, number]) => -v[1] * Math.sin(δ) + v[2] * Math.cos(δ);
  const { tilt, noseUp } = tubeTurn(δ, γ);
  expect(Math.asin(lift(nose))).toBeCloseTo(noseUp, 4);
  expect(-Math.asin(lift(left))).toBeCloseTo(tilt, 4);
});

test('what cannot be is refused by name', () => {
  expect(() => tiltOfShim(Number.NaN)).toThrow(/thickness is NaN/);
  expect(() => shimForTilt(0.1, 1)).toThrow(/lever is 1/);
  expect(() => tubeTurn(0.1, 2)).toThrow(/shellToTube is 2/);
});
