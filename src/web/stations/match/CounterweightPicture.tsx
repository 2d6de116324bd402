/** The arm's rear from the side, to scale: where the weight's centre stands floating and at the force, and the stub's ends. */
import type { CounterweightPlace } from '../../../core/advise/matchBalance.ts';
import { showNumber } from '../../../core/words/number.ts';
import { say, statement } from '../../../core/words/statement.ts';

const PIVOT_X = 150;
const AXIS_Y = 108;
const ROOM = 290;

export interface CounterweightPictureProps {
  readonly place: CounterweightPlace;
  readonly fromMm: number | null;
  readonly toMm: number | null;
  readonly massG: number | null;
}

export function CounterweightPicture({ place, fromMm, toMm, massG }: CounterweightPictureProps) {
  const { atForceMm, floatingMm, onStub } = place;
  // to the left of the pivot when the arm is rear-heavy already
  const least = Math.min(0, atForceMm, floatingMm);
  const most = Math.max(20, toMm ?? 0, atForceMm, floatingMm) * 1.12 - least * 0.05;
  const scale = Math.min(ROOM / most, 8);
  const x = (mm: number): number => PIVOT_X + Math.max(-PIVOT_X + 24, mm * scale);
  const width = Math.max(26, Math.min(64, 12 * scale));
  const fits = onStub === null ? 'stub-ends-unknown' : onStub ? 'on-its-stub' : 'off-its-stub';
  return (
    <svg
      class="drawing balance"
      viewBox="0 0 480 216"
      role="img"
      aria-label={say(statement('counterweight-drawn', { atForceMm, floatingMm, fits: statement(fits) }))}
    >
      <path class="tube" d={`M14 ${AXIS_Y - 5} h46 l6 10 l-6 -10 M14 ${AXIS_Y + 5} h46`} />
      <path class="tube" d={`M72 ${AXIS_Y - 5} H${PIVOT_X} M72 ${AXIS_Y + 5} H${PIVOT_X}`} />
      <path class="break" d={`M58 ${AXIS_Y + 12} l10 -24 M66 ${AXIS_Y + 12} l10 -24`} />
      <rect class="stub thin" x={PIVOT_X} y={AXIS_Y - 2.5} width={Math.max(0, x(most * 0.96) - PIVOT_X)} height={5} />
      {fromMm !== null && toMm !== null && (
        <>
          <rect class="stub" x={x(fromMm)} y={AXIS_Y - 6} width={Math.max(2, x(toMm) - x(fromMm))} height={12} />
          {[fromMm, toMm].map((mm, i) => (
            <g key={i}>
              <line class="end" x1={x(mm)} x2={x(mm)} y1={AXIS_Y - 40} y2={AXIS_Y + 62} />
              <text x={x(mm)} y={AXIS_Y + 78} text-anchor="middle">
                {showNumber(mm, 0)}
              </text>
            </g>
          ))}
          <text x="472" y={AXIS_Y + 102} text-anchor="end">
            ends of the stub, mm behind the pivot
          </text>
        </>
      )}
      <rect class="weight floating" x={x(floatingMm) - width / 2} y={AXIS_Y - 30} width={width} height={60} rx={3} />
      <rect
        class={onStub === false ? 'weight off' : 'weight'}
        x={x(atForceMm) - width / 2}
        y={AXIS_Y - 30}
        width={width}
        height={60}
        rx={3}
      />
      <line class="centre" x1={x(atForceMm)} x2={x(atForceMm)} y1={AXIS_Y - 34} y2={AXIS_Y + 34} />
      <path class="pivot" d={`M${PIVOT_X} ${AXIS_Y - 4} l-13 24 h26 z`} />
      <text x={PIVOT_X} y={AXIS_Y + 38} text-anchor="middle">
        pivot
      </text>
      <text x="14" y={AXIS_Y - 14}>
        stylus
      </text>
      <text class="said" x={x(atForceMm)} y={AXIS_Y - 68} text-anchor="middle">
        {showNumber(atForceMm, 1)} mm
        {massG === null ? '' : `, ${showNumber(massG, 0)} g`}
      </text>
      <text x={x(atForceMm)} y={AXIS_Y - 46} text-anchor="middle">
        {onStub === false ? '✕ off its stub' : `floating: ${showNumber(floatingMm, 1)} mm`}
      </text>
    </svg>
  );
}
