/** The headshell from above, its front towards the viewer: where the cartridge stands, and where it is to go. */

import { USUAL_TIP_AHEAD } from '../../../core/geometry/slide.ts';
import { slideWords, turnWords } from '../../../core/job/stations/place/madeMoves.ts';
import { say, statement } from '../../../core/words/statement.ts';

/** px of the drawing in one mm */
const MM = 8;
/** middle of the two screws */
const X = 230;
const Y = 172;
/** half of 12.7 mm, between the screws */
const SCREW = 6.35 * MM;
/** most that is drawn: mm and degrees */
const MOST_SLIDE = 6;
const MOST_TWIST = 13;

/** How many times larger a move is drawn; 0 where it is too large to be drawn to any scale. */
function exaggeration(slideMm: number, twistDeg: number): number {
  const fits = (times: number) => Math.abs(slideMm) * times <= MOST_SLIDE && Math.abs(twistDeg) * times <= MOST_TWIST;
  return [8, 4, 2, 1].find(fits) ?? 0;
}

const clamp = (value: number, most: number): number => Math.max(-most, Math.min(most, value));

export interface ShellViewProps {
  /** forward positive; null where the cartridge is not to be slid */
  readonly slideMm: number | null;
  /** clockwise seen from above positive; null where it is not to be twisted */
  readonly twistDeg: number | null;
  /** tip ahead of the screws, mm */
  readonly tipAhead?: number;
}

export function ShellView({ slideMm, twistDeg, tipAhead = USUAL_TIP_AHEAD }: ShellViewProps) {
  const times = exaggeration(slideMm ?? 0, twistDeg ?? 0);
  const slide = clamp((slideMm ?? 0) * (times || 1), MOST_SLIDE);
  const twist = clamp((twistDeg ?? 0) * (times || 1), MOST_TWIST);
  const said = [
    slideMm === null ? '' : `slide the cartridge ${slideWords(slideMm)}`,
    twistDeg === null ? '' : `twist it ${turnWords(twistDeg)}`,
  ].filter((part) => part !== '');
  const size =
    times === 0
      ? say(statement('move-too-large-drawn'))
      : say(times === 1 ? statement('move-drawn-to-scale') : statement('move-drawn-larger', { times }));
  return (
    <svg
      class="drawing shell"
      viewBox="0 0 460 362"
      role="img"
      aria-label={`${say(statement('headshell-from-above', { moves: said.length === 0 ? 'leave the cartridge where it is' : said.join(', ') }))} ${said.length === 0 ? '' : size}`}
    >
      <path
        class="body"
        d={`M${X - 17} 4 V24 H${X - 62} q-18 0 -18 18 V254 q0 20 20 20 H${X + 60} q20 0 20 -20 V42 q0 -18 -18 -18 H${X + 17} V4`}
      />
      {[-1, 1].map((side) => (
        <rect key={side} class="slot" x={X + side * SCREW - 11} y={Y - 52} width="22" height="104" rx="11" />
      ))}
      <Cartridge tipAhead={tipAhead} style="stands" />
      {said.length > 0 && (
        <g transform={`translate(0 ${(slide * MM).toFixed(1)}) rotate(${twist.toFixed(2)} ${X} ${Y})`}>
          <Cartridge tipAhead={tipAhead} style="goes" />
        </g>
      )}
      {slideMm !== null && (
        <g class="arrow" transform={slideMm >= 0 ? undefined : `translate(0 ${2 * Y}) scale(1 -1)`}>
          <path d={`M92 ${Y - 44} V${Y + 44}`} />
          <path d={`M76 ${Y + 27} L92 ${Y + 46} L108 ${Y + 27}`} />
        </g>
      )}
      {twistDeg !== null && (
        <g class="arrow" transform={twistDeg >= 0 ? undefined : `translate(0 ${2 * Y}) scale(1 -1)`}>
          <path d={`M363 ${Y - 48} A 141 141 0 0 1 363 ${Y + 48}`} />
          <path d={`M347 ${Y + 38} L362 ${Y + 50} L377 ${Y + 28}`} />
        </g>
      )}
      <text x="250" y="15">
        to the pivot
      </text>
      <text x={X} y="330" text-anchor="middle">
        front
      </text>
      <text x="18" y={Y - 70}>
        spindle
      </text>
      <text x="442" y={Y - 70} text-anchor="end">
        rim
      </text>
      {slideMm !== null && (
        <text class="said" x="84" y="330" text-anchor="middle">
          {slideWords(slideMm)}
        </text>
      )}
      {twistDeg !== null && (
        <text class="said" x="372" y="330" text-anchor="middle">
          {turnWords(twistDeg)}
        </text>
      )}
      <text x={X} y="356" text-anchor="middle">
        {said.length === 0
          ? ''
          : times === 0
            ? 'move not drawn to scale'
            : times === 1
              ? 'move drawn to scale'
              : `move drawn ${times} × larger`}
      </text>
    </svg>
  );
}

function Cartridge({ tipAhead, style }: { tipAhead: number; style: 'stands' | 'goes' }) {
  const tip = Y + tipAhead * MM;
  return (
    <g class={style}>
      <rect x={X - 60} y={tip - 160} width="120" height="168" rx="7" />
      {[-1, 1].map((side) => (
        <circle key={side} cx={X + side * SCREW} cy={Y} r="8" />
      ))}
      <path d={`M${X} ${tip - 34} V${tip}`} />
      <circle class="tip" cx={X} cy={tip} r="4" />
    </g>
  );
}
