/** What is known of the arm, what can be moved, which grooves it plays, and what it is to be set for. */

import { type CriterionName, criteria } from '../../../core/geometry/criteria.ts';
import { optionsOf } from '../../../core/job/fields/chosen.ts';
import { armChoices } from '../../../core/job/stations/place/choices.ts';
import { armFields, armNotes } from '../../../core/job/stations/place/fields.ts';
import { capital } from '../../../core/words/capital.ts';
import { Check, Choice } from '../../parts/Choice.tsx';
import type { Fallback } from '../../parts/FieldEntry.tsx';
import { Fold } from '../../parts/Fold.tsx';
import { OptionList } from '../../parts/OptionList.tsx';
import { TypedFields } from '../../parts/TypedFields.tsx';
import type { ArmFieldsProps } from './armFieldsProps.ts';
import { GrooveFields } from './GrooveFields.tsx';
import { MovableFields } from './MovableFields.tsx';

const aims = criteria.map(({ name, title, says }) => ({
  value: name as CriterionName,
  label: title,
  says: `${capital(says)}.`,
}));

export interface ArmFormProps extends ArmFieldsProps {
  /** what other stations know of the arm */
  readonly fallbacks: Readonly<Record<'spindleToPivot' | 'effectiveLength', Fallback | null>>;
}

export function ArmForm({ typed, set, fallbacks }: ArmFormProps) {
  const what = typed.known ?? 'spindle-to-pivot';
  return (
    <section class="card stack place-arm" aria-label="This arm and these records">
      <h3 class="strong">This arm and these records</h3>
      <Choice
        label={armChoices.known.label}
        options={optionsOf(armChoices.known)}
        value={what}
        onValue={(value) => set({ known: value })}
      />
      <div class="fields">
        {what === 'spindle-to-pivot' && (
          <TypedFields of={armFields} names={['spindleToPivot']} typed={typed} set={set} fallbacks={fallbacks} />
        )}
        {what === 'effective-length' && (
          <TypedFields of={armFields} names={['effectiveLength']} typed={typed} set={set} fallbacks={fallbacks} />
        )}
        {what === 'overhang' && <TypedFields of={armFields} names={['overhang']} typed={typed} set={set} />}
        {what === 'tangential' && <Tangential typed={typed} set={set} />}
      </div>
      {what !== 'tangential' && <MovableFields typed={typed} set={set} whole={what === 'spindle-to-pivot'} />}
      {what === 'spindle-to-pivot' && <Elsewhere typed={typed} set={set} />}
      <GrooveFields typed={typed} set={set} />
      <Fold
        title={armChoices.criterion.label}
        answer={aims.find(({ value }) => value === (typed.criterion ?? 'lofgren-a'))?.label}
      >
        <OptionList
          label={armChoices.criterion.label}
          options={aims}
          value={typed.criterion ?? 'lofgren-a'}
          onValue={(criterion) => set({ criterion })}
        />
        {typed.criterion === 'even-music' && (
          <div class="fields">
            <TypedFields of={armFields} names={['weightInner', 'weightOuter']} typed={typed} set={set} />
          </div>
        )}
      </Fold>
    </section>
  );
}

function Tangential({ typed, set }: ArmFieldsProps) {
  return <TypedFields of={armFields} names={['heldOverhang', 'heldTwist']} typed={typed} set={set} />;
}

function Elsewhere({ typed, set }: ArmFieldsProps) {
  return (
    <div>
      <Check
        label={armNotes.elsewhere.label}
        checked={typed.elsewhere === true}
        onChecked={(elsewhere) => set({ elsewhere })}
      />
      {typed.elsewhere === true && (
        <div class="fields">
          <TypedFields of={armFields} names={['makersPivot', 'makersLength', 'makersOffset']} typed={typed} set={set} />
        </div>
      )}
    </div>
  );
}
