/** Scales and ticks of a chart, linear and logarithmic: the same for the page and the report. */
import { trueMinus } from '../../words/number.ts';

export interface ChartScale {
  (value: number): number;
  readonly domain: readonly [number, number];
  /** place → value */
  invert(place: number): number;
  /** about so many round values within the domain, ascending; on a logarithmic scale 1, 2 and 5 of each decade */
  ticks(count: number): number[];
}

/**
 * @param domain values at both ends, different; above 0 where `log`
 * @param range places at both ends, px
 * @throws RangeError for a domain that is none
 */
export function makeScale(
  domain: readonly [number, number],
  range: readonly [number, number],
  log: boolean,
): ChartScale {
  const [from, to] = domain;
  if (!(Number.isFinite(from) && Number.isFinite(to) && from !== to && (!log || (from > 0 && to > 0)))) {
    throw new RangeError(`a scale from ${from} to ${to}: two different numbers${log ? ' above 0' : ''} were expected`);
  }
  const forth = log ? Math.log : (value: number): number => value;
  const back = log ? Math.exp : (value: number): number => value;
  const slope = (range[1] - range[0]) / (forth(to) - forth(from));
  const scale = (value: number): number => range[0] + slope * (forth(value) - forth(from));
  const [low, high] = from < to ? [from, to] : [to, from];
  return Object.assign(scale, {
    domain,
    invert: (place: number): number => back(forth(from) + (place - range[0]) / slope),
    ticks: (count: number): number[] => (log ? decadeTicks(low, high, count) : roundTicks(low, high, count)),
  });
}

/** Steps of 1, 2 or 5 times a power of ten, as near to the count as they come. */
function roundTicks(low: number, high: number, count: number): number[] {
  const wanted = (high - low) / count;
  const power = Math.floor(Math.log10(wanted));
  const lead = wanted / 10 ** power;
  const factor = lead >= Math.sqrt(50) ? 10 : lead >= Math.sqrt(10) ? 5 : lead >= Math.SQRT2 ? 2 : 1;
  // a step under 1 is divided by, so that 3 steps of 0.1 come out as 0.3
  const size = power < 0 ? 10 ** -power / factor : 10 ** power * factor;
  const of = (i: number): number => (power < 0 ? i / size : i * size);
  const ticks: number[] = [];
  const first = Math.ceil((power < 0 ? low * size : low / size) - 1e-9);
  // adding 0 makes a zero of −0
  for (let i = first; of(i) <= high + 1e-9 * (high - low); i++) ticks.push(of(i) + 0);
  return ticks;
}

function decadeTicks(low: number, high: number, count: number): number[] {
  const ticks: number[] = [];
  for (let exponent = Math.floor(Math.log10(low)); 10 ** exponent <= high; exponent++) {
    for (const step of [1, 2, 5]) {
      const value = exponent < 0 ? step / 10 ** -exponent : step * 10 ** exponent;
      if (low * 0.999 <= value && value <= high * 1.001) ticks.push(value);
    }
  }
  const whole = (tick: number): boolean => Number.isInteger(Math.round(Math.log10(tick) * 1e6) / 1e6);
  return ticks.length > count + 4 ? ticks.filter(whole) : ticks;
}

/** Least and greatest of many arrays; null where they hold nothing. */
export function spanOf(arrays: readonly (readonly number[])[]): [number, number] | null {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const array of arrays) {
    for (const value of array) {
      if (value < low) low = value;
      if (value > high) high = value;
    }
  }
  return low <= high ? [low, high] : null;
}

/** Room at both ends, and never a span of nothing. */
export function widened([low, high]: readonly [number, number], share: number): [number, number] {
  const room = (high - low) * share || Math.max(1e-6, Math.abs(high) * 0.1) || 1;
  return [low - room, high + room];
}

/** 20 000 → 20k; a true minus. */
export function tickText(value: number): string {
  const size = Math.abs(value);
  return trueMinus(size >= 1000 ? `${Number((value / 1000).toPrecision(4))}k` : `${Number(value.toPrecision(4))}`);
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
