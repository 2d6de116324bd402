/** How the arm is set and what it is set on; then kept as done. */

import type { Bench } from '../../../core/job/fields/benchFacts.ts';
import { optionsOf } from '../../../core/job/fields/chosen.ts';
import { type FactName, factFields } from '../../../core/job/fields/factFields.ts';
import type { ForceUnit } from '../../../core/job/fields/force.ts';
import { bearingChoice, heightFields, pillarReads } from '../../../core/job/stations/height/heightData.ts';
import type { HeightTyped } from '../../../core/job/stations/height.ts';
import { Caution } from '../../parts/Caution.tsx';
import { Select } from '../../parts/Choice.tsx';
import { FactEntry } from '../../parts/FactEntry.tsx';
import { FieldEntry } from '../../parts/FieldEntry.tsx';
import { Fold } from '../../parts/Fold.tsx';
import { TextField } from '../../parts/TextField.tsx';

export interface SetCardProps {
  readonly data: HeightTyped;
  readonly bench: Bench;
  readonly forceUnit: ForceUnit;
  /** rise and thickness can be kept */
  readonly ready: boolean;
  readonly setBefore: boolean;
  set(patch: HeightTyped): void;
  onSet(left: boolean): void;
}

const names: readonly FactName[] = ['effectiveLengthMm', 'offsetDeg', 'verticalAngleDeg'];

const forForce: readonly FactName[] = ['movingMassG', 'centreBelowPivotMm', 'pivotAboveTipMm'];

export function SetCard({ data, bench, forceUnit, ready, setBefore, set, onSet }: SetCardProps) {
  const ofPart = bench.match.chosen.arm?.bearingSquareTo;
  const onText = (name: FactName, text: string): void => set({ facts: { ...data.facts, [name]: text } });
  const field = (name: FactName) => (
    <FactEntry key={name} name={name} bench={bench} text={data.facts?.[name]} forceUnit={forceUnit} onText={onText} />
  );
  const lacking = names.find((name) => bench.facts[name] === undefined);
  const fromWhere = [...new Set(names.flatMap((name) => bench.facts[name]?.from ?? []))].join(', ');
  return (
    <section class="card set-card" aria-label="How the arm is set">
      <h3>How the arm is set</h3>
      <div class="fields">
        <FieldEntry field={heightFields.rise} text={data.rise} onText={(rise) => set({ rise })} />
        <FieldEntry
          field={heightFields.thickness}
          text={data.thickness}
          onText={(thickness) => set({ thickness })}
          fallback={heightFields.thickness.usual}
        />
        <TextField of={pillarReads} text={data.mark} onText={(mark) => set({ mark })} />
      </div>
      <Fold
        title="Arm and cartridge"
        answer={lacking === undefined ? fromWhere : `${factFields[lacking].label.toLowerCase()} is missing`}
        open={lacking !== undefined}
      >
        <div class="fields">
          {names.map(field)}
          <Select
            label={bearingChoice.label}
            options={[
              {
                value: '',
                label:
                  ofPart === undefined
                    ? 'not known: both are told'
                    : `as the part says: ${bearingChoice.options[ofPart]}`,
              },
              ...optionsOf(bearingChoice),
            ]}
            value={data.squareTo ?? ''}
            onValue={(value) => set({ squareTo: value as HeightTyped['squareTo'] })}
          />
        </div>
        <p class="soft">For the change of force with height:</p>
        <div class="fields">{forForce.map(field)}</div>
      </Fold>
      <Caution title="Before the pillar is loosened:">
        arm locked in its rest, guard on, a hand under the base. Hold the base, never the arm; keep steel keys from the
        magnet.
      </Caution>
      <div class="buttons">
        <button type="button" class="button main" disabled={!ready} onClick={() => onSet(false)}>
          The height is set
        </button>
        <button type="button" class="button" disabled={!ready} onClick={() => onSet(true)}>
          {setBefore ? 'It is still right: nothing moved' : 'It was right: nothing moved'}
        </button>
      </div>
    </section>
  );
}
