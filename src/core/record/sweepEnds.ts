/**
 * The ends of a sweep, where it is too quick or too deep in rumble to show as a line: its law, fitted to the part that
 * was followed, is carried on as long as the octave it must be in holds as much power as it had.
 *
 *   log:  ln f = a + b t        linear:  f = a + b t       whichever leaves less behind
 */

import { median } from '../signal/robust.ts';
import type { HopSpectra } from './hopSpectra.ts';
import type { Line } from './lineStore.ts';
import { OCTAVES, octaveAt } from './octaveRanges.ts';
import { power } from './toneTracks.ts';

export interface SweepEnds {
  /** hops, the first and one past the last */
  readonly fromHop: number;
  readonly toHop: number;
  /** Hz at these moments */
  readonly fromHz: number;
  readonly toHz: number;
}

const LEAST_HZ = 14;
const MOST_HZ = 22_000;
/** of the part that was followed */
const MOST_SHARE = 0.3;

/** @param leastHop @param mostHop where the neighbours' bands end and begin */
export function sweepEnds(points: readonly Line[], spectra: HopSpectra, leastHop: number, mostHop: number): SweepEnds {
  const at = lawOf(points);
  const first = points[0].hop;
  const last = points[points.length - 1].hop;
  const quarter = Math.max(4, points.length >> 2);
  const before = carryOn(at, first, -1, leastHop, median(points.slice(0, quarter).map(power)), spectra, last);
  const after = carryOn(at, last, 1, mostHop - 1, median(points.slice(-quarter).map(power)), spectra, first);
  const clip = (hz: number): number => Math.min(MOST_HZ, Math.max(LEAST_HZ, hz));
  // A law that was not needed beyond the points is not used either.
  return {
    fromHop: before,
    toHop: after + 1,
    fromHz: before === first ? points[0].frequencyHz : clip(at(before)),
    toHz: after === last ? points[points.length - 1].frequencyHz : clip(at(after + 1)),
  };
}

/** Frequency over hops, by the law that fits better. */
function lawOf(points: readonly Line[]): (hop: number) => number {
  const t = points.map((p) => p.hop + 0.5);
  const f = points.map((p) => p.frequencyHz);
  const log = line(
    t,
    f.map((v) => Math.log(v)),
  );
  const linear = line(t, f);
  const left = (law: (hop: number) => number): number =>
    median(points.map((p, i) => Math.abs(law(t[i]) / p.frequencyHz - 1)));
  const asLog = (hop: number): number => Math.exp(log.a + log.b * hop);
  const asLinear = (hop: number): number => linear.a + linear.b * hop;
  return left(asLog) < left(asLinear) ? asLog : asLinear;
}

/** Least squares y = a + b x. */
function line(x: readonly number[], y: readonly number[]): { a: number; b: number } {
  const n = x.length;
  const mx = x.reduce((s, v) => s + v, 0) / n;
  const my = y.reduce((s, v) => s + v, 0) / n;
  let sxy = 0;
  let sxx = 0;
  for (let i = 0; i < n; i++) {
    sxy += (x[i] - mx) * (y[i] - my);
    sxx += (x[i] - mx) ** 2;
  }
  const b = sxx > 0 ? sxy / sxx : 0;
  return { a: my - b * mx, b };
}

function carryOn(
  at: (hop: number) => number,
  from: number,
  step: 1 | -1,
  limit: number,
  level: number,
  spectra: HopSpectra,
  other: number,
): number {
  let reached = from;
  const most = MOST_SHARE * Math.abs(other - from);
  for (let i = 1; i <= most; i++) {
    const hop = from + step * i;
    if (step === 1 ? hop > limit : hop < limit) break;
    const a = at(hop);
    const b = at(hop + 1);
    if (!(Math.max(a, b) > LEAST_HZ && Math.min(a, b) < MOST_HZ)) break;
    const low = octaveOf(Math.max(LEAST_HZ, Math.min(a, b)));
    const high = octaveOf(Math.max(LEAST_HZ, Math.max(a, b)));
    let here = 0;
    let ambient = 0;
    for (let o = low; o <= high; o++) {
      here += total(spectra, hop, o);
      ambient += quietest(spectra, o, Math.min(from, other), Math.max(from, other));
    }
    // Too little is its end, too much is a neighbour without a pause.
    if (here < 0.35 * level || here > 8 * level || here < 6 * ambient) break;
    reached = hop;
  }
  return reached;
}

const octaveOf = (hz: number): number => Math.max(0, Math.min(OCTAVES - 1, octaveAt(hz)));

function total(spectra: HopSpectra, hop: number, o: number): number {
  const { left, right } = spectra.octave(hop, o);
  return left + right;
}

/** What an octave holds while the sweep is elsewhere. */
function quietest(spectra: HopSpectra, o: number, from: number, to: number): number {
  const stride = Math.max(1, (to - from) >> 6);
  const values: number[] = [];
  for (let hop = from; hop < to; hop += stride) values.push(total(spectra, hop, o));
  values.sort((a, b) => a - b);
  return values[Math.floor(0.2 * values.length)] ?? 0;
}
