/**
 * What the speed does once per turn: least squares of the deviation on the platter's rotation and its first harmonics,
 * with the mean and a steady drift fitted beside them, so that a turn that is not whole bends none of them.
 *
 *   x(t) = a + b t + Σₕ (pₕ cos hΩt + qₕ sin hΩt),  h = 1 … 3
 */
import { solveSymmetric } from '../signal/solveSymmetric.ts';
import type { ThinTrace } from './thinTrace.ts';

export interface Rotation {
  /** to add to the trace's mean: mean deviation over whole turns, ratio */
  readonly meanCorrection: number;
  readonly meanVariance: number;
  readonly meanFreedom: number;
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

/** @param rotationHz turns a second as heard */
export function fitRotation(trace: ThinTrace, rotationHz: number): Rotation | null {
  if (!(rotationHz > 0.05 && rotationHz < 3)) throw new RangeError(`rotationHz ${rotationHz} must be from 0.05 to 3`);
  const { deviation: x, rateHz: thinHz, startS: firstS } = trace;
  const count = x.length;
  const lengthS = count / thinHz;
  const turns = lengthS * rotationHz;
  if (!(turns >= 1.5)) return null;
  const harmonics = turns >= 3 ? HARMONICS : turns >= 2 ? 2 : 1;
  const middleS = firstS + (count - 1) / 2 / thinHz;
  const width = 2 + 2 * harmonics;
  const row = new Float64Array(width);
  const fill = (n: number): void => {
    const t = firstS + n / thinHz;
    row[0] = 1;
    row[1] = (t - middleS) / lengthS;
    for (let h = 1; h <= harmonics; h++) {
      const angle = 2 * Math.PI * h * rotationHz * (t - middleS);
      row[2 * h] = Math.cos(angle);
      row[2 * h + 1] = Math.sin(angle);
    }
  };
  const normal = Array.from({ length: width }, () => new Float64Array(width));
  const right = new Float64Array(width);
  for (let n = 0; n < count; n++) {
    fill(n);
    for (let i = 0; i < width; i++) {
      right[i] += row[i] * x[n];
      for (let j = 0; j < width; j++) normal[i][j] += row[i] * row[j];
    }
  }
  const solved = solveSymmetric(normal, right);
  if (solved === null) return null;
  const { solution, inverse } = solved;
  const left = new Float64Array(count);
  for (let n = 0; n < count; n++) {
    fill(n);
    let fitted = 0;
    for (let i = 0; i < width; i++) fitted += row[i] * solution[i];
    left[n] = x[n] - fitted;
  }
  // Power of the remainder near the rotation and near zero, bins that the fit has emptied left out.
  const near = (from: number, to: number): { mean: number; bins: number } => {
    let power = 0;
    let bins = 0;
    for (let b = from; b <= to; b += 0.5) {
      const hz = b / lengthS;
      if (hz > thinHz / 2.5) break;
      if (
        Array.from({ length: harmonics }, (_, h) => Math.abs(hz - (h + 1) * rotationHz) * lengthS).some((d) => d < 1)
      ) {
        continue;
      }
      let re = 0;
      let im = 0;
      for (let n = 0; n < count; n++) {
        const angle = (2 * Math.PI * hz * n) / thinHz;
        re += left[n] * Math.cos(angle);
        im += left[n] * Math.sin(angle);
      }
      power += re * re + im * im;
      bins += 1;
    }
    return { mean: bins === 0 ? 0 : power / bins / count, bins: bins / 2 };
  };
  const atRotation = near(Math.max(1.5, turns - 5), turns + 5);
  const low = near(1.5, 3);
  const above = near(3.5, 7);
  const around = near(1.5, 7);
  // Slow wander: what is slower than the trace is long hides in the mean. How steeply the density falls from 2.2/T to 5/T,
  // as f^−γ with γ up to 2, says how much: 1 + 1.5γ times the density at the low end. Where the density falls towards zero
  // instead (a tone's phase noise does), what the mean holds lies below both.
  const steep =
    low.mean > 0 && above.mean > 0
      ? Math.min(2, Math.max(0, Math.log(low.mean / above.mean) / Math.log(5 / 2.2) - CHANCE))
      : 0;
  const atZero = {
    mean:
      low.mean < around.mean
        ? Math.sqrt(low.mean * around.mean)
        : Math.max(around.mean, low.mean * (1 + HIDDEN_SHARE * steep)),
    bins: around.bins,
  };
  // a drift that stands out of what the remainder makes by chance
  const byChance = atZero.mean * inverse[1][1];
  const drifted = solution[1] ** 2 > 4 * byChance ? solution[1] ** 2 - byChance : 0;
  // d(p cos a + q sin a)/dΩ = (t − m)(q cos a − p sin a): what is left, projected on it
  let along = 0;
  let square = 0;
  for (let n = 0; n < count; n++) {
    const t = firstS + n / thinHz - middleS;
    const a = 2 * Math.PI * rotationHz * t;
    const g = t * (solution[3] * Math.cos(a) - solution[2] * Math.sin(a));
    along += g * left[n];
    square += g * g;
  }
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
    meanVariance: atZero.mean * inverse[0][0] + drifted / 9,
    meanFreedom: Math.max(2, 2 * atZero.bins),
    // p cos Ω(t − m) + q sin Ω(t − m) = Re[(p − iq) e^{iΩt} e^{−iΩm}]
    re: p * c - q * s,
    im: -q * c - p * s,
    variance: atRotation.mean * ((inverse[2][2] + inverse[3][3]) / 2),
    degreesOfFreedom: Math.max(2, 2 * atRotation.bins),
    turning: square > 0 ? along / square : 0,
    turningVariance: (atRotation.mean + 1e-30) / Math.max(square, 1e-30),
    turns,
    middleS,
  };
}
