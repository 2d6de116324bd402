/**
 * How the groove passes under the tip: exact integration of the instantaneous speed.
 *
 *   platter    p(t) = (1 + m)(1 + Σ aᵢ cos(ωᵢ t + φᵢ))      Θ(t) = Θ₀ + Ω ∫ p dt
 *   groove     dτ/dt = p(t)·(1 + (e/r) cos(Θ(t) − ψ))        τ = groove time: seconds at the exact speed
 *
 * m is the mean speed error; the sum holds wow (multiples of the mean rotation), flutter and drift; its integral is taken
 * in closed form. The hole's part is integrated over steps of ¼ ms by the trapezium rule with its end correction. Between those knots τ is the quintic
 * polynomial through τ, τ′ and τ″ at both ends, so that it is smooth at every sample rate (error below 1e-13 s).
 * Second order in e/r (below 1e-4 of the effect for any playable record) is left out.
 */
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

export interface SpeedModel {
  readonly lines: readonly SpeedLine[];
  /** Σ (aᵢ/ωᵢ) sin φᵢ: what the integral of the lines starts from, s */
  readonly areaAtStart: number;
  /** 1 + m */
  readonly mean: number;
  /** mean rotation, rad/s */
  readonly turning: number;
  readonly startAngle: number;
  /** mm and rad */
  readonly offCentre: number;
  readonly offCentreAngle: number;
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

const DRIFT_LINES = 28;
const DRIFT_FROM_HZ = 0.03;
const DRIFT_TO_HZ = 3;
const rad = (deg: number) => (deg * Math.PI) / 180;

export function speedModel(deck: Deck, side: Side, seed: number): SpeedModel {
  const mean = 1 + deck.platter.speedErrorPercent / 100;
  const turning = 2 * Math.PI * (side.rpm / 60) * mean;
  const startAngle = rad(deck.platter.startAngleDeg);
  const lines: SpeedLine[] = [];
  for (const wow of deck.platter.wow) {
    lines.push({
      kind: 'wow',
      omega: wow.harmonic * turning,
      amplitude: wow.percent / 100,
      phase: wow.harmonic * startAngle + rad(wow.phaseDeg),
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
    areaAtStart: lines.reduce((sum, { amplitude, omega, phase }) => sum + (amplitude / omega) * Math.sin(phase), 0),
    mean,
    turning,
    startAngle,
    offCentre: deck.record.offCentreMm,
    offCentreAngle: rad(deck.record.offCentreAngleDeg),
    side,
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

export function platterAt(model: SpeedModel, t: number, into: PlatterState): PlatterState {
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
  into.speed = model.mean * (1 + deviation);
  into.slope = model.mean * slope;
  into.travelled = model.mean * (t + area);
  into.angle = model.startAngle + model.turning * (t + area);
  return into;
}

/** Groove time τ with its first two derivatives at one moment. */
export interface Knot {
  t: number;
  tau: number;
  rate: number;
  bend: number;
  /** the hole's share of τ so far, s, and of its rate */
  hole: number;
  holeRate: number;
}

/** Marches through the take in equal steps; `step` returns the same object every time. */
export function speedMarch(model: SpeedModel, stepS: number): { knot: Knot; step(): Knot } {
  const { offCentre, offCentreAngle, side } = model;
  const state: PlatterState = { speed: 0, slope: 0, travelled: 0, angle: 0 };
  const knot: Knot = { t: 0, tau: 0, rate: 0, bend: 0, hole: 0, holeRate: 0 };
  /** the hole's share of τ so far, s, with its first two derivatives */
  let hole = 0;
  let holeRate = 0;
  let holeBend = 0;
  let count = 0;

  /** p·(e/r) cos(Θ − ψ) and its slope, at groove time τ */
  const takeHole = (tau: number) => {
    const radius = radiusAt(side, tau);
    const angle = state.angle - offCentreAngle;
    const share = (offCentre / radius.mm) * Math.cos(angle);
    // Θ′ = Ω p with Ω the exact rotation, turning / mean; r′ = (dr/dτ) τ′
    const angleRate = (model.turning / model.mean) * state.speed;
    const shareSlope =
      -(offCentre / radius.mm) * Math.sin(angle) * angleRate -
      (share / radius.mm) * radius.slope * state.speed * (1 + share);
    holeRate = state.speed * share;
    holeBend = state.slope * share + state.speed * shareSlope;
  };
  const settle = () => {
    knot.tau = state.travelled + hole;
    knot.rate = state.speed + holeRate;
    knot.bend = state.slope + holeBend;
    knot.hole = hole;
    knot.holeRate = holeRate;
  };

  platterAt(model, 0, state);
  if (offCentre !== 0) takeHole(0);
  settle();
  return {
    knot,
    step() {
      const guess = knot.tau + knot.rate * stepS;
      const rate = holeRate;
      const bend = holeBend;
      knot.t = ++count * stepS;
      platterAt(model, knot.t, state);
      if (offCentre !== 0) {
        takeHole(guess);
        // Trapezium with its end correction (Euler–Maclaurin), error of the order of h⁵.
        hole += (stepS / 2) * (rate + holeRate) + ((stepS * stepS) / 12) * (bend - holeBend);
      }
      settle();
      return knot;
    },
  };
}

export const KNOT_STEP_S = 0.00025;

/**
 * Streams τ and dτ/dt at sample times.
 * @param fromS the capture's first frame, s of the whole take
 */
export function grooveClock(model: SpeedModel, sampleRateHz: number, fromS: number) {
  const march = speedMarch(model, KNOT_STEP_S);
  // The quintic of the present step: τ(u) = Σ c[k] uᵏ, 0 ≤ u ≤ 1.
  const c = new Float64Array(6);
  let startS = 0;
  let endS = 0;
  const advance = () => {
    const { t, tau, rate, bend } = march.knot;
    march.step();
    const h = KNOT_STEP_S;
    startS = t;
    endS = march.knot.t;
    const d = march.knot.tau - tau;
    const v0 = rate * h;
    const v1 = march.knot.rate * h;
    const a0 = bend * h * h;
    const a1 = march.knot.bend * h * h;
    c[0] = tau;
    c[1] = v0;
    c[2] = a0 / 2;
    c[3] = 10 * d - 6 * v0 - 4 * v1 - 1.5 * a0 + 0.5 * a1;
    c[4] = -15 * d + 8 * v0 + 7 * v1 + 1.5 * a0 - a1;
    c[5] = 6 * d - 3 * v0 - 3 * v1 - 0.5 * a0 + 0.5 * a1;
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

/** Steps of the march that looks for moments: the hole's share of τ is slow, the platter's is known in closed form. */
const SEEK_STEP_S = 0.02;

/**
 * Times at which the given groove times pass under the tip, within 1e-6 s (a fast flutter on a large hole; 1e-8 s without).
 * @param grooveTimes s, ascending, ≥ 0
 * @returns s of the whole take, one for each
 */
export function timesOf(model: SpeedModel, grooveTimes: readonly number[]): number[] {
  const march = speedMarch(model, SEEK_STEP_S);
  const state: PlatterState = { speed: 0, slope: 0, travelled: 0, angle: 0 };
  let from = { ...march.knot };
  return grooveTimes.map((wanted) => {
    while (march.knot.tau < wanted) {
      from = { ...march.knot };
      march.step();
    }
    const to = march.knot;
    const width = to.t - from.t;
    if (width === 0) return to.t;
    // Newton on ∫ p dt + hole(t) = τ, the hole's share as the cubic through its values and slopes at both knots.
    let t = from.t + ((wanted - from.tau) / (to.tau - from.tau)) * width;
    for (let round = 0; round < 20; round++) {
      platterAt(model, t, state);
      const u = (t - from.t) / width;
      const d = to.hole - from.hole;
      const s0 = from.holeRate * width;
      const s1 = to.holeRate * width;
      const hole = from.hole + u * (s0 + u * (3 * d - 2 * s0 - s1 + u * (s0 + s1 - 2 * d)));
      const step = (state.travelled + hole - wanted) / (state.speed + (s0 + u * (s1 - s0)) / width);
      t -= step;
      if (Math.abs(step) < 1e-12) break;
    }
    return t;
  });
}
