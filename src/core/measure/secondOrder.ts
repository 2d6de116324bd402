/**
 * The arm on its spring as the tip feels it, and its fit to levels along a sweep.
 *
 *   H(s) = s² / (s² + s ω₀/Q + ω₀²)        velocity of the tip against the body, over that of the groove
 *
 * Levels are fitted in dB with gain, f₀ and Q free; the model's own maximum counts, so that Q is right below 2 as well. Far from the resonance the
 * arm's own slopes are known, 12 dB an octave below and none above: so what cut and chain add, a slope and a low corner, is fitted too, held by
 * what is allowed for either. What that leaves of f₀ and Q is told apart by cause.
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

/** What cut and chain may add to a level beside what is taken off; standard. */
export interface Askew {
  /** dB an octave, about 0 */
  readonly slope: number;
  /** Hz, up to which a first-order low corner may lie, none as likely as another */
  readonly cornerHz: number;
}

/** Standard parts of a figure, relative to it. */
interface Parts {
  readonly ofSlope: number;
  readonly ofCorner: number;
}

export interface ResonanceFit {
  readonly hz: number;
  readonly q: number;
  /** of the passband, dB */
  readonly gainDb: number;
  /** standard, relative to the value, from what is left over */
  readonly hzSpread: number;
  readonly qSpread: number;
  /** what slope and corner leave of either beside */
  readonly hzBeside: Parts;
  readonly qBeside: Parts;
  /** of the level that cut and chain add, dB at a frequency */
  readonly besideDb: (hz: number) => number;
  /** rms of what is left over, dB */
  readonly leftDb: number;
  /** the same with what slope and corner had to be bent against what is allowed for them */
  readonly strainDb: number;
}

export type FittedResonance = ResonanceFit | { readonly why: 'resonance-not-enclosed' | 'resonance-no-fit' };

/** the sweep reaches so far beyond the resonance on either side, ratio */
const ENCLOSED = 1.12;
const LEAST_POINTS = 8;
const MOST_LEFT_DB = 2.5;
/** no level is known better, dB: what the cut's own ripple and the groove leave */
const LEAST_SPREAD_DB = 0.05;
/** windows overlap by two thirds: three neighbouring points tell what two would */
const OVERLAP = 1.5;
/** of what is left over against what is allowed for: less than this is chance */
const LEAST_CHI = 0.1;
/** dB an octave and Hz: further askew than this no cut and no chain is */
const MOST_SLOPE = 2;
const MOST_CORNER_HZ = 12;
const SLOPE_ABOUT_HZ = 10;

/** @param askew left out: none of it is there */
export function fitResonance(points: readonly LevelPoint[], askew: Askew | null = null): FittedResonance {
  if (points.length < LEAST_POINTS) return { why: 'resonance-no-fit' };
  const low = Math.min(...points.map(({ hz }) => hz));
  const high = Math.max(...points.map(({ hz }) => hz));
  const held = askew === null ? [] : heldBy(askew);
  let weights = points.map(({ spread }) => 1 / Math.hypot(spread, LEAST_SPREAD_DB) ** 2);
  let at: Guess = [...start(points, weights, low, high), ...held.map(({ mean }) => mean)];
  let scale = OVERLAP;
  for (let round = 0; round < 4; round++) {
    at = descend({ points, weights, held, scale }, at);
    const left = points.map((p, i) => Math.abs(residual(p, at)) * Math.sqrt(weights[i]));
    const unit = Math.max(1, 1.4826 * median(left));
    // what lies far off, as under a click or a hum line, counts less
    weights = points.map(
      ({ spread }, i) => Math.min(1, (3 * unit) / Math.max(left[i], 1e-9)) / Math.hypot(spread, LEAST_SPREAD_DB) ** 2,
    );
    scale = OVERLAP * Math.max(LEAST_CHI, misfit(points, weights, at) / Math.max(1, points.length - 3));
  }
  const hz = Math.exp(at[0]);
  const q = Math.exp(at[1]);
  const whole = weights.reduce((a, b) => a + b, 0);
  const left = misfit(points, weights, at) / whole;
  const leftDb = Math.sqrt(left);
  if (!(leftDb < MOST_LEFT_DB && q > 0.35 && q < 25)) return { why: 'resonance-no-fit' };
  if (!(hz > low * ENCLOSED && hz < high / ENCLOSED)) return { why: 'resonance-not-enclosed' };
  const spreads = spreadsOf({ points, weights, held, scale }, at);
  if (spreads === null) return { why: 'resonance-no-fit' };
  return {
    hz,
    q,
    gainDb: at[2],
    hzSpread: spreads[0].own,
    qSpread: spreads[1].own,
    hzBeside: spreads[0],
    qBeside: spreads[1],
    besideDb: (f) => beside(f, at),
    leftDb,
    strainDb: Math.sqrt(left + (scale * strain(held, at)) / whole),
  };
}

/** ln f₀, ln Q, gain in dB; where cut and chain may be askew, dB an octave and the low corner squared, Hz² */
type Guess = readonly number[];

/** Of a parameter that is held: mean, standard deviation, and where it ends. */
interface Held {
  readonly mean: number;
  readonly spread: number;
  readonly least: number;
  readonly most: number;
}

