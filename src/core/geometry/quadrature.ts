/** Gauss–Legendre quadrature over a groove span, split where the music weight has a corner. */
import { type MusicWeight, weightAt } from './music.ts';

export interface Node {
  /** groove radius, mm */
  readonly radius: number;
  /** quadrature weight times music weight, mm */
  readonly weight: number;
}

const ORDER = 20;

/** Nodes and weights on [−1, 1] by Newton's method on the Legendre polynomial. */
function legendre(order: number): { readonly x: readonly number[]; readonly w: readonly number[] } {
  const x: number[] = [];
  const w: number[] = [];
  for (let i = 0; i < order; i++) {
    let z = Math.cos((Math.PI * (i + 0.75)) / (order + 0.5));
    let slope = 1;
    for (let step = 0; step < 12; step++) {
      let p = 1;
      let before = 0;
      for (let k = 1; k <= order; k++) {
        const next = ((2 * k - 1) * z * p - (k - 1) * before) / k;
        before = p;
        p = next;
      }
      slope = (order * (z * p - before)) / (z * z - 1);
      z -= p / slope;
    }
    x.push(z);
    w.push(2 / ((1 - z * z) * slope * slope));
  }
  return { x, w };
}

const rule = legendre(ORDER);

/**
 * Nodes for ∫ m(r) f(r) dr from inner to outer. Exact to rounding for the smooth laws here.
 *
 * @throws RangeError where the music weight is nought on the whole span
 */
export function spanNodes(inner: number, outer: number, music: MusicWeight): readonly Node[] {
  const corners = [inner, ...music.map((point) => point.radius).filter((r) => r > inner && r < outer), outer];
  const nodes: Node[] = [];
  for (let k = 1; k < corners.length; k++) {
    const half = (corners[k] - corners[k - 1]) / 2;
    const middle = (corners[k] + corners[k - 1]) / 2;
    for (let i = ORDER - 1; i >= 0; i--) {
      const radius = middle + half * rule.x[i];
      const weight = half * rule.w[i] * weightAt(music, radius);
      if (weight > 0) nodes.push({ radius, weight });
    }
  }
  if (nodes.length === 0) {
    throw new RangeError(
      `the music weight is 0 all the way from ${inner} to ${outer} mm; some of it must lie in the groove span`,
    );
  }
  return nodes;
}
