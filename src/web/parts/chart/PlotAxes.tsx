/** The ground of a chart: lines across at the ticks of y, ticks of x (or lines up), and what both axes are. */
import { type ChartScale, tickText } from '../../../core/draw/chart/scale.ts';

/** px; the margins stand around the field */
export interface Frame {
  readonly width: number;
  readonly height: number;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

export interface PlotAxesProps {
  readonly frame: Frame;
  readonly sx: ChartScale;
  readonly sy: ChartScale;
  readonly xTicks: readonly number[];
  readonly yTicks: readonly number[];
  /** with their units */
  readonly xTitle: string;
  readonly yTitle: string;
  /** lines up through the field at the ticks of x */
  readonly upright?: boolean;
}

export function PlotAxes({ frame, sx, sy, xTicks, yTicks, xTitle, yTitle, upright = false }: PlotAxesProps) {
  const [right, foot] = [frame.width - frame.right, frame.height - frame.bottom];
  return (
    <>
      {yTicks.map((tick) => (
        <g key={tick}>
          <line class={tick === 0 ? 'grid zero' : 'grid'} x1={frame.left} x2={right} y1={sy(tick)} y2={sy(tick)} />
          <text x={frame.left - 7} y={sy(tick) + 4} text-anchor="end">
            {tickText(tick)}
          </text>
        </g>
      ))}
      {xTicks.map((tick) => (
        <g key={tick}>
          <line
            class={upright ? 'grid' : 'axis'}
            x1={sx(tick)}
            x2={sx(tick)}
            y1={upright ? frame.top : foot}
            y2={upright ? foot : foot + 5}
          />
          <text x={sx(tick)} y={foot + 18} text-anchor="middle">
            {tickText(tick)}
          </text>
        </g>
      ))}
      <line class="axis" x1={frame.left} x2={right} y1={foot} y2={foot} />
      <text x={frame.left} y={frame.top - 6}>
        {yTitle}
      </text>
      <text x={right} y={frame.height - 4} text-anchor="end">
        {xTitle}
      </text>
    </>
  );
}

/** What is drawn in the field alone; `id` is the page's own. */
export function FieldClip({ id, frame }: { readonly id: string; readonly frame: Frame }) {
  return (
    <clipPath id={id}>
      <rect
        x={frame.left}
        y={frame.top}
        width={frame.width - frame.left - frame.right}
        height={frame.height - frame.top - frame.bottom}
      />
    </clipPath>
  );
}
