/** The range on a scale of both units: where to start, what is aimed at, what the dial says and what was weighed. */

import { makeScale } from '../../../core/draw/chart/scale.ts';
import { mnToGramForce } from '../../../core/units/units.ts';
import { showNumber } from '../../../core/words/number.ts';
import { say, statement } from '../../../core/words/statement.ts';

export interface ForceScaleProps {
  readonly leastMn: number | null;
  readonly mostMn: number | null;
  readonly targetMn: number;
  readonly dialMn: number | null;
  readonly weighed: { readonly mn: number; readonly uncertaintyMn: number } | null;
}

const LEFT = 16;
const RIGHT = 432;
/** the scale itself; above it the weighed force, below it the dial */
const AXIS = 98;
/** a number nearer than this to the mark of the force aimed at would run into it */
const CLEAR = 30;

export function ForceScale({ leastMn, mostMn, targetMn, dialMn, weighed }: ForceScaleProps) {
  const all = [
    targetMn,
    ...(leastMn === null ? [] : [leastMn]),
    ...(mostMn === null ? [] : [mostMn]),
    ...(dialMn === null ? [] : [dialMn]),
    ...(weighed === null ? [] : [weighed.mn - weighed.uncertaintyMn, weighed.mn + weighed.uncertaintyMn]),
  ];
  const room = Math.max(1.5, 0.18 * (Math.max(...all) - Math.min(...all)));
  const from = Math.max(0, Math.min(...all) - room);
  const to = Math.max(...all) + room;
  const x = makeScale([from, to], [LEFT, RIGHT], false);
  const grams = makeScale([mnToGramForce(from), mnToGramForce(to)], [LEFT, RIGHT], false);
  const said = [
    leastMn === null || mostMn === null
      ? ''
      : `the maker’s range ${showNumber(leastMn, 1)} to ${showNumber(mostMn, 1)} mN`,
    `aimed at ${showNumber(targetMn, 1)} mN`,
    dialMn === null ? '' : `dial ${showNumber(dialMn, 1)} mN`,
    weighed === null
      ? ''
      : `weighed ${showNumber(weighed.mn, 1)} plus or minus ${showNumber(weighed.uncertaintyMn, 1)} mN`,
  ].filter((part) => part !== '');
  const [top, bottom] = [weighed === null ? 40 : 0, dialMn === null ? 136 : 158];
  const anchor = (mn: number): 'start' | 'middle' | 'end' =>
    x(mn) < LEFT + 60 ? 'start' : x(mn) > RIGHT - 60 ? 'end' : 'middle';
  return (
    <svg
      class="drawing force-scale"
      viewBox={`0 ${top} 480 ${bottom - top}`}
      role="img"
      aria-label={say(statement('force-on-scale', { forces: said.join(', ') }))}
    >
      {leastMn !== null && mostMn !== null && (
        <rect class="range" x={x(leastMn)} y={88} width={Math.max(2, x(mostMn) - x(leastMn))} height={20} />
      )}
      <line class="axis" x1={LEFT} x2={RIGHT} y1={AXIS} y2={AXIS} />
      {grams.ticks(4).map((tick) => (
        <g key={tick}>
          <line class="axis" x1={grams(tick)} x2={grams(tick)} y1={84} y2={AXIS} />
          {Math.abs(grams(tick) - x(targetMn)) > CLEAR && (
            <text x={grams(tick)} y={80} text-anchor="middle">
              {Number(tick.toFixed(2))}
            </text>
          )}
        </g>
      ))}
      {x.ticks(5).map((tick) => (
        <g key={tick}>
          <line class="axis" x1={x(tick)} x2={x(tick)} y1={AXIS} y2={112} />
          <text x={x(tick)} y={128} text-anchor="middle">
            {tick}
          </text>
        </g>
      ))}
      <text x={470} y={80} text-anchor="end">
        g
      </text>
      <text x={470} y={128} text-anchor="end">
        mN
      </text>
      <path class="target" d={`M${x(targetMn)} 84 l-8 -15 h16 z`} />
      <text class="said" x={x(targetMn)} y={60} text-anchor={anchor(targetMn)}>
        aim
      </text>
      {dialMn !== null && (
        <>
          <path class="dial" d={`M${x(dialMn)} 88 l-9 10 l9 10 l9 -10 z`} />
          <text class="said" x={x(dialMn)} y={150} text-anchor={anchor(dialMn)}>
            dial
          </text>
        </>
      )}
      {weighed !== null && (
        <>
          <path
            class="weighed"
            d={`M${x(weighed.mn - weighed.uncertaintyMn)} 24 v16 m0 -8 H${x(weighed.mn + weighed.uncertaintyMn)} m0 -8 v16`}
          />
          <line class="weighed thin" x1={x(weighed.mn)} x2={x(weighed.mn)} y1={32} y2={AXIS} />
          <circle class="weighed dot" cx={x(weighed.mn)} cy={32} r={6} />
          <text class="said" x={x(weighed.mn)} y={16} text-anchor={anchor(weighed.mn)}>
            weighed
          </text>
        </>
      )}
    </svg>
  );
}
