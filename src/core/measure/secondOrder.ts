/**
 * The arm on its spring as the tip feels it, and its fit to levels along a sweep.
 *
 *   H(s) = s² / (s² + s ω₀/Q + ω₀²)        velocity of the tip against the body, over that of the groove
 *
 * Levels are fitted in dB with gain, f₀ and Q free; the model's own maximum counts, so that Q is right below 2 as well.
 *
 * @checked test/loops/resonance.test.ts, test/independent/sweeps.test.ts
 */

import { median } from '../signal/robust.ts';
import { solveSymmetric } from '../signal/solveSymmetric.ts';
import { armTransfer, type SweptPoint, sweptLevel } from './sweptArm.ts';

export interface LevelPoint extends SweptPoint {
  /** dB, all that is known of cut and chain taken off */
  readonly db: number;
  /** dB, standard */
  readonly spread: number;
}

export interface ResonanceFit {
  readonly hz: number;
  readonly q: number;
  /** of the passband, dB */
  readonly gainDb: number;
  /** standard, relative to the value, from what is left over */
  readonly hzSpread: number;
  readonly qSpread: number;
  /** rms of what is left over, dB */
  readonly leftDb: number;
}

export type FittedResonance = ResonanceFit | { readonly why: 'resonance-not-enclosed' | 'resonance-no-fit' };

/** the sweep reaches so far beyond the resonance on either side, ratio */
const ENCLOSED = 1.12;
const LEAST_POINTS = 8;
const MOST_LEFT_DB = 2.5;
/** no level is known better, dB: what the cut's own ripple and the groove leave */
const LEAST_SPREAD_DB = 0.05;

export function fitResonance(points: readonly LevelPoint[]): FittedResonance {
  if (points.length < LEAST_POINTS) return { why: 'resonance-no-fit' };
  const low = Math.min(...points.map(({ hz }) => hz));
  const high = Math.max(...points.map(({ hz }) => hz));
  let weights = points.map(({ spread }) => 1 / Math.hypot(spread, LEAST_SPREAD_DB) ** 2);
  let at = start(points, weights, low, high);
  for (let round = 0; round < 4; round++) {
    at = descend(points, weights, at);
    const left = points.map((p, i) => Math.abs(residual(p, at)) * Math.sqrt(weights[i]));
    const unit = Math.max(1, 1.4826 * median(left));
    // what lies far off, as under a click or a hum line, counts less
    weights = points.map(
      ({ spread }, i) => Math.min(1, (3 * unit) / Math.max(left[i], 1e-9)) / Math.hypot(spread, LEAST_SPREAD_DB) ** 2,
    );
  }
  const hz = Math.exp(at[0]);
  const q = Math.exp(at[1]);
  const left = points.map((p) => residual(p, at));
  const whole = weights.reduce((a, b) => a + b, 0);
  const leftDb = Math.sqrt(left.reduce((sum, r, i) => sum + weights[i] * r * r, 0) / whole);
  if (!(leftDb < MOST_LEFT_DB && q > 0.35 && q < 25)) return { why: 'resonance-no-fit' };
  if (!(hz > low * ENCLOSED && hz < high / ENCLOSED)) return { why: 'resonance-not-enclosed' };
  const chi = left.reduce((sum, r, i) => sum + weights[i] * r * r, 0) / Math.max(1, points.length - 3);
  const solved = solveSymmetric(normal(points, weights, at).matrix, [0, 0, 0]);
  if (solved === null) return { why: 'resonance-no-fit' };
  // windows overlap by two thirds: three neighbours tell what two would
  const scale = 1.5 * Math.max(1, chi);
  return {
    hz,
    q,
    gainDb: at[2],
    hzSpread: Math.sqrt(scale * solved.inverse[0][0]),
    qSpread: Math.sqrt(scale * solved.inverse[1][1]),
    leftDb,
  };
}

/** ln f₀, ln Q, gain in dB */
type Guess = readonly [number, number, number];

const residual = (p: LevelPoint, [lnHz, lnQ, gain]: Guess): number =>
  p.db - gain - sweptLevel(p, Math.exp(lnHz), Math.exp(lnQ));

const cost = (points: readonly LevelPoint[], weights: readonly number[], at: Guess): number =>
  points.reduce((sum, p, i) => sum + weights[i] * residual(p, at) ** 2, 0);

const steadyLevel = (hz: number, f0: number, q: number): number => {
  const { re, im } = armTransfer(hz, f0, q);
  return 10 * Math.log10(re * re + im * im);
};

/** The best of a grid, the gain its own best each time. */
function start(points: readonly LevelPoint[], weights: readonly number[], low: number, high: number): Guess {
  let best: Guess = [Math.log(10), 0.7, 0];
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i <= 16; i++) {
    const hz = low * (high / low) ** (i / 16);
    for (const q of [0.6, 1, 1.7, 3, 5, 9]) {
      const off = points.map((p) => p.db - steadyLevel(p.hz, hz, q));
      const gain = median(off);
      const at: Guess = [Math.log(hz), Math.log(q), gain];
      const here = points.reduce((sum, _, k) => sum + weights[k] * Math.min(9, (off[k] - gain) ** 2), 0);
      if (here < least) {
        least = here;
        best = at;
      }
    }
  }
  return best;
}

function normal(points: readonly LevelPoint[], weights: readonly number[], at: Guess) {
  const matrix = [0, 1, 2].map(() => new Float64Array(3));
  const right = new Float64Array(3);
  points.forEach((p, i) => {
    const d = 1e-4;
    const slope = [0, 1].map((k) => {
      const up = at.map((v, j) => (j === k ? v + d : v)) as unknown as Guess;
      const down = at.map((v, j) => (j === k ? v - d : v)) as unknown as Guess;
      return (residual(p, down) - residual(p, up)) / (2 * d);
    });
    const row = [...slope, 1];
    const r = residual(p, at);
    for (let a = 0; a < 3; a++) {
      right[a] += weights[i] * row[a] * r;
      for (let b = 0; b < 3; b++) matrix[a][b] += weights[i] * row[a] * row[b];
    }
  });
  return { matrix, right };
}

/** Levenberg and Marquardt. */
function descend(points: readonly LevelPoint[], weights: readonly number[], from: Guess): Guess {
  let at = from;
  let here = cost(points, weights, at);
  let damping = 1e-3;
  for (let i = 0; i < 40 && damping < 1e9; i++) {
    const { matrix, right } = normal(points, weights, at);
    matrix.forEach((row, k) => {
      row[k] *= 1 + damping;
    });
    const step = solveSymmetric(matrix, right)?.solution;
    if (step === undefined) {
      damping *= 10;
      continue;
    }
    const next = at.map(
      (v, k) => v + Math.max(-0.5, Math.min(0.5, k === 2 ? step[k] / 10 : step[k])) * (k === 2 ? 10 : 1),
    ) as unknown as Guess;
    const there = cost(points, weights, next);
    if (there < here) {
      const done = here - there < 1e-10 * here;
      at = next;
      here = there;
      damping /= 5;
      if (done) break;
    } else damping *= 4;
  }
  return at;
}
