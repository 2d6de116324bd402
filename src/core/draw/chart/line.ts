/** A line of a chart as the path of an SVG. */
import { type ChartScale, nearest } from './scale.ts';

/** `M0.0,5.0L1.5,7.2`; '' of no point. */
export const pathOf = (points: readonly (readonly [x: number, y: number])[]): string =>
  points.map(([x, y], i) => `${i === 0 ? 'M' : 'L'}${x.toFixed(1)},${y.toFixed(1)}`).join('');

/** Indices to draw, in order: of every stretch its lowest and its highest point, so that no peak is lost. */
export function thinned(y: readonly number[], most: number): number[] {
  if (y.length <= most) return y.map((_, index) => index);
  const stretches = Math.floor(most / 2);
  const kept = new Set([0, y.length - 1]);
  for (let stretch = 0; stretch < stretches; stretch++) {
    const from = Math.floor((stretch * y.length) / stretches);
    const to = Math.floor(((stretch + 1) * y.length) / stretches);
    let low = from;
    let high = from;
    for (let index = from; index < to; index++) {
      if (y[index] < y[low]) low = index;
      if (y[index] > y[high]) high = index;
    }
    kept.add(low).add(high);
  }
  return [...kept].sort((a, b) => a - b);
}

/** The line within the domain of its x axis, or of `points` a stroke of no length at each (round ends make dots of them); one over frequency has no place for 0 Hz on a logarithmic axis. */
export function linePath(
  { x, y, style }: { readonly x: readonly number[]; readonly y: readonly number[]; readonly style?: string },
  sx: ChartScale,
  sy: ChartScale,
  most: number,
): string {
  const [from, to] = sx.domain;
  const places = thinned(y, most)
    .filter((i) => from <= x[i] && x[i] <= to)
    .map((i): readonly [number, number] => [sx(x[i]), sy(y[i])]);
  return style === 'points' ? places.map((place) => `${pathOf([place])}h0`).join('') : pathOf(places);
}

/** The value of a line at the one of its places that is nearest to `at`; null where it does not reach. */
export function valueAt(
  { x, y }: { readonly x: readonly number[]; readonly y: readonly number[] },
  at: number,
): number | null {
  return x.length > 0 && x[0] <= at && at <= x[x.length - 1] ? y[nearest(x, at)] : null;
}
