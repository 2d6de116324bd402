/**
 * What the speed does once per turn: least squares of the deviation on the platter's rotation and its first harmonics,
 * with the mean and a steady drift fitted beside them, so that a turn that is not whole bends none of them.
 *
 *   x(t) = a + b t + Σₕ (pₕ cos hΩt + qₕ sin hΩt),  h = 1 … 3
 */
import { solveSymmetric } from '../signal/solveSymmetric.ts';
import { RUN, turningRun } from '../signal/turningRun.ts';
import type { ThinTrace } from './thinTrace.ts';

export interface Rotation {
  /** to add to the trace's mean: mean deviation over whole turns, ratio */
  readonly meanCorrection: number;
  readonly meanVariance: number;
  readonly meanFreedom: number;
  /** of the mean, with what a wander slower than the trace may hide in it: ratio² */
  readonly slowVariance: number;
  /** first harmonic as p − iq: peak deviation, phase at the recording's first frame for Ω as given */
  readonly re: number;
  readonly im: number;
  /** variance of either part */
  readonly variance: number;
  readonly degreesOfFreedom: number;
  /** how much faster than `rotationHz` the harmonic's own phase goes, rad/s, and its variance */
  readonly turning: number;
  readonly turningVariance: number;
  readonly turns: number;
  /** s from the recording's first frame to the middle of the trace */
  readonly middleS: number;
}

const HARMONICS = 3;
/** steepness that a flat density shows by chance */
const CHANCE = 0.7;
/** of the density at the low end, for each unit of steepness */
const HIDDEN_SHARE = 1.5;
/** where the lowest bins and those above them lie, periods of the trace */
const LOW_CENTRE = 2.2;
const ABOVE_CENTRE = 5;
/** a trace of fewer turns tells no slope by its lowest bins; it is taken by so much steeper than it looks, and hides so much for each unit of it */
const SHORT_TURNS = 2.3;
const SHORT_CHANCE = 0.35;
const HIDDEN_FROM_SHORT = 4;
/** s within which a platter that wanders forgets its speed: house guess, belts and speed controls */
const SLOWEST_S = 10;
/** of a drift over the trace, squared, in the mean's variance, for each length of the trace that a wander lasts: 1/2.4, and four times for its being one number */
const FROM_DRIFT = 1.7;
/** to either side of the rotation its noise is read over this ratio, over so many periods of the trace at most, and on so many at least */
const ASIDE = 1.75;
const REACH = 8;
const LEAST_BINS = 1.5;

/**
 * @param rotationHz turns a second as heard
 * @returns null for less than a turn and a half
 */
export function fitRotation(trace: ThinTrace, rotationHz: number): Rotation | null {
  if (!(rotationHz > 0.05 && rotationHz < 3)) throw new RangeError(`rotationHz ${rotationHz} must be from 0.05 to 3`);
  const { deviation: x, rateHz, startS } = trace;
  const turns = (x.length / rateHz) * rotationHz;
  if (!(turns >= 1.5)) return null;
  const harmonics = turns >= 3 ? HARMONICS : turns >= 2 ? 2 : 1;
  const middleS = startS + (x.length - 1) / 2 / rateHz;
  const fitted = fitHarmonics(trace, rotationHz, harmonics, middleS);
  if (fitted === null) return null;
  const { solution, inverse, left } = fitted;
  const density = remainderDensity(left, turns, harmonics);
  const atRotation = densityAround(density, turns);
  const atZero = densityAtZero(density, turns);
  const turning = turningOf(solution, left, trace, rotationHz, middleS);
  const middleAngle = 2 * Math.PI * rotationHz * middleS;
  const c = Math.cos(middleAngle);
  const s = Math.sin(middleAngle);
  // what averaging in groups took off the harmonic
  const u = Math.PI * rotationHz * trace.groupS;
  const p = (solution[2] * u) / Math.sin(u);
  const q = (solution[3] * u) / Math.sin(u);
  return {
    meanCorrection: solution[0],
    // a speed that drifted by b meanwhile has another mean before and after
    meanVariance: atZero.mean * inverse[0][0] + drifted(solution[1] ** 2, atZero.mean * inverse[1][1]) / 9,
    meanFreedom: Math.max(2, 2 * atZero.bins),
    slowVariance:
      slowVarianceOf(density, x.length / rateHz, turns) * inverse[0][0] +
      drifted(solution[1] ** 2, atZero.mean * inverse[1][1]) * FROM_DRIFT * (SLOWEST_S / (x.length / rateHz)),
    // p cos Ω(t − m) + q sin Ω(t − m) = Re[(p − iq) e^{iΩt} e^{−iΩm}]
    re: p * c - q * s,
    im: -q * c - p * s,
    variance: atRotation.mean * ((inverse[2][2] + inverse[3][3]) / 2),
    degreesOfFreedom: Math.max(2, 2 * atRotation.bins),
    turning: turning.square > 0 ? turning.along / turning.square : 0,
    turningVariance: (atRotation.mean + 1e-30) / Math.max(turning.square, 1e-30),
    turns,
    middleS,
  };
}

