/**
 * Wow and flutter of the modelled speed itself: no tone, no noise, no demodulation. Every part of the deviation is a known
 * sinusoid, so each is weighted at its own frequency and the weighted deviation is summed again, without phase shift.
 *
 * 2σ: the magnitude that is exceeded for 5 % of the time. Weighted by IEC 60386 (the table is from memory, not seen in a
 * source); unweighted flat from 0.1 to 200 Hz, nothing outside.
 */
import { speedHarmonics } from './armPath.ts';
import type { SpeedModel } from './speed.ts';

/** Hz, dB */
const WEIGHTING: readonly (readonly [number, number])[] = [
  [0.1, -48],
  [0.2, -30.6],
  [0.315, -19.7],
  [0.4, -15],
  [0.63, -8.4],
  [0.8, -6],
  [1, -4.2],
  [1.6, -1.8],
  [2, -0.9],
  [4, 0],
  [6.3, -0.9],
  [10, -2.1],
  [20, -5.9],
  [40, -10.4],
  [63, -14.2],
  [100, -17.3],
  [200, -23],
];

/**
 * Amplitude ratio of the weighting: the cubic in log f through the four points about the frequency (the curve of a network
 * is smooth; straight lines between the points would lie up to 0.3 dB below it). Outside the table the end slopes go on.
 * @param joined how the points are joined
 */
export function flutterWeight(hz: number, joined: 'smooth' | 'straight' = 'smooth'): number {
  const last = WEIGHTING.length - 1;
  const x = Math.log(hz);
  const point = (i: number): [number, number] => [Math.log(WEIGHTING[i][0]), WEIGHTING[i][1]];
  const along = (i: number, k: number) => {
    const [x0, y0] = point(i);
    const [x1, y1] = point(k);
    return y0 + ((y1 - y0) * (x - x0)) / (x1 - x0);
  };
  if (hz <= WEIGHTING[0][0]) return 10 ** (along(0, 1) / 20);
  if (hz >= WEIGHTING[last][0]) return 10 ** (along(last, last - 1) / 20);
  let i = 0;
  while (hz > WEIGHTING[i + 1][0]) i++;
  if (joined === 'straight') return 10 ** (along(i, i + 1) / 20);
  const from = Math.min(Math.max(0, i - 1), last - 3);
  const four = [0, 1, 2, 3].map((k) => point(from + k));
  const db = four.reduce((sum, [xk, yk], k) => {
    const basis = four.reduce((product, [xm], m) => (m === k ? product : (product * (x - xm)) / (xk - xm)), 1);
    return sum + yk * basis;
  }, 0);
  return 10 ** (db / 20);
}

export interface FlutterTruth {
  /** as heard, hole and warp in it */
  readonly weightedPercent: number;
  readonly unweightedPercent: number;
  /** as heard, rms */
  readonly weightedRmsPercent: number;
  /** of the platter alone: hole and warp are the record's */
  readonly weightedOfDeckPercent: number;
  readonly unweightedOfDeckPercent: number;
  /** zero to peak of the first harmonic of rotation: platter, hole and warp together */
  readonly oncePerTurnPercent: number;
  /** of the hole alone, by the tip's kinematics */
  readonly fromHolePercent: number;
  /** of the platter alone */
  readonly fromPlatterPercent: number;
}

const TRACE_HZ = 600;

/**
 * @param radiusMm of the groove, @param fromS the stretch, s of the whole take, @param toS its end, @param joined how the weighting's points are
 */
export function flutterTruth(
  model: SpeedModel,
  radiusMm: number,
  fromS: number,
  toS: number,
  joined: 'smooth' | 'straight' = 'smooth',
): FlutterTruth {
  const lineOf = ({ harmonic, amplitude, phase }: { harmonic: number; amplitude: number; phase: number }) => ({
    omega: harmonic * model.turning,
    amplitude,
    phase: phase + harmonic * model.startAngle,
  });
  const hole = speedHarmonics({ ...model.path, warp: [] }, radiusMm).map(lineOf);
  const heard = [...model.lines, ...speedHarmonics(model.path, radiusMm).map(lineOf)];
  const hzOf = (omega: number) => omega / (2 * Math.PI);
  const weighted = (lines: SpeedModel['lines'] | typeof heard) =>
    lines.map((line) => ({ ...line, amplitude: line.amplitude * flutterWeight(hzOf(line.omega), joined) }));
  const flat = (lines: SpeedModel['lines'] | typeof heard) =>
    lines.filter(({ omega }) => hzOf(omega) >= 0.1 && hzOf(omega) <= 200);
  const first = (lines: readonly { omega: number; amplitude: number; phase: number }[]) => {
    let re = 0;
    let im = 0;
    for (const { omega, amplitude, phase } of lines) {
      if (omega !== model.turning) continue;
      re += amplitude * Math.cos(phase);
      im += amplitude * Math.sin(phase);
    }
    return 100 * Math.hypot(re, im);
  };
  return {
    weightedPercent: 100 * twoSigma(weighted(heard), fromS, toS, false),
    unweightedPercent: 100 * twoSigma(flat(heard), fromS, toS, true),
    weightedRmsPercent: 100 * rms(weighted(heard)),
    weightedOfDeckPercent: 100 * twoSigma(weighted(model.lines), fromS, toS, false),
    unweightedOfDeckPercent: 100 * twoSigma(flat(model.lines), fromS, toS, true),
    oncePerTurnPercent: first(heard),
    fromHolePercent: first(hole),
    fromPlatterPercent: first(model.lines),
  };
}

/** Lines of one frequency add as phasors, others as powers. */
function rms(lines: readonly { omega: number; amplitude: number; phase: number }[]): number {
  const sums = new Map<number, { re: number; im: number }>();
  for (const { omega, amplitude, phase } of lines) {
    const { re, im } = sums.get(omega) ?? { re: 0, im: 0 };
    sums.set(omega, { re: re + amplitude * Math.cos(phase), im: im + amplitude * Math.sin(phase) });
  }
  return Math.sqrt([...sums.values()].reduce((sum, { re, im }) => sum + (re * re + im * im) / 2, 0));
}

function twoSigma(
  lines: readonly { omega: number; amplitude: number; phase: number }[],
  fromS: number,
  toS: number,
  aboutMean: boolean,
): number {
  const count = Math.max(2, Math.floor((toS - fromS) * TRACE_HZ));
  const trace = new Float64Array(count);
  for (const { omega, amplitude, phase } of lines) {
    let re = Math.cos(omega * fromS + phase) * amplitude;
    let im = Math.sin(omega * fromS + phase) * amplitude;
    const cos = Math.cos(omega / TRACE_HZ);
    const sin = Math.sin(omega / TRACE_HZ);
    for (let i = 0; i < count; i++) {
      trace[i] += re;
      const turned = re * cos - im * sin;
      im = re * sin + im * cos;
      re = turned;
    }
  }
  const mean = aboutMean ? trace.reduce((sum, value) => sum + value, 0) / count : 0;
  const sizes = trace.map((value) => Math.abs(value - mean)).sort();
  return sizes[Math.floor(0.95 * (count - 1))];
}
