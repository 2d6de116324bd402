/** The cartridge's range of tracking force on a scale of both units, where to start, and what is set. */

import { makeScale } from '../../../core/draw/chart/scale.ts';
import { mnToGramForce } from '../../../core/units/units.ts';
import { say, statement } from '../../../core/words/statement.ts';

const AXIS_Y = 86;

export interface ForceRangeProps {
  readonly leastMn: number;
  readonly mostMn: number;
  readonly startMn: number;
  readonly setMn: number | null;
}

export function ForceRange({ leastMn, mostMn, startMn, setMn }: ForceRangeProps) {
  const all = [leastMn, mostMn, startMn, ...(setMn === null ? [] : [setMn])];
  const from = Math.max(0, Math.min(...all) - 6);
  const to = Math.max(...all) + 6;
  const x = makeScale([from, to], [24, 456], false);
  const gramTicks = makeScale([mnToGramForce(from), mnToGramForce(to)], [24, 456], false);
  const out = setMn !== null && !(leastMn <= setMn && setMn <= mostMn);
  const apart = setMn !== null && Math.abs(setMn - startMn) > 0.05;
  return (
    <svg
      class="drawing force-range"
      viewBox="0 0 480 148"
      role="img"
      aria-label={say(
        setMn === null
          ? statement('force-range-drawn', { leastMn, mostMn, startMn })
          : statement('force-range-drawn-set', { leastMn, mostMn, startMn, setMn }),
      )}
    >
      <line class="axis" x1={24} x2={456} y1={AXIS_Y} y2={AXIS_Y} />
      <rect
        class="range"
        x={x(leastMn)}
        y={AXIS_Y - 10}
        width={Math.max(2, x(mostMn) - x(leastMn))}
        height={20}
        rx={3}
      />
      {x.ticks(6).map((tick) => (
        <g key={tick}>
          <line class="axis" x1={x(tick)} x2={x(tick)} y1={AXIS_Y} y2={AXIS_Y + 18} />
          <text x={x(tick)} y={AXIS_Y + 33} text-anchor="middle">
            {tick}
          </text>
        </g>
      ))}
      <text x={456} y={AXIS_Y + 54} text-anchor="end">
        mN below, g above
      </text>
      {gramTicks.ticks(5).map((tick) => (
        <g key={tick}>
          <line class="axis" x1={gramTicks(tick)} x2={gramTicks(tick)} y1={AXIS_Y - 18} y2={AXIS_Y} />
          <text x={gramTicks(tick)} y={AXIS_Y - 23} text-anchor="middle">
            {Number(tick.toFixed(2))}
          </text>
        </g>
      ))}
      <line class="axis" x1={x(startMn)} x2={x(startMn)} y1={AXIS_Y - 44} y2={AXIS_Y + 10} />
      <path class="start" d={`M${x(startMn)} ${AXIS_Y - 44} l-8 -13 h16 z`} />
      <text class="said" x={x(startMn)} y={20} text-anchor="middle">
        {apart ? 'start' : 'start here'}
      </text>
      {apart && setMn !== null && (
        <>
          <line class={out ? 'set off' : 'set'} x1={x(setMn)} x2={x(setMn)} y1={28} y2={AXIS_Y + 16} />
          <text class="said" x={x(setMn)} y={20} text-anchor="middle">
            {out ? '✕ given' : 'given'}
          </text>
        </>
      )}
    </svg>
  );
}
