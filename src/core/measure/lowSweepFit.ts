/**
 * A sweep as heard → f₀ and Q in one direction.
 *
 * Where the sweep stands is first known to some tenths of a second. The level alone would then shift f₀; the phase tells the frequency as played:
 * with the arm's own phase taken off, what is left follows the law's own changes, 1, s, s² (linear) or 1, e^(ks), s e^(ks) (log).
 */
import { solveSymmetric } from '../signal/solveSymmetric.ts';
import type { Complex } from '../units/complex.ts';
import type { LowSweepReading } from './lowSweepEstimator.ts';
import type { SweepPlace } from './lowSweepPlace.ts';
import { type Askew, type FittedResonance, fitResonance, type LevelPoint } from './secondOrder.ts';
import { sweptTransfer } from './sweptArm.ts';

export type Direction = 'lateral' | 'vertical';

export interface SweptLevels {
  readonly fit: FittedResonance;
  readonly points: readonly LevelPoint[];
  /** s since the sweep began, of each point */
  readonly seconds: readonly number[];
}

const ROUNDS = 4;
/** dB of a natural logarithm of a power */
const DB_POWER = 10 / Math.LN10;
/** squared peaks over what else is there that count */
const LEAST_OVER = 3;

/** dB of a tone that lies beside the law, under a Hann window. @param cycles of the difference in the window */
function besideDb(cycles: number): number {
  const x = Math.min(1.5, Math.abs(cycles));
  if (x < 1e-6) return 0;
  const kept = Math.abs(x - 1) < 1e-6 ? 0.5 : Math.sin(Math.PI * x) / (Math.PI * x * (1 - x * x));
  return 20 * Math.log10(kept);
}

interface Heard {
  readonly s: number;
  readonly hz: number;
  readonly hzPerS: number;
  readonly windowS: number;
  readonly z: Complex;
  readonly power: number;
  readonly noise: number;
}

/**
 * @param whole both channels move in this direction alone; else the part that is in phase (lateral) or in antiphase
 * @param offDb what cut and chain make of the level at a frequency, taken off @param askew what else they may
 */
export function sweptResonance(
  reading: LowSweepReading,
  direction: Direction,
  whole: boolean,
  offDb: (hz: number) => number,
  askew: Askew | null = null,
): SweptLevels {
  const heard = along(reading, direction, whole).filter(({ power, noise }) => power > LEAST_OVER * noise);
  let hz = heard.map((p) => p.hz);
  const levels = (): LevelPoint[] =>
    heard.map((p, i) => {
      const power = Math.max(p.power - p.noise, 0.1 * p.power);
      const spread = (DB_POWER * Math.sqrt(2 * power * p.noise + p.noise ** 2)) / power;
      const db = DB_POWER * Math.log(power) - offDb(hz[i]) - besideDb((hz[i] - p.hz) * p.windowS);
      const step = 0.01 * hz[i];
      const rise = (p.hzPerS * (offDb(hz[i] + step) - offDb(hz[i] - step))) / (2 * step * 2 * DB_POWER);
      return { hz: hz[i], hzPerS: p.hzPerS, windowS: p.windowS, rise, db, spread };
    });
  let points = levels();
  let fit = fitResonance(points, askew);
  for (let round = 0; round < ROUNDS && 'hz' in fit; round++) {
    const { hz: f0, q } = fit;
    const played = playedHz(
      reading,
      heard,
      points.map((p) => sweptTransfer(p, f0, q)),
    );
    if (played === null) break;
    hz = played;
    points = levels();
    fit = fitResonance(points, askew);
  }
  return { fit, points, seconds: heard.map(({ s }) => s) };
}

/** One complex number a point: both channels turned onto one another, or their sum or difference. */
function along({ points }: LowSweepReading, direction: Direction, whole: boolean): Heard[] {
  let re = 0;
  let im = 0;
  for (const { left: l, right: r } of points) {
    re += l.re * r.re + l.im * r.im;
    im += l.re * r.im - l.im * r.re;
  }
  const size = Math.hypot(re, im);
  const sign = direction === 'lateral' ? 1 : -1;
  // right turned back by its mean phase against left; half of either channel's noise is in a sum of both
  const turn = whole && size > 0 ? { re: re / size, im: -im / size } : { re: sign, im: 0 };
  return points.map(({ left: l, right: r, s, hz, hzPerS, windowS, noise }) => {
    const z = {
      re: (l.re + r.re * turn.re - r.im * turn.im) * Math.SQRT1_2,
      im: (l.im + r.re * turn.im + r.im * turn.re) * Math.SQRT1_2,
    };
    const power = whole ? l.re ** 2 + l.im ** 2 + r.re ** 2 + r.im ** 2 : z.re ** 2 + z.im ** 2;
    return { s, hz, hzPerS, windowS, z, power, noise: whole ? noise : noise / 2 };
  });
}

function playedHz({ cut, place }: LowSweepReading, heard: readonly Heard[], arm: readonly Complex[]): number[] | null {
  if (place === null) return null;
  const k = cut.law === 'log' ? Math.log(cut.toHz / cut.fromHz) / place.lengthS : null;
  const shapes = (s: number): [number, number, number] => {
    if (k === null) return [1, s, s * s];
    const g = Math.exp(k * s);
    return [1, g, s * g];
  };
  const slopes = (s: number): [number, number, number] => {
    if (k === null) return [0, 1, 2 * s];
    const g = Math.exp(k * s);
    return [0, k * g, (1 + k * s) * g];
  };
  const matrix = [0, 1, 2].map(() => new Float64Array(3));
  const right = new Float64Array(3);
  let before = 0;
  let cycles = 0;
  heard.forEach(({ s, z, power, noise }, i) => {
    const { re, im } = arm[i];
    const at = Math.atan2(z.im * re - z.re * im, z.re * re + z.im * im) / (2 * Math.PI);
    const step = at - before;
    cycles += i === 0 ? at : step - Math.round(step);
    before = at;
    const weight = power / (noise + 1e-4 * power);
    const row = shapes(s);
    for (let a = 0; a < 3; a++) {
      right[a] += weight * row[a] * cycles;
      for (let b = 0; b < 3; b++) matrix[a][b] += weight * row[a] * row[b];
    }
  });
  const solved = solveSymmetric(matrix, right);
  if (solved === null) return null;
  const [a, b, c] = solved.solution;
  return heard.map(({ s, hz }) => {
    const [x, y, w] = slopes(s);
    return Math.max(0.5, hz + a * x + b * y + c * w);
  });
}

/** Start and length of the sweep that would have these frequencies, the record file's ends kept. */
export function placeOf({ cut, place }: LowSweepReading, { points, seconds }: SweptLevels): SweepPlace | null {
  if (place === null || points.length < 4) return place;
  const of = (hz: number): number => (cut.law === 'log' ? Math.log(hz) : hz);
  const [from, to] = [of(cut.fromHz), of(cut.toHz)];
  const n = points.length;
  const meanS = seconds.reduce((a, b) => a + b, 0) / n;
  const y = points.map(({ hz }) => (of(hz) - from) / (to - from));
  const meanY = y.reduce((a, b) => a + b, 0) / n;
  const sxx = seconds.reduce((sum, s) => sum + (s - meanS) ** 2, 0);
  const slope = seconds.reduce((sum, s, i) => sum + (s - meanS) * (y[i] - meanY), 0) / sxx;
  if (!(Math.abs(slope * place.lengthS - 1) < 0.15)) return place;
  return { startS: place.startS + meanS - meanY / slope, lengthS: 1 / slope };
}
