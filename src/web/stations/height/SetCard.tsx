/** How the arm stands and what it is set on; then kept as done. */

import { QuantityField } from '../../library/QuantityField.tsx';
import { Caution } from '../../parts/Caution.tsx';
import { TextField } from '../../parts/TextField.tsx';
import { FactField } from '../weigh/FactField.tsx';
import type { Elsewhere, FactLayer, FactName } from '../weigh/facts.ts';
import type { ForceUnit } from '../weigh/force.ts';
import { type HeightData, RISE, THICKNESS, USUAL_THICKNESS_MM } from './heightData.ts';

export interface SetCardProps {
  readonly data: Partial<HeightData>;
  readonly layers: readonly FactLayer[];
  readonly elsewhere: Elsewhere;
  readonly forceUnit: ForceUnit;
  /** rise and thickness can be kept */
  readonly ready: boolean;
  readonly setBefore: boolean;
  set(patch: Partial<HeightData>): void;
  onSet(left: boolean): void;
}

const names: readonly FactName[] = ['effectiveLengthMm', 'verticalAngleDeg'];
const forForce: readonly FactName[] = ['movingMassG', 'centreBelowPivotMm', 'pivotAboveTipMm'];

export function SetCard({ data, layers, elsewhere, forceUnit, ready, setBefore, set, onSet }: SetCardProps) {
  const onText = (name: FactName, text: string): void => set({ facts: { ...data.facts, [name]: text } });
  const field = (name: FactName) => (
    <FactField key={name} name={name} layers={layers} elsewhere={elsewhere} forceUnit={forceUnit} onText={onText} />
  );
  return (
    <section class="card set-card" aria-label="How the arm stands">
      <h3>How the arm stands</h3>
      <div class="fields">
        <QuantityField
          label="Over level, at the pivot"
          text={data.rise}
          hint="0 or empty: the tube is level. Rear low is negative."
          onText={(rise) => set({ rise })}
          {...RISE}
        />
        <QuantityField
          label="Record that it is set on"
          text={data.thickness}
          hint={`${USUAL_THICKNESS_MM} mm is taken while nothing is typed.`}
          onText={(thickness) => set({ thickness })}
          {...THICKNESS}
        />
        <TextField
          label="Pillar reads"
          text={data.mark}
          hint="A mark, a gap, a feeler: in your own words."
          maxLength={120}
          onText={(mark) => set({ mark })}
        />
        {names.map(field)}
      </div>
      <details class="more-figures">
        <summary>For the change of force with height</summary>
        <div class="fields">{forForce.map(field)}</div>
      </details>
      <Caution title="Before the pillar is loosened:">
        arm locked in its rest, guard on, a hand under the base: it can drop when the screw is let go. Hold the base,
        never the arm. Steel keys are pulled by the cartridge’s magnet.
      </Caution>
      <div class="buttons">
        <button type="button" class="button main" disabled={!ready} onClick={() => onSet(false)}>
          The height is set so
        </button>
        {setBefore && (
          <button type="button" class="button" disabled={!ready} onClick={() => onSet(true)}>
            It still stands so: nothing moved
          </button>
        )}
      </div>
    </section>
  );
}
