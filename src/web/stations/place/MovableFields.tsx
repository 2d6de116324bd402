/** What of the arm can be moved, and the figures of what cannot. */

import { optionsOf } from '../../../core/job/fields/chosen.ts';
import { armChoices } from '../../../core/job/stations/place/choices.ts';
import { armFields } from '../../../core/job/stations/place/fields.ts';
import type { Movable } from '../../../core/job/stations/place/typed.ts';
import { Choice } from '../../parts/Choice.tsx';
import { TypedFields } from '../../parts/TypedFields.tsx';
import type { ArmFieldsProps } from './armFieldsProps.ts';

const says: Readonly<Record<Movable, string>> = {
  both: 'Open slots: the cartridge can be slid and twisted as far as it takes.',
  slide: 'The cartridge cannot be twisted in its headshell: the offset is fixed.',
  twist: 'The cartridge cannot be slid: the effective length is fixed.',
  slots: 'The slots or the headshell stop somewhere; the best within them is found.',
  nothing: 'To see what an arm does that leaves nothing to move.',
};

/** With another length known it is the pivot that can still be placed. */
const placeable = {
  options: [
    { value: 'both', label: 'pivot and twist' },
    { value: 'slide', label: 'pivot only' },
  ],
  bothSays: 'Where the pivot is and how the cartridge is twisted are both open.',
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
        {whole || chosen.value !== 'both' ? says[chosen.value] : placeable.bothSays}
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
