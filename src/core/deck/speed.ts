/**
 * How the groove passes under the tip: exact integration of the instantaneous speed, and exact kinematics of the tip.
 *
 *   platter    p(t) = (1 + m)(1 + Σ aᵢ cos(ωᵢ t + φᵢ))      Θ(t) = Θ₀ + Ω ∫ p dt
 *   groove     Ω τ = Θ(t) − Θ(0) + ϑ(t, r(τ)) − ϑ(0, r(0))     τ = groove time: seconds at the exact speed
 *
 * m is the mean speed error with the tip down, warmed up; the sum holds wow (multiples of the mean rotation), flutter and drift; its integral is taken
 * in closed form. ϑ is the tip's bearing from the groove's centre (armPath.ts): it holds the hole off centre, the warp and the
 * groove's way inwards. τ is found by Newton's rule every ¼ ms; between those knots it is the quintic polynomial through
 * τ, τ′ and τ″ at both ends, so that it is smooth at every sample rate (error below 1e-13 s).
 */
import { type ArmPath, bearingOf, emptyBearing } from './armPath.ts';
import type { Deck } from './deck.ts';
import { random } from './random.ts';
import { radiusAt, type Side } from './side.ts';

/** One sinusoid of the platter's deviation: a cos(ωt + φ), a as a ratio. */
export interface SpeedLine {
  readonly kind: 'wow' | 'flutter' | 'drift';
  /** rad/s */
  readonly omega: number;
  readonly amplitude: number;
  readonly phase: number;
}

/** A part of the deviation that dies away: size until `fromS`, then size · e^(−(t − fromS)/perS). */
export interface SpeedEase {
  readonly size: number;
  readonly fromS: number;
  readonly perS: number;
}

export interface SpeedModel {
  readonly lines: readonly SpeedLine[];
  readonly eases: readonly SpeedEase[];
  /** Σ (aᵢ/ωᵢ) sin φᵢ: what the integral of the lines starts from, s */
  readonly areaAtStart: number;
  /** 1 + m */
  readonly mean: number;
  /** mean rotation, rad/s */
  readonly turning: number;
  /** the record's angle at the start of the take, rad; the platter's own is this less `record.turnedDeg` */
  readonly startAngle: number;
  readonly path: ArmPath;
  readonly side: Side;
}

/** Platter speed p, its slope, and the platter's angle at a time; all in closed form. */
export interface PlatterState {
  speed: number;
  slope: number;
  /** ∫ p dt from 0, s */
  travelled: number;
  /** rad */
  angle: number;
}

/** s in which a platter gives way to the tip's drag */
const DRAG_S = 0.3;
const DRIFT_LINES = 28;
const DRIFT_FROM_HZ = 0.03;
const DRIFT_TO_HZ = 3;
const rad = (deg: number) => (deg * Math.PI) / 180;

export function speedModel(deck: Deck, side: Side, seed: number): SpeedModel {
  const { speedErrorPercent, dragPercent, warmUpPercent, warmUpMinutes } = deck.platter;
  const drag = dragPercent / 100;
  const mean = (1 + speedErrorPercent / 100) * (1 - drag);
  const eases = [
    { size: drag / (1 - drag), fromS: side.dropS / mean, perS: DRAG_S },
    { size: warmUpPercent / 100, fromS: 0, perS: 60 * warmUpMinutes },
  ].filter(({ size }) => size !== 0);
  const turning = 2 * Math.PI * (side.rpm / 60) * mean;
  const startAngle = rad(deck.platter.startAngleDeg);
  const lines: SpeedLine[] = [];
  for (const wow of deck.platter.wow) {
    lines.push({
      kind: 'wow',
      omega: wow.harmonic * turning,
      amplitude: wow.percent / 100,
      phase: wow.harmonic * (startAngle - rad(deck.record.turnedDeg)) + rad(wow.phaseDeg),
    });
  }
  for (const flutter of deck.platter.flutter) {
    lines.push({
      kind: 'flutter',
      omega: 2 * Math.PI * flutter.hz,
      amplitude: flutter.percent / 100,
      phase: rad(flutter.phaseDeg),
    });
  }
  lines.push(...driftLines(deck.platter.driftPercent / 100, seed));
  return {
    lines,
    eases,
    areaAtStart: lines.reduce((sum, { amplitude, omega, phase }) => sum + (amplitude / omega) * Math.sin(phase), 0),
    mean,
    turning,
    startAngle,
    path: armPath(deck),
    side,
  };
}

