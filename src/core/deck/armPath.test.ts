/**
 * Once per turn by kinematics. The reference here is a ray of its own: the tip is found on the arm's arc by halving, the rate by
 * differences, the phasor by summation. Against both stands p(r) = E e^(−i(λ − θ)) / (r cos θ), which the measuring half uses.
 */
import { expect, test } from 'vitest';
import { type ArmPath, bearingOf, emptyBearing, speedHarmonics } from './armPath.ts';

const arms = {
  '12-inch': { d: 290, length: 303.445, height: 0 },
  '9-inch': { d: 222, length: 239.296, height: 0 },
  short: { d: 160, length: 182, height: 0 },
  underhung: { d: 230, length: 213, height: 0 },
  tangential: null,
} as const;
const PSI = 0.4;
const radii = [146.05, 120, 100, 72, 60.325];

/** Where along its arc the tip is at |P − C| = r. */
function tipOn(
  arm: ArmPath['arm'],
  centre: { x: number; y: number },
  r: number,
  lift: number,
): { x: number; y: number } {
  const reach = arm === null ? 0 : Math.sqrt(arm.length ** 2 + arm.height ** 2 - (arm.height - lift) ** 2);
  const place = (g: number) =>
    arm === null ? { x: g, y: 0 } : { x: arm.d - reach * Math.cos(g), y: -reach * Math.sin(g) };
  // from the place nearest to the spindle outwards
  let [low, high] = arm === null ? [1, 400] : [arm.length < arm.d ? 0 : Math.acos(arm.d / arm.length) * 0.3, 1.6];
  if (arm !== null && arm.length > arm.d) low = 0.02;
  for (let i = 0; i < 200; i++) {
    const middle = (low + high) / 2;
    const p = place(middle);
    if (Math.hypot(p.x - centre.x, p.y - centre.y) < r) low = middle;
    else high = middle;
  }
  return place(low);
}

function phasorByRay(path: ArmPath, r: number) {
  const N = 720;
  const angles = Array.from({ length: N }, (_, i) => {
    const turned = (2 * Math.PI * i) / N;
    const a = path.offCentreAngle - turned;
    const centre = { x: path.offCentre * Math.cos(a), y: path.offCentre * Math.sin(a) };
    // the record as it lies where the tip rests
    const rest = tipOn(path.arm, { x: 0, y: 0 }, r, 0);
    const place = turned + Math.atan2(rest.y, rest.x);
    const lift = path.warp.reduce((z, { harmonic, mm, phase }) => z + mm * Math.cos(harmonic * place + phase), 0);
    const tip = tipOn(path.arm, centre, r, lift);
    return Math.atan2(tip.y - centre.y, tip.x - centre.x);
  });
  // first harmonic of the bearing, then its derivative: times i
  let re = 0;
  let im = 0;
  angles.forEach((angle, i) => {
    re += (2 / N) * angle * Math.cos((2 * Math.PI * i) / N);
    im -= (2 / N) * angle * Math.sin((2 * Math.PI * i) / N);
  });
  return { re: -im, im: re };
}

function byFormula(arm: ArmPath['arm'], e: number, r: number) {
  if (arm === null) return { re: (e / r) * Math.cos(PSI), im: -(e / r) * Math.sin(PSI) };
  const theta = Math.asin((r * r + arm.length ** 2 - arm.d ** 2) / (2 * r * arm.length));
  const lambda = Math.acos((r * r + arm.d ** 2 - arm.length ** 2) / (2 * r * arm.d));
  const size = e / (r * Math.cos(theta));
  return { re: size * Math.cos(-(lambda - theta) - PSI), im: size * Math.sin(-(lambda - theta) - PSI) };
}

test.each(Object.keys(arms) as (keyof typeof arms)[])(
  '%s arm: kinematics, a ray of its own, and the formula agree',
  (name) => {
    const path: ArmPath = { arm: arms[name], offCentre: 0.2, offCentreAngle: PSI, warp: [] };
    for (const r of radii) {
      const [first] = speedHarmonics(path, r);
      const here = { re: first.amplitude * Math.cos(first.phase), im: first.amplitude * Math.sin(first.phase) };
      const ray = phasorByRay(path, r);
      expect(Math.hypot(here.re - ray.re, here.im - ray.im), `ray at ${r} mm`).toBeLessThan(1e-10);
      const formula = byFormula(arms[name], 0.2, r);
      expect(
        Math.hypot(here.re - formula.re, here.im - formula.im) / first.amplitude,
        `formula at ${r} mm`,
      ).toBeLessThan(6e-6);
    }
  },
);

