/** Four equal sections of a high pass, Q 0.6, direct form II transposed: a tone and its first harmonics go far down. */

const Q = 0.6;
const SECTIONS = 4;

export class HighPass {
  private readonly b: number;
  private readonly a1: number;
  private readonly a2: number;
  private readonly state = new Float64Array(2 * SECTIONS);

  constructor(sampleRateHz: number, hz: number) {
    const k = Math.tan((Math.PI * hz) / sampleRateHz);
    const norm = 1 / (1 + k / Q + k * k);
    this.b = norm;
    this.a1 = 2 * (k * k - 1) * norm;
    this.a2 = (1 - k / Q + k * k) * norm;
  }

  next(x: number): number {
    const { b, a1, a2, state } = this;
    let v = x;
    for (let s = 0; s < 2 * SECTIONS; s += 2) {
      const y = b * v + state[s];
      state[s] = -2 * b * v - a1 * y + state[s + 1];
      state[s + 1] = b * v - a2 * y;
      v = y;
    }
    return v;
  }
}

/** What it lets through at `at`, a size. */
export function highPassGain(sampleRateHz: number, hz: number, at: number): number {
  const w = Math.tan((Math.PI * at) / sampleRateHz) / Math.tan((Math.PI * hz) / sampleRateHz);
  return ((w * w) / Math.hypot(1 - w * w, w / Q)) ** SECTIONS;
}