/** The arm, the hole and the warp of a deck. */
function armPath({ arm, record }: Deck): ArmPath {
  const { geometry } = arm;
  return {
    arm:
      geometry === null
        ? null
        : { d: geometry.spindleToPivotMm, length: geometry.effectiveLengthMm, height: arm.pivotHeightMm },
    offCentre: record.offCentreMm,
    offCentreAngle: rad(record.offCentreAngleDeg),
    warp: record.warp.map(({ harmonic, mm, phaseDeg }) => ({ harmonic, mm, phase: rad(phaseDeg) })),
  };
}

/** Drift: lines of random phase, evenly spaced in log f and jittered, power falling as 1/f; rms as asked. */
function driftLines(rms: number, seed: number): SpeedLine[] {
  if (rms === 0) return [];
  const dice = random(seed, 1);
  const raw = Array.from({ length: DRIFT_LINES }, (_, i) => {
    const hz = DRIFT_FROM_HZ * (DRIFT_TO_HZ / DRIFT_FROM_HZ) ** ((i + dice.uniform()) / DRIFT_LINES);
    return { hz, amplitude: hz ** -0.5, phase: 2 * Math.PI * dice.uniform() };
  });
  const power = raw.reduce((sum, line) => sum + line.amplitude ** 2 / 2, 0);
  return raw.map(({ hz, amplitude, phase }) => ({
    kind: 'drift' as const,
    omega: 2 * Math.PI * hz,
    amplitude: (amplitude * rms) / Math.sqrt(power),
    phase,
  }));
}

function platterAt(model: SpeedModel, t: number, into: PlatterState): PlatterState {
  let deviation = 0;
  let slope = 0;
  let area = -model.areaAtStart;
  for (const { omega, amplitude, phase } of model.lines) {
    const cos = Math.cos(omega * t + phase);
    const sin = Math.sin(omega * t + phase);
    deviation += amplitude * cos;
    slope -= amplitude * omega * sin;
    area += (amplitude / omega) * sin;
  }
  for (const { size, fromS, perS } of model.eases) {
    const left = t > fromS ? Math.exp((fromS - t) / perS) : 1;
    deviation += size * left;
    slope -= t > fromS ? (size * left) / perS : 0;
    area += size * (t > fromS ? fromS + perS * (1 - left) : t);
  }
  into.speed = model.mean * (1 + deviation);
  into.slope = model.mean * slope;
  into.travelled = model.mean * (t + area);
  into.angle = model.startAngle + model.turning * (t + area);
  return into;
}

/** Groove time τ with its first two derivatives at one moment. */
export interface Knot {
  tau: number;
  rate: number;
  bend: number;
}

