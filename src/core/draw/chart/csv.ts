/** A chart's values as a table for other programs: a point for the decimals, a row for every x. */
import { csvText } from '../../words/csv.ts';
import type { Chart } from './curves.ts';

const heading = (words: string, unit: string): string => (unit === '' ? words : `${words} (${unit})`);

/** Lines that hold no value at an x have an empty cell there. */
export function chartCsv({ series, xLabel, xUnit, yUnit }: Chart): string {
  const all = [...new Set(series.flatMap(({ x }) => [...x]))].sort((a, b) => a - b);
  const columns = series.map(({ x, y }) => new Map(x.map((at, i) => [at, y[i]])));
  return csvText([
    [heading(xLabel, xUnit), ...series.map(({ name }) => heading(name, yUnit))],
    ...all.map((x) => [x, ...columns.map((column) => column.get(x) ?? null)]),
  ]);
}
