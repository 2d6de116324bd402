/**
 * A round tip in a groove with two walls, read along its own path: nothing made linear.
 *
 * The cutter stands at (x, y) at its own time p and leaves the groove at  u = V p + x tan ζ − y tan α_cut.
 * A sphere of radius R rolls on each wall g(u): touching at p, its centre stands at
 *
 *   s = u − R sin ϑ,   c = g + R (cos ϑ − 1),   tan ϑ = dg/du      (g towards the groove's inside; the outer wall's is −g)
 *
 * and the tip's own path carries it to  s = V τ + x tan ε − y tan α_play  at groove time τ. Lengths in cm.
 */
/** Displacement along the wall's axis and its first two derivatives at the cutter's time p; written into `out`. */
export type Wall = (p: number, out: Float64Array) => void;

export interface Path {
  /** cm/s */
  readonly speed: number;
  /** tangents */
  readonly zenith: number;
  readonly cutAngle: number;
  readonly across: number;
  readonly play: number;
  /** cm */
  readonly tip: number;
  /** cm, by which the outer wall's contact lies behind the inner's: a skewed edge */
  readonly late: number;
}

const R2 = Math.SQRT1_2;

/** Reads one band; asked for times in order, near one another. */
export function tipReader(left: Wall, right: Wall, path: Path): (tau: number, out: Float64Array) => void {
  const { speed, zenith, cutAngle, across, play, tip, late } = path;
  const l = new Float64Array(3);
  const r = new Float64Array(3);
  let lag = 0;
  let lagL = 0;
  let lagR = 0;
  // where a sphere that touches at p stands; out: s, ds/dp, c, dc/ds
  const touch = new Float64Array(4);
  const at = (p: number, inner: boolean): void => {
    left(p, l);
    right(p, r);
    const x = (l[0] + r[0]) * R2;
    const y = (l[0] - r[0]) * R2;
    const x1 = (l[1] + r[1]) * R2;
    const y1 = (l[1] - r[1]) * R2;
    const x2 = (l[2] + r[2]) * R2;
    const y2 = (l[2] - r[2]) * R2;
    const u = speed * p + zenith * x - cutAngle * y;
    const u1 = speed + zenith * x1 - cutAngle * y1;
    const u2 = zenith * x2 - cutAngle * y2;
    const g = inner ? l[0] : -r[0];
    const g1 = inner ? l[1] : -r[1];
    const g2 = inner ? l[2] : -r[2];
    const slope = g1 / u1;
    const slope1 = (g2 - slope * u2) / u1;
    const cos = 1 / Math.sqrt(1 + slope * slope);
    touch[0] = u - tip * slope * cos;
    touch[1] = u1 - tip * slope1 * cos ** 3;
    touch[2] = g + tip * (cos - 1);
    touch[3] = slope;
  };
  const solve = (s: number, start: number, inner: boolean): number => {
    let p = start;
    for (let round = 0; round < 40; round++) {
      at(p, inner);
      const step = (touch[0] - s) / touch[1];
      p -= step;
      if (Math.abs(step) < 1e-13) break;
    }
    at(p, inner);
    return p;
  };
  return (tau, out) => {
    let s = speed * tau + lag;
    let cl = 0;
    let cr = 0;
    for (let round = 0; round < 40; round++) {
      const base = s / speed;
      lagL = solve(s, base + lagL, true) - base;
      cl = touch[2];
      const sl = touch[3];
      lagR = solve(s - late, base + lagR, false) - base;
      cr = -touch[2];
      const sr = -touch[3];
      const f = s - speed * tau - across * (cl + cr) * R2 + play * (cl - cr) * R2;
      const slope = 1 - across * (sl + sr) * R2 + play * (sl - sr) * R2;
      const step = f / slope;
      s -= step;
      if (Math.abs(step) < 1e-12) break;
    }
    lag = s - speed * tau;
    out[0] = cl;
    out[1] = cr;
  };
}