/** @returns finds τ, τ′ and τ″ at a time; the same object every time */
export function grooveTime(model: SpeedModel): (t: number) => Knot {
  const { path, side } = model;
  const state: PlatterState = { speed: 0, slope: 0, travelled: 0, angle: 0 };
  const bearing = emptyBearing();
  const knot: Knot = { tau: 0, rate: 0, bend: 0 };
  /** rad/s at the exact speed */
  const omega = model.turning / model.mean;
  const turning = { angle: 0, rate: 0, bend: 0 };
  const at = (t: number) => {
    platterAt(model, t, state);
    turning.angle = state.angle;
    turning.rate = omega * state.speed;
    turning.bend = omega * state.slope;
  };
  at(0);
  const start = bearingOf(path, radiusAt(side, 0).mm, turning, bearing).angle;
  return (t) => {
    at(t);
    let tau = state.travelled + (bearing.angle - start) / omega;
    let radius = radiusAt(side, tau);
    for (let round = 0; round < 30; round++) {
      bearingOf(path, radius.mm, turning, bearing);
      const miss = tau - state.travelled - (bearing.angle - start) / omega;
      const step = miss / (1 - (bearing.byRadius * radius.slope) / omega);
      tau -= step;
      if (Math.abs(step) < 1e-15 * (1 + tau)) break;
      radius = radiusAt(side, tau);
    }
    const { slope, bend } = radius;
    const free = omega - bearing.byRadius * slope;
    knot.tau = tau;
    knot.rate = (turning.rate + bearing.byTime) / free;
    knot.bend =
      (turning.bend +
        bearing.byTimeTwice +
        2 * bearing.byTimeAndRadius * slope * knot.rate +
        (bearing.byRadiusTwice * slope * slope + bearing.byRadius * bend) * knot.rate ** 2) /
      free;
    return knot;
  };
}

const KNOT_STEP_S = 0.00025;

/**
 * Streams τ and dτ/dt at sample times.
 * @param fromS the capture's first frame, s of the whole take
 */
export function grooveClock(model: SpeedModel, sampleRateHz: number, fromS: number) {
  const timeAt = grooveTime(model);
  // The quintic of the present step: τ(u) = Σ c[k] uᵏ, 0 ≤ u ≤ 1.
  const c = new Float64Array(6);
  const h = KNOT_STEP_S;
  let index = Math.floor(fromS / h);
  let from: Knot = { ...timeAt(index * h) };
  let startS = 0;
  let endS = 0;
  const advance = () => {
    startS = index * h;
    endS = ++index * h;
    const to = timeAt(endS);
    const d = to.tau - from.tau;
    const v0 = from.rate * h;
    const v1 = to.rate * h;
    const a0 = from.bend * h * h;
    const a1 = to.bend * h * h;
    c[0] = from.tau;
    c[1] = v0;
    c[2] = a0 / 2;
    c[3] = 10 * d - 6 * v0 - 4 * v1 - 1.5 * a0 + 0.5 * a1;
    c[4] = -15 * d + 8 * v0 + 7 * v1 + 1.5 * a0 - a1;
    c[5] = 6 * d - 3 * v0 - 3 * v1 - 0.5 * a0 + 0.5 * a1;
    from = { ...to };
  };
  advance();
  let frame = 0;
  return {
    /** Fills groove time (s) and its rate for the next `count` samples. */
    fill(tau: Float64Array, rate: Float64Array, count: number): void {
      for (let i = 0; i < count; i++, frame++) {
        const t = fromS + frame / sampleRateHz;
        while (t >= endS) advance();
        const u = (t - startS) / KNOT_STEP_S;
        tau[i] = c[0] + u * (c[1] + u * (c[2] + u * (c[3] + u * (c[4] + u * c[5]))));
        rate[i] = (c[1] + u * (2 * c[2] + u * (3 * c[3] + u * (4 * c[4] + u * 5 * c[5])))) / KNOT_STEP_S;
      }
    },
  };
}

/**
 * Times at which the given groove times pass under the tip, within 1e-10 s.
 * @param grooveTimes s, ascending, ≥ 0
 * @returns s of the whole take, one for each
 */
export function timesOf(model: SpeedModel, grooveTimes: readonly number[]): number[] {
  const timeAt = grooveTime(model);
  return grooveTimes.map((wanted) => {
    let t = wanted / model.mean;
    for (let round = 0; round < 50; round++) {
      const { tau, rate } = timeAt(t);
      const step = (tau - wanted) / rate;
      t -= step;
      if (Math.abs(step) < 1e-12) break;
    }
    return Math.max(0, t);
  });
}
