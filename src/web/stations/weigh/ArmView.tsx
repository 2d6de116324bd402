/**
 * The arm in balance, from the rim's side, to scale along its length: headshell and tip at the left, pivot, and the
 * counterweight floating (outline) and at the force (solid) behind it.
 */
import { showNumber } from '../../../core/words/number.ts';

export interface ArmViewProps {
  readonly lengthMm: number;
  /** cartridge, hardware and a headheadshell that comes off, g; null where not known */
  readonly frontG: number | null;
  readonly counterweightG: number | null;
  /** pivot to the weight's centre; null where the arm's own moment is not known */
  readonly floatingMm: number | null;
  readonly atForceMm: number | null;
  /** travel from floating to the force, towards the tip positive; null where not known */
  readonly forwardMm: number | null;
  readonly stubFromMm: number | null;
  readonly stubToMm: number | null;
  readonly onStub: boolean | null;
  readonly targetMn: number | null;
}

const TIP_X = 44;
const REAR_X = 548;
const AXIS = 118;
const RECORD = 172;

/** mm across a brass weight that is as long as it is wide, 8.5 g/cm³. */
const brassMm = (grams: number): number => 10 * ((4 * grams) / (8.5 * Math.PI)) ** (1 / 3);

export function ArmView(props: ArmViewProps) {
  const { lengthMm, frontG, counterweightG, floatingMm, atForceMm, stubFromMm, stubToMm, onStub, targetMn } = props;
  const known = floatingMm !== null && atForceMm !== null;
  const places = known ? [floatingMm, atForceMm] : [];
  const size = brassMm(counterweightG ?? 100);
  const rear = Math.min(lengthMm, Math.max(50, stubToMm ?? 0, ...places) + 0.6 * size + 4);
  const scale = (REAR_X - TIP_X) / (lengthMm + rear);
  const pivot = TIP_X + lengthMm * scale;
  // an arm that is rear-heavy by itself would want its weight in front of the pivot
  const behind = (mm: number): number => Math.min(REAR_X, Math.max(TIP_X + 60, pivot + mm * scale));
  const half = Math.max(10, Math.min(44, (size * scale) / 2));
  const weightX = atForceMm === null ? behind(rear / 2) : behind(atForceMm);
  const force = targetMn === null ? '' : `${showNumber(targetMn, 1)} mN`;
  const said = [
    `Arm from the side, ${showNumber(lengthMm, 1)} mm from pivot to tip`,
    frontG === null ? '' : `${showNumber(frontG, 1)} g at the tip`,
    known
      ? `counterweight${counterweightG === null ? '' : ` of ${showNumber(counterweightG, 0)} g`} ${showNumber(atForceMm, 1)} mm behind the pivot at ${force}, ${showNumber(floatingMm, 1)} mm floating`
      : 'where the counterweight is is not known',
    onStub === false ? 'off its stub' : '',
  ].filter((part) => part !== '');
  return (
    <svg class="drawing arm-view" viewBox="0 0 560 268" role="img" aria-label={`${said.join('; ')}.`}>
      <path class="record" d={`M8 ${RECORD} H250 v7 H8 z`} />
      <path class="tube" d={`M${TIP_X + 26} ${AXIS - 4} H${pivot} M${TIP_X + 26} ${AXIS + 4} H${pivot}`} />
      <rect class="tube" x={TIP_X - 16} y={AXIS - 6} width={42} height={12} rx={3} />
      <path class="tube" d={`M${TIP_X - 10} ${AXIS + 6} h30 v24 q0 5 -5 5 h-25 z`} />
      <line class="cantilever" x1={TIP_X + 9} y1={AXIS + 35} x2={TIP_X} y2={RECORD} />
      <line class="dimension" x1={TIP_X} x2={pivot} y1={52} y2={52} />
      <line class="dimension" x1={TIP_X} x2={TIP_X} y1={44} y2={AXIS - 8} />
      <line class="dimension" x1={pivot} x2={pivot} y1={44} y2={AXIS - 16} />
      <text x={(TIP_X + pivot) / 2} y={44} text-anchor="middle">
        {showNumber(lengthMm, 1)} mm, pivot to tip
      </text>
      <line class="stub" x1={pivot} x2={behind(rear - 2)} y1={AXIS} y2={AXIS} />
      {stubFromMm !== null && stubToMm !== null && stubFromMm < stubToMm && (
        <>
          <rect
            class="stub-range"
            x={behind(stubFromMm)}
            y={AXIS - 6}
            width={Math.max(2, behind(stubToMm) - behind(stubFromMm))}
            height={12}
          />
          {[stubFromMm, stubToMm].map((mm, i) => (
            <line key={i} class="stub-end" x1={behind(mm)} x2={behind(mm)} y1={AXIS - 52} y2={AXIS + 52} />
          ))}
        </>
      )}
      {known && (
        <rect
          class="weight floating"
          x={behind(floatingMm) - half}
          y={AXIS - half}
          width={2 * half}
          height={2 * half}
        />
      )}
      <rect
        class={onStub === false ? 'weight off' : known ? 'weight' : 'weight unknown'}
        x={weightX - half}
        y={AXIS - half}
        width={2 * half}
        height={2 * half}
      />
      {known && <line class="centre" x1={weightX} x2={weightX} y1={AXIS - half - 5} y2={AXIS + 86} />}
      {known && props.forwardMm !== null && Math.abs(props.forwardMm) > 0.005 && (
        <path
          class="arrow"
          d={
            props.forwardMm > 0
              ? `M${weightX + 26} ${AXIS - half - 14} h-44 m9 -7 l-10 7 l10 7`
              : `M${weightX - 26} ${AXIS - half - 14} h44 m-9 -7 l10 7 l-10 7`
          }
        />
      )}
      <path
        class="pivot"
        d={`M${pivot} ${AXIS - 5} l-14 30 h28 z M${pivot} ${AXIS + 25} v46 M${pivot - 26} ${AXIS + 71} h52`}
      />
      {known && <line class="dimension" x1={pivot} x2={weightX} y1={AXIS + 82} y2={AXIS + 82} />}
      <text class="said" x={REAR_X + 8} y={AXIS + 108} text-anchor="end">
        {known ? `${showNumber(atForceMm, 1)} mm behind the pivot` : 'its place is not known yet'}
        {onStub === false ? ', ✕ off its stub' : ''}
      </text>
      {known && (
        <text x={REAR_X + 8} y={AXIS + 132} text-anchor="end">
          floating at {showNumber(floatingMm, 1)} mm (dashed)
        </text>
      )}
      {counterweightG !== null && (
        <text x={REAR_X + 8} y={22} text-anchor="end">
          weight {showNumber(counterweightG, 0)} g
        </text>
      )}
      {frontG !== null && (
        <text x={TIP_X - 36} y={AXIS - 30}>
          {showNumber(frontG, 1)} g
        </text>
      )}
      {targetMn !== null && (
        <>
          <path class="arrow" d={`M${TIP_X} ${RECORD + 44} v-30 m-8 9 l8 -10 l8 10`} />
          <text class="said" x={TIP_X - 36} y={RECORD + 66}>
            {force}
          </text>
        </>
      )}
    </svg>
  );
}