/** corner 0 to c, none as likely as another: of its square the mean is c²/3, the spread c² √(1/5 − 1/9) */
const heldBy = ({ slope, cornerHz }: Askew): Held[] => [
  { mean: 0, spread: slope, least: -MOST_SLOPE, most: MOST_SLOPE },
  {
    mean: cornerHz ** 2 / 3,
    spread: Math.max(1e-3, cornerHz ** 2 * Math.sqrt(1 / 5 - 1 / 9)),
    least: 0,
    most: MOST_CORNER_HZ ** 2,
  },
];

interface Task {
  readonly points: readonly LevelPoint[];
  readonly weights: readonly number[];
  readonly held: readonly Held[];
  /** by which the misfit is too large for so many independent points */
  readonly scale: number;
}

const beside = (hz: number, [, , , slope = 0, corner = 0]: Guess): number =>
  slope * Math.log2(hz / SLOPE_ABOUT_HZ) - 10 * Math.log10(1 + corner / hz ** 2);

const residual = (p: LevelPoint, at: Guess): number =>
  p.db - at[2] - beside(p.hz, at) - sweptLevel(p, Math.exp(at[0]), Math.exp(at[1]));

const misfit = (points: readonly LevelPoint[], weights: readonly number[], at: Guess): number =>
  points.reduce((sum, p, i) => sum + weights[i] * residual(p, at) ** 2, 0);

const strain = (held: readonly Held[], at: Guess): number =>
  held.reduce((sum, { mean, spread }, k) => sum + ((at[3 + k] - mean) / spread) ** 2, 0);

const cost = ({ points, weights, held, scale }: Task, at: Guess): number =>
  misfit(points, weights, at) / scale + strain(held, at);

const steadyLevel = (hz: number, f0: number, q: number): number => {
  const { re, im } = armTransfer(hz, f0, q);
  return 10 * Math.log10(re * re + im * im);
};

/** The best of a grid, the gain its own best each time. */
function start(
  points: readonly LevelPoint[],
  weights: readonly number[],
  low: number,
  high: number,
): [number, number, number] {
  let best: [number, number, number] = [Math.log(10), 0.7, 0];
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i <= 16; i++) {
    const hz = low * (high / low) ** (i / 16);
    for (const q of [0.6, 1, 1.7, 3, 5, 9]) {
      const off = points.map((p) => p.db - steadyLevel(p.hz, hz, q));
      const gain = median(off);
      const at: [number, number, number] = [Math.log(hz), Math.log(q), gain];
      const here = points.reduce((sum, _, k) => sum + weights[k] * Math.min(9, (off[k] - gain) ** 2), 0);
      if (here < least) {
        least = here;
        best = at;
      }
    }
  }
  return best;
}

function normal({ points, weights, held, scale }: Task, at: Guess) {
  const n = at.length;
  const matrix = at.map(() => new Float64Array(n));
  const right = new Float64Array(n);
  points.forEach((p, i) => {
    const row = at.map((_, k) => {
      if (k === 2) return 1;
      const d = k === 4 ? 1e-3 : 1e-4;
      const moved = (by: number): number =>
        residual(
          p,
          at.map((v, j) => (j === k ? v + by : v)),
        );
      return (moved(-d) - moved(d)) / (2 * d);
    });
    const r = residual(p, at);
    for (let a = 0; a < n; a++) {
      right[a] += (weights[i] * row[a] * r) / scale;
      for (let b = 0; b < n; b++) matrix[a][b] += (weights[i] * row[a] * row[b]) / scale;
    }
  });
  const ofData = matrix.map((row) => Float64Array.from(row));
  held.forEach(({ mean, spread }, k) => {
    matrix[3 + k][3 + k] += 1 / spread ** 2;
    right[3 + k] += (mean - at[3 + k]) / spread ** 2;
  });
  return { matrix, right, ofData };
}

/** Of ln f₀ and ln Q: from the points' own scatter, and from what slope and corner may be beside their means. */
function spreadsOf(task: Task, at: Guess): ({ own: number } & Parts)[] | null {
  const { matrix, right, ofData } = normal(task, at);
  const inverse = solveSymmetric(matrix, right)?.inverse;
  if (inverse === undefined) return null;
  return [0, 1].map((k) => {
    const gain = inverse[k];
    const own = gain.reduce((sum, g, a) => sum + gain.reduce((s, h, b) => s + g * h * ofData[a][b], 0), 0);
    const of = (held: Held | undefined, i: number): number =>
      held === undefined ? 0 : Math.abs(gain[i]) / held.spread;
    return { own: Math.sqrt(Math.max(0, own)), ofSlope: of(task.held[0], 3), ofCorner: of(task.held[1], 4) };
  });
}

/** the longest step of each parameter */
const LONGEST = [0.5, 0.5, 5, 0.5, 5];

/** Levenberg and Marquardt. */
function descend(task: Task, from: Guess): Guess {
  let at = from;
  let here = cost(task, at);
  let damping = 1e-3;
  for (let i = 0; i < 40 && damping < 1e9; i++) {
    const { matrix, right } = normal(task, at);
    matrix.forEach((row, k) => {
      row[k] *= 1 + damping;
    });
    const step = solveSymmetric(matrix, right)?.solution;
    if (step === undefined) {
      damping *= 10;
      continue;
    }
    const next = at.map((v, k) => {
      const to = v + Math.max(-LONGEST[k], Math.min(LONGEST[k], step[k]));
      const held = task.held[k - 3];
      return held === undefined ? to : Math.max(held.least, Math.min(held.most, to));
    });
    const there = cost(task, next);
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
