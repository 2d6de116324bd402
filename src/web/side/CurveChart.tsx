/** The curves of a document as a chart: axes from their units, left solid and right dashed. */

import './side.css';
import { useRef, useState } from 'preact/hooks';
import type { JudgedFinding } from '../../core/advise/document.ts';
import { type Chart, type CurveGroup, chartOf } from '../../core/draw/chart/curves.ts';
import { flutterMarks } from '../../core/job/flutterMarks.ts';
import type { Band } from '../../core/record/band.ts';
import { say, statement } from '../../core/words/statement.ts';
import { LineChart, type Mark } from '../parts/LineChart.tsx';
import { PolarChart } from '../parts/PolarChart.tsx';
import { bandTimes, bandWords } from './bandWords.ts';
import { saveCsv, savePng, saveSvg } from './saveCurve.ts';

export interface CurveChartProps {
  readonly group: CurveGroup;
  readonly bands: readonly Band[];
  /** of the document that the curves are of: what marks a spectrum of the speed */
  readonly findings: readonly JudgedFinding[];
}

export function CurveChart({ group, bands, findings }: CurveChartProps) {
  const place = useRef<HTMLElement>(null);
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
      : group.quantity === 'speed-deviation-spectrum'
        ? flutterMarks(findings)
        : band?.frequencyHz && first.xUnit === 'Hz'
          ? [{ x: band.frequencyHz }]
          : [];
  return (
    <section ref={place}>
      <h3>
        {chart.title}
        {where}
      </h3>
      {chart.polar ? (
        <PolarChart name={`${chart.title}${where}`} x={chart.series[0].x} y={chart.series[0].y} yUnit={chart.yUnit} />
      ) : (
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
      )}
      <Keep chart={chart} shown={() => place.current?.querySelector<SVGSVGElement>('.plot svg') ?? null} />
    </section>
  );
}

/** The chart as a file. */
function Keep({ chart, shown }: { chart: Chart; shown(): SVGSVGElement | null }) {
  const [fault, setFault] = useState(false);
  const drawn = (save: (chart: Chart, svg: SVGSVGElement) => void | Promise<void>) => async () => {
    const svg = shown();
    if (svg === null) return;
    try {
      await save(chart, svg);
      setFault(false);
    } catch {
      setFault(true);
    }
  };
  return (
    <fieldset class="keep" aria-label={`Save ${chart.title} as a file`}>
      <button type="button" class="button plain" onClick={drawn(savePng)}>
        PNG
      </button>
      <button type="button" class="button plain" onClick={drawn(saveSvg)}>
        SVG
      </button>
      <button type="button" class="button plain" onClick={() => saveCsv(chart)}>
        CSV
      </button>
      {fault && <span role="alert">{say(statement('picture-not-drawn'))}</span>}
    </fieldset>
  );
}