interface HarmonicFit {
  /** mean, drift over the trace, then cosine and sine of each harmonic */
  readonly solution: Float64Array;
  readonly inverse: readonly Float64Array[];
  /** what the fit leaves */
  readonly left: Float64Array;
}

function fitHarmonics(
  { deviation: x, rateHz, startS }: ThinTrace,
  rotationHz: number,
  harmonics: number,
  middleS: number,
): HarmonicFit | null {
  const lengthS = x.length / rateHz;
  const width = 2 + 2 * harmonics;
  const row = new Float64Array(width);
  const turn = (2 * Math.PI * rotationHz) / rateHz;
  let run = turningRun(0, turn);
  /** one sample after the other, from the first */
  const fill = (n: number): void => {
    const sinceMiddleS = startS + n / rateHz - middleS;
    if (n % RUN === 0) run = turningRun(2 * Math.PI * rotationHz * sinceMiddleS, turn);
    const [c, s] = [run.c[n % RUN], run.s[n % RUN]];
    row[0] = 1;
    row[1] = sinceMiddleS / lengthS;
    row[2] = c;
    row[3] = s;
    for (let h = 4; h < width; h += 2) {
      row[h] = row[h - 2] * c - row[h - 1] * s;
      row[h + 1] = row[h - 1] * c + row[h - 2] * s;
    }
  };
  const normal = Array.from({ length: width }, () => new Float64Array(width));
  const right = new Float64Array(width);
  for (let n = 0; n < x.length; n++) {
    fill(n);
    for (let i = 0; i < width; i++) {
      right[i] += row[i] * x[n];
      for (let j = 0; j <= i; j++) normal[i][j] += row[i] * row[j];
    }
  }
  const solved = solveSymmetric(normal, right);
  if (solved === null) return null;
  const { solution, inverse } = solved;
  const left = new Float64Array(x.length);
  for (let n = 0; n < x.length; n++) {
    fill(n);
    let fitted = 0;
    for (let i = 0; i < width; i++) fitted += row[i] * solution[i];
    left[n] = x[n] - fitted;
  }
  return { solution, inverse, left };
}

interface Density {
  readonly mean: number;
  readonly bins: number;
  /** where the bins lie that count, geometric mean, periods of the trace */
  readonly centre: number;
}

/** In periods of the whole trace. */
type DensityBetween = (from: number, to: number) => Density;

/**
 * Power of the remainder between two frequencies, at every half period from the first. Bins that the fit has emptied fade out
 * from 1.25 to 0.75 periods beside each harmonic, those below 1.5 periods down to 1: a trace that begins or ends a sample
 * elsewhere must not tell another uncertainty.
 */
function remainderDensity(left: Float64Array, turns: number, harmonics: number): DensityBetween {
  const count = left.length;
  const faded = (from: number, at: number, to: number): number => Math.min(1, Math.max(0, (at - from) / (to - from)));
  const weightOf = (b: number): number => {
    let weight = faded(1, b, 1.5);
    for (let h = 1; h <= harmonics; h++) weight *= faded(0.75, Math.abs(b - h * turns), 1.25);
    return weight;
  };
  const known = new Map<number, number>();
  const powerAt = (b: number): number => {
    const before = known.get(b);
    if (before !== undefined) return before;
    const power = powerOf(left, (2 * Math.PI * b) / count);
    known.set(b, power);
    return power;
  };
  return (from, to) => {
    let power = 0;
    let bins = 0;
    let octaves = 0;
    for (let k = 0; k <= Math.round(2 * (to - from)); k++) {
      const b = from + k / 2;
      if (b > count / 2.5) break;
      const weight = weightOf(b);
      if (weight === 0) continue;
      power += weight * powerAt(b);
      bins += weight;
      octaves += weight * Math.log(b);
    }
    return bins === 0
      ? { mean: 0, bins: 0, centre: from }
      : { mean: power / bins / count, bins: bins / 2, centre: Math.exp(octaves / bins) };
  };
}

/** |Σ x e^{−iωn}|² */
function powerOf(x: Float64Array, omega: number): number {
  let re = 0;
  let im = 0;
  for (let from = 0; from < x.length; from += RUN) {
    const { c, s } = turningRun(omega * from, omega);
    const end = Math.min(RUN, x.length - from);
    for (let i = 0; i < end; i++) {
      re += x[from + i] * c[i];
      im += x[from + i] * s[i];
    }
  }
  return re * re + im * im;
}

