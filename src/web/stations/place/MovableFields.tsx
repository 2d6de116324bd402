/** What of the arm can be moved, and the figures of what cannot. */

import { optionsOf } from '../../../core/job/fields/chosen.ts';
import { armChoices } from '../../../core/job/stations/place/choices.ts';
import { armFields } from '../../../core/job/stations/place/fields.ts';
import { say, statement } from '../../../core/words/statement.ts';
import { Choice } from '../../parts/Choice.tsx';
import { TypedFields } from '../../parts/TypedFields.tsx';
import type { ArmFieldsProps } from './armFieldsProps.ts';

/** With another length known it is the pivot that can still be placed. */
const placeable = {
  options: [
    { value: 'both', label: 'pivot and twist' },
    { value: 'slide', label: 'pivot only' },
  ],
  bothSays: say(statement('movable-pivot')),
} as const;

export function MovableFields({ typed, set, whole }: ArmFieldsProps & { whole: boolean }) {
  const options = whole ? optionsOf(armChoices.movable) : placeable.options;
  const chosen = options.find(({ value }) => value === typed.movable) ?? options[0];
  const offset = chosen.value === 'slide' || chosen.value === 'nothing';
  const length = chosen.value === 'twist' || chosen.value === 'nothing';
  return (
    <div class="stack tight">
      <Choice
        label={armChoices.movable.label}
        options={options}
        value={chosen.value}
        onValue={(value) => set({ movable: value })}
      />
      <p class="soft small" role="status">
        {whole || chosen.value !== 'both' ? say(statement(armChoices.movable.means[chosen.value])) : placeable.bothSays}
      </p>
      {(offset || length || chosen.value === 'slots') && (
        <div class="fields">
          {length && <TypedFields of={armFields} names={['heldLength']} typed={typed} set={set} />}
          {offset && <TypedFields of={armFields} names={['heldOffset']} typed={typed} set={set} />}
          {chosen.value === 'slots' && (
            <TypedFields
              of={armFields}
              names={['slotsShortest', 'slotsLongest', 'turnLeast', 'turnMost']}
              typed={typed}
              set={set}
            />
          )}
        </div>
      )}
    </div>
  );
}
