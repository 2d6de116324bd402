/**
 * Phase of right against left at one tone, from short looks at the newest sound; what the looks scatter is its ±.
 *
 *   φ = arg( R(f) · conj L(f) ),   L(f) = Σ w[n] l[n] e^(−i2πfn/fs), w a Hann window
 *   mean and spread on the circle: R̄ = |mean of e^(iφ)|,   s = √(−2 ln R̄)
 *
 * Overlapping looks share samples, so the spread is that of one look, not of their mean.
 *
 * @source K. V. Mardia and P. E. Jupp, "Directional Statistics", circular standard deviation (from memory)
 * @checked channelPhase.test.ts
 */

/** looks that the mean is taken over: half a second at 60 a second */
const LOOKS = 30;
const LEAST_LOOKS = 8;
/** deg, k = 2: wider than this there is no phase to tell */
const MOST_SPREAD_DEG = 30;

export interface ChannelPhaseNow {
  /** deg, −180 to 180: right ahead of left is positive */
  readonly deg: number;
  /** deg, k = 2, of one look */
  readonly spreadDeg: number;
}

/** @param points left and right in turn @returns rad; null where a channel is silent */
function phaseOf(points: Float32Array, hz: number, sampleRateHz: number): number | null {
  const frames = points.length / 2;
  let [lRe, lIm, rRe, rIm] = [0, 0, 0, 0];
  for (let n = 0; n < frames; n++) {
    const w = 0.5 - 0.5 * Math.cos((2 * Math.PI * (n + 0.5)) / frames);
    const angle = (2 * Math.PI * hz * n) / sampleRateHz;
    const [cos, sin] = [w * Math.cos(angle), w * Math.sin(angle)];
    lRe += points[2 * n] * cos;
    lIm -= points[2 * n] * sin;
    rRe += points[2 * n + 1] * cos;
    rIm -= points[2 * n + 1] * sin;
  }
  const re = rRe * lRe + rIm * lIm;
  const im = rIm * lRe - rRe * lIm;
  return re === 0 && im === 0 ? null : Math.atan2(im, re);
}

export class ChannelPhase {
  readonly #looks: number[] = [];
  #hz = 0;

  /** @param hz of the tone that plays @returns null until enough was seen, or where the looks do not agree */
  look(points: Float32Array, hz: number, sampleRateHz: number): ChannelPhaseNow | null {
    if (Math.abs(hz - this.#hz) > 0.01 * hz) this.clear();
    this.#hz = hz;
    const phase = phaseOf(points, hz, sampleRateHz);
    if (phase === null) {
      this.clear();
      return null;
    }
    this.#looks.push(phase);
    if (this.#looks.length > LOOKS) this.#looks.shift();
    if (this.#looks.length < LEAST_LOOKS) return null;
    const n = this.#looks.length;
    const re = this.#looks.reduce((sum, one) => sum + Math.cos(one), 0) / n;
    const im = this.#looks.reduce((sum, one) => sum + Math.sin(one), 0) / n;
    const length = Math.min(1, Math.hypot(re, im));
    if (!(length > 0)) return null;
    const spreadDeg = (2 * Math.sqrt(-2 * Math.log(length)) * 180) / Math.PI;
    return spreadDeg > MOST_SPREAD_DEG ? null : { deg: (Math.atan2(im, re) * 180) / Math.PI, spreadDeg };
  }

  clear(): void {
    this.#looks.length = 0;
  }
}
