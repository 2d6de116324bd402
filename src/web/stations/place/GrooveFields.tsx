/** Which grooves the records have, and how fast they turn. */
import { namedSpans } from '../../../core/geometry/span.ts';
import { optionsOf } from '../../../core/job/fields/chosen.ts';
import { spanOf, speedOf } from '../../../core/job/stations/place/armRequest.ts';
import { armChoices } from '../../../core/job/stations/place/choices.ts';
import { armFields, armNotes } from '../../../core/job/stations/place/fields.ts';
import { Unusable } from '../../../core/job/stations/place/fieldValue.ts';
import type { ArmTyped } from '../../../core/job/stations/place/typed.ts';
import { Choice, Select } from '../../parts/Choice.tsx';
import { TypedFields } from '../../parts/TypedFields.tsx';
import type { ArmFieldsProps } from './armFieldsProps.ts';

const spanWords: Readonly<Record<string, string>> = {
  '12in': '12-inch, RIAA 1963 inside, IEC 1958 outside',
  '12in-iec-1958': '12-inch, IEC 1958',
  '12in-iec-1964': '12-inch, RIAA 1963 inside, IEC 1964 outside',
  '12in-din-1981': '12-inch, DIN 1981',
  '10in': '10-inch',
  '7in': '7-inch',
  '78-12in': '78s, 12-inch',
  '78-10in': '78s, 10-inch',
};

const spans = [
  ...namedSpans
    .filter(({ name }) => Object.hasOwn(spanWords, name))
    .map(({ name, inner, outer }) => ({ value: name, label: `${spanWords[name]}: ${inner} to ${outer} mm` })),
  { value: 'own', label: 'my own records: two radii' },
];

/** The span as far as it is typed; null while it is not. */
function spanTyped(typed: ArmTyped) {
  try {
    return spanOf(typed);
  } catch (error) {
    if (error instanceof Unusable || error instanceof RangeError) return null;
    throw error;
  }
}

export function GrooveFields({ typed, set }: ArmFieldsProps) {
  const span = spanTyped(typed);
  return (
    <div class="stack tight">
      <Select
        label={armNotes.grooves.label}
        options={spans}
        value={typed.grooves ?? '12in'}
        onValue={(grooves) => set({ grooves })}
      />
      {typed.grooves === 'own' && (
        <div class="fields">
          <TypedFields of={armFields} names={['inner', 'outer']} typed={typed} set={set} />
        </div>
      )}
      {span !== null && typed.grooves !== 'own' && <p class="soft small">Radii from: {span.source}.</p>}
      <Choice
        label={armChoices.speed.label}
        options={optionsOf(armChoices.speed)}
        value={span === null ? (typed.speed ?? '33') : speedOf(typed, span)}
        onValue={(speed) => set({ speed })}
      />
      {typed.speed === 'own' && <TypedFields of={armFields} names={['rpm']} typed={typed} set={set} />}
    </div>
  );
}
