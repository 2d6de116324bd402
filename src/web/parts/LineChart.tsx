/**
 * Lines over an axis. Left is solid, right dashed. A pointer or the arrow keys read the values; a table holds them for
 * who cannot see the lines.
 */
import { useEffect, useRef, useState } from 'preact/hooks';
import type { Series } from '../../core/draw/chart/curves.ts';
import { linePath } from '../../core/draw/chart/line.ts';
import { makeScale, nearest, spanOf, tickText, widened } from '../../core/draw/chart/scale.ts';
import { showNumber } from '../../core/words/number.ts';

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
  readonly xDomain?: [number, number];
  readonly yDomain?: [number, number];
  readonly height?: number;
  /** vertical lines with a word */
  readonly marks?: readonly Mark[];
  readonly dots?: readonly Dot[];
  /** decimals in the read-out */
  readonly xDecimals?: number;
  readonly yDecimals?: number;
}

const LEFT = 52;
const RIGHT = 14;
const TOP = 18;
const BOTTOM = 40;
const MOST_POINTS = 3200;
const TABLE_ROWS = 60;

/** Width of the element as it is laid out, px. */
export function useWidth(first: number) {
  const ref = useRef<HTMLDivElement>(null);
  const [width, setWidth] = useState(first);
  useEffect(() => {
    const element = ref.current;
    if (element === null) return;
    const watch = new ResizeObserver(() => setWidth(Math.max(200, Math.round(element.clientWidth))));
    watch.observe(element);
    return () => watch.disconnect();
  }, []);
  return { ref, width };
}

