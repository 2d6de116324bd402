/** Several responses of one channel as one. */
import type { ChannelResponse } from './responseSources.ts';

export interface Joined {
  readonly hz: readonly number[];
  readonly db: readonly number[];
  /** standard */
  readonly spreadDb: readonly number[];
}

/** octaves over which a deviation is a mean */
const SMOOTH_OCTAVES = 1 / 12;
/** points of a sweep or two in it, 1/24 octave apart */
export const SMOOTHED_POINTS = 3;

/** Several sweeps of one channel in one, each against its own 1 kHz; ascending, smoothed. */
export function joined(responses: readonly ChannelResponse[]): Joined {
  const points = responses
    .filter(({ anchored }) => anchored)
    .flatMap(({ hz, db, spreadDb }) => hz.map((f, i) => ({ hz: f, db: db[i], spread: spreadDb[i] })))
    .sort((a, b) => a.hz - b.hz);
  const smooth = points.map((p) => {
    const near = points.filter((q) => Math.abs(Math.log2(q.hz / p.hz)) <= SMOOTH_OCTAVES / 2);
    return near.reduce((sum, q) => sum + q.db, 0) / near.length;
  });
  return { hz: points.map((p) => p.hz), db: smooth, spreadDb: points.map((p) => p.spread) };
}

/** Straight between two neighbours over the logarithm; null beyond the ends. */
export function valueAt({ hz, db, spreadDb }: Joined, at: number): { db: number; spread: number } | null {
  for (let i = 1; i < hz.length; i++) {
    if (at < hz[i - 1] * 0.995 || at > hz[i] * 1.005) continue;
    const whole = Math.log(hz[i] / hz[i - 1]);
    const share = whole > 0 ? Math.min(1, Math.max(0, Math.log(at / hz[i - 1]) / whole)) : 0;
    return { db: db[i - 1] + share * (db[i] - db[i - 1]), spread: Math.max(spreadDb[i - 1], spreadDb[i]) };
  }
  return null;
}
