/**
 * One figure of a chain watched over time: limits from the readings that came first, every later reading held against them.
 *
 *   limits of the first `BASELINE` readings; until there are so many, of all before the one that is looked at
 *
 * @source Shewhart's chart for individuals and moving range (controlChart.ts); eight and 25 readings are common practice
 * @checked watchedFigure.test.ts; test/standards/repeats.test.ts
 */
import { type ChartLimits, chartLimits, endsRun, type Signal } from './controlChart.ts';

/** below this no limits are drawn */
export const LEAST_FOR_LIMITS = 8;
/** readings behind the limits, at most */
export const BASELINE = 25;

export interface WatchedFigure {
  /** for the next reading; null of fewer than eight, or where all are alike */
  readonly limits: ChartLimits | null;
  /** readings behind them */
  readonly behind: number;
  /** by reading, oldest first: what it is told for, and the limits it was held against */
  readonly told: readonly { readonly signal: Signal | null; readonly limits: ChartLimits | null }[];
}

/** Readings that do not scatter at all give no limits: whatever came next would lie beyond. */
function limitsBefore(values: readonly number[], i: number): ChartLimits | null {
  const count = Math.min(i, BASELINE);
  if (count < LEAST_FOR_LIMITS) return null;
  const limits = chartLimits(values.slice(0, count));
  return limits.meanRange > 0 ? limits : null;
}

/**
 * @param values oldest first
 * @param gap place before which readings were left out, so that its two neighbours did not follow each other; null: none were
 */
export function watchedFigure(values: readonly number[], gap: number | null = null): WatchedFigure {
  const fixed = limitsBefore(values, values.length);
  const signals: (Signal | null)[] = [];
  const told = values.map((_, i) => {
    const limits = i >= BASELINE ? fixed : limitsBefore(values, i);
    const signal = limits === null ? null : signalOf(values, i, { limits, gap, signals });
    signals.push(signal);
    return { signal, limits };
  });
  return { limits: fixed, behind: fixed === null ? 0 : Math.min(values.length, BASELINE), told };
}

interface Before {
  readonly limits: ChartLimits;
  readonly gap: number | null;
  /** of the readings before it */
  readonly signals: readonly (Signal | null)[];
}

function signalOf(values: readonly number[], i: number, { limits, gap, signals }: Before): Signal | null {
  const { centre, low, high, rangeLimit } = limits;
  const value = values[i];
  if (value < low || value > high) return 'beyond';
  const from = gap !== null && i >= gap ? gap : 0;
  // back from a reading that was told already is no second thing
  const jumped = i > from && signals[i - 1] === null && Math.abs(value - values[i - 1]) > rangeLimit;
  if (jumped) return 'jump';
  const since = values.slice(from, i + 1);
  const runs = endsRun(since, since.length - 1, centre);
  // a run is told once, at the reading that makes it one
  return runs && !endsRun(since.slice(0, -1), since.length - 2, centre) ? 'run' : null;
}
