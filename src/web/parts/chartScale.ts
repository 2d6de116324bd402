/** Scales and ticks of a chart, apart from its drawing. */
import { extent } from 'd3-array';
import { type ScaleContinuousNumeric, scaleLinear, scaleLog } from 'd3-scale';

export type ChartScale = ScaleContinuousNumeric<number, number>;

/** Least and greatest of many arrays; null where they hold nothing. */
export function spanOf(arrays: readonly (readonly number[])[]): [number, number] | null {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const array of arrays) {
    const [a, b] = extent(array as number[]);
    if (a === undefined || b === undefined) continue;
    low = Math.min(low, a);
    high = Math.max(high, b);
  }
  return low <= high ? [low, high] : null;
}

/** Room at both ends, and never a span of nothing. */
export function widened([low, high]: [number, number], share: number): [number, number] {
  const room = (high - low) * share || Math.max(1e-6, Math.abs(high) * 0.1) || 1;
  return [low - room, high + room];
}

export function makeScale(domain: [number, number], range: [number, number], log: boolean): ChartScale {
  const scale = log ? scaleLog() : scaleLinear();
  return scale.domain(domain).range(range) as ChartScale;
}

/** On a logarithmic scale 1, 2 and 5 of each decade; else what the scale thinks best. */
export function ticksOf(scale: ChartScale, count: number, log: boolean): number[] {
  if (!log) return scale.ticks(count);
  const [low, high] = scale.domain();
  const ticks: number[] = [];
  for (let decade = 10 ** Math.floor(Math.log10(low)); decade <= high; decade *= 10) {
    for (const step of [1, 2, 5]) {
      const value = step * decade;
      if (low * 0.999 <= value && value <= high * 1.001) ticks.push(value);
    }
  }
  return ticks.length > count + 4
    ? ticks.filter((tick) => Number.isInteger(Math.round(Math.log10(tick) * 1e6) / 1e6))
    : ticks;
}

/** 20 000 → 20k; a true minus. */
export function tickText(value: number): string {
  const text =
    Math.abs(value) >= 1000
      ? `${Number((Math.abs(value) / 1000).toPrecision(4))}k`
      : `${Number(Math.abs(value).toPrecision(4))}`;
  return value < 0 ? `\u2212${text}` : text;
}

/** Index of the value nearest to `wanted` in an ascending array. */
export function nearest(values: readonly number[], wanted: number): number {
  let low = 0;
  let high = values.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (values[middle] <= wanted) low = middle;
    else high = middle;
  }
  return high >= 0 && Math.abs(values[high] - wanted) < Math.abs(values[low] - wanted) ? high : Math.max(0, low);
}
