/** Curves as small charts: left solid, right dashed, axes named with their units. */
import { scaleLinear, scaleLog } from 'd3-scale';
import type { Curve } from '../core/measure/finding.ts';
import { unitSign } from '../core/words/figure.ts';
import { quantityTitle } from '../core/words/quantities.ts';

const WIDTH = 360;
const HEIGHT = 180;
const box = { left: 44, right: 8, top: 8, bottom: 20 };
/** Points drawn of one curve; between them the highest and lowest of each stretch are kept. */
const MOST_POINTS = 600;

export interface CurveGroup {
  readonly quantity: string;
  readonly band: number | null;
  readonly curves: readonly Curve[];
}

/** Curves of one quantity and band share a chart when their units agree. */
export function groupCurves(curves: readonly Curve[]): CurveGroup[] {
  const groups = new Map<string, Curve[]>();
  for (const curve of curves) {
    if (curve.x.length < 2) continue;
    const key = [curve.quantity, curve.band ?? '', curve.xUnit, curve.yUnit].join(' ');
    groups.set(key, [...(groups.get(key) ?? []), curve]);
  }
  return [...groups.values()].map((list) => ({
    quantity: list[0].quantity,
    band: list[0].band ?? null,
    curves: list,
  }));
}

/** Indices to draw, in order: of every stretch its lowest and its highest point, so that no peak is lost. */
export function thinned(y: readonly number[], most: number = MOST_POINTS): number[] {
  if (y.length <= most) return y.map((_, index) => index);
  const stretches = Math.floor(most / 2);
  const kept = new Set([0, y.length - 1]);
  for (let stretch = 0; stretch < stretches; stretch++) {
    const from = Math.floor((stretch * y.length) / stretches);
    const to = Math.floor(((stretch + 1) * y.length) / stretches);
    let low = from;
    let high = from;
    for (let index = from; index < to; index++) {
      if (y[index] < y[low]) low = index;
      if (y[index] > y[high]) high = index;
    }
    kept.add(low).add(high);
  }
  return [...kept].sort((a, b) => a - b);
}

const span = (values: readonly number[]): [number, number] => {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const value of values) {
    if (value < low) low = value;
    if (value > high) high = value;
  }
  return [low, high];
};

/** Never a span of nothing. */
const opened = ([low, high]: [number, number]): [number, number] => (high > low ? [low, high] : [low - 1, high + 1]);

const tickText = (value: number): string => {
  const size = Math.abs(value);
  const text = size >= 1000 ? `${Number((size / 1000).toPrecision(4))}k` : `${Number(size.toPrecision(4))}`;
  return value < 0 ? `\u2212${text}` : text;
};

/** 1, 2 and 5 of each decade, or the decades alone where those are enough. */
function logTicks([low, high]: [number, number]): number[] {
  const ticks: number[] = [];
  const steps = high / low > 200 ? [1] : [1, 2, 5];
  for (let decade = Math.floor(Math.log10(low)); 10 ** decade <= high; decade++) {
    ticks.push(...steps.map((step) => step * 10 ** decade).filter((tick) => low <= tick && tick <= high));
  }
  return ticks;
}

/** A curve over frequency has no place for 0 Hz on a logarithmic axis. */
const drawable = (curve: Curve, log: boolean): number[] =>
  thinned(curve.y).filter((index) => !log || curve.x[index] > 0);

export function CurveChart({ group }: { group: CurveGroup }) {
  const { curves } = group;
  const { xUnit, yUnit } = curves[0];
  const positive = opened(span(curves.flatMap((curve) => curve.x.filter((value) => value > 0))));
  const log = xUnit === 'Hz' && positive[0] > 0 && positive[1] / positive[0] > 12;
  const x = log ? positive : opened(span(curves.flatMap((curve) => curve.x)));
  const y = opened(span(curves.flatMap((curve) => curve.y)));
  const scaleX = (log ? scaleLog() : scaleLinear()).domain(x).range([box.left, WIDTH - box.right]);
  const scaleY = scaleLinear()
    .domain(y)
    .nice(5)
    .range([HEIGHT - box.bottom, box.top]);
  const ticksX = log ? logTicks(x) : scaleX.ticks(5);
  const name = quantityTitle(group.quantity);
  const title = group.band === null ? name : `${name}, band ${group.band + 1}`;
  return (
    <figure class="keep" style="margin:8px 0">
      <figcaption class="soft">
        {title} · {unitSign(yUnit)} over {unitSign(xUnit)}
      </figcaption>
      <svg viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={title}>
        {scaleY.ticks(5).map((tick) => (
          <g>
            <line x1={box.left} x2={WIDTH - box.right} y1={scaleY(tick)} y2={scaleY(tick)} stroke="var(--rule)" />
            <text x={box.left - 5} y={scaleY(tick) + 4} text-anchor="end">
              {tickText(tick)}
            </text>
          </g>
        ))}
        {ticksX.map((tick) => (
          <g>
            <line x1={scaleX(tick)} x2={scaleX(tick)} y1={box.top} y2={HEIGHT - box.bottom} stroke="var(--rule)" />
            <text x={scaleX(tick)} y={HEIGHT - box.bottom + 13} text-anchor="middle">
              {tickText(tick)}
            </text>
          </g>
        ))}
        {curves.map((curve) => (
          <polyline
            fill="none"
            stroke={curve.channel === undefined ? 'var(--ink)' : `var(--${curve.channel})`}
            stroke-width="1.4"
            stroke-dasharray={curve.channel === 'right' ? '6 4' : undefined}
            points={drawable(curve, log)
              .map((index) => `${scaleX(curve.x[index]).toFixed(1)},${scaleY(curve.y[index]).toFixed(1)}`)
              .join(' ')}
          />
        ))}
      </svg>
      {curves.some((curve) => curve.channel !== undefined) ? (
        <p class="note">
          <span class="left">left: solid</span> · <span class="right">right: dashed</span>
        </p>
      ) : null}
    </figure>
  );
}

export function Charts({ curves }: { curves: readonly Curve[] }) {
  return (
    <div class="charts">
      {groupCurves(curves).map((group) => (
        <CurveChart group={group} />
      ))}
    </div>
  );
}
