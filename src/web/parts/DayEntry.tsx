/** A day of the calendar, by the field as it is declared. */
import { useId } from 'preact/hooks';
import type { DayField } from '../../core/job/fields/wording.ts';

export interface DayEntryProps {
  readonly field: DayField;
  /** 2027-03-01; '' none */
  readonly day: string | undefined;
  onDay(day: string): void;
}

export function DayEntry({ field: { label, min, max }, day = '', onDay }: DayEntryProps) {
  const id = useId();
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <input
        id={id}
        type="date"
        min={min}
        max={max}
        value={day}
        onChange={(event) => onDay(event.currentTarget.value)}
      />
    </div>
  );
}