test('e/r alone is 8 to 10 % short on a 9-inch arm, 5 to 6 % on a 12-inch, right on a tangential one (computed from the exact kinematics)', () => {
  const excess = (arm: ArmPath['arm'], r: number) =>
    speedHarmonics({ arm, offCentre: 0.2, offCentreAngle: 0, warp: [] }, r)[0].amplitude / (0.2 / r) - 1;
  for (const r of radii) {
    expect(excess(arms['9-inch'], r)).toBeGreaterThan(0.075);
    expect(excess(arms['9-inch'], r)).toBeLessThan(0.105);
    expect(excess(arms['12-inch'], r)).toBeGreaterThan(0.045);
    expect(excess(arms['12-inch'], r)).toBeLessThan(0.062);
    expect(Math.abs(excess(null, r))).toBeLessThan(3e-6);
  }
});

test('a warp changes the speed by z tan β / (r cos θ), slower while the tip rises under a bearing that lies higher', () => {
  const arm = { d: 222, length: 239.296, height: 20 };
  const path: ArmPath = { arm, offCentre: 0, offCentreAngle: 0, warp: [{ harmonic: 1, mm: 0.25, phase: 0 }] };
  for (const r of radii) {
    const [first] = speedHarmonics(path, r);
    const theta = Math.asin((r * r + arm.length ** 2 - arm.d ** 2) / (2 * r * arm.length));
    expect(first.amplitude / ((0.25 * (20 / arm.length)) / (r * Math.cos(theta)))).toBeCloseTo(1, 2);
    // z = cos(Θ − λ) falls a quarter turn after its crest, where the speed is highest
    const lambda = Math.acos((r * r + arm.d ** 2 - arm.length ** 2) / (2 * r * arm.d));
    const off = first.phase + Math.PI / 2 + lambda;
    expect(off - 2 * Math.PI * Math.round(off / (2 * Math.PI))).toBeCloseTo(0, 2);
    const ray = phasorByRay(path, r);
    expect(
      Math.hypot(first.amplitude * Math.cos(first.phase) - ray.re, first.amplitude * Math.sin(first.phase) - ray.im),
    ).toBeLessThan(1e-10);
  }
});

test.each(Object.keys(arms) as (keyof typeof arms)[])(
  "%s arm: the bearing's derivatives are those of its values",
  (name) => {
    const arm = arms[name];
    const path: ArmPath = {
      arm: arm === null ? null : { ...arm, height: 15 },
      offCentre: 1.3,
      offCentreAngle: PSI,
      warp: [{ harmonic: 2, mm: 0.6, phase: 1 }],
    };
    // Θ(t) = 0.7 + 3.5 t + 0.8 t²
    const turning = (t: number) => ({ angle: 0.7 + 3.5 * t + 0.8 * t * t, rate: 3.5 + 1.6 * t, bend: 1.6 });
    const at = (t: number, r: number) => ({ ...bearingOf(path, r, turning(t), emptyBearing()) });
    const [t, r, h] = [0.3, 90, 1e-4];
    const here = at(t, r);
    const slope = (of: (x: number) => number) => (of(h) - of(-h)) / (2 * h);
    expect(here.byTime).toBeCloseTo(
      slope((x) => at(t + x, r).angle),
      6,
    );
    expect(here.byTimeTwice).toBeCloseTo(
      slope((x) => at(t + x, r).byTime),
      6,
    );
    expect(here.byRadius).toBeCloseTo(
      slope((x) => at(t, r + x).angle),
      8,
    );
    expect(here.byRadiusTwice).toBeCloseTo(
      slope((x) => at(t, r + x).byRadius),
      8,
    );
    expect(here.byTimeAndRadius).toBeCloseTo(
      slope((x) => at(t, r + x).byTime),
      8,
    );
  },
);