export function LineChart(props: LineChartProps) {
  const { name, series, xLabel, yLabel, xUnit, yUnit, xLog = false, height = 240, marks = [], dots = [] } = props;
  const { ref, width } = useWidth(560);
  const [at, setAt] = useState<number | null>(null);
  const [byKey, setByKey] = useState(false);
  const xs = [...series.map((s) => (xLog ? s.x.filter((v) => v > 0) : s.x)), dots.map((d) => d.x)];
  const xSpan = props.xDomain ?? spanOf(xs);
  const ySpan = props.yDomain ?? spanOf([...series.map((s) => s.y), dots.map((d) => d.y)]);
  const grid = series.reduce<readonly number[]>((most, s) => (s.x.length > most.length ? s.x : most), []);
  if (xSpan === null || ySpan === null) return null;
  const xDomain: [number, number] = xSpan[0] === xSpan[1] ? widened(xSpan, 0.5) : xSpan;
  const sx = makeScale(xDomain, [LEFT, width - RIGHT], xLog);
  const sy = makeScale(props.yDomain ?? widened(ySpan, 0.08), [height - BOTTOM, TOP], false);
  const xTicks = sx.ticks(Math.max(3, Math.floor(width / 80)));
  const yTicks = sy.ticks(Math.max(3, Math.floor(height / 48)));
  const xDecimals = props.xDecimals ?? (xSpan[1] - xSpan[0] > 50 ? 0 : 2);
  const yDecimals = props.yDecimals ?? (ySpan[1] - ySpan[0] > 20 ? 1 : 2);
  const unit = (u: string) => (u === '°' ? '°' : u === '' ? '' : ` ${u}`);
  const valuesAt = (x: number) =>
    series
      .filter((s) => s.x.length > 0 && s.x[0] <= x && x <= s.x[s.x.length - 1])
      .map((s) => `${s.name} ${showNumber(s.y[nearest(s.x, x)], yDecimals)}${unit(yUnit)}`);
  const readAt = (x: number) =>
    `${showNumber(x, xDecimals)}${unit(xUnit)}: ${valuesAt(x).join(', ') || 'nothing drawn here'}`;
  const visible = grid.filter((x) => xDomain[0] <= x && x <= xDomain[1]);
  const move = (to: number) => {
    if (visible.length > 0) setAt(Math.min(visible.length - 1, Math.max(0, to)));
  };
  const onKeyDown = (event: KeyboardEvent) => {
    const page = Math.max(1, Math.round(visible.length / 20));
    const here = at ?? Math.floor(visible.length / 2);
    const steps: Record<string, number> = {
      ArrowRight: here + 1,
      ArrowUp: here + 1,
      ArrowLeft: here - 1,
      ArrowDown: here - 1,
      PageUp: here + page,
      PageDown: here - page,
      Home: 0,
      End: visible.length - 1,
    };
    if (!(event.key in steps)) return;
    event.preventDefault();
    setByKey(true);
    move(steps[event.key]);
  };
  const x = at === null ? null : (visible[at] ?? null);
  return (
    <div class="chart" ref={ref}>
      {series.length > 1 && (
        <ul class="legend">
          {series.map((s) => (
            <li key={s.name}>
              <svg viewBox="0 0 28 8" aria-hidden="true">
                <path class={`line ${s.style ?? 'plain'}`} d="M0 4H28" />
              </svg>
              {s.name}
            </li>
          ))}
        </ul>
      )}
      <div
        class="plot"
        role="slider"
        tabIndex={0}
        aria-label={`${name}. Arrow keys read the values.`}
        aria-orientation="horizontal"
        aria-valuemin={0}
        aria-valuemax={Math.max(0, visible.length - 1)}
        aria-valuenow={at ?? Math.floor(visible.length / 2)}
        aria-valuetext={x === null ? `${yLabel} over ${xLabel}` : readAt(x)}
        onKeyDown={onKeyDown}
        onPointerMove={(event) => {
          const box = event.currentTarget.getBoundingClientRect();
          setByKey(false);
          move(nearest(visible, sx.invert(((event.clientX - box.left) / box.width) * width)));
        }}
        onPointerLeave={() => {
          if (!byKey) setAt(null);
        }}
        onBlur={() => setAt(null)}
      >
        <svg viewBox={`0 0 ${width} ${height}`} aria-hidden="true">
          {yTicks.map((tick) => (
            <g key={tick}>
              <line class="grid" x1={LEFT} x2={width - RIGHT} y1={sy(tick)} y2={sy(tick)} />
              <text x={LEFT - 7} y={sy(tick) + 4} text-anchor="end">
                {tickText(tick)}
              </text>
            </g>
          ))}
          {xTicks.map((tick) => (
            <g key={tick}>
              <line class="axis" x1={sx(tick)} x2={sx(tick)} y1={height - BOTTOM} y2={height - BOTTOM + 5} />
              <text x={sx(tick)} y={height - BOTTOM + 18} text-anchor="middle">
                {tickText(tick)}
              </text>
            </g>
          ))}
          <line class="axis" x1={LEFT} x2={width - RIGHT} y1={height - BOTTOM} y2={height - BOTTOM} />
          <text x={LEFT} y={TOP - 6}>
            {yLabel}
            {yUnit === '' ? '' : `, ${yUnit}`}
          </text>
          <text x={width - RIGHT} y={height - 4} text-anchor="end">
            {xLabel}
            {xUnit === '' ? '' : `, ${xUnit}`}
          </text>
          {marks
            .filter((mark) => xDomain[0] <= mark.x && mark.x <= xDomain[1])
            .map((mark) => (
              <g key={`${mark.x} ${mark.label}`}>
                <line
                  x1={sx(mark.x)}
                  x2={sx(mark.x)}
                  y1={TOP}
                  y2={height - BOTTOM}
                  class="cursor"
                  stroke-dasharray="4 4"
                />
                {mark.label !== undefined && (
                  <text x={sx(mark.x) + 4} y={TOP + 12}>
                    {mark.label}
                  </text>
                )}
              </g>
            ))}
          {series.map((s) => (
            <path key={s.name} class={`line ${s.style ?? 'plain'}`} d={linePath(s, sx, sy, MOST_POINTS)} />
          ))}
          {dots.map((dot) => (
            <g key={`${dot.x} ${dot.y} ${dot.label}`}>
              {dot.uncertainty !== undefined && (
                <line
                  class="axis"
                  x1={sx(dot.x)}
                  x2={sx(dot.x)}
                  y1={sy(dot.y - dot.uncertainty)}
                  y2={sy(dot.y + dot.uncertainty)}
                />
              )}
              <circle class={`dot ${dot.style ?? 'plain'}`} cx={sx(dot.x)} cy={sy(dot.y)} r={5} />
              {dot.label !== undefined && (
                <text x={sx(dot.x) + 8} y={sy(dot.y) - 6}>
                  {dot.label}
                </text>
              )}
            </g>
          ))}
          {x !== null && <line class="cursor" x1={sx(x)} x2={sx(x)} y1={TOP} y2={height - BOTTOM} />}
        </svg>
      </div>
      <p class="readout" aria-hidden="true">
        {x === null ? '' : readAt(x)}
      </p>
      <details class="table">
        <summary>The values as a table</summary>
        <ChartTable
          series={series}
          xLabel={xLabel}
          yLabel={yLabel}
          xUnit={xUnit}
          yUnit={yUnit}
          xDecimals={xDecimals}
          yDecimals={yDecimals}
          grid={visible}
        />
      </details>
    </div>
  );
}

interface TableProps {
  series: readonly Series[];
  xLabel: string;
  yLabel: string;
  xUnit: string;
  yUnit: string;
  xDecimals: number;
  yDecimals: number;
  grid: readonly number[];
}

function ChartTable({ series, xLabel, yLabel, xUnit, yUnit, xDecimals, yDecimals, grid }: TableProps) {
  const step = Math.max(1, Math.ceil(grid.length / TABLE_ROWS));
  const rows = grid.filter((_, i) => i % step === 0);
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a stretch that scrolls must be reachable by keyboard
    <section class="scroll-x" tabIndex={0} aria-label={`${yLabel} over ${xLabel}, table`}>
      <table>
        <thead>
          <tr>
            <th scope="col">
              {xLabel}
              {xUnit === '' ? '' : `, ${xUnit}`}
            </th>
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
                const there = s.x.length > 0 && s.x[0] <= x && x <= s.x[s.x.length - 1];
                return <td key={s.name}>{there ? showNumber(s.y[nearest(s.x, x)], yDecimals) : ''}</td>;
              })}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
