/** What is known of the arm, what can be moved, which grooves it plays, and what it is to be set for. */
import { type CriterionName, criteria } from '../../../core/geometry/criteria.ts';
import { type Known, LENGTH, OFFSET, OVERHANG, PIVOT, WEIGHT } from '../../../core/job/stations/place/typed.ts';
import { Check, Choice } from '../../parts/Choice.tsx';
import { NumberField } from '../../parts/NumberField.tsx';
import type { ArmFieldsProps } from './armFieldsProps.ts';
import { GrooveFields } from './GrooveFields.tsx';
import { MovableFields } from './MovableFields.tsx';
import { OptionList } from './OptionList.tsx';

const known: readonly { value: Known; label: string }[] = [
  { value: 'spindle-to-pivot', label: 'spindle to pivot' },
  { value: 'effective-length', label: 'effective length' },
  { value: 'overhang', label: 'overhang' },
  { value: 'tangential', label: 'tangential arm' },
];

const aims = criteria.map(({ name, title, says }) => ({
  value: name as CriterionName,
  label: title,
  says: `${says.charAt(0).toUpperCase()}${says.slice(1)}.`,
}));

export function ArmForm({ typed, set }: ArmFieldsProps) {
  const what = typed.known ?? 'spindle-to-pivot';
  return (
    <section class="card stack place-arm" aria-label="This arm and these records">
      <h3 class="strong">This arm and these records</h3>
      <Choice
        label="What do you know of the arm?"
        options={known}
        value={what}
        onValue={(value) => set({ known: value })}
      />
      <div class="fields">
        {what === 'spindle-to-pivot' && (
          <NumberField
            label="Spindle to pivot"
            hint="Centre of the spindle to centre of the arm’s pivot, measured on this deck."
            text={typed.spindleToPivot}
            onText={(spindleToPivot) => set({ spindleToPivot })}
            {...PIVOT}
          />
        )}
        {what === 'effective-length' && (
          <NumberField
            label="Effective length"
            hint="Centre of the pivot to the stylus tip."
            text={typed.effectiveLength}
            onText={(effectiveLength) => set({ effectiveLength })}
            {...LENGTH}
          />
        )}
        {what === 'overhang' && (
          <NumberField
            label="Overhang"
            hint="How far the tip swings past the spindle."
            text={typed.overhang}
            onText={(overhang) => set({ overhang })}
            {...OVERHANG}
          />
        )}
        {what === 'tangential' && <Tangential typed={typed} set={set} />}
      </div>
      {what !== 'tangential' && <MovableFields typed={typed} set={set} whole={what === 'spindle-to-pivot'} />}
      {what === 'spindle-to-pivot' && <Elsewhere typed={typed} set={set} />}
      <GrooveFields typed={typed} set={set} />
      <OptionList
        label="Set it for"
        options={aims}
        value={typed.criterion ?? 'lofgren-a'}
        onValue={(criterion) => set({ criterion })}
      />
      {typed.criterion === 'even-music' && (
        <div class="fields">
          <NumberField
            label="Weight at the inner groove"
            hint="Any scale; straight between the two."
            text={typed.weightInner}
            onText={(weightInner) => set({ weightInner })}
            {...WEIGHT}
          />
          <NumberField
            label="Weight at the outer groove"
            hint="Lower here where the music lies further in."
            text={typed.weightOuter}
            onText={(weightOuter) => set({ weightOuter })}
            {...WEIGHT}
          />
        </div>
      )}
    </section>
  );
}

function Tangential({ typed, set }: ArmFieldsProps) {
  return (
    <>
      <NumberField
        label="Overhang that cannot be changed"
        hint="Leave empty where it can be set."
        text={typed.heldOverhang}
        onText={(heldOverhang) => set({ heldOverhang })}
        {...OVERHANG}
      />
      <NumberField
        label="Twist that cannot be changed"
        hint="Clockwise seen from above positive; leave empty where it can be set."
        text={typed.heldTwist}
        onText={(heldTwist) => set({ heldTwist })}
        {...OFFSET}
      />
    </>
  );
}

function Elsewhere({ typed, set }: ArmFieldsProps) {
  return (
    <div>
      <Check
        label="The pivot does not stand where the arm’s maker wants it"
        checked={typed.elsewhere === true}
        onChecked={(elsewhere) => set({ elsewhere })}
      />
      {typed.elsewhere === true && (
        <div class="fields">
          <NumberField
            label="Maker’s spindle to pivot"
            text={typed.makersPivot}
            onText={(makersPivot) => set({ makersPivot })}
            {...PIVOT}
          />
          <NumberField
            label="Maker’s effective length"
            text={typed.makersLength}
            onText={(makersLength) => set({ makersLength })}
            {...LENGTH}
          />
          <NumberField
            label="Maker’s offset"
            text={typed.makersOffset}
            onText={(makersOffset) => set({ makersOffset })}
            {...OFFSET}
          />
        </div>
      )}
    </div>
  );
}
