/**
 * A resonance driven by noise: powers of a spectrum → f₀ and Q of what rises out of it.
 *
 *   m(f) = A (f/f₀)^(−p) |B(f)|²      B = H where the tip against the body is heard, 1 − H where the body itself moves
 *
 * The drive is taken to fall by one power p of the frequency over an octave to either side of the resonance: what it does beside that is in the caller's allowance.
 * Fitted by scoring with each bin's own variance, so that no logarithm's bias enters; what stands out is weighed down. A resonance is told only where it
 * fits far better than a smooth curve with as much freedom.
 *
 * @checked humpFit.test.ts; test/loops/sway.test.ts
 */
import { median } from '../signal/robust.ts';
import { solveSymmetric } from '../signal/solveSymmetric.ts';
import { armTransfer } from './sweptArm.ts';

export interface HumpPoint {
  readonly hz: number;
  readonly power: number;
  /** standard uncertainty of `power` where the model says `m` */
  spread(m: number): number;
}

export interface Hump {
  readonly hz: number;
  readonly q: number;
  /** standard, relative */
  readonly hzSpread: number;
  readonly qSpread: number;
  /** of the drive */
  readonly fall: number;
  /** A, and the model's powers at the points that were fitted */
  readonly level: number;
  readonly points: readonly { readonly hz: number; readonly power: number; readonly fitted: number }[];
}

/** of the neighbouring bins under a Hann window */
const BESIDE = 1 / 6;
/** neighbouring bins hold the same noise: so many fewer are independent */
const SHARED = 1.944;
/** an octave to either side of the resonance */
const REACH = 2;
const LEAST_HZ = 2;
const MOST_HZ = 40;
/** scaled squares by which a resonance must fit better than a smooth curve */
const LEAST_GAIN = 6;
const ENCLOSED = 1.35;
const Q_FROM = 0.9;
const Q_TO = 15;

type Kernel = (hz: number, f0: number, q: number) => number;

/** |H|² and |1 − H|² */
export const tipAgainstBody: Kernel = (hz, f0, q) => {
  const { re, im } = armTransfer(hz, f0, q);
  return re * re + im * im;
};
/**
 * The tip's way along the groove as the body rises and the cantilever bends: share of H and of the body's own, which swings about a bearing that lies
 * above the record (12 mm at 230 mm and a cantilever at 20°; house guess)
 */
const RISE = 0.15;
export const tipAlong: Kernel = (hz, f0, q) => {
  const { re, im } = armTransfer(hz, f0, q);
  return ((1 - RISE) * re + RISE) ** 2 + ((1 - RISE) * im) ** 2;
};
export const bodyItself: Kernel = (hz, f0, q) => {
  const { re, im } = armTransfer(hz, f0, q);
  return (1 - re) ** 2 + im * im;
};

/** ln of f₀, Q and A, and the fall */
type Guess = readonly number[];
type Model = (hz: number, at: Guess) => number;

const humpModel =
  (kernel: Kernel, binHz: number): Model =>
  (hz, [lnHz, lnQ, lnA, p]) => {
    const [f0, q] = [Math.exp(lnHz), Math.exp(lnQ)];
    const at = (f: number): number => (f / f0) ** -p * kernel(f, f0, q);
    // the window sees the neighbours as well
    return Math.exp(lnA) * ((1 - 2 * BESIDE) * at(hz) + BESIDE * (at(hz - binHz) + at(hz + binHz)));
  };

const smoothModel =
  (middleHz: number): Model =>
  (hz, [a, b, c]) => {
    const x = Math.log(hz / middleHz);
    return Math.exp(a + b * x + c * x * x);
  };

