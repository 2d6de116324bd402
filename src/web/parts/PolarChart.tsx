/** A deviation around the platter: every turn thin, their mean thick. Arrow keys read the mean at an angle; a table holds all. */

import { useState } from 'preact/hooks';
import { polarPlot } from '../../core/draw/chart/polar.ts';
import { tickText } from '../../core/draw/chart/scale.ts';
import { showNumber } from '../../core/words/number.ts';
import { PlotReader } from './chart/PlotReader.tsx';
import { ScrollTable } from './ScrollTable.tsx';

export interface PolarChartProps {
  readonly name: string;
  /** deg, counted on from turn to turn */
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly yUnit: string;
}

const SIZE = 300;
const DECIMALS = 3;

export function PolarChart({ name, x, y, yUnit }: PolarChartProps) {
  const [at, setAt] = useState<number | null>(null);
  const { turns, mean, rings, around } = polarPlot(x, y, SIZE);
  const value = (v: number) => `${showNumber(v, DECIMALS)} ${yUnit}`;
  const readAt = (i: number) =>
    `${around[i].deg}°: mean ${value(around[i].mean)}, ${value(around[i].low)} to ${value(around[i].high)}`;
  /** @param x @param y shares of the square */
  const under = (x: number, y: number): number => {
    const deg = ((Math.atan2(x - 0.5, 0.5 - y) * 180) / Math.PI + 360) % 360;
    return around.reduce((best, one, i) => (Math.abs(one.deg - deg) < Math.abs(around[best].deg - deg) ? i : best), 0);
  };
  const half = SIZE / 2;
  const angle = at === null ? null : (around[at].deg * Math.PI) / 180;
  return (
    <div class="chart">
      <PlotReader
        name={name}
        count={around.length}
        at={at}
        begin={0}
        page={9}
        around
        told={at === null ? 'deviation around the platter' : readAt(at)}
        onAt={setAt}
        under={under}
      >
        <svg viewBox={`0 0 ${SIZE} ${SIZE}`} aria-hidden="true">
          <g transform={`translate(${half} ${half})`}>
            {rings.map(({ r, value: at }) => (
              <g key={at}>
                <circle class={at === 0 ? 'axis' : 'grid'} cx={0} cy={0} r={r} fill="none" />
                <text x={0} y={-r - 3} text-anchor="middle">
                  {tickText(at)}
                  {at === 0 ? ` ${yUnit}` : ''}
                </text>
              </g>
            ))}
            {['0°', '90°', '180°', '270°'].map((text, i) => (
              <text
                key={text}
                x={Math.round((half - 14) * Math.sin((i * Math.PI) / 2))}
                y={4 - Math.round((half - 8) * Math.cos((i * Math.PI) / 2))}
                text-anchor="middle"
              >
                {text}
              </text>
            ))}
            <path class="line turn" d={turns} />
            <path class="line plain" d={mean} />
            {angle !== null && (
              <line class="cursor" x1={0} y1={0} x2={half * Math.sin(angle)} y2={-half * Math.cos(angle)} />
            )}
          </g>
        </svg>
      </PlotReader>
      <p class="readout" aria-hidden="true">
        {at === null ? '' : readAt(at)}
      </p>
      <details class="table">
        <summary>The values as a table</summary>
        <PolarTable name={name} yUnit={yUnit} around={around} />
      </details>
    </div>
  );
}

interface PolarTableProps extends Pick<PolarChartProps, 'name' | 'yUnit'> {
  readonly around: ReturnType<typeof polarPlot>['around'];
}

function PolarTable({ name, yUnit, around }: PolarTableProps) {
  return (
    <ScrollTable name={name} class="" heads={['angle, °', `mean, ${yUnit}`, `least, ${yUnit}`, `most, ${yUnit}`]}>
      {around.map(({ deg, mean: middle, low, high }) => (
        <tr key={deg}>
          <th scope="row">{deg}</th>
          <td>{showNumber(middle, DECIMALS)}</td>
          <td>{showNumber(low, DECIMALS)}</td>
          <td>{showNumber(high, DECIMALS)}</td>
        </tr>
      ))}
    </ScrollTable>
  );
}
