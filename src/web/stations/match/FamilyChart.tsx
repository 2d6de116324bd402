/**
 * Several responses over frequency, each named at its own end, so that no colour has to be looked up. A pointer or the arrow
 * keys read them; a table holds them.
 */
import { useState } from 'preact/hooks';
import { pathOf } from '../../../core/draw/chart/line.ts';
import { makeScale, nearest, tickText } from '../../../core/draw/chart/scale.ts';
import { showFrequency, showNumber } from '../../../core/words/number.ts';
import { useWidth } from '../../parts/LineChart.tsx';

export interface Member {
  readonly name: string;
  /** the one that there is now */
  readonly now?: boolean;
  readonly y: readonly number[];
}

export interface FamilyChartProps {
  readonly name: string;
  /** Hz, ascending, the same for all */
  readonly x: readonly number[];
  readonly members: readonly Member[];
}

const [LEFT, TOP, BOTTOM] = [44, 20, 40];
const HEIGHT = 300;
const [FROM_HZ, TO_HZ] = [200, 24_000];
/** dB; a straight line must look straight */
const LEAST_SPAN = [-6, 3] as const;

/** Moves names apart so that none covers another; they keep their order. */
function apart(places: readonly number[], gap: number, low: number, high: number): number[] {
  const order = places.map((_, i) => i).sort((a, b) => places[a] - places[b]);
  const moved = places.map((place) => Math.min(high, Math.max(low, place)));
  for (let k = 1; k < order.length; k++) {
    moved[order[k]] = Math.max(moved[order[k]], moved[order[k - 1]] + gap);
  }
  let over = moved[order[order.length - 1]] - high;
  for (let k = order.length - 1; k >= 0 && over > 0; k--) {
    moved[order[k]] -= over;
    over = k === 0 ? 0 : moved[order[k - 1]] + gap - moved[order[k]];
  }
  return moved;
}

export function FamilyChart({ name, x, members }: FamilyChartProps) {
  const { ref, width } = useWidth(620);
  const [at, setAt] = useState<number | null>(null);
  const right = width < 480 ? 66 : 84;
  const from = x.findIndex((hz) => hz >= FROM_HZ);
  const to = x.findLastIndex((hz) => hz <= TO_HZ);
  const sx = makeScale([x[from], x[to]], [LEFT, width - right], true);
  const seen = members.flatMap((one) => one.y.slice(from, to + 1));
  const low = Math.max(-24, Math.min(LEAST_SPAN[0], ...seen.map((db) => db - 1)));
  const high = Math.max(LEAST_SPAN[1], ...seen.map((db) => db + 1));
  const sy = makeScale([low, high], [HEIGHT - BOTTOM, TOP], false);
  const linePathOf = (y: readonly number[]): string =>
    pathOf(x.slice(from, to + 1).map((hz, i) => [sx(hz), sy(y[from + i])]));
  const ends = apart(
    members.map((one) => sy(Math.max(low, one.y[to]))),
    15,
    TOP + 6,
    HEIGHT - BOTTOM - 2,
  );
  const readAt = (i: number): string =>
    `${showFrequency(x[i])}: ${members.map((one) => `${one.name} ${showNumber(one.y[i], 1, true)} dB`).join(', ')}`;
  const move = (i: number): void => setAt(Math.min(to, Math.max(from, i)));
  const onKeyDown = (event: KeyboardEvent): void => {
    const here = at ?? nearest(x, 10_000);
    const steps: Record<string, number> = {
      ArrowRight: here + 1,
      ArrowUp: here + 1,
      ArrowLeft: here - 1,
      ArrowDown: here - 1,
      Home: from,
      End: to,
    };
    if (!(event.key in steps)) return;
    event.preventDefault();
    move(steps[event.key]);
  };
  return (
    <div class="chart family" ref={ref}>
      <div
        class="plot"
        role="slider"
        tabIndex={0}
        aria-label={`${name}. Arrow keys read the values.`}
        aria-orientation="horizontal"
        aria-valuemin={from}
        aria-valuemax={to}
        aria-valuenow={at ?? nearest(x, 10_000)}
        aria-valuetext={readAt(at ?? nearest(x, 10_000))}
        onKeyDown={onKeyDown}
        onPointerMove={(event) => {
          const box = event.currentTarget.getBoundingClientRect();
          move(nearest(x, sx.invert(((event.clientX - box.left) / box.width) * width)));
        }}
        onPointerLeave={() => setAt(null)}
        onBlur={() => setAt(null)}
      >
        <svg viewBox={`0 0 ${width} ${HEIGHT}`} aria-hidden="true">
          <clipPath id="family-field">
            <rect x={LEFT} y={TOP} width={width - right - LEFT} height={HEIGHT - TOP - BOTTOM} />
          </clipPath>
          {sy.ticks(6).map((tick) => (
            <g key={tick}>
              <line
                class={tick === 0 ? 'grid zero' : 'grid'}
                x1={LEFT}
                x2={width - right}
                y1={sy(tick)}
                y2={sy(tick)}
              />
              <text x={LEFT - 7} y={sy(tick) + 4} text-anchor="end">
                {tickText(tick)}
              </text>
            </g>
          ))}
          {sx.ticks(8).map((tick) => (
            <g key={tick}>
              <line class="axis" x1={sx(tick)} x2={sx(tick)} y1={HEIGHT - BOTTOM} y2={HEIGHT - BOTTOM + 5} />
              <text x={sx(tick)} y={HEIGHT - BOTTOM + 18} text-anchor="middle">
                {tickText(tick)}
              </text>
            </g>
          ))}
          <line class="hearing" x1={sx(20_000)} x2={sx(20_000)} y1={TOP} y2={HEIGHT - BOTTOM} />
          <text x={LEFT} y={TOP - 7}>
            level re 1 kHz, dB
          </text>
          <text x={width - right} y={HEIGHT - 3} text-anchor="end">
            frequency, Hz
          </text>
          <g clip-path="url(#family-field)">
            {members.map((one) => (
              <path key={one.name} class={classOf(one)} d={linePathOf(one.y)} />
            ))}
          </g>
          {members.map((one, i) => (
            <text key={one.name} class={`name ${classOf(one)}`} x={width - right + 6} y={ends[i] + 4}>
              {one.name}
            </text>
          ))}
          {at !== null && <line class="cursor" x1={sx(x[at])} x2={sx(x[at])} y1={TOP} y2={HEIGHT - BOTTOM} />}
        </svg>
      </div>
      <p class="readout" aria-hidden="true">
        {at === null ? '' : readAt(at)}
      </p>
    </div>
  );
}

const classOf = (one: Member): string => (one.now ? 'line accent now' : 'line other');
