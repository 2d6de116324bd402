/**
 * The arm in balance, from the rim's side, to scale along its length: headshell and tip at the left, pivot, and the
 * counterweight floating (outline) and at the force (solid) behind it.
 */
import { showNumber } from '../../../core/words/number.ts';

export interface ArmViewProps {
  readonly lengthMm: number;
  /** cartridge, hardware and a headshell that comes off, g; null where not known */
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

/** Where everything is drawn; places in the drawing's own units, `Mm` behind the pivot. */
interface Layout {
  readonly pivot: number;
  readonly rearMm: number;
  /** half the weight's side */
  readonly half: number;
  /** the weight, at the force where that is known */
  readonly weight: number;
  /** at the force and floating; null where not known */
  readonly stands: { readonly atForceMm: number; readonly floatingMm: number } | null;
  behind(mm: number): number;
}

function layoutOf({ lengthMm, counterweightG, floatingMm, atForceMm, stubToMm }: ArmViewProps): Layout {
  const stands = floatingMm !== null && atForceMm !== null ? { atForceMm, floatingMm } : null;
  const places = stands === null ? [] : [stands.floatingMm, stands.atForceMm];
  const size = brassMm(counterweightG ?? 100);
  const rear = Math.min(lengthMm, Math.max(50, stubToMm ?? 0, ...places) + 0.6 * size + 4);
  const scale = (REAR_X - TIP_X) / (lengthMm + rear);
  const pivot = TIP_X + lengthMm * scale;
  // an arm that is rear-heavy by itself would want its weight in front of the pivot
  const behind = (mm: number): number => Math.min(REAR_X, Math.max(TIP_X + 60, pivot + mm * scale));
  return {
    pivot,
    rearMm: rear,
    half: Math.max(10, Math.min(44, (size * scale) / 2)),
    weight: behind(atForceMm ?? rear / 2),
    stands,
    behind,
  };
}

const forceText = (mn: number | null): string => (mn === null ? '' : `${showNumber(mn, 1)} mN`);

function told({ lengthMm, frontG, counterweightG, onStub, targetMn }: ArmViewProps, { stands }: Layout): string {
  const parts = [
    `Arm from the side, ${showNumber(lengthMm, 1)} mm from pivot to tip`,
    frontG === null ? '' : `${showNumber(frontG, 1)} g at the tip`,
    stands === null
      ? 'where the counterweight is is not known'
      : `counterweight${counterweightG === null ? '' : ` of ${showNumber(counterweightG, 0)} g`} ${showNumber(stands.atForceMm, 1)} mm behind the pivot at ${forceText(targetMn)}, ${showNumber(stands.floatingMm, 1)} mm floating`,
    onStub === false ? 'off its stub' : '',
  ];
  return `${parts.filter((part) => part !== '').join('; ')}.`;
}

export function ArmView(props: ArmViewProps) {
  const layout = layoutOf(props);
  return (
    <svg class="drawing arm-view" viewBox="0 0 560 268" role="img" aria-label={told(props, layout)}>
      <Tube lengthMm={props.lengthMm} pivot={layout.pivot} />
      <Stub arm={props} layout={layout} />
      <Weight arm={props} layout={layout} />
      <path
        class="pivot"
        d={`M${layout.pivot} ${AXIS - 5} l-14 30 h28 z M${layout.pivot} ${AXIS + 25} v46 M${layout.pivot - 26} ${AXIS + 71} h52`}
      />
      <Figures arm={props} layout={layout} />
    </svg>
  );
}

/** Record, headshell, tip and tube, to the pivot. */
function Tube({ lengthMm, pivot }: { readonly lengthMm: number; readonly pivot: number }) {
  return (
    <>
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
    </>
  );
}

interface PartProps {
  readonly arm: ArmViewProps;
  readonly layout: Layout;
}

/** What the weight sits on, and how far it may go. */
function Stub({ arm: { stubFromMm, stubToMm }, layout: { pivot, rearMm, behind } }: PartProps) {
  return (
    <>
      <line class="stub" x1={pivot} x2={behind(rearMm - 2)} y1={AXIS} y2={AXIS} />
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
    </>
  );
}

/** The weight: floating in outline, at the force solid, and the way between them. */
function Weight({ arm: { onStub, forwardMm }, layout: { stands, half, weight, behind } }: PartProps) {
  const square = { y: AXIS - half, width: 2 * half, height: 2 * half };
  return (
    <>
      {stands !== null && <rect class="weight floating" x={behind(stands.floatingMm) - half} {...square} />}
      <rect
        class={onStub === false ? 'weight off' : stands !== null ? 'weight' : 'weight unknown'}
        x={weight - half}
        {...square}
      />
      {stands !== null && <line class="centre" x1={weight} x2={weight} y1={AXIS - half - 5} y2={AXIS + 86} />}
      {stands !== null && forwardMm !== null && Math.abs(forwardMm) > 0.005 && (
        <path
          class="arrow"
          d={
            forwardMm > 0
              ? `M${weight + 26} ${AXIS - half - 14} h-44 m9 -7 l-10 7 l10 7`
              : `M${weight - 26} ${AXIS - half - 14} h44 m-9 -7 l10 7 l-10 7`
          }
        />
      )}
    </>
  );
}

/** Masses, places and the force in numbers. */
function Figures({ arm: { onStub, counterweightG, frontG, targetMn }, layout: { stands, pivot, weight } }: PartProps) {
  return (
    <>
      {stands !== null && <line class="dimension" x1={pivot} x2={weight} y1={AXIS + 82} y2={AXIS + 82} />}
      <text class="said" x={REAR_X + 8} y={AXIS + 108} text-anchor="end">
        {stands !== null ? `${showNumber(stands.atForceMm, 1)} mm behind the pivot` : 'its place is not known yet'}
        {onStub === false ? ', ✕ off its stub' : ''}
      </text>
      {stands !== null && (
        <text x={REAR_X + 8} y={AXIS + 132} text-anchor="end">
          floating at {showNumber(stands.floatingMm, 1)} mm (dashed)
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
            {forceText(targetMn)}
          </text>
        </>
      )}
    </>
  );
}
