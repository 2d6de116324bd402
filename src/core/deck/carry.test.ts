/** The arm that stays where it is: the tip swings on its cantilever alone, square to the groove, as on an arm that stays on a line through the spindle. */
import { expect, test } from 'vitest';
import { restOf, speedHarmonics } from './armPath.ts';
import { bodySlopes } from './carry.ts';
import { readDeck } from './deck.ts';

const DEG = Math.PI / 180;

test.each([
  [138, 0.2],
  [100, 0.35],
  [64, -1.1],
])('at %s mm what the arm does not follow turns the pivoted arm’s wow into a tangential one’s', (r, psi) => {
  const e = 0.2;
  const arm = { d: 222, length: 239.296, height: 0 };
  const of = (a: typeof arm | null, angle: number) => {
    const [{ amplitude, phase }] = speedHarmonics({ arm: a, offCentre: e, offCentreAngle: angle, warp: [] }, r);
    return { re: amplitude * Math.cos(phase), im: amplitude * Math.sin(phase) };
  };
  const rest = restOf(arm, r).bearing;
  const pivoted = of(arm, psi);
  // the same place of the record under a tip that stays on a line through the spindle
  const still = of(null, psi - rest);
  const deck = readDeck({
    arm: { geometry: { spindleToPivotMm: arm.d, effectiveLengthMm: arm.length, offsetDeg: 23 } },
  });
  const { body } = bodySlopes({ deck }, r);
  // all of the groove's swing taken up by the cantilever: ξ = x, the cartridge square to the groove. x = e cos(Θ − ψ + bearing), outwards
  const swing = { re: (e / r) * Math.sin(psi - rest), im: (e / r) * Math.cos(psi - rest) };
  const fixed = { re: pivoted.re - body * swing.re, im: pivoted.im - body * swing.im };
  expect(fixed.re).toBeCloseTo(still.re, 4);
  expect(fixed.im).toBeCloseTo(still.im, 4);
  expect(Math.hypot(pivoted.re - still.re, pivoted.im - still.im)).toBeGreaterThan(3e-4);
});

test('a tangential arm’s body moves square to the groove; a pivoted one by tan θ, and by its bearing’s height', () => {
  expect(bodySlopes({ deck: readDeck({}) }, 100)).toEqual({ body: 0, rise: 0 });
  const geometry = { spindleToPivotMm: 222, effectiveLengthMm: 239.296, offsetDeg: 22.986 };
  const { body, rise } = bodySlopes({ deck: readDeck({ arm: { geometry, pivotHeightMm: 12 } }) }, 66);
  // the inner null: the arm stands at its offset there
  expect(Math.atan(body) / DEG).toBeCloseTo(22.986, 1);
  expect(rise).toBeCloseTo(12 / 239.296 / Math.cos(22.986 * DEG), 4);
});
