/**
 * Lines over an axis. Left is solid, right dashed. A pointer or the arrow keys read the values; a table holds them for
 * who cannot see the lines.
 */
import { useId, useState } from 'preact/hooks';
import type { Series } from '../../core/draw/chart/curves.ts';
import { apart } from '../../core/draw/chart/endNames.ts';
import { linePath, valueAt } from '../../core/draw/chart/line.ts';
import { markRows } from '../../core/draw/chart/markRows.ts';
import { type ChartScale, makeScale, nearest, spanOf, widened } from '../../core/draw/chart/scale.ts';
import { plainDecimals, showNumber } from '../../core/words/number.ts';
import { ChartTable } from './chart/ChartTable.tsx';
import { FieldClip, type Frame, PlotAxes } from './chart/PlotAxes.tsx';
import { PlotReader } from './chart/PlotReader.tsx';
import { useWidth } from './chart/useWidth.ts';

export interface Mark {
  readonly x: number;
  readonly label?: string;
}

export interface Dot {
  readonly x: number;
  readonly y: number;
  readonly style?: 'left' | 'right' | 'plain';
  readonly label?: string;
  /** half the length of an uncertainty bar, in y's unit */
  readonly uncertainty?: number;
}

export interface LineChartProps {
  /** what a screen reader calls it */
  readonly name: string;
  readonly series: readonly Series[];
  readonly xLabel: string;
  readonly yLabel: string;
  readonly xUnit: string;
  readonly yUnit: string;
  readonly xLog?: boolean;
  readonly xDomain?: readonly [number, number];
  /** what runs out of it is cut off */
  readonly yDomain?: readonly [number, number];
  readonly height?: number;
  /** one family: each line is named at its own end, so that no colour has to be looked up, and the accented one is thick */
  readonly family?: boolean;
  /** vertical lines with a word */
  readonly marks?: readonly Mark[];
  readonly dots?: readonly Dot[];
  /** decimals in the read-out */
  readonly xDecimals?: number;
  readonly yDecimals?: number;
  /** values are read with their sign */
  readonly signed?: boolean;
  /** x that is told before anything is read, and where the keys begin; left out: what the chart is, and its middle */
  readonly readFrom?: number;
}

const MOST_POINTS = 3200;
/** px from one name at a line's end to the next */
const NAME_GAP = 15;

interface Plot {
  readonly frame: Frame;
  readonly sx: ChartScale;
  readonly sy: ChartScale;
  /** places that can be read */
  readonly grid: readonly number[];
  /** x as it is read: over decades no one number of decimals will do */
  xText(x: number): string;
  readonly yDecimals: number;
}

/** null where there is nothing to draw */
function plotOf(props: LineChartProps, width: number): Plot | null {
  const { series, xLog = false, height = 240, dots = [] } = props;
  const xs = [...series.map((s) => (xLog ? s.x.filter((v) => v > 0) : s.x)), dots.map((d) => d.x)];
  const xSpan = props.xDomain ?? spanOf(xs);
  const ySpan = props.yDomain ?? spanOf([...series.map((s) => s.y), dots.map((d) => d.y)]);
  if (xSpan === null || ySpan === null) return null;
  const right = !props.family ? 14 : width < 480 ? 66 : 84;
  const frame = { width, height, left: 52, right, top: 18, bottom: 40 };
  const [from, to] = xSpan[0] === xSpan[1] ? widened(xSpan, 0.5) : xSpan;
  const longest = series.reduce<readonly number[]>((most, s) => (s.x.length > most.length ? s.x : most), []);
  return {
    frame,
    sx: makeScale([from, to], [frame.left, width - right], xLog),
    sy: makeScale(props.yDomain ?? widened(ySpan, 0.08), [height - frame.bottom, frame.top], false),
    grid: longest.filter((x) => from <= x && x <= to),
    xText: (x) => showNumber(x, props.xDecimals ?? (xLog ? plainDecimals(x, 2) : xSpan[1] - xSpan[0] > 50 ? 0 : 2)),
    yDecimals: props.yDecimals ?? (ySpan[1] - ySpan[0] > 20 ? 1 : 2),
  };
}

/** What is counted has no ticks between two numbers. */
const xTicksOf = ({ xDecimals }: LineChartProps, { sx, frame }: Plot): number[] => {
  const ticks = sx.ticks(Math.max(3, Math.floor(frame.width / 80)));
  return xDecimals === 0 ? ticks.filter(Number.isInteger) : ticks;
};

const title = (label: string, unit: string): string => (unit === '' ? label : `${label}, ${unit}`);
const spaced = (unit: string): string => (unit === '°' || unit === '' ? unit : ` ${unit}`);

function reading({ series, xUnit, yUnit, signed }: LineChartProps, { xText, yDecimals }: Plot, x: number): string {
  const values = series.flatMap((s) => {
    const y = valueAt(s, x);
    return y === null ? [] : [`${s.name} ${showNumber(y, yDecimals, signed)}${spaced(yUnit)}`];
  });
  return `${xText(x)}${spaced(xUnit)}: ${values.join(', ') || 'nothing drawn here'}`;
}

