/**
 * The arm ringing down where the tip drops into its groove: a step of the tip's place against the body dies away as
 *
 *   v(t) = e^(−ω₀t/2Q) (A cos ω_d t + B sin ω_d t)      ω_d = ω₀ √(1 − 1/4Q²)
 *
 * beside a slow drift (warp, offset) and what dies away in a 7950 µs high pass and in the chain's low corner. What else chain and equaliser add is over within a few milliseconds and leaves f₀ and Q alone. The same fit from a later
 * start must agree: what else rings (the lift, the floor) would show in it.
 *
 * @checked test/loops/ringDown.test.ts
 */
import { coverageFactor } from '../signal/robust.ts';
import { solveSymmetric } from '../signal/solveSymmetric.ts';
import type { LowRateSignal } from './lowRate.ts';

export interface RingDown {
  readonly hz: number;
  readonly q: number;
  /** standard, relative, of the fit */
  readonly hzSpread: number;
  readonly qSpread: number;
  /** relative, between two starts of the fit */
  readonly hzApart: number;
  readonly qApart: number;
  /** rms left over, of the rms fitted */
  readonly left: number;
}

/** s after the impact at which the two fits start; how long they last */
const STARTS_S = [0.03, 0.06] as const;
const MOST_S = 1;
const LEAST_S = 0.35;
const [LOW_HZ, HIGH_HZ] = [4.5, 19];
const [LOW_Q, HIGH_Q] = [0.6, 15];
/** rms left over, of what is fitted, and how far two starts may differ, relative */
const MOST_LEFT = 0.3;
const MOST_APART = { hz: 0.06, q: 0.3 };
/** the ringing where a fit starts, over the rms before the drop */
const LEAST_OVER = 4;
/**
 * s: what dies away beside the ringing. What the impact leaves in a 7950 µs high pass is still 2 % of it after 30 ms; a chain's low corner of 0.5 to 4 Hz leaves
 * 40 to 320 ms, which three of them and the drift make up between them. Both are near the ringing where that is damped.
 */
const DIES_AWAY_S = [0.00795, 0.06, 0.1, 0.18] as const;
/** two of the ringing, two of the drift, and these */
const TERMS = 4 + DIES_AWAY_S.length;
/** times f₀: what is left over counts as far as it lies about the resonance, where the ringing does */
const ABOUT = [0.7, 1.4] as const;
/** periods of the stretch that the ringing's own four numbers take out of what is left there */
const TAKEN_BINS = 2;

/**
 * @param values one direction, the tip meeting the groove within them
 * @returns null where nothing rings clearly
 */
export function ringDown({ rateHz }: Pick<LowRateSignal, 'rateHz'>, values: Float64Array): RingDown | null {
  const impact = impactAt(values, rateHz);
  const fitAfter = (s: number) => fitFrom(values, rateHz, impact + Math.round(s * rateHz));
  const first = fitAfter(STARTS_S[0]);
  if (first === null || !(first.left < MOST_LEFT)) return null;
  // what rang before was no drop
  if (!(first.size > LEAST_OVER * restlessness(values, rateHz, impact))) return null;
  const later = fitAfter(STARTS_S[1]);
  if (later === null) return null;
  const hzApart = Math.abs(later.hz / first.hz - 1);
  const qApart = Math.abs(Math.log(later.q / first.q));
  if (!(hzApart < MOST_APART.hz && qApart < MOST_APART.q)) return null;
  const inside =
    first.hz > LOW_HZ * 1.03 && first.hz < HIGH_HZ / 1.03 && first.q > LOW_Q * 1.05 && first.q < HIGH_Q / 1.05;
  const { hz, q, hzSpread, qSpread, left } = first;
  return inside ? { hz, q, hzSpread, qSpread, left, hzApart, qApart } : null;
}

/** Where most happens within 12 ms: the first sample after it. */
function impactAt(values: Float64Array, rateHz: number): number {
  const span = Math.max(2, Math.round(0.012 * rateHz));
  let best = 0;
  let most = -1;
  for (let n = 1; n + LEAST_S * rateHz < values.length; n++) {
    let sum = 0;
    for (let k = n; k < n + span; k++) sum += (values[k] - values[k - 1]) ** 2;
    if (sum > most) {
      most = sum;
      best = n + (span >> 1);
    }
  }
  return best;
}

