/** The curves of a document as a chart: axes from their units, left solid and right dashed. */

import { type CurveGroup, chartOf } from '../../core/draw/chart/curves.ts';
import type { Band } from '../../core/record/band.ts';
import { LineChart, type Mark } from '../parts/LineChart.tsx';
import { bandTimes, bandWords } from './bandWords.ts';

export function CurveChart({ group, bands }: { group: CurveGroup; bands: readonly Band[] }) {
  const [first] = group.curves;
  if (first === undefined) return null;
  const band = group.band === null ? undefined : bands[group.band];
  const chart = chartOf(group);
  const where = band === undefined ? '' : ` · band ${band.index + 1}, ${bandWords(band)}`;
  const marks: Mark[] =
    group.quantity === 'level' && band !== undefined
      ? [
          { x: band.startS, label: 'read from here' },
          { x: band.endS, label: 'to here' },
        ]
      : band?.frequencyHz && first.xUnit === 'Hz'
        ? [{ x: band.frequencyHz }]
        : [];
  return (
    <section>
      <h3>
        {chart.title}
        {where}
      </h3>
      <LineChart
        name={`${chart.title}${where}${band === undefined ? '' : `, ${bandTimes(band)}`}`}
        series={chart.series}
        xLabel={chart.xLabel}
        yLabel={chart.yLabel}
        xUnit={chart.xUnit}
        yUnit={chart.yUnit}
        xLog={chart.xLog}
        marks={marks}
        height={230}
        yDecimals={first.yUnit === '%' ? 3 : undefined}
      />
    </section>
  );
}
