/** How well it was read, and what the shell still allows: both have usual values while nothing is typed. */
import { usualReadingUncertainty } from '../../../core/geometry/readings.ts';
import { USUAL_TIP_AHEAD } from '../../../core/geometry/slide.ts';
import {
  type ReadTyped,
  SLOT_ANGLE,
  SLOT_LEFT,
  TIP_AHEAD,
  TURN_LEFT,
  WITHIN_DEG,
  WITHIN_MM,
  WITHIN_PIVOT,
} from '../../../core/job/stations/place/typed.ts';
import { NumberField } from '../../parts/NumberField.tsx';

export interface ReadingLimitsProps {
  readonly typed: ReadTyped;
  set(patch: ReadTyped): void;
}

export function HowRead({ typed, set }: ReadingLimitsProps) {
  const usual = usualReadingUncertainty;
  const ruler = typed.kind === 'ruler' || typed.kind === 'stated';
  return (
    <details>
      <summary>How well it was read</summary>
      <div class="fields">
        <NumberField
          label="Lengths to within ±"
          hint={`${ruler ? usual.overhang : usual.along} when left empty: an eye with ${ruler ? 'a steel ruler' : 'a lens on a 1 mm grid'}.`}
          text={typed.withinMm}
          onText={(withinMm) => set({ withinMm })}
          {...WITHIN_MM}
        />
        <NumberField
          label="Angles to within ±"
          hint={typed.kind === 'stated' ? '1 when left empty.' : '0.5 when left empty.'}
          text={typed.withinDeg}
          onText={(withinDeg) => set({ withinDeg })}
          {...WITHIN_DEG}
        />
        <NumberField
          label="Spindle to pivot known to within ±"
          hint={`${usual.spindleToPivot} when left empty.`}
          text={typed.withinPivot}
          onText={(withinPivot) => set({ withinPivot })}
          {...WITHIN_PIVOT}
        />
      </div>
      <p class="soft small">All k = 2: true 95 times in 100. The defaults are common practice, not from a source.</p>
    </details>
  );
}

export function TheShell({ typed, set }: ReadingLimitsProps) {
  return (
    <details>
      <summary>What the shell allows</summary>
      <div class="fields">
        <NumberField
          label="Slot left forward"
          hint="From where the cartridge is now; empty: enough."
          text={typed.slotsForward}
          onText={(slotsForward) => set({ slotsForward })}
          {...SLOT_LEFT}
        />
        <NumberField
          label="Slot left back"
          text={typed.slotsBack}
          onText={(slotsBack) => set({ slotsBack })}
          {...SLOT_LEFT}
        />
        <NumberField
          label="Turn left, either way"
          text={typed.turnLeft}
          onText={(turnLeft) => set({ turnLeft })}
          {...TURN_LEFT}
        />
        <NumberField
          label="Tip ahead of the screws"
          hint={`${USUAL_TIP_AHEAD} when left empty, from memory: measure the cartridge.`}
          text={typed.tipAhead}
          onText={(tipAhead) => set({ tipAhead })}
          {...TIP_AHEAD}
        />
        <NumberField
          label="Angle of the slots"
          hint="Against the line pivot to tip; empty: along the cartridge."
          text={typed.slotAngle}
          onText={(slotAngle) => set({ slotAngle })}
          {...SLOT_ANGLE}
        />
      </div>
    </details>
  );
}
