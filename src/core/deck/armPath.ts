/**
 * Where the tip meets the groove, by kinematics alone: no small angles, no expansion in the hole.
 *
 * Plan view, spindle at the origin, pivot at (d, 0), the record turning clockwise by Θ. The groove is a circle of radius r about
 * C = e (cos a, sin a), a = ψ − Θ; the tip lies where it meets the arm's arc of radius L about the pivot, on the left of the
 * line from C to the pivot as seen from the pivot. With D = pivot − C, q = |D| and δ its bearing, the tip's bearing from C is
 *
 *   ϑ = δ − arccos((r² + q² − L²) / (2 r q))
 *
 * and the groove passes under it by dΘ + dϑ. A warp lifts the tip by z, as the record lies where the tip rests: at Θ − λ(r), λ the
 * tip's bearing without hole and warp. The arm's bearing lies h above the record, so it reaches L² + 2hz − z² (squared) in plan. A tangential arm keeps its tip on the line through the spindle: ϑ = arcsin(−e sin a / r).
 */
export interface ArmPath {
  /** mm; null for a tangential arm */
  readonly arm: { readonly d: number; readonly length: number; readonly height: number } | null;
  /** mm and rad: the hole off centre, and ψ */
  readonly offCentre: number;
  readonly offCentreAngle: number;
  /** z = Σ mm cos(harmonic·(Θ − λ) + phase); λ is left out on a tangential arm, whose tip keeps its bearing */
  readonly warp: readonly { readonly harmonic: number; readonly mm: number; readonly phase: number }[];
}

/** The record's angle and what it does in time, rad, rad/s, rad/s². */
export interface Turning {
  readonly angle: number;
  readonly rate: number;
  readonly bend: number;
}

/** ϑ with its derivatives in time (at one radius) and in the radius. */
export interface Bearing {
  angle: number;
  byTime: number;
  byRadius: number;
  byTimeTwice: number;
  byTimeAndRadius: number;
  byRadiusTwice: number;
}

export const emptyBearing = (): Bearing => ({
  angle: 0,
  byTime: 0,
  byRadius: 0,
  byTimeTwice: 0,
  byTimeAndRadius: 0,
  byRadiusTwice: 0,
});

/** −λ: where the tip rests, from the spindle, against the pivot; rad, with its derivatives in the radius. */
export function restOf({ d, length }: { readonly d: number; readonly length: number }, r: number) {
  const u = (r * r + d * d - length * length) / (2 * r * d);
  const ur = 1 / d - u / r;
  const urr = (2 * u) / (r * r) - 1 / (r * d);
  const s = Math.sqrt(1 - u * u);
  return { bearing: -Math.acos(u), byRadius: ur / s, byRadiusTwice: urr / s + (u * ur * ur) / s ** 3 };
}

