/**
 * Once per turn of a record whose hole is off centre, on a pivoted arm: the closed form that figures rest on, against exact kinematics worked out here
 * (a circle about a centre that turns, met by the arm's arc, no small angles), and against the table that another program made of the same.
 */
import { expect, it } from 'vitest';
import { armPhase } from '../../src/core/measure/armPhase.ts';

const HOLE_MM = 0.2;
const POINTS = 720;

/** First harmonic of the speed at which the groove passes the tip, over e/r, and its phase in degrees against the hole's direction. */
function exact(d: number, l: number, r: number): { amplitude: number; phaseDeg: number } {
  const angle: number[] = [];
  for (let n = 0; n < POINTS; n++) {
    // the record turns clockwise; the groove's centre goes round the spindle with it
    const turn = -(2 * Math.PI * n) / POINTS;
    const [cx, cy] = [HOLE_MM * Math.cos(turn), HOLE_MM * Math.sin(turn)];
    const [px, py] = [d - cx, -cy];
    const q = Math.hypot(px, py);
    const along = (r * r + q * q - l * l) / (2 * q);
    const aside = Math.sqrt(r * r - along * along);
    // seen from the groove's centre the tip is here; what has passed it is this angle less the record's own
    const [x, y] = [(along * px + aside * py) / q, (along * py - aside * px) / q];
    angle.push(Math.atan2(y, x));
  }
  // passed = tip's angle + turned angle: its rate over the record's is 1 + d(angle)/d(turned)
  const mean = angle.reduce((sum, a) => sum + a, 0) / POINTS;
  let [re, im] = [0, 0];
  angle.forEach((a, n) => {
    const at = (2 * Math.PI * n) / POINTS;
    re += (2 * (a - mean) * Math.cos(at)) / POINTS;
    im -= (2 * (a - mean) * Math.sin(at)) / POINTS;
  });
  // derivative of the first harmonic: times i
  const [dRe, dIm] = [-im, re];
  return { amplitude: (Math.hypot(dRe, dIm) * r) / HOLE_MM, phaseDeg: (Math.atan2(dIm, dRe) * 180) / Math.PI };
}

const closed = (d: number, l: number, r: number): { amplitude: number; phaseDeg: number } => {
  const { re, im } = armPhase({ spindleToPivot: d, effectiveLength: l }, r)!.hole;
  return { amplitude: r * Math.hypot(re, im), phaseDeg: (Math.atan2(im, re) * 180) / Math.PI };
};

/** d 222 mm, L 239.296 mm, e 0.2 mm: radius, amplitude over e/r, phase (a numpy program with the same geometry, its own derivative) */
const table: readonly (readonly [number, number, number])[] = [
  [146.05, 1.10151, -53.33],
  [120, 1.08582, -60.15],
  [100, 1.07903, -65.33],
  [72, 1.08205, -72.56],
  [60.325, 1.09234, -75.6],
];

it.each(table)('%f mm: %f times e/r at %f°, in closed form and by kinematics', (r, amplitude, phaseDeg) => {
  for (const found of [closed(222, 239.296, r), exact(222, 239.296, r)]) {
    expect(found.amplitude).toBeCloseTo(amplitude, 4);
    expect(found.phaseDeg).toBeCloseTo(phaseDeg, 1);
  }
});

it.each([
  ['9 inches', 222, 239.296],
  ['12 inches', 290, 303.445],
  ['short', 180, 199],
  ['underhung', 240, 225],
] as const)('an arm of %s: both agree within 2e-5 of the amplitude and 0.002°', (_, d, l) => {
  for (const r of [62, 75, 90, 110, 130, 145]) {
    const [one, other] = [closed(d, l, r), exact(d, l, r)];
    expect(Math.abs(one.amplitude / other.amplitude - 1), `${r} mm`).toBeLessThan(2e-5);
    expect(Math.abs(one.phaseDeg - other.phaseDeg), `${r} mm`).toBeLessThan(0.002);
  }
});

it('e/r alone is short by what the arm adds, and right on a tangential arm', () => {
  expect(1 - 1 / exact(222, 239.296, 120).amplitude).toBeGreaterThan(0.07);
  expect(armPhase('tangential', 80)?.hole).toEqual({ re: 1 / 80, im: 0 });
});