export function LineChart(props: LineChartProps) {
  const { name, series, xLabel, yLabel, xUnit, yUnit, family = false, marks = [], dots = [], readFrom } = props;
  const { ref, width } = useWidth(560);
  const [at, setAt] = useState<number | null>(null);
  const clip = useId();
  const plot = plotOf(props, width);
  if (plot === null) return null;
  const { frame, sx, sy, grid } = plot;
  const x = at === null ? null : (grid[at] ?? null);
  const told = x ?? readFrom;
  return (
    <div class={family ? 'chart family' : 'chart'} ref={ref}>
      {series.length > 1 && !family && <Legend series={series} />}
      <PlotReader
        name={name}
        count={grid.length}
        at={at}
        begin={readFrom === undefined ? Math.floor(grid.length / 2) : nearest(grid, readFrom)}
        page={Math.max(1, Math.round(grid.length / 20))}
        told={told === undefined ? `${yLabel} over ${xLabel}` : reading(props, plot, told)}
        onAt={setAt}
        under={(across) => nearest(grid, sx.invert(across * width))}
      >
        <svg viewBox={`0 0 ${width} ${frame.height}`} aria-hidden="true">
          {props.yDomain !== undefined && <FieldClip id={clip} frame={frame} />}
          <PlotAxes
            frame={frame}
            sx={sx}
            sy={sy}
            xTicks={xTicksOf(props, plot)}
            yTicks={sy.ticks(Math.max(3, Math.floor(frame.height / 48)))}
            xTitle={title(xLabel, xUnit)}
            yTitle={title(yLabel, yUnit)}
          />
          <Marks marks={marks} plot={plot} />
          <g clip-path={props.yDomain === undefined ? undefined : `url(#${clip})`}>
            {series.map((s) => (
              <path key={s.name} class={`line ${s.style ?? 'plain'}`} d={linePath(s, sx, sy, MOST_POINTS)} />
            ))}
          </g>
          {family && <EndNames series={series} plot={plot} />}
          <Dots dots={dots} plot={plot} />
          {x !== null && <line class="cursor" x1={sx(x)} x2={sx(x)} y1={frame.top} y2={frame.height - frame.bottom} />}
        </svg>
      </PlotReader>
      <p class="readout" aria-hidden="true">
        {x === null ? '' : reading(props, plot, x)}
      </p>
      <details class="table">
        <summary>The values as a table</summary>
        <ChartTable
          name={`${yLabel} over ${xLabel}`}
          series={series}
          xTitle={title(xLabel, xUnit)}
          yUnit={yUnit}
          xText={plot.xText}
          yDecimals={plot.yDecimals}
          signed={props.signed ?? false}
          grid={grid}
        />
      </details>
    </div>
  );
}

function Legend({ series }: { readonly series: readonly Series[] }) {
  return (
    <ul class="legend">
      {series.map((s) => (
        <li key={s.name}>
          <svg viewBox="0 0 28 8" aria-hidden="true">
            <path class={`line ${s.style ?? 'plain'}`} d={s.style === 'points' ? 'M14 4h0' : 'M0 4H28'} />
          </svg>
          {s.name}
        </li>
      ))}
    </ul>
  );
}

function EndNames({ series, plot: { frame, sx, sy } }: { readonly series: readonly Series[]; readonly plot: Plot }) {
  const [low, foot] = [sy.domain[0], frame.height - frame.bottom];
  const places = apart(
    series.map((s) => sy(Math.max(low, s.y[nearest(s.x, sx.domain[1])]))),
    NAME_GAP,
    frame.top + 6,
    foot - 2,
  );
  return (
    <>
      {series.map((s, i) => (
        <text key={s.name} class={`name ${s.style ?? 'plain'}`} x={frame.width - frame.right + 6} y={places[i] + 4}>
          {s.name}
        </text>
      ))}
    </>
  );
}

/** px: a letter of a mark's word at most, and from one row of words to the next */
const LETTER = 7;
const MARK_ROW = 14;
const MARK_ROWS = 4;

function Marks({ marks, plot: { frame, sx } }: { readonly marks: readonly Mark[]; readonly plot: Plot }) {
  const [from, to] = sx.domain;
  const shown = marks.filter(({ x }) => from <= x && x <= to);
  const rows = markRows(
    shown.map(({ x, label = '' }) => ({ x: sx(x) + 4, width: LETTER * label.length })),
    MARK_ROWS,
  );
  return (
    <>
      {shown.map(({ x, label }, i) => (
        <g key={`${x} ${label}`}>
          <line
            x1={sx(x)}
            x2={sx(x)}
            y1={frame.top}
            y2={frame.height - frame.bottom}
            class="cursor"
            stroke-dasharray="4 4"
          />
          {label !== undefined && rows[i] !== null && (
            <text x={sx(x) + 4} y={frame.top + 12 + MARK_ROW * rows[i]}>
              {label}
            </text>
          )}
        </g>
      ))}
    </>
  );
}

function Dots({ dots, plot: { sx, sy } }: { readonly dots: readonly Dot[]; readonly plot: Plot }) {
  return (
    <>
      {dots.map(({ x, y, style = 'plain', label, uncertainty }) => (
        <g key={`${x} ${y} ${label}`}>
          {uncertainty !== undefined && (
            <line class="axis" x1={sx(x)} x2={sx(x)} y1={sy(y - uncertainty)} y2={sy(y + uncertainty)} />
          )}
          <circle class={`dot ${style}`} cx={sx(x)} cy={sy(y)} r={5} />
          {label !== undefined && (
            <text x={sx(x) + 8} y={sy(y) - 6}>
              {label}
            </text>
          )}
        </g>
      ))}
    </>
  );
}