/** @param r groove radius, mm, one that the arm reaches (tracking.ts refuses others) */
export function bearingOf(
  { arm, offCentre: e, offCentreAngle, warp }: ArmPath,
  r: number,
  turning: Turning,
  into: Bearing,
): Bearing {
  const a = offCentreAngle - turning.angle;
  const cos = Math.cos(a);
  const sin = Math.sin(a);
  const { rate, bend } = turning;
  if (arm === null) {
    // S = −e sin a / r, a′ = −Θ′
    const s = (-e * sin) / r;
    const st = (e * cos * rate) / r;
    const stt = (e * (cos * bend + sin * rate * rate)) / r;
    const k = Math.sqrt(1 - s * s);
    into.angle = Math.asin(s);
    into.byTime = st / k;
    into.byRadius = -s / r / k;
    into.byTimeTwice = stt / k + (s * st * st) / k ** 3;
    into.byTimeAndRadius = -st / r / k - (s * s * st) / r / k ** 3;
    into.byRadiusTwice = (2 * s) / (r * r) / k + s ** 3 / (r * r) / k ** 3;
    return into;
  }
  let z = 0;
  let zt = 0;
  let ztt = 0;
  let zr = 0;
  let zrr = 0;
  let zrt = 0;
  if (arm.height !== 0 && warp.length > 0) {
    const rest = restOf(arm, r);
    for (const { harmonic, mm, phase } of warp) {
      const up = mm * Math.cos(harmonic * (turning.angle + rest.bearing) + phase);
      const across = harmonic * mm * Math.sin(harmonic * (turning.angle + rest.bearing) + phase);
      const curved = harmonic ** 2 * up;
      z += up;
      zt -= rate * across;
      ztt -= bend * across + rate * rate * curved;
      zr -= rest.byRadius * across;
      zrr -= rest.byRadiusTwice * across + rest.byRadius ** 2 * curved;
      zrt -= rest.byRadius * rate * curved;
    }
  }
  // m: the arm's reach in plan, squared
  const m = arm.length ** 2 + 2 * arm.height * z - z * z;
  const mt = 2 * (arm.height - z) * zt;
  const mtt = 2 * (arm.height - z) * ztt - 2 * zt * zt;
  const mr = 2 * (arm.height - z) * zr;
  const mrr = 2 * (arm.height - z) * zrr - 2 * zr * zr;
  const mrt = 2 * (arm.height - z) * zrt - 2 * zr * zt;
  const dx = arm.d - e * cos;
  const dy = -e * sin;
  const dxt = -e * sin * rate;
  const dyt = e * cos * rate;
  const dxtt = e * (-sin * bend + cos * rate * rate);
  const dytt = e * (cos * bend + sin * rate * rate);
  const qq = dx * dx + dy * dy;
  const q = Math.sqrt(qq);
  const qt = (dx * dxt + dy * dyt) / q;
  const qtt = (dxt * dxt + dyt * dyt + dx * dxtt + dy * dytt - qt * qt) / q;
  const bearingT = (dx * dyt - dy * dxt) / qq;
  const bearingTt = (dx * dytt - dy * dxtt) / qq - (2 * bearingT * qt) / q;

  const c = (r * r + qq - m) / (2 * r * q);
  // r by itself, and through the warp where it lies
  const cr0 = 1 / q - c / r;
  const cq = 1 / r - c / q;
  const cm = -1 / (2 * r * q);
  const cmr = 1 / (2 * r * r * q);
  const cr = cr0 + cm * mr;
  const crr = -1 / (q * r) + (2 * c) / (r * r) + 2 * cmr * mr + cm * mrr;
  const cqq = -1 / (r * q) + (2 * c) / qq;
  const crq = -1 / qq - 1 / (r * r) + c / (r * q);
  const ct = cq * qt + cm * mt;
  const ctt = cqq * qt * qt + (qt * mt) / (r * qq) + cq * qtt + cm * mtt;
  const crt = crq * qt + cmr * mt + (qt * mr) / (2 * r * qq) + cm * mrt;
  const s = Math.sqrt(1 - c * c);
  const sss = s ** 3;
  into.angle = Math.atan2(dy, dx) - Math.acos(c);
  into.byTime = bearingT + ct / s;
  into.byRadius = cr / s;
  into.byTimeTwice = bearingTt + ctt / s + (c * ct * ct) / sss;
  into.byTimeAndRadius = crt / s + (c * ct * cr) / sss;
  into.byRadiusTwice = crr / s + (c * cr * cr) / sss;
  return into;
}

/** Points of a turn at which the path is taken: harmonics up to the 24th are free of the others to 1e-12. */
const POINTS = 512;
const HARMONICS = 24;

/**
 * What hole and warp do to the groove's speed at one radius, on a platter that turns evenly: harmonics of rotation of dϑ/dΘ.
 * @returns ratios and phases against the record's angle, cosine; the first is the once-per-turn phasor of hole and warp
 */
export function speedHarmonics(
  path: ArmPath,
  radiusMm: number,
): { harmonic: number; amplitude: number; phase: number }[] {
  if (path.offCentre === 0 && (path.warp.length === 0 || path.arm === null || path.arm.height === 0)) return [];
  const bearing = emptyBearing();
  const rates = Float64Array.from(
    { length: POINTS },
    (_, i) => bearingOf(path, radiusMm, { angle: (2 * Math.PI * i) / POINTS, rate: 1, bend: 0 }, bearing).byTime,
  );
  return Array.from({ length: HARMONICS }, (_, i) => {
    let re = 0;
    let im = 0;
    rates.forEach((rate, k) => {
      const angle = (2 * Math.PI * (i + 1) * k) / POINTS;
      re += (2 / POINTS) * rate * Math.cos(angle);
      im -= (2 / POINTS) * rate * Math.sin(angle);
    });
    return { harmonic: i + 1, amplitude: Math.hypot(re, im), phase: Math.atan2(im, re) };
  }).filter(({ amplitude }) => amplitude > 1e-12);
}