/** @param points ascending, at equal steps of `binHz` */
export function fitHump(points: readonly HumpPoint[], binHz: number, kernel: Kernel): Hump | null {
  const inside = points.filter(({ hz }) => hz >= LEAST_HZ && hz <= MOST_HZ);
  if (inside.length < 20) return null;
  const model = humpModel(kernel, binHz);
  let best = startOf(inside, model);
  if (best === null) return null;
  let near: readonly HumpPoint[] = [];
  let fit: Scored | null = null;
  for (let round = 0; round < 3; round++) {
    const f0 = Math.exp(best[0]);
    near = inside.filter(({ hz }) => hz > f0 / REACH && hz < f0 * REACH);
    if (near.length < 12) return null;
    fit = scored(near, model, best);
    if (fit === null) return null;
    best = fit.at;
  }
  if (fit === null) return null;
  const [hz, q, level, fall] = [Math.exp(fit.at[0]), Math.exp(fit.at[1]), Math.exp(fit.at[2]), fit.at[3]];
  const smooth = scored(near, smoothModel(hz), [Math.log(Math.max(1e-300, median(near.map((p) => p.power)))), 0, 0]);
  // held against the resonance's own variances: a curve that lies higher would make every miss small
  const left = (of: Scored, m: Model): number =>
    near.reduce((sum, p) => sum + ((p.power - m(p.hz, of.at)) / p.spread(model(p.hz, (fit as Scored).at))) ** 2, 0);
  const gain = smooth === null ? 0 : left(smooth, smoothModel(hz)) - left(fit, model);
  const isTold =
    gain > SHARED * LEAST_GAIN &&
    q > Q_FROM &&
    q < Q_TO &&
    hz > near[0].hz * ENCLOSED &&
    hz < near[near.length - 1].hz / ENCLOSED &&
    fit.spread[0] < 0.1 &&
    fit.spread[1] < 0.5;
  if (!isTold) return null;
  return {
    hz,
    q,
    hzSpread: fit.spread[0],
    qSpread: fit.spread[1],
    fall,
    level,
    points: near.map((p) => ({ hz: p.hz, power: p.power, fitted: model(p.hz, best as Guess) })),
  };
}

/** The best of a grid, its level by the middle ratio. */
function startOf(points: readonly HumpPoint[], model: Model): Guess | null {
  let best: Guess | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (let f0 = 4; f0 < 24; f0 *= 1.09) {
    const near = points.filter(({ hz }) => hz > f0 / REACH && hz < f0 * REACH);
    if (near.length < 12) continue;
    for (const q of [1, 2, 4, 8]) {
      for (const p of [-1, 1, 3]) {
        const shape: Guess = [Math.log(f0), Math.log(q), 0, p];
        const level = median(near.map((one) => one.power / model(one.hz, shape)));
        if (!(level > 0)) continue;
        const at: Guess = [Math.log(f0), Math.log(q), Math.log(level), p];
        const misses = near.map((one) => {
          const m = model(one.hz, at);
          return Math.min(9, ((one.power - m) / one.spread(m)) ** 2);
        });
        const cost = misses.reduce((a, b) => a + b, 0) / near.length;
        if (cost < least) {
          least = cost;
          best = at;
        }
      }
    }
  }
  return best;
}

interface Scored {
  readonly at: Guess;
  /** standard, of each parameter */
  readonly spread: readonly number[];
}

const ROUNDS = 40;

/** Fisher scoring: variances by the model of the round before. */
function scored(points: readonly HumpPoint[], model: Model, from: Guess): Scored | null {
  let at = from;
  let inverse: Float64Array[] | null = null;
  let chi = 1;
  for (let round = 0; round < ROUNDS; round++) {
    const rows = points.map((p) => {
      const m = model(p.hz, at);
      const spread = p.spread(m);
      const slopes = at.map((_, j) => {
        const d = 1e-4;
        const moved = (by: number): Guess => at.map((v, i) => (i === j ? v + by : v));
        return (model(p.hz, moved(d)) - model(p.hz, moved(-d))) / (2 * d);
      });
      return { slopes, spread, miss: (p.power - m) / spread };
    });
    if (rows.some(({ spread, miss }) => !(spread > 0) || !Number.isFinite(miss))) return null;
    const unit = Math.max(1, 1.4826 * median(rows.map(({ miss }) => Math.abs(miss))));
    const matrix = at.map(() => new Float64Array(at.length));
    const right = new Float64Array(at.length);
    let squares = 0;
    for (const { slopes, spread, miss } of rows) {
      const weight = Math.min(1, (3 * unit) / Math.max(1e-9, Math.abs(miss)));
      squares += weight * miss * miss;
      for (let a = 0; a < at.length; a++) {
        right[a] += (weight * slopes[a] * miss) / spread;
        for (let b = 0; b < at.length; b++) matrix[a][b] += (weight * slopes[a] * slopes[b]) / spread ** 2;
      }
    }
    matrix.forEach((row, k) => {
      row[k] *= 1 + 1e-6;
    });
    const solved = solveSymmetric(matrix, right);
    if (solved === null) return null;
    const largest = Math.max(...solved.solution.map(Math.abs));
    const step = Math.min(1, 0.3 / largest);
    at = at.map((v, k) => v + step * solved.solution[k]);
    inverse = solved.inverse;
    chi = squares / Math.max(1, points.length - at.length);
    if (largest < 1e-6) break;
  }
  if (inverse === null) return null;
  const scale = SHARED * Math.max(1, chi);
  return { at, spread: inverse.map((row, k) => Math.sqrt(scale * row[k])) };
}
