/** Which sheet was read: the one printed here last, one for the arm as it is now, or another. */

import type { PlaceDocument } from '../../../core/geometry/document.ts';
import { readChoices } from '../../../core/job/stations/place/choices.ts';
import { readFields } from '../../../core/job/stations/place/fields.ts';
import type { DrawnSheet, ReadTyped, SheetFor, SheetTyped } from '../../../core/job/stations/place/typed.ts';
import { say, statement } from '../../../core/words/statement.ts';
import { Select } from '../../parts/Choice.tsx';
import { TypedFields } from '../../parts/TypedFields.tsx';

export interface SheetChoiceProps {
  readonly place: PlaceDocument;
  readonly typed: ReadTyped;
  readonly sheet: SheetTyped;
  set(patch: ReadTyped): void;
}

export function SheetChoice({ place, typed, sheet, set }: SheetChoiceProps) {
  const miss = (typed.kind ?? 'miss') === 'miss';
  const printed = miss ? sheet.drawnArc : sheet.drawnTwoPoint;
  if (!miss && printed === undefined) return null;
  const { spindleToPivotMm: d, effectiveLengthMm: L } = place;
  const numbers = (sheetNumbers: DrawnSheet) =>
    `${sheetNumbers.spindleToPivotMm.toFixed(2)} / ${sheetNumbers.effectiveLengthMm.toFixed(2)} mm`;
  const differs =
    printed !== undefined &&
    (d === null ||
      L === null ||
      Math.abs(printed.spindleToPivotMm - d) > 0.005 ||
      Math.abs(printed.effectiveLengthMm - L) > 0.005);
  const options: { value: SheetFor; label: string }[] = [
    ...(printed === undefined
      ? []
      : [{ value: 'printed' as const, label: `${readChoices.sheetFor.options.printed}, for ${numbers(printed)}` }]),
    { value: 'solved', label: readChoices.sheetFor.options.solved },
    ...(miss ? [{ value: 'other' as const, label: readChoices.sheetFor.options.other }] : []),
  ];
  const value = typed.sheetFor ?? (printed === undefined ? 'solved' : 'printed');
  return (
    <div class="stack tight">
      <Select
        label={readChoices.sheetFor.label}
        options={options}
        value={options.some((option) => option.value === value) ? value : 'solved'}
        onValue={(sheetFor) => set({ sheetFor })}
      />
      {differs && value === 'printed' && <p class="soft small">{say(statement('template-older'))}</p>}
      {value === 'other' && (
        <div class="fields">
          <TypedFields of={readFields} names={['sheetPivot', 'sheetLength']} typed={typed} set={set} />
        </div>
      )}
    </div>
  );
}
