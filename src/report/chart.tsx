/** Curves as small charts: left solid, right dashed, axes named with their units. */
import {
  type Chart,
  type CurveGroup,
  chartOf,
  type DrawnCurve,
  dashes,
  groupCurves,
  type Series,
} from '../core/draw/chart/curves.ts';
import { linePath } from '../core/draw/chart/line.ts';
import { polarPlot } from '../core/draw/chart/polar.ts';
import { makeScale, spanOf, tickText, widened } from '../core/draw/chart/scale.ts';

const WIDTH = 360;
const HEIGHT = 180;
const box = { left: 44, right: 8, top: 8, bottom: 20 };
/** Points drawn of one curve; between them the highest and lowest of each stretch are kept. */
const MOST_POINTS = 600;
const ROOM = 0.06;

/** Never a span of nothing. */
const opened = (span: readonly [number, number]): readonly [number, number] =>
  span[1] > span[0] ? span : widened(span, ROOM);

const Line = ({ style = 'plain', d }: { style: Series['style']; d: string }) => (
  <path
    fill="none"
    stroke={style === 'left' || style === 'right' ? `var(--${style})` : 'var(--ink)'}
    stroke-width={style === 'points' ? '5' : '1.4'}
    stroke-linecap={style === 'points' ? 'round' : undefined}
    stroke-dasharray={dashes[style]}
    d={d}
  />
);

/** Around the platter: every turn thin, their mean thick. */
function Rings({ chart, band }: { chart: Chart; band: number | null }) {
  const { turns, mean, rings } = polarPlot(chart.series[0].x, chart.series[0].y, HEIGHT);
  const title = band === null ? chart.title : `${chart.title}, band ${band + 1}`;
  return (
    <figure class="keep" style="margin:8px 0">
      <figcaption class="soft">
        {title} · {chart.yUnit}, 0° up, clockwise
      </figcaption>
      <svg viewBox={`${-WIDTH / 2} ${-HEIGHT / 2} ${WIDTH} ${HEIGHT}`} role="img" aria-label={title}>
        {rings.map(({ r, value }) => (
          <g>
            <circle cx={0} cy={0} r={r} fill="none" stroke="var(--rule)" />
            <text x={0} y={-r - 2} text-anchor="middle">
              {tickText(value)}
            </text>
          </g>
        ))}
        <path fill="none" stroke="var(--soft)" stroke-width="0.6" d={turns} />
        <Line style="plain" d={mean} />
      </svg>
    </figure>
  );
}

function CurveChart({ group }: { group: CurveGroup }) {
  const chart = chartOf(group);
  if (chart.polar) return <Rings chart={chart} band={group.band} />;
  const xSpan = spanOf(chart.series.map(({ x }) => (chart.xLog ? x.filter((value) => value > 0) : x)));
  const ySpan = spanOf(chart.series.map(({ y }) => y));
  if (xSpan === null || ySpan === null) return null;
  const sx = makeScale(opened(xSpan), [box.left, WIDTH - box.right], chart.xLog);
  const sy = makeScale(widened(ySpan, ROOM), [HEIGHT - box.bottom, box.top], false);
  const title = group.band === null ? chart.title : `${chart.title}, band ${group.band + 1}`;
  const sides = chart.series.filter(({ style }) => style === 'left' || style === 'right');
  return (
    <figure class="keep" style="margin:8px 0">
      <figcaption class="soft">
        {title} · {chart.yUnit} over {chart.xUnit}
      </figcaption>
      <svg viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={title}>
        {sy.ticks(5).map((tick) => (
          <g>
            <line x1={box.left} x2={WIDTH - box.right} y1={sy(tick)} y2={sy(tick)} stroke="var(--rule)" />
            <text x={box.left - 5} y={sy(tick) + 4} text-anchor="end">
              {tickText(tick)}
            </text>
          </g>
        ))}
        {sx.ticks(5).map((tick) => (
          <g>
            <line x1={sx(tick)} x2={sx(tick)} y1={box.top} y2={HEIGHT - box.bottom} stroke="var(--rule)" />
            <text x={sx(tick)} y={HEIGHT - box.bottom + 13} text-anchor="middle">
              {tickText(tick)}
            </text>
          </g>
        ))}
        {chart.series.map((series) => (
          <Line style={series.style} d={linePath(series, sx, sy, MOST_POINTS)} />
        ))}
      </svg>
      {sides.length === 0 ? null : (
        <p class="note">
          {sides.map(({ name, style }, i) => (
            <>
              {i === 0 ? '' : ' · '}
              <span class={style}>
                {name}: {style === 'left' ? 'solid' : 'dashed'}
              </span>
            </>
          ))}
        </p>
      )}
    </figure>
  );
}

export function Charts({ curves }: { curves: readonly DrawnCurve[] }) {
  return (
    <div class="charts">
      {groupCurves(curves).map((group) => (
        <CurveChart group={group} />
      ))}
    </div>
  );
}
