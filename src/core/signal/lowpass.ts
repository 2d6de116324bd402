/**
 * Linear-phase low pass, a sinc under a Kaiser window.
 *
 *   β = 0.1102 (A − 8.7)                         A > 50 dB
 *   β = 0.5842 (A − 21)^0.4 + 0.07886 (A − 21)   21 ≤ A ≤ 50 dB
 *   N = (A − 7.95) / (2.285 Δω) + 1              Δω transition, rad per sample
 *
 * @source J. F. Kaiser 1974 (from memory, not seen in a source)
 * @checked lowpass.test.ts, against its own promise in pass and stop band; test/standards against SciPy's firwin
 */

/** Modified Bessel function of the first kind, order 0, by its power series. @param x 0 to 50 */
export function besselI0(x: number): number {
  if (!(x >= 0 && x <= 50)) throw new RangeError(`x ${x} must be from 0 to 50`);
  let sum = 1;
  let term = 1;
  for (let k = 1; term > 1e-17 * sum; k++) {
    term *= (x / (2 * k)) ** 2;
    sum += term;
  }
  return sum;
}

export function kaiserSymmetric(length: number, beta: number): Float64Array {
  const w = new Float64Array(length);
  for (let n = 0; n < length; n++) {
    const u = length === 1 ? 0 : (2 * n) / (length - 1) - 1;
    w[n] = besselI0(beta * Math.sqrt(Math.max(0, 1 - u * u))) / besselI0(beta);
  }
  return w;
}

export interface LowpassDesign {
  readonly sampleRateHz: number;
  /** flat up to here */
  readonly passHz: number;
  /** down by `attenuationDb` from here on */
  readonly stopHz: number;
  /** dB, 21 to 150 */
  readonly attenuationDb: number;
}

/** Taps, an odd number, symmetric, sum exactly 1. Delay (N − 1)/2 samples. */
export function lowpassTaps({ sampleRateHz, passHz, stopHz, attenuationDb }: LowpassDesign): Float64Array {
  if (!(passHz > 0 && stopHz > passHz && stopHz <= sampleRateHz / 2)) {
    throw new RangeError(`passHz ${passHz} and stopHz ${stopHz} must rise and end by half of ${sampleRateHz}`);
  }
  const a = attenuationDb;
  if (!(a >= 21 && a <= 150)) throw new RangeError(`attenuationDb ${a} must be from 21 to 150`);
  const beta = a > 50 ? 0.1102 * (a - 8.7) : 0.5842 * (a - 21) ** 0.4 + 0.07886 * (a - 21);
  const transition = (2 * Math.PI * (stopHz - passHz)) / sampleRateHz;
  const half = Math.ceil((a - 7.95) / (2.285 * transition) / 2);
  const cutoff = (passHz + stopHz) / sampleRateHz;
  const taps = kaiserSymmetric(2 * half + 1, beta);
  let sum = 0;
  for (let n = -half; n <= half; n++) {
    const x = Math.PI * cutoff * n;
    taps[n + half] *= n === 0 ? 1 : Math.sin(x) / x;
    sum += taps[n + half];
  }
  return taps.map((v) => v / sum);
}
