/** All curves of a document as one picture: a chart under the other as the page draws them, on paper. Left is solid, right dashed; no style sheet, no script. */
import {
  type Chart,
  type CurveGroup,
  chartOf,
  type DrawnCurve,
  dashes,
  groupCurves,
  type LineStyle,
} from './curves.ts';
import { linePath } from './line.ts';
import { polarPlot } from './polar.ts';
import { makeScale, spanOf, tickText, widened } from './scale.ts';

const [WIDTH, HEIGHT, ROUND] = [760, 280, 320];
const box = { left: 56, right: 20, top: 46, bottom: 42 };
const MOST_POINTS = 3200;
const [PAPER, INK, SOFT, RULE] = ['#ffffff', '#1b2330', '#525b69', '#d8d2c3'];
const STROKES: Readonly<Record<LineStyle, string>> = {
  left: '#1d3c66',
  right: '#b4261f',
  accent: '#0f6b5c',
  soft: SOFT,
  plain: INK,
  points: INK,
};

const escaped = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');
const at = (value: number): string => value.toFixed(1);

function words(x: number, y: number, text: string, more = ''): string {
  return `<text x="${at(x)}" y="${at(y)}" fill="${SOFT}"${more}>${escaped(text)}</text>`;
}
const rule = (x1: number, y1: number, x2: number, y2: number): string =>
  `<line x1="${at(x1)}" y1="${at(y1)}" x2="${at(x2)}" y2="${at(y2)}" stroke="${RULE}"/>`;

function path(d: string, style: LineStyle, width = style === 'points' ? 5 : 1.6): string {
  const dash = dashes[style] === undefined ? '' : ` stroke-dasharray="${dashes[style]}"`;
  const cap = style === 'points' ? ' stroke-linecap="round"' : '';
  return `<path d="${d}" fill="none" stroke="${STROKES[style]}" stroke-width="${width}"${dash}${cap}/>`;
}

const titleOf = ({ title }: Chart, band: number | null): string =>
  band === null ? title : `${title}, band ${band + 1}`;

const withUnit = (label: string, unit: string): string => [label, unit].filter((part) => part !== '').join(', ');

function heading(chart: Chart, band: number | null): string[] {
  const named = { left: ' (solid)', right: ' (dashed)' } as const;
  const legend = chart.series
    .map(({ name, style }) => `${name}${style === 'left' || style === 'right' ? named[style] : ''}`)
    .join(' · ');
  return [
    `<text x="${box.left}" y="16" fill="${INK}" font-weight="bold" font-size="13">${escaped(titleOf(chart, band))}</text>`,
    words(WIDTH - box.right, 16, legend, ' text-anchor="end"'),
  ];
}

/** Lines over an axis; null where there is nothing to draw. */
function lines(chart: Chart): string[] | null {
  const xSpan = spanOf(chart.series.map(({ x }) => (chart.xLog ? x.filter((value) => value > 0) : x)));
  const ySpan = spanOf(chart.series.map(({ y }) => y));
  if (xSpan === null || ySpan === null) return null;
  const [right, foot] = [WIDTH - box.right, HEIGHT - box.bottom];
  const sx = makeScale(xSpan[0] < xSpan[1] ? xSpan : widened(xSpan, 0.5), [box.left, right], chart.xLog);
  const sy = makeScale(widened(ySpan, 0.08), [foot, box.top], false);
  return [
    ...sy
      .ticks(5)
      .flatMap((tick) => [
        rule(box.left, sy(tick), right, sy(tick)),
        words(box.left - 7, sy(tick) + 4, tickText(tick), ' text-anchor="end"'),
      ]),
    ...sx
      .ticks(9)
      .flatMap((tick) => [
        rule(sx(tick), foot, sx(tick), foot + 5),
        words(sx(tick), foot + 18, tickText(tick), ' text-anchor="middle"'),
      ]),
    rule(box.left, foot, right, foot),
    words(box.left, box.top - 8, withUnit(chart.yLabel, chart.yUnit)),
    words(right, HEIGHT - 6, withUnit(chart.xLabel, chart.xUnit), ' text-anchor="end"'),
    ...chart.series.map((series) => path(linePath(series, sx, sy, MOST_POINTS), series.style ?? 'plain')),
  ];
}

/** Around the platter: every turn thin, their mean thick. */
function rings(chart: Chart): string[] {
  const { turns, mean, rings: labelled } = polarPlot(chart.series[0].x, chart.series[0].y, ROUND - box.top);
  return [
    words(box.left, box.top - 8, withUnit(`${chart.yLabel}, 0° up, clockwise`, chart.yUnit)),
    `<g transform="translate(${WIDTH / 2} ${(ROUND + box.top) / 2})">`,
    ...labelled.flatMap(({ r, value }) => [
      `<circle r="${at(r)}" fill="none" stroke="${RULE}"/>`,
      words(0, -r - 3, tickText(value), ' text-anchor="middle"'),
    ]),
    `<path d="${turns}" fill="none" stroke="${SOFT}" stroke-width="0.7"/>`,
    path(mean, 'plain'),
    '</g>',
  ];
}

function drawn({ chart, band }: { chart: Chart; band: number | null }): { height: number; shapes: string[] } | null {
  const shapes = chart.polar ? rings(chart) : lines(chart);
  return shapes && { height: chart.polar ? ROUND : HEIGHT, shapes: [...heading(chart, band), ...shapes] };
}

/** A chart for each group of curves that the page would show, one under the other. */
export function curvesSvg(curves: readonly DrawnCurve[]): string {
  const charts = groupCurves(curves).flatMap((group: CurveGroup) => {
    const one = drawn({ chart: chartOf(group), band: group.band });
    return one === null ? [] : [one];
  });
  const height = Math.max(
    HEIGHT,
    charts.reduce((sum, one) => sum + one.height, 0),
  );
  let top = 0;
  const placed = charts.map(({ height: own, shapes }) => {
    const group = [`<g transform="translate(0 ${top})">`, ...shapes, '</g>'];
    top += own;
    return group.join('\n');
  });
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${WIDTH}" height="${height}" viewBox="0 0 ${WIDTH} ${height}" font-family="sans-serif" font-size="12" role="img">`,
    '<title>Curves</title>',
    `<rect width="100%" height="100%" fill="${PAPER}"/>`,
    ...placed,
    '</svg>',
    '',
  ].join('\n');
}
