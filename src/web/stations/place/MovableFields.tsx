/** What of the arm can be moved, and the figures of what cannot. */

import { LENGTH, type Movable, OFFSET } from '../../../core/job/stations/place/typed.ts';
import { Choice } from '../../parts/Choice.tsx';
import { NumberField } from '../../parts/NumberField.tsx';
import type { ArmFieldsProps } from './armFieldsProps.ts';

const movable: readonly { value: Movable; label: string; says: string }[] = [
  {
    value: 'both',
    label: 'slide and twist',
    says: 'Open slots: the cartridge can be slid and twisted as far as it takes.',
  },
  { value: 'slide', label: 'slide only', says: 'The cartridge cannot be twisted in its shell: the offset is fixed.' },
  { value: 'twist', label: 'twist only', says: 'The cartridge cannot be slid: the effective length is fixed.' },
  {
    value: 'slots',
    label: 'slots with ends',
    says: 'The slots or the shell stop somewhere; the best within them is found.',
  },
  { value: 'nothing', label: 'nothing', says: 'To see what an arm does that leaves nothing to move.' },
];

/** With another length known it is the pivot that can still be placed. */
const placeable: readonly { value: Movable; label: string; says: string }[] = [
  {
    value: 'both',
    label: 'pivot and twist',
    says: 'Where the pivot stands and how the cartridge is twisted are both open.',
  },
  { value: 'slide', label: 'pivot only', says: 'The cartridge cannot be twisted in its shell: the offset is fixed.' },
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
          {length && (
            <NumberField
              label="Fixed effective length"
              text={typed.heldLength}
              onText={(heldLength) => set({ heldLength })}
              {...LENGTH}
            />
          )}
          {offset && (
            <NumberField
              label="Fixed offset"
              hint="Cartridge against the line from pivot to tip."
              text={typed.heldOffset}
              onText={(heldOffset) => set({ heldOffset })}
              {...OFFSET}
            />
          )}
          {chosen.value === 'slots' && (
            <>
              <NumberField
                label="Shortest effective length"
                hint="Cartridge fully back."
                text={typed.slotsShortest}
                onText={(slotsShortest) => set({ slotsShortest })}
                {...LENGTH}
              />
              <NumberField
                label="Longest effective length"
                hint="Cartridge fully forward."
                text={typed.slotsLongest}
                onText={(slotsLongest) => set({ slotsLongest })}
                {...LENGTH}
              />
              <NumberField
                label="Least offset"
                hint="Both empty where the shell lets it turn freely."
                text={typed.turnLeast}
                onText={(turnLeast) => set({ turnLeast })}
                {...OFFSET}
              />
              <NumberField
                label="Largest offset"
                text={typed.turnMost}
                onText={(turnMost) => set({ turnMost })}
                {...OFFSET}
              />
            </>
          )}
        </div>
      )}
    </div>
  );
}
