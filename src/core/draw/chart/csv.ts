/** Curves as tables for other programs: a point for the decimals. A chart has a row for every x, all curves of a document a row for every point. */
import { csvText } from '../../words/csv.ts';
import type { Chart, DrawnCurve } from './curves.ts';

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

const COLUMNS = ['quantity', 'channel', 'line', 'band', 'x', 'x_unit', 'y', 'y_unit'] as const;

/** All curves of a document, one under the other. `band` is the band's index, from 0; cells that do not apply are empty. */
export function curvesCsv(curves: readonly DrawnCurve[]): string {
  return csvText([
    COLUMNS,
    ...curves.flatMap(({ quantity, channel, name, band, x, y, xUnit, yUnit }) =>
      x.map((at, i) => [quantity, channel ?? null, name ?? null, band ?? null, at, xUnit, y[i], yUnit]),
    ),
  ]);
}