interface Fit {
  readonly hz: number;
  readonly q: number;
  readonly hzSpread: number;
  readonly qSpread: number;
  readonly left: number;
  /** of the ringing where the fit starts */
  readonly size: number;
}

/** Rms before the impact, as far as there is half a second of it. */
function restlessness(values: Float64Array, rateHz: number, impact: number): number {
  const to = impact - Math.round(0.05 * rateHz);
  const from = Math.max(0, to - Math.round(0.5 * rateHz));
  if (to - from < 0.04 * rateHz) return 0;
  const before = values.subarray(from, to);
  const mean = before.reduce((sum, v) => sum + v, 0) / before.length;
  return Math.sqrt(before.reduce((sum, v) => sum + (v - mean) ** 2, 0) / before.length);
}

function fitFrom(values: Float64Array, rateHz: number, from: number): Fit | null {
  const to = Math.min(values.length, from + Math.round(MOST_S * rateHz));
  if (to - from < LEAST_S * rateHz) return null;
  // every third sample: there is nothing above 80 Hz
  const stride = Math.max(1, Math.floor(rateHz / 170));
  const y: number[] = [];
  const t: number[] = [];
  for (let n = from; n < to; n += stride) {
    y.push(values[n]);
    t.push((n - from) / rateHz);
  }
  const besides = besideOf(t, y);
  const cost = (hz: number, q: number) => linearFit(t, y, besides, hz, q);
  let best = { hz: 0, q: 0, left: Number.POSITIVE_INFINITY };
  for (let i = 0; i <= 28; i++) {
    const hz = LOW_HZ * (HIGH_HZ / LOW_HZ) ** (i / 28);
    for (let k = 0; k <= 8; k++) {
      const q = LOW_Q * (HIGH_Q / LOW_Q) ** (k / 8);
      const left = cost(hz, q)?.left ?? Number.POSITIVE_INFINITY;
      if (left < best.left) best = { hz, q, left };
    }
  }
  if (!Number.isFinite(best.left)) return null;
  for (let step = 0.06; step > 2e-4; step /= 2) {
    for (let moved = true; moved; ) {
      moved = false;
      for (const [a, b] of [
        [step, 0],
        [-step, 0],
        [0, 3 * step],
        [0, -3 * step],
      ]) {
        const hz = best.hz * (1 + a);
        const q = Math.min(HIGH_Q, Math.max(LOW_Q, best.q * (1 + b)));
        if (!(hz >= LOW_HZ && hz <= HIGH_HZ)) continue;
        const left = cost(hz, q)?.left ?? Number.POSITIVE_INFINITY;
        if (left < best.left * (1 - 1e-7)) {
          best = { hz, q, left };
          moved = true;
        }
      }
    }
  }
  const at = cost(best.hz, best.q);
  if (at === null || !(at.ringing > 0)) return null;
  // curvature of the squares left over, by ln f₀ and ln Q
  const d = 0.01;
  const s = (a: number, b: number): number => cost(best.hz * Math.exp(a), best.q * Math.exp(b))?.left ?? at.left;
  const [saa, sbb, sab] = [
    (s(d, 0) - 2 * at.left + s(-d, 0)) / d ** 2,
    (s(0, d) - 2 * at.left + s(0, -d)) / d ** 2,
    (s(d, d) - s(d, -d) - s(-d, d) + s(-d, -d)) / (4 * d * d),
  ];
  const { variance, bins } = noiseAbout(at.rest, rateHz / stride, best.hz);
  const solved = solveSymmetric([Float64Array.of(saa / 2, sab / 2), Float64Array.of(sab / 2, sbb / 2)], [0, 0]);
  if (solved === null) return null;
  // told by few bins: Student's t against the normal's 2
  const wider = coverageFactor(2 * bins) / 2;
  return {
    hz: best.hz,
    q: best.q,
    hzSpread: wider * Math.sqrt(variance * solved.inverse[0][0]),
    qSpread: wider * Math.sqrt(variance * solved.inverse[1][1]),
    left: Math.sqrt(at.left / at.ringing),
    size: at.size,
  };
}

