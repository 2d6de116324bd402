/** A chart's values as a table for other programs: RFC 4180, a point for the decimals, a row for every x. */
import type { Chart } from './curves.ts';

const cell = (text: string): string => (/[",\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text);
const heading = (words: string, unit: string): string => cell(unit === '' ? words : `${words} (${unit})`);

/** Lines that hold no value at an x have an empty cell there. */
export function chartCsv({ series, xLabel, xUnit, yUnit }: Chart): string {
  const all = [...new Set(series.flatMap(({ x }) => [...x]))].sort((a, b) => a - b);
  const columns = series.map(({ x, y }) => new Map(x.map((at, i) => [at, y[i]])));
  const rows = all.map((x) => [x, ...columns.map((column) => column.get(x) ?? '')].join(','));
  return `${[[heading(xLabel, xUnit), ...series.map(({ name }) => heading(name, yUnit))].join(','), ...rows].join('\r\n')}\r\n`;
}
