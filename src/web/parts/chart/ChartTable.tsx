/** The values of a chart's lines as a table, for who cannot see the lines. */
import type { Series } from '../../../core/draw/chart/curves.ts';
import { valueAt } from '../../../core/draw/chart/line.ts';
import { showNumber } from '../../../core/words/number.ts';

const MOST_ROWS = 60;

interface ChartTableProps {
  readonly name: string;
  readonly series: readonly Series[];
  /** with its unit */
  readonly xTitle: string;
  readonly yUnit: string;
  readonly xDecimals: number;
  readonly yDecimals: number;
  readonly signed: boolean;
  readonly grid: readonly number[];
}

export function ChartTable({ name, series, xTitle, yUnit, xDecimals, yDecimals, signed, grid }: ChartTableProps) {
  const step = Math.max(1, Math.ceil(grid.length / MOST_ROWS));
  const rows = grid.filter((_, i) => i % step === 0);
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a stretch that scrolls must be reachable by keyboard
    <section class="scroll-x" tabIndex={0} aria-label={`${name}, table`}>
      <table>
        <thead>
          <tr>
            <th scope="col">{xTitle}</th>
            {series.map((s) => (
              <th scope="col" key={s.name}>
                {s.name}
                {yUnit === '' ? '' : `, ${yUnit}`}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((x) => (
            <tr key={x}>
              <th scope="row">{showNumber(x, xDecimals)}</th>
              {series.map((s) => {
                const y = valueAt(s, x);
                return <td key={s.name}>{y === null ? '' : showNumber(y, yDecimals, signed)}</td>;
              })}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
