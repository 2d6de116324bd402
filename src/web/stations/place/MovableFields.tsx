/** What of the arm can be moved, and the figures of what cannot. */

import { armFields } from '../../../core/job/stations/place/fields.ts';
import type { Movable } from '../../../core/job/stations/place/typed.ts';
import { Choice } from '../../parts/Choice.tsx';
import { TypedFields } from '../../parts/TypedFields.tsx';
import type { ArmFieldsProps } from './armFieldsProps.ts';

const movable: readonly { value: Movable; label: string; says: string }[] = [
  {
    value: 'both',
    label: 'slide and twist',
    says: 'Open slots: the cartridge can be slid and twisted as far as it takes.',
  },
  {
    value: 'slide',
    label: 'slide only',
    says: 'The cartridge cannot be twisted in its headshell: the offset is fixed.',
  },
  { value: 'twist', label: 'twist only', says: 'The cartridge cannot be slid: the effective length is fixed.' },
  {
    value: 'slots',
    label: 'slots with ends',
    says: 'The slots or the headshell stop somewhere; the best within them is found.',
  },
  { value: 'nothing', label: 'nothing', says: 'To see what an arm does that leaves nothing to move.' },
];

/** With another length known it is the pivot that can still be placed. */
const placeable: readonly { value: Movable; label: string; says: string }[] = [
  {
    value: 'both',
    label: 'pivot and twist',
    says: 'Where the pivot is and how the cartridge is twisted are both open.',
  },
  {
    value: 'slide',
    label: 'pivot only',
    says: 'The cartridge cannot be twisted in its headshell: the offset is fixed.',
  },
];

export function MovableFields({ typed, set, whole }: ArmFieldsProps & { whole: boolean }) {
  const options = whole ? movable : placeable;
  const chosen = options.find(({ value }) => value === typed.movable) ?? options[0];
  const offset = chosen.value === 'slide' || chosen.value === 'nothing';
  const length = chosen.value === 'twist' || chosen.value === 'nothing';
  return (
    <div class="stack tight">
      <Choice
        label="What can be moved?"
        options={options}
        value={chosen.value}
        onValue={(value) => set({ movable: value })}
      />
      <p class="soft small" role="status">
        {chosen.says}
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