/** Of a white noise as strong, sample by sample, as what is left over is about the resonance: rumble is no white noise. */
function noiseAbout(
  rest: Float64Array,
  rateHz: number,
  hz: number,
): { readonly variance: number; readonly bins: number } {
  const lengthS = rest.length / rateHz;
  const [from, to] = ABOUT.map((times) => Math.round(times * hz * lengthS));
  let power = 0;
  for (let bin = Math.max(1, from); bin <= to; bin++) {
    const turn = (2 * Math.PI * bin) / rest.length;
    let re = 0;
    let im = 0;
    for (let n = 0; n < rest.length; n++) {
      re += rest[n] * Math.cos(turn * n);
      im += rest[n] * Math.sin(turn * n);
    }
    power += re * re + im * im;
  }
  const bins = Math.max(1, to - Math.max(1, from) + 1 - TAKEN_BINS);
  return { variance: power / rest.length / bins, bins };
}

/** What lies beside the ringing is the same for every f₀ and Q: its rows, and its part of the normal equations. */
function besideOf(t: readonly number[], y: readonly number[]) {
  const matrix = Array.from({ length: TERMS }, () => new Float64Array(TERMS));
  const right = new Float64Array(TERMS);
  const rows = new Float64Array(TERMS * t.length);
  for (let i = 0; i < t.length; i++) {
    const at = TERMS * i;
    rows[at + 2] = 1;
    rows[at + 3] = t[i];
    for (let k = 0; k < DIES_AWAY_S.length; k++) rows[at + 4 + k] = Math.exp(-t[i] / DIES_AWAY_S[k]);
    for (let a = 2; a < TERMS; a++) {
      right[a] += rows[at + a] * y[i];
      for (let b = 2; b < TERMS; b++) matrix[a][b] += rows[at + a] * rows[at + b];
    }
  }
  return { matrix, right, rows };
}

/** Squares left over by the best ringing and drift at an f₀ and Q, and the squares of the ringing. */
function linearFit(
  t: readonly number[],
  y: readonly number[],
  besides: ReturnType<typeof besideOf>,
  hz: number,
  q: number,
) {
  const w = 2 * Math.PI * hz;
  const inside = 1 - 1 / (4 * q * q);
  const decay = w / (2 * q);
  const turn = w * Math.sqrt(Math.abs(inside));
  const matrix = besides.matrix.map((row) => row.slice());
  const right = besides.right.slice();
  const rows = besides.rows.slice();
  for (let i = 0; i < t.length; i++) {
    const s = t[i];
    const e = Math.exp(-decay * s);
    const at = TERMS * i;
    rows[at] = e * (inside > 0 ? Math.cos(turn * s) : Math.cosh(turn * s));
    rows[at + 1] = e * (inside > 0 ? Math.sin(turn * s) : Math.sinh(turn * s));
    for (let a = 0; a < 2; a++) {
      right[a] += rows[at + a] * y[i];
      for (let b = 0; b < TERMS; b++) matrix[a][b] += rows[at + a] * rows[at + b];
    }
  }
  for (let a = 0; a < 2; a++) for (let b = 2; b < TERMS; b++) matrix[b][a] = matrix[a][b];
  const solved = solveSymmetric(matrix, right);
  if (solved === null) return null;
  const by = solved.solution;
  let left = 0;
  let ringing = 0;
  const rest = new Float64Array(t.length);
  for (let i = 0; i < t.length; i++) {
    const at = TERMS * i;
    const rings = by[0] * rows[at] + by[1] * rows[at + 1];
    let beside = 0;
    for (let a = 2; a < TERMS; a++) beside += by[a] * rows[at + a];
    rest[i] = y[i] - rings - beside;
    left += rest[i] ** 2;
    ringing += rings ** 2;
  }
  return { left, ringing, rest, size: Math.hypot(by[0], inside > 0 ? by[1] : 0) };
}