/**
 * At the rotation, from both sides of it: what wanders falls steeply there, and a plain mean would tell the low side's. The geometric
 * mean of two sides as far apart in ratio is right for any power of f. A short trace has too little below.
 */
function densityAround(density: DensityBetween, turns: number): Density {
  const from = Math.max(turns / ASIDE, turns - REACH);
  const below = density(from, turns);
  const above = density(turns, turns ** 2 / from);
  return below.bins >= LEAST_BINS && above.bins >= LEAST_BINS
    ? { mean: Math.sqrt(below.mean * above.mean), bins: below.bins + above.bins, centre: turns }
    : density(turns - 5, turns + 5);
}

/**
 * Slow wander: what is slower than the trace is long hides in the mean. How steeply the density falls, as f^−γ with γ up to 2, says how
 * much: 1 + 1.5γ times the density at 2.2/T. Where the density falls towards zero instead (a tone's phase noise does), what the mean
 * holds lies below both.
 *
 * A trace of less than 2.3 turns has lost its lowest bins to the rotation's own fit, and knows nothing below some 3/T. What is there is carried
 * down from the lowest bins left along the slope; and the slope, told by so few, is taken as steep as all bins up to 20/T make likely.
 */
function densityAtZero(density: DensityBetween, turns: number): Density {
  const low = density(1.5, 3);
  const above = density(3.5, 7);
  const around = density(1.5, 7);
  if (turns >= SHORT_TURNS) {
    const steep = Math.max(0, slopeOf(low, above, LOW_CENTRE, ABOVE_CENTRE) - CHANCE);
    const mean =
      low.mean < around.mean
        ? Math.sqrt(low.mean * around.mean)
        : Math.max(around.mean, low.mean * (1 + HIDDEN_SHARE * Math.min(2, steep)));
    return { ...around, mean };
  }
  const high = density(7.5, 20);
  const steep = Math.min(2, Math.max(0, slopeOf(around, high, around.centre, high.centre) + SHORT_CHANCE));
  return { ...around, mean: around.mean * (around.centre / LOW_CENTRE) ** steep * (1 + HIDDEN_FROM_SHORT * steep) };
}

/**
 * A wander slower than the trace is not in it, but its upper end is: the density at b₀ carried on along its slope, f^−γ, down to where a wander of SLOWEST_S levels
 * off, and what the mean over T holds of all that.
 *
 *   T ∫ S(f) sinc²(fT) df ≈ S(b₀) b₀^γ [ 2 ∫ b^−γ db from b_c to ½ + 2 b_c^(1−γ) ],   b = fT, b_c = T/2πτ
 *
 * @checked test/loops/shortSpeed.test.ts
 */
function slowVarianceOf(density: DensityBetween, lengthS: number, turns: number): number {
  const short = turns < SHORT_TURNS;
  const low = short ? density(1.5, 7) : density(1.5, 3);
  const high = short ? density(7.5, 20) : density(3.5, 7);
  const steep = Math.min(2, Math.max(0, slopeOf(low, high, low.centre, high.centre) + (short ? SHORT_CHANCE : 0)));
  const levels = Math.min(0.5, lengthS / (2 * Math.PI * SLOWEST_S));
  const along =
    Math.abs(steep - 1) < 1e-6 ? Math.log(0.5 / levels) : (0.5 ** (1 - steep) - levels ** (1 - steep)) / (1 - steep);
  return low.mean * low.centre ** steep * 2 * (along + levels ** (1 - steep));
}

/** γ of a density that falls as f^−γ from one stretch of it to the next. */
const slopeOf = (low: Density, above: Density, lowCentre: number, aboveCentre: number): number =>
  low.mean > 0 && above.mean > 0 ? Math.log(low.mean / above.mean) / Math.log(aboveCentre / lowCentre) : 0;

/** A drift, squared, that stands out of what the remainder makes by chance: all of it from twice its size on, none below 1.6 times. */
const drifted = (square: number, byChance: number): number =>
  Math.max(0, Math.min(square - byChance, 2 * (square - 2.5 * byChance)));

/** d(p cos a + q sin a)/dΩ = (t − m)(q cos a − p sin a): what is left, projected on it. */
function turningOf(
  solution: Float64Array,
  left: Float64Array,
  { rateHz, startS }: ThinTrace,
  rotationHz: number,
  middleS: number,
): { readonly along: number; readonly square: number } {
  let along = 0;
  let square = 0;
  for (let n = 0; n < left.length; n++) {
    const t = startS + n / rateHz - middleS;
    const a = 2 * Math.PI * rotationHz * t;
    const g = t * (solution[3] * Math.cos(a) - solution[2] * Math.sin(a));
    along += g * left[n];
    square += g * g;
  }
  return { along, square };
}
