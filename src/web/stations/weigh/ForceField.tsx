/** A force as it is typed: bare in the unit chosen at the station, or with its own; the other unit stands below. */
import { EntryField } from '../../parts/EntryField.tsx';
import { type ForceBounds, type ForceUnit, forceWords, readForce } from './force.ts';

export interface ForceFieldProps {
  readonly label: string;
  readonly unit: ForceUnit;
  readonly bounds: ForceBounds;
  readonly text: string | undefined;
  onText(text: string): void;
  /** shown while nothing that can be used is typed */
  readonly hint?: string;
}

export function ForceField({ label, unit, bounds, text = '', onText, hint }: ForceFieldProps) {
  const read = readForce(text, unit, bounds);
  return (
    <EntryField
      label={label}
      unit={unit}
      text={text}
      onText={onText}
      hint={'value' in read ? forceWords(read.value) : hint}
      wrong={'wrong' in read ? read.wrong : null}
      sayAtOnce={text.trim().length > 8}
      keyboard="text"
      maxLength={40}
    />
  );
}
