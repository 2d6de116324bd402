/**
 * The arm from the rim's side: level or not, drawn larger than it is, and beside it the cantilever at the tip with the
 * angles that the standard names.
 */

import { showNumber } from '../../../core/words/number.ts';
import { say, statement } from '../../../core/words/statement.ts';

/** How many times larger a rise is drawn, so that it can be seen and stays on the sheet. */
function riseExaggeration(riseMm: number): number {
  return [8, 4, 2].find((times) => Math.abs(riseMm) * times <= 34) ?? 1;
}

const TIP_X = 60;
const PIVOT_X = 470;
const RECORD = 128;

export interface ArmHeightViewProps {
  readonly riseMm: number;
  readonly lengthMm: number;
  readonly thicknessMm: number;
}

export function ArmHeightView({ riseMm, lengthMm, thicknessMm }: ArmHeightViewProps) {
  const times = riseExaggeration(riseMm);
  const up = Math.max(-40, Math.min(40, riseMm * times));
  const thick = Math.max(5, Math.min(26, thicknessMm * 5));
  const level = RECORD - 52;
  const pivotY = level - up;
  const slope = (pivotY - level) / (PIVOT_X - TIP_X);
  const turned = (Math.atan(slope) * 180) / Math.PI;
  const stands =
    Math.abs(riseMm) < 0.05
      ? 'level'
      : `${showNumber(Math.abs(riseMm), 1)} mm ${riseMm > 0 ? 'over' : 'under'} level at the pivot`;
  return (
    <svg
      class="drawing side-view"
      viewBox="0 0 560 206"
      role="img"
      aria-label={`${say(statement('arm-from-the-side', { length: showNumber(lengthMm, 1), pose: stands, thickness: showNumber(thicknessMm, 1) }))} ${times === 1 || Math.abs(riseMm) < 0.05 ? '' : say(statement('rise-drawn-larger', { times }))}`}
    >
      <path class="record" d={`M8 ${RECORD} H260 v${thick} H8 z`} />
      <path class="platter" d={`M8 ${RECORD + thick} H260 v14 H8 z`} />
      <line class="dimension dashed" x1={TIP_X - 30} x2={PIVOT_X + 40} y1={level} y2={level} />
      <g transform={`rotate(${turned.toFixed(3)} ${TIP_X} ${level})`}>
        <path d={`M${TIP_X + 24} ${level - 4} H${PIVOT_X + 30} M${TIP_X + 24} ${level + 4} H${PIVOT_X + 30}`} />
        <rect x={TIP_X - 18} y={level - 6} width={42} height={12} rx={3} />
        <path d={`M${TIP_X - 12} ${level + 6} h32 v22 q0 5 -5 5 h-27 z`} />
        <rect x={PIVOT_X + 30} y={level - 18} width={36} height={36} rx={3} />
      </g>
      <line x1={TIP_X + 10} y1={level + 33 + 10 * slope} x2={TIP_X} y2={RECORD} />
      <path class="pillar" d={`M${PIVOT_X - 9} ${pivotY + 6} V184 h18 V${pivotY + 6} z`} />
      <circle class="dot" cx={PIVOT_X} cy={pivotY} r={5} />
      <line class="dimension" x1={PIVOT_X - 90} x2={PIVOT_X + 80} y1={184} y2={184} />
      {Math.abs(up) >= 8 && (
        <path
          class="arrow"
          d={
            up > 0
              ? `M${PIVOT_X - 38} ${level} V${pivotY + 2} m-7 9 l7 -10 l7 10`
              : `M${PIVOT_X - 38} ${level} V${pivotY - 2} m-7 -9 l7 10 l7 -10`
          }
        />
      )}
      <text class="said" x={PIVOT_X - 60} y={24} text-anchor="middle">
        {stands}
      </text>
      <text x={8} y={200}>
        record {showNumber(thicknessMm, 1)} mm
      </text>
      {Math.abs(riseMm) >= 0.05 && (
        <text x={552} y={200} text-anchor="end">
          {times === 1 ? 'to scale' : `rise drawn ${times} × larger`}
        </text>
      )}
    </svg>
  );
}

const AT = { x: 120, y: 196 };

/** End of a line of this length that leaves the tip at an angle above the groove, towards the pivot. */
const along = (deg: number, length: number): string => {
  const turn = (deg * Math.PI) / 180;
  return `${(AT.x + length * Math.cos(turn)).toFixed(1)} ${(AT.y - length * Math.sin(turn)).toFixed(1)}`;
};

export interface CantileverViewProps {
  /** by the maker's statement at this height; null where none is stated */
  readonly statedDeg: number | null;
  readonly standard: { readonly fromDeg: number; readonly toDeg: number };
}

export function CantileverView({ statedDeg, standard }: CantileverViewProps) {
  const { fromDeg, toDeg } = standard;
  return (
    <svg
      class="drawing side-view"
      viewBox="0 0 460 240"
      role="img"
      aria-label={say(
        statedDeg === null
          ? statement('tip-from-side-unstated', { fromDeg, toDeg })
          : statement('tip-from-side', { statedDeg, fromDeg, toDeg }),
      )}
    >
      <path class="wedge" d={`M${AT.x} ${AT.y} L${along(fromDeg, 300)} A300 300 0 0 0 ${along(toDeg, 300)} z`} />
      <line class="groove" x1={10} x2={450} y1={AT.y} y2={AT.y} />
      <text x={450} y={AT.y + 20} text-anchor="end">
        groove, to the pivot
      </text>
      {statedDeg !== null && (
        <>
          <path class="cantilever" d={`M${AT.x} ${AT.y} L${along(statedDeg, 250)}`} />
          <path class="arc" d={`M${AT.x + 150} ${AT.y} A150 150 0 0 0 ${along(statedDeg, 150)}`} />
          <text class="said" x={statedDeg >= 14 ? AT.x + 160 : 16} y={statedDeg >= 14 ? AT.y - 14 : AT.y - 60}>
            {showNumber(statedDeg, 1)}° stated
          </text>
        </>
      )}
      <path class="tip" d={`M${AT.x} ${AT.y} l-5 -16 h10 z`} />
      <text x={450} y={34} text-anchor="end">
        {fromDeg}° to {toDeg}°: the standard
      </text>
    </svg>
  );
}
