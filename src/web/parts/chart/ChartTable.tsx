/** The values of a chart's lines as a table, for who cannot see the lines. */

import type { Series } from '../../../core/draw/chart/curves.ts';
import { valueAt } from '../../../core/draw/chart/line.ts';
import { showNumber } from '../../../core/words/number.ts';
import { ScrollTable } from '../ScrollTable.tsx';

const MOST_ROWS = 60;

interface ChartTableProps {
  readonly name: string;
  readonly series: readonly Series[];
  /** with its unit */
  readonly xTitle: string;
  readonly yUnit: string;
  xText(x: number): string;
  readonly yDecimals: number;
  readonly signed: boolean;
  readonly grid: readonly number[];
}

export function ChartTable({ name, series, xTitle, yUnit, xText, yDecimals, signed, grid }: ChartTableProps) {
  const step = Math.max(1, Math.ceil(grid.length / MOST_ROWS));
  const rows = grid.filter((_, i) => i % step === 0);
  return (
    <ScrollTable
      name={name}
      class=""
      heads={[xTitle, ...series.map((s) => (yUnit === '' ? s.name : `${s.name}, ${yUnit}`))]}
    >
      {rows.map((x) => (
        <tr key={x}>
          <th scope="row">{xText(x)}</th>
          {series.map((s) => {
            const y = valueAt(s, x);
            return <td key={s.name}>{y === null ? '' : showNumber(y, yDecimals, signed)}</td>;
          })}
        </tr>
      ))}
    </ScrollTable>
  );
}
